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

/** The lines that hold a record: not empty, not a comment. */
function recordLines(text: string): number[] {
  const lines: number[] = [];
  let start = 0;
  for (let line = 1; start <= text.length; line++) {
    let end = text.indexOf('\n', start);
    if (end < 0) end = text.length;
    const content = text.slice(start, Math.min(end, start + 200)).trim();
    if (content !== '' && !content.startsWith('#')) lines.push(line);
    start = end + 1;
  }
  return lines;
}

/** The cells of each record. Without quotation marks a comma always parts two cells, and most tables have none. */
function recordsOf(text: string): string[][] {
  if (!text.includes('"')) {
    const records: string[][] = [];
    for (const line of text.split('\n')) {
      const content = line.trim();
      if (content !== '' && !content.startsWith('#')) records.push(content.split(','));
    }
    return records;
  }
  return parse(text, {
    bom: true,
    comment: '#',
    comment_no_infix: true,
    relax_column_count: true,
    skip_empty_lines: true,
    trim: true,
  });
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

/** Reads a table; null where the text is not one. Missing columns are the caller's to report. */
export function readTable(
  text: string,
  file: string,
  known: Readonly<Record<string, ColumnKind>>,
  faults: Faults,
): CsvTable | null {
  const before = faults.faults.length;
  const lines = recordLines(text);
  let records: string[][];
  try {
    records = recordsOf(text);
  } catch (error) {
    const line = (error as { lines?: number }).lines ?? 0;
    faults.add({ file, line, column: 0 }, '', (error as Error).message);
    return null;
  }
  if (records.length !== lines.length) {
    faults.add({ file, line: 0, column: 0 }, '', 'a cell goes over more than one line');
    return null;
  }
  if (records.length < 2) {
    faults.add({ file, line: 0, column: 0 }, '', 'the table has no rows');
    return null;
  }

  const headerPlace = { file, line: lines[0], column: 0 };
  const columns = readHeader(records[0], known, (path, message) => faults.add(headerPlace, path, message));
  const rows = records.length - 1;
  const numbers = columns.map((column) => (column?.words === false ? new Float64Array(rows) : null));
  const words = columns.map((column): string[] | null => (column?.words ? [] : null));
  for (let row = 0; row < rows; row++) {
    const cells = records[row + 1];
    if (cells.length !== columns.length) {
      const message = `the row has ${cells.length} cells, the header ${columns.length}`;
      faults.add({ file, line: lines[row + 1], column: 0 }, '', message);
      continue;
    }
    for (let index = 0; index < cells.length; index++) {
      const column = columns[index];
      if (column === null) continue;
      words[index]?.push(cells[index]);
      const target = numbers[index];
      if (target === null) continue;
      const value = cells[index] === '' ? Number.NaN : Number(cells[index]);
      if (!Number.isFinite(value)) {
        const message = cells[index] === '' ? 'the cell is empty' : `"${cells[index]}" is not a number`;
        faults.add({ file, line: lines[row + 1], column: 0 }, column.name, message);
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
  return { file, rows, numbers: byName, words: wordsByName, lines: Int32Array.from(lines.slice(1)) };
}
