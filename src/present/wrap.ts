/** Text set in lines no wider than `room`, broken at spaces; a word that is wider stands alone. */
export function wrap(text: string, width: (part: string) => number, room: number): readonly string[] {
  const lines: string[] = [];
  let current = '';
  for (const word of text.split(' ')) {
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
