/**
 * Numeric tables as CSV: a header names each column with its unit in brackets ("pressureAltitude [ft]"), lines that begin
 * with # are comments, and every cell is filled. Values come out in SI.
 */
import { parse } from 'csv-parse/sync';
import { columnUnit } from '../core/quantities/values.ts';
import type { Faults } from './faults.ts';

/** What a column may be: the quantity whose units it may carry, or a column of words. */
export type ColumnKind = { readonly quantity: string } | 'words';

export interface CsvTable {
  readonly file: string;
  readonly rows: number;
  /** SI values by column name. */
  readonly numbers: ReadonlyMap<string, Float64Array>;
  readonly words: ReadonlyMap<string, readonly string[]>;
  /** Line of the file on which each row stands. */
  readonly lines: Int32Array;
}

interface Column {
  readonly name: string;
  readonly factor: number;
  readonly shift: number;
  readonly words: boolean;
}

/** The lines that hold a record, not empty and not a comment, and their numbers. */
function recordLines(text: string): { lines: string[]; numbers: number[] } {
  const lines: string[] = [];
  const numbers: number[] = [];
  const all = text.replace(/^\uFEFF/, '').split('\n');
  for (let index = 0; index < all.length; index++) {
    const line = all[index].trim();
    if (line === '' || line.startsWith('#')) continue;
    lines.push(line);
    numbers.push(index + 1);
  }
  return { lines, numbers };
}

/** The cells of a line; only quotation marks need more than the commas. */
function cellsOf(line: string): string[] {
  if (!line.includes('"')) return line.split(',');
  return (parse(line, { trim: true }) as string[][])[0];
}

function readHeader(
  cells: readonly string[],
  known: Readonly<Record<string, ColumnKind>>,
  report: (path: string, message: string) => void,
): (Column | null)[] {
  const seen = new Set<string>();
  return cells.map((cell) => {
    const match = /^([A-Za-z][A-Za-z0-9]*)(?: \[([^\]]*)\])?$/.exec(cell.trim());
    if (!match) {
      report(cell, 'a column header is a name and a unit in brackets, such as "mach [1]"');
      return null;
    }
    const [, name, unit] = match;
    const kind = known[name];
    if (kind === undefined) {
      report(name, `unknown column "${name}"; this table may have ${Object.keys(known).join(', ')}`);
      return null;
    }
    if (seen.has(name)) report(name, `column "${name}" is there twice`);
    seen.add(name);
    if (kind === 'words') {
      if (unit !== undefined) report(name, `column "${name}" holds words and has no unit`);
      return { name, factor: 1, shift: 0, words: true };
    }
    if (unit === undefined) {
      report(name, `column "${name}" has no unit in brackets`);
      return null;
    }
    try {
      const found = columnUnit(unit, kind.quantity, name);
      return { name, factor: found.factor, shift: found.shift ?? 0, words: false };
    } catch (error) {
      report(name, (error as Error).message);
      return null;
    }
  });
}

/** The one copy of a word that stands in many rows. */
function same(spellings: Map<string, string>, word: string): string {
  const first = spellings.get(word);
  if (first !== undefined) return first;
  spellings.set(word, word);
  return word;
}

/** Reads a table; null where the text is not one. Missing columns are the caller's to report. */
export function readTable(
  text: string,
  file: string,
  known: Readonly<Record<string, ColumnKind>>,
  faults: Faults,
): CsvTable | null {
  const before = faults.faults.length;
  const { lines, numbers: lineNumbers } = recordLines(text);
  if (lines.length < 2) {
    faults.add({ file, line: 0, column: 0 }, '', 'the table has no rows');
    return null;
  }
  const report = (record: number, path: string, message: string): void =>
    faults.add({ file, line: lineNumbers[record], column: 0 }, path, message);
  function cells(record: number): string[] | null {
    try {
      return cellsOf(lines[record]);
    } catch (error) {
      report(record, '', (error as Error).message);
      return null;
    }
  }

  const columns = readHeader(cells(0) ?? [], known, (path, message) => report(0, path, message));
  const rows = lines.length - 1;
  const numbers = columns.map((column) => (column?.words === false ? new Float64Array(rows) : null));
  const words = columns.map((column): string[] | null => (column?.words ? [] : null));
  const spellings = new Map<string, string>();
  for (let row = 0; row < rows; row++) {
    const record = cells(row + 1);
    if (record === null) continue;
    if (record.length !== columns.length) {
      report(row + 1, '', `the row has ${record.length} cells, the header ${columns.length}`);
      continue;
    }
    for (let index = 0; index < record.length; index++) {
      const column = columns[index];
      if (column === null) continue;
      const cell = record[index];
      words[index]?.push(same(spellings, cell.trim()));
      const target = numbers[index];
      if (target === null) continue;
      // Number('') is 0, and an empty cell is no number.
      const value = cell.trim() === '' ? Number.NaN : Number(cell);
      if (!Number.isFinite(value)) {
        report(row + 1, column.name, cell.trim() === '' ? 'the cell is empty' : `"${cell}" is not a number`);
      }
      target[row] = value * column.factor + column.shift;
    }
  }
  if (faults.faults.length > before) return null;

  const byName = new Map<string, Float64Array>();
  const wordsByName = new Map<string, readonly string[]>();
  columns.forEach((column, index) => {
    if (column === null) return;
    const values = numbers[index];
    const texts = words[index];
    if (values !== null) byName.set(column.name, values);
    if (texts !== null) wordsByName.set(column.name, texts);
  });
  return { file, rows, numbers: byName, words: wordsByName, lines: Int32Array.from(lineNumbers.slice(1)) };
}
