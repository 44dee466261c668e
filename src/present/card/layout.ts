/**
 * Where everything of a card stands on an A5 page. Millimetres from the top left corner; text by its baseline; sizes are the
 * heights of figures and capitals, because that is what is read.
 *
 * The top 15 mm lie under the clip and stay empty. Deciding figures are 4.9 mm high: 24 minutes of arc at 700 mm
 * (MIL-STD-1472, from memory: 16 to 24).
 */
import { wrap } from '../wrap.ts';
import type { Card, CardColumn, CardTable, Cell, Foot } from './card.ts';

export const PAGE = { width: 148, height: 210 } as const;
export const CLIP = 15;
const LEFT = 9;
const RIGHT = 138.5;
const BOTTOM = 204;
/** Heights of figures: what decides, what explains, small print. */
export const HEIGHT = { large: 4.9, medium: 2.7, small: 1.9 } as const;
/** Rows share the room that is left, from the least that holds a figure and what stands below it. */
const TALLEST_ROW = 13.6;
const LEAST_ROW = 11.4;
const GAP = 3;
const NARROWEST = 18;
const PENCIL = 25;
const HEAD_LINE = 2.9;
const NOTE_LINE = HEIGHT.small * 1.62;
/** Left edge of title and question, right of the hole. */
const TITLE = 19;
/** Room between a figure and what stands behind it. */
const AFTER = 1.2;

export type TextHeight = (typeof HEIGHT)[keyof typeof HEIGHT];
export type Weight = 'regular' | 'bold';
export type Measure = (text: string, height: TextHeight, weight: Weight) => number;

export type Mark =
  | {
      readonly is: 'text';
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly height: TextHeight;
      readonly weight: Weight;
      readonly ink: 'black' | 'white';
    }
  | {
      readonly is: 'rule';
      readonly x1: number;
      readonly x2: number;
      readonly y: number;
      readonly weight: number;
    }
  | {
      readonly is: 'box';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly filled: boolean;
    }
  | { readonly is: 'ring'; readonly x: number; readonly y: number; readonly radius: number };

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
  const notesHeight = 1.5 + notes.length * NOTE_LINE;
  y += 3.5;
  if (card.table !== null) y = layTable(marks, card.table, y, footTop - notesHeight, measure);
  if (y + notesHeight > footTop + 0.01) throw new RangeError(`card "${card.title}" does not fit on its page`);
  notes.forEach((note, i) => {
    text(marks, LEFT, y + 1 + (i + 1) * NOTE_LINE, note, HEIGHT.small, 'regular');
  });
  return marks;
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

