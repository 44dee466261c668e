/** The table of a card on its page: head, rules, rows. */
import { wrap } from '../wrap.ts';
import { BLANK, type CardColumn, type CardTable, type Cell } from './card.ts';
import { HEIGHT, LEFT, type Mark, type Measure, RIGHT, type TextHeight, text, type Weight } from './page.ts';

/** Rows share the room that is left, from the least that holds a figure and what stands below it. */
const TALLEST_ROW = 15.6;
const LEAST_ROW = 10.4;
const GAP = 4;
const NARROWEST = 18;
/** Width that a column of words keeps where units are given more room. */
const COMFORTABLE = 34;
/** Room for the reason of a blank cell. */
const LEAST_WORDS = 22;
const PENCIL = 23;
const HEAD_LINE = 2.9;
/** Room between a figure and what stands behind it. */
const AFTER = 1.2;

/** Head, rules and rows; returns the foot of the table. */
export function layTable(
  marks: Mark[],
  table: CardTable,
  top: number,
  bottom: number,
  measure: Measure,
): number {
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
  if (isSentence(table, row)) {
    layWords(marks, row[0], { x: LEFT, width: RIGHT - LEFT, before: 0, after: 0 }, band, false, measure);
    return;
  }
  const below = row.some((content) => content.figure !== '' && content.below !== '');
  const { y, height } = band;
  const baseline = y + (height + HEIGHT.large) / 2 - (below ? 2 : 0);
  row.forEach((content, i) => {
    const { holds } = table.columns[i];
    const at = columns[i];
    if (holds === 'pencil') {
      marks.push({ is: 'box', x: at.x, y: y + 1.5, width: at.width, height: height - 3, filled: false });
    } else if (content.figure === '') {
      layWords(marks, content, holds === 'figures' ? roomy(at) : at, band, holds === 'figures', measure);
    } else {
      layFigure(marks, content, at, baseline, measure);
    }
  });
}

/** Whether a row has words in its first cell and nothing else: they go across the page. */
function isSentence({ columns }: CardTable, [first, ...rest]: readonly Cell[]): boolean {
  const alone = first.figure === '' && first.below !== '' && rest.every((content) => content === BLANK);
  return alone && columns.every(({ holds }) => holds !== 'pencil');
}

/** A row from its top. */
interface Band {
  readonly y: number;
  readonly height: number;
}

interface Place {
  readonly x: number;
  readonly width: number;
  /** Free ground left of it, of which words may take all but a gap. */
  readonly before: number;
  /** Room within it for what stands behind its figures. */
  readonly after: number;
}

/** A column of figures with the free ground before it. */
function roomy({ x, width, before, after }: Place): Place {
  const free = Math.max(0, before - GAP);
  return { x: x - free, width: width + free, before, after };
}

/** Columns of figures take what they need, pencil columns room to write, columns of words share the rest. */
function place(table: CardTable, measure: Measure): readonly Place[] {
  // What stands behind figures has its own room, so that the figures of a column stand below each other.
  const afters = table.columns.map(({ holds }, i) =>
    holds === 'figures' ? Math.max(...table.rows.map((row) => afterWidth(row[i], measure))) : 0,
  );
  const needs = table.columns.map((column, i) => {
    if (column.holds === 'pencil') return PENCIL;
    if (column.holds === 'words') return 0;
    const cells = table.rows.map((row) => figureWidth(row[i], measure));
    return Math.max(measure(column.name, HEIGHT.medium, 'bold'), Math.max(...cells) + afters[i]);
  });
  const wordy = table.columns.filter((column) => column.holds === 'words').length;
  const restOf = (widths: readonly number[]) =>
    RIGHT - LEFT - widths.reduce((sum, need) => sum + need, 0) - GAP * (widths.length - 1);
  // Where there is room, units take two lines at the most.
  const roomier = needs.map((need, i) => {
    const { holds, unit } = table.columns[i];
    return holds === 'figures' ? Math.max(need, twoLines(unit, measure)) : need;
  });
  const widths = restOf(roomier) >= wordy * COMFORTABLE ? roomier : needs;
  const rest = restOf(widths);
  if (rest < wordy * NARROWEST) {
    throw new RangeError(
      `the figures of a card need ${(wordy * NARROWEST - rest).toFixed(1)} mm more than its page is wide`,
    );
  }
  const gap = wordy === 0 ? GAP + rest / (widths.length - 1) : GAP;
  let x = LEFT;
  return widths.map((need, i) => {
    const width = table.columns[i].holds === 'words' ? rest / wordy : need;
    const at = { x, width, before: x === LEFT ? 0 : gap, after: afters[i] };
    x += width + gap;
    return at;
  });
}

