/** A sentence cut where it names a time since take-off. */
export interface Piece {
  readonly text: string;
  /** Seconds since take-off; null where it is no time. */
  readonly timeS: number | null;
}

/** "at 1:34 in the cruise" as three pieces; a time of the clock such as 16:05Z is none. */
export function linked(sentence: string): readonly Piece[] {
  return sentence.split(/(\b\d+:\d\d\b(?!Z))/).flatMap((text, i): Piece[] => {
    if (text === '') return [];
    if (i % 2 === 0) return [{ text, timeS: null }];
    const [hours, minutes] = text.split(':').map(Number);
    return [{ text, timeS: (hours * 60 + minutes) * 60 }];
  });
}
