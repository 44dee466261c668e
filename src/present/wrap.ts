/** Text set in lines no wider than `room`, broken at spaces; a word that is wider stands alone. */
export function wrap(text: string, width: (part: string) => number, room: number): readonly string[] {
  const lines: string[] = [];
  let current = '';
  for (const word of bound(text).split(' ')) {
    const longer = current === '' ? word : `${current} ${word}`;
    if (current !== '' && width(longer) > room) {
      lines.push(current);
      current = word;
    } else {
      current = longer;
    }
  }
  if (current !== '') lines.push(current);
  return lines;
}

/** A figure and its unit, or Mach and its figure, are not torn apart. */
function bound(text: string): string {
  return text
    .replaceAll(/\bM (?=\d)/g, 'M\u00a0')
    .replaceAll(/(?<=\d) (?=(K[A-Z]{3}|K|ft|nm|kg|lb|Mach)\b)/g, '\u00a0');
}