/** Width in which a unit takes two lines. */
function twoLines(unit: string, measure: Measure): number {
  const parts = unit.split(' ');
  const width = (from: number, to: number) =>
    measure(parts.slice(from, to).join(' '), HEIGHT.small, 'regular');
  return Math.min(...parts.map((_, i) => Math.max(width(0, i), width(i, parts.length))));
}

function figureWidth(content: Cell, measure: Measure): number {
  if (content.figure === '') return content.below === '' ? 0 : LEAST_WORDS;
  const below = measure(content.below, HEIGHT.medium, 'regular');
  return Math.max(measure(content.figure, HEIGHT.large, 'regular'), below);
}

/** Of what stands behind a figure; below words it is wrapped. */
function afterWidth(content: Cell, measure: Measure): number {
  return content.after === '' || content.figure === ''
    ? 0
    : AFTER + measure(content.after, HEIGHT.medium, 'regular');
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
  const { after } = at;
  const width = measure(content.figure, HEIGHT.large, 'regular');
  text(marks, right - after - width, baseline, content.figure, HEIGHT.large, 'regular');
  if (content.after !== '')
    text(marks, right - after + AFTER, baseline, content.after, HEIGHT.medium, 'regular');
  const belowWidth = measure(content.below, HEIGHT.medium, 'regular');
  if (belowWidth > 0) {
    text(marks, right - after - belowWidth, baseline + 4.3, content.below, HEIGHT.medium, 'regular');
  }
}

interface WordLine {
  readonly part: string;
  readonly height: TextHeight;
}

/** From line to line of words, in heights of the lower one. */
const WORD_LINE = 1.5;

/** Words in medium print, smaller where they do not fit their row so, and in small print what belongs to them. */
function layWords(
  marks: Mark[],
  content: Cell,
  at: Place,
  band: Band,
  right: boolean,
  measure: Measure,
): void {
  const wrapped = (content: string, height: TextHeight) =>
    wrap(content, (t) => measure(t, height, 'regular'), at.width).map((part) => ({ part, height }));
  const after = content.after === '' ? [] : wrapped(content.after, HEIGHT.small);
  const stepsOf = (lines: readonly WordLine[]) =>
    lines.map(({ height }, i) => (i === 0 ? height : height * WORD_LINE));
  const fits = (lines: readonly WordLine[]) =>
    stepsOf(lines).reduce((sum, step) => sum + step, 0) <= band.height - 1.6 &&
    lines.every(({ part, height }) => measure(part, height, 'regular') <= at.width);
  const medium = [...wrapped(content.below, HEIGHT.medium), ...after];
  const lines = fits(medium) ? medium : [...wrapped(content.below, HEIGHT.small), ...after];
  const steps = stepsOf(lines);
  let baseline = band.y + (band.height - steps.reduce((sum, step) => sum + step, 0)) / 2;
  lines.forEach(({ part, height }, i) => {
    baseline += steps[i];
    const x = right ? at.x + at.width - measure(part, height, 'regular') : at.x;
    text(marks, x, baseline, part, height, 'regular');
  });
}
