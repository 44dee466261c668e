/** Cards as text: the same words and figures as the printed page, for a terminal, a reader of screens, or a test. */
import type { Plan } from '../../core/plan/plan.ts';
import { tableText } from '../table.ts';
import { plainSpaces } from '../units.ts';
import { type Card, type CardTable, type Cell, type Foot, footOf } from './card.ts';
import { cardsOf } from './pack.ts';

export function cardsText(plan: Plan): string {
  const cards = cardsOf(plan);
  const foot = footOf(plan, cards.length);
  return cards.map((card, i) => cardText(card, foot, i + 1, cards.length)).join('\n\n\n');
}

export function cardText(card: Card, foot: Foot, number: number, count: number): string {
  const parts = [
    card.title,
    card.question,
    ...card.answer,
    '',
    ...(card.table === null ? [] : [tableText(asTable(card.table)), '']),
    ...card.notes,
    ...(foot.warning === '' ? [] : [foot.warning]),
    `${foot.fingerprint} · ${foot.validity} · card ${number} of ${count}`,
    foot.weather,
    ...foot.attribution,
    foot.caution,
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
