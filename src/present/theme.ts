/**
 * How drawings look: one face, three sizes, black and grey told apart by dash and weight. The few colours are of the palette
 * of Okabe and Ito (Color Universal Design, 2008) and never tell anything alone.
 */

/** Bundled with the program; any sans-serif stands in for it. */
export const FONT_FAMILY = "'Atkinson Hyperlegible Next', 'Atkinson Hyperlegible', sans-serif";

export interface Theme {
  readonly ground: string;
  readonly ink: string;
  /** Text and lines of second rank; at least 7:1 against the ground. */
  readonly quiet: string;
  /** Rules of the grid. */
  readonly rule: string;
  /** Ground of every second phase. */
  readonly tint: string;
  /** Helps beside dash and weight. */
  readonly helpA: string;
  readonly helpB: string;
}

/** Okabe-Ito blue and vermilion on white. */
export const PAPER: Theme = {
  ground: '#ffffff',
  ink: '#000000',
  quiet: '#505050',
  rule: '#d0d0d0',
  tint: '#f3f3f3',
  helpA: '#0072b2',
  helpB: '#d55e00',
};

/** Okabe-Ito sky blue and orange on a warm near-black. */
export const NIGHT: Theme = {
  ground: '#14100c',
  ink: '#e8dccb',
  quiet: '#b4a894',
  rule: '#3a332b',
  tint: '#1e1914',
  helpA: '#56b4e9',
  helpB: '#e69f00',
};

/** Text sizes of drawings in units of the viewBox. */
export const SIZE = { large: 19, medium: 14, small: 11.5 } as const;

/** Mean width of the face's characters over the text size (measured over its letters, figures and signs, regular weight). */
const MEAN_ADVANCE = 0.53;
const NARROW = /[ .,:;'|iljI\u2009\u00a0]/g;

/** About how wide a text is, to a tenth; for placing labels, not for setting type. */
export function textWidth(text: string, size: number): number {
  const narrow = text.match(NARROW)?.length ?? 0;
  return size * (MEAN_ADVANCE * (text.length - narrow) + 0.26 * narrow) * 1.03;
}
