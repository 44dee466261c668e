/** What a card says, without its foot: the same words and figures as the printed page. */
import { tableText } from '../table.ts';
import { plainSpaces } from '../units.ts';
import type { Card, CardTable, Cell } from './card.ts';

export function wordsOf(card: Card): string {
  const parts = [
    card.title,
    card.question,
    ...card.answer,
    '',
    ...(card.table === null ? [] : [tableText(asTable(card.table)), '']),
    ...(card.drawing === undefined ? [] : [card.drawing.says, '']),
    ...card.notes,
  ];
  return plainSpaces(parts.join('\n'));
}

function asTable(table: CardTable) {
  return {
    title: '',
    columns: table.columns.map(({ name, unit, holds }) => ({
      name,
      unit,
      align: holds === 'figures' ? ('right' as const) : ('left' as const),
    })),
    rows: table.rows.map((row) => row.map((content, i) => cellText(content, table.columns[i].holds))),
  };
}

function cellText(content: Cell, holds: string): string {
  if (holds === 'pencil') return '________';
  const figure = [content.figure, content.after].filter((part) => part !== '').join(' ');
  if (content.figure === '') return [content.below, content.after].filter((part) => part !== '').join(', ');
  return content.below === '' ? figure : `${figure} (${content.below})`;
}