function text(
  marks: Mark[],
  x: number,
  y: number,
  content: string,
  height: TextHeight,
  weight: Weight,
  ink: 'black' | 'white' = 'black',
): void {
  marks.push({ is: 'text', x, y, text: content, height, weight, ink });
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
  const top = BOTTOM - (lines.length + caution.length) * step - 6.5;
  marks.push({ is: 'rule', x1: LEFT, x2: RIGHT, y: top, weight: 0.35 });
  let y = top + 4.6;
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

/** Head, rules and rows; returns the foot of the table. */
function layTable(marks: Mark[], table: CardTable, top: number, bottom: number, measure: Measure): number {
  const columns = place(table, measure);
  let y = top + HEIGHT.medium;
  const lines = table.columns.map((column, i) => head(marks, column, columns[i], y, measure));
  y += 1.4 + Math.max(...lines) * HEAD_LINE;
  marks.push({ is: 'rule', x1: LEFT, x2: RIGHT, y, weight: 0.35 });
  const height = Math.min(TALLEST_ROW, (bottom - y) / table.rows.length);
  if (height < LEAST_ROW)
    throw new RangeError(`rows of ${height.toFixed(1)} mm are too low for their figures`);
  for (const row of table.rows) {
    layRow(marks, table, row, columns, { y, height }, measure);
    y += height;
    marks.push({ is: 'rule', x1: LEFT, x2: RIGHT, y, weight: 0.12 });
  }
  return y;
}

/** One row; its figures share a baseline, higher where something stands below one of them. */
function layRow(
  marks: Mark[],
  table: CardTable,
  row: readonly Cell[],
  columns: readonly Place[],
  band: Band,
  measure: Measure,
): void {
  const below = row.some((content) => content.figure !== '' && content.below !== '');
  const { y, height } = band;
  const baseline = y + (height + HEIGHT.large) / 2 - (below ? 2 : 0);
  row.forEach((content, i) => {
    const { holds } = table.columns[i];
    const at = columns[i];
    if (holds === 'pencil') {
      marks.push({ is: 'box', x: at.x, y: y + 1.5, width: at.width, height: height - 3, filled: false });
    } else if (content.figure === '') {
      layWords(marks, content, at, band, measure);
    } else {
      layFigure(marks, content, at, baseline, measure);
    }
  });
}

/** A row from its top. */
interface Band {
  readonly y: number;
  readonly height: number;
}

interface Place {
  readonly x: number;
  readonly width: number;
}

/** Columns of figures take what they need, pencil columns room to write, columns of words share the rest. */
function place(table: CardTable, measure: Measure): readonly Place[] {
  const needs = table.columns.map((column, i) => {
    if (column.holds === 'pencil') return PENCIL;
    if (column.holds === 'words') return 0;
    const cells = table.rows.map((row) => figureWidth(row[i], measure));
    return Math.max(measure(column.name, HEIGHT.medium, 'bold'), ...cells);
  });
  const wordy = table.columns.filter((column) => column.holds === 'words').length;
  const taken = needs.reduce((sum, need) => sum + need, 0) + GAP * (needs.length - 1);
  const rest = RIGHT - LEFT - taken;
  if (rest < wordy * NARROWEST) {
    throw new RangeError(
      `the figures of a card need ${(wordy * NARROWEST - rest).toFixed(1)} mm more than its page is wide`,
    );
  }
  const gap = wordy === 0 ? GAP + rest / (needs.length - 1) : GAP;
  let x = LEFT;
  return needs.map((need, i) => {
    const width = table.columns[i].holds === 'words' ? rest / wordy : need;
    const at = { x, width };
    x += width + gap;
    return at;
  });
}

function figureWidth(content: Cell, measure: Measure): number {
  if (content.figure === '') return 0;
  const below = measure(content.below, HEIGHT.medium, 'regular');
  return Math.max(measure(content.figure, HEIGHT.large, 'regular'), below) + afterWidth(content, measure);
}

function afterWidth(content: Cell, measure: Measure): number {
  return content.after === '' ? 0 : AFTER + measure(content.after, HEIGHT.medium, 'regular');
}

/** Name over unit, in as many lines as the column's width asks for; returns how many lines the unit takes. */
function head(marks: Mark[], column: CardColumn, at: Place, y: number, measure: Measure): number {
  const right = column.holds === 'figures';
  const start = (content: string, height: TextHeight, weight: Weight) =>
    right ? at.x + at.width - measure(content, height, weight) : at.x;
  text(marks, start(column.name, HEIGHT.medium, 'bold'), y, column.name, HEIGHT.medium, 'bold');
  const parts = wrap(column.unit, (t) => measure(t, HEIGHT.small, 'regular'), at.width);
  parts.forEach((part, i) => {
    text(marks, start(part, HEIGHT.small, 'regular'), y + (i + 1) * HEAD_LINE, part, HEIGHT.small, 'regular');
  });
  return parts.length;
}

/** A figure to the right of its column, what belongs to it behind and below. */
function layFigure(marks: Mark[], content: Cell, at: Place, baseline: number, measure: Measure): void {
  const right = at.x + at.width;
  const after = afterWidth(content, measure);
  const width = measure(content.figure, HEIGHT.large, 'regular');
  text(marks, right - after - width, baseline, content.figure, HEIGHT.large, 'regular');
  if (after > 0) text(marks, right - after + AFTER, baseline, content.after, HEIGHT.medium, 'regular');
  const belowWidth = measure(content.below, HEIGHT.medium, 'regular');
  if (belowWidth > 0) {
    text(marks, right - after - belowWidth, baseline + 4.3, content.below, HEIGHT.medium, 'regular');
  }
}

/** Words in at most two lines of medium print, smaller where they need more, and a last small line of what belongs to them. */
function layWords(marks: Mark[], content: Cell, at: Place, band: Band, measure: Measure): void {
  const fitting = [HEIGHT.medium, HEIGHT.small].map((height) => ({
    height,
    parts: wrap(content.below, (t) => measure(t, height, 'regular'), at.width),
  }));
  const chosen =
    fitting.find(
      ({ height, parts }) =>
        parts.length <= 2 && parts.every((part) => measure(part, height, 'regular') <= at.width),
    ) ?? fitting[1];
  const lines = [
    ...chosen.parts.map((part) => ({ part, height: chosen.height })),
    ...(content.after === ''
      ? []
      : wrap(content.after, (t) => measure(t, HEIGHT.small, 'regular'), at.width)
    ).map((part) => ({ part, height: HEIGHT.small })),
  ];
  const steps = lines.map(({ height }, i) => (i === 0 ? height : height * 1.5));
  let baseline = band.y + (band.height - steps.reduce((sum, step) => sum + step, 0)) / 2;
  lines.forEach(({ part, height }, i) => {
    baseline += steps[i];
    text(marks, at.x, baseline, part, height, 'regular');
  });
}
