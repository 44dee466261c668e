/** Where everything of a card stands on its page. */
import { wrap } from '../wrap.ts';
import type { Card, Drawing, Foot } from './card.ts';
import { BOTTOM, CLIP, HEIGHT, LEFT, type Mark, type Measure, PAGE, RIGHT, text } from './page.ts';
import { layTable } from './rows.ts';

const NOTE_LINE = HEIGHT.small * 1.62;
/** Left edge of title and question, right of the hole. */
const TITLE = 19;

/** The marks of card `number` (from 1) of `count`. Throws where the card does not fit on its page. */
export function layOut(
  card: Card,
  foot: Foot,
  number: number,
  count: number,
  measure: Measure,
): readonly Mark[] {
  const marks: Mark[] = [];
  const footTop = layFoot(marks, foot, number, count, measure);
  edge(marks, number);
  let y = CLIP + 1;
  for (const part of wrap(card.title, (t) => measure(t, HEIGHT.large, 'bold'), RIGHT - TITLE)) {
    y += 7.4;
    text(marks, TITLE, y, part, HEIGHT.large, 'bold');
  }
  y += 6.2;
  text(marks, TITLE, y, card.question, HEIGHT.medium, 'regular');
  y = answers(marks, card, y + 2.5, measure);
  const notes = card.notes.flatMap((note) =>
    wrap(note, (t) => measure(t, HEIGHT.small, 'regular'), RIGHT - LEFT),
  );
  const notesHeight = 2.5 + notes.length * NOTE_LINE;
  const bottom = footTop - notesHeight;
  const { drawing } = card;
  y += 3.5;
  if (card.table !== null) y = layTable(marks, card.table, y, bottom - (drawing?.least ?? 0), measure);
  if (drawing !== undefined) y = draw(marks, drawing, y, bottom, measure);
  if (y + notesHeight > footTop + 0.01) throw new RangeError(`card "${card.title}" does not fit on its page`);
  notes.forEach((note, i) => {
    text(marks, LEFT, y + 1 + (i + 1) * NOTE_LINE, note, HEIGHT.small, 'regular');
  });
  return marks;
}

/** The card; where its rows have no room on one page, as many cards as they need, each with its answer and notes. */
export function onPages(card: Card, foot: Foot, measure: Measure): readonly Card[] {
  const { table, drawing: _, ...rest } = card;
  if (table === null || table.rows.length < 2 || hasRoom(card, foot, measure)) return [card];
  const half = Math.ceil(table.rows.length / 2);
  const first: Card = { ...card, table: { ...table, rows: table.rows.slice(0, half) } };
  const title = card.title.endsWith(CONTINUED) ? card.title : `${card.title}${CONTINUED}`;
  const second: Card = { ...rest, title, table: { ...table, rows: table.rows.slice(half) } };
  return [first, second].flatMap((each) => onPages(each, foot, measure));
}

const CONTINUED = ', continued';

function hasRoom(card: Card, foot: Foot, measure: Measure): boolean {
  const { drawing, ...rest } = card;
  const undrawn: Card = drawing === undefined ? rest : { ...rest, drawing: { ...drawing, marks: () => [] } };
  try {
    layOut(undrawn, foot, 1, 1, measure);
    return true;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}

/** A drawing down to `bottom`; returns that. */
function draw(marks: Mark[], drawing: Drawing, top: number, bottom: number, measure: Measure): number {
  if (bottom - top < drawing.least)
    throw new RangeError(`a drawing needs ${drawing.least} mm, not ${(bottom - top).toFixed(1)}`);
  const room = { left: LEFT, top, width: RIGHT - LEFT, height: bottom - top };
  marks.push(...drawing.marks(room, measure));
  return bottom;
}

/** The answer in sentences; where there is no table, the first is set in bold and the rest apart from each other. */
function answers(marks: Mark[], card: Card, top: number, measure: Measure): number {
  let y = top;
  card.answer.forEach((sentence, i) => {
    const weight = i === 0 || card.table !== null ? 'bold' : 'regular';
    for (const part of wrap(sentence, (t) => measure(t, HEIGHT.medium, weight), RIGHT - LEFT)) {
      y += 5;
      text(marks, LEFT, y, part, HEIGHT.medium, weight);
    }
    if (card.table === null) y += 2;
  });
  return y;
}

/** The hole for the ring below the clip, and the number of the card where the thumb finds it. */
function edge(marks: Mark[], number: number): void {
  marks.push({ is: 'ring', x: 11.5, y: CLIP + 8, radius: 2.75 });
  const y = CLIP + 8 + ((number - 1) % 12) * 14.5;
  marks.push({ is: 'box', x: PAGE.width - 7, y, width: 7, height: 12, filled: true });
  const x = PAGE.width - (number < 10 ? 4.7 : 6);
  text(marks, x, y + 7.4, String(number), HEIGHT.medium, 'bold', 'white');
}

/** The foot, from the page's bottom upward; returns its top. */
function layFoot(marks: Mark[], foot: Foot, number: number, count: number, measure: Measure): number {
  const lines = [foot.weather, ...foot.attribution].flatMap((line) =>
    wrap(line, (t) => measure(t, HEIGHT.small, 'regular'), RIGHT - LEFT),
  );
  const caution = wrap(foot.caution, (t) => measure(t, HEIGHT.small, 'bold'), RIGHT - LEFT);
  const step = HEIGHT.small * 1.55;
  const warned = foot.warning === '' ? 0 : 5;
  const top = BOTTOM - (lines.length + caution.length) * step - 6.5 - warned;
  marks.push({ is: 'rule', x1: LEFT, x2: RIGHT, y: top, weight: 0.35 });
  if (warned > 0) text(marks, LEFT, top + 4.6, foot.warning, HEIGHT.medium, 'bold');
  let y = top + 4.6 + warned;
  text(marks, LEFT, y, foot.fingerprint, HEIGHT.medium, 'bold');
  text(
    marks,
    LEFT + measure(foot.fingerprint, HEIGHT.medium, 'bold') + 4,
    y,
    foot.validity,
    HEIGHT.small,
    'regular',
  );
  const page = `card ${number} of ${count}`;
  text(marks, RIGHT - measure(page, HEIGHT.medium, 'bold'), y, page, HEIGHT.medium, 'bold');
  y += 1.2;
  for (const line of lines) {
    y += step;
    text(marks, LEFT, y, line, HEIGHT.small, 'regular');
  }
  for (const line of caution) {
    y += step;
    text(marks, LEFT, y, line, HEIGHT.small, 'bold');
  }
  return top;
}
