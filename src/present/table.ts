/**
 * Tables as data, and as text: aligned columns for a terminal, CSV for a program or a reader of screens.
 */
import { plainSpaces } from './units.ts';
import { wrap } from './wrap.ts';

/** A cell for which the source has no value. */
export const NO_DATA = 'no data';

export interface Column {
  readonly name: string;
  /** Unit with its kind as shown, such as "KEAS"; empty for words. */
  readonly unit: string;
  readonly align: 'left' | 'right';
}

export interface Table {
  readonly title: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
}

function heading(column: Column): string {
  return column.unit === '' ? column.name : `${column.name} [${column.unit}]`;
}

/**
 * Aligned columns two spaces apart; name and unit stand over each other. Where that is wider than `width`, the widest column
 * of words is broken over several lines.
 */
export function tableText(table: Table, width = Number.POSITIVE_INFINITY): string {
  const head = [table.columns.map((column) => column.name), table.columns.map((column) => column.unit)];
  if (head[1].every((unit) => unit === '')) head.pop();
  const rows = [...head, ...table.rows.map((row) => row.map(plainSpaces))];
  const widths = columnWidths(table, rows, width);
  const lines = rows.map((row) => rowLines(table, row, widths));
  lines.splice(head.length, 0, [widths.map((w) => '-'.repeat(w)).join('  ')]);
  return [...(table.title === '' ? [] : [table.title]), ...lines.flat()].join('\n');
}

/** No column of words is made narrower than this. */
const NARROWEST = 12;

function columnWidths(table: Table, rows: readonly (readonly string[])[], most: number): readonly number[] {
  const widths = table.columns.map((_, i) => Math.max(...rows.map((row) => row[i].length)));
  const excess = widths.reduce((sum, width) => sum + width + 2, -2) - most;
  if (excess <= 0) return widths;
  const words = widths.map((width, i) => (table.columns[i].align === 'left' ? width : 0));
  const widest = words.indexOf(Math.max(...words));
  return widths.map((width, i) => (i === widest ? Math.max(NARROWEST, width - excess) : width));
}

function rowLines(table: Table, row: readonly string[], widths: readonly number[]): readonly string[] {
  const cells = row.map((cell, i) => wrap(cell, (text) => text.length, widths[i]));
  const count = Math.max(1, ...cells.map((cell) => cell.length));
  return Array.from({ length: count }, (_, line) =>
    cells
      .map((cell, i) => {
        const text = cell[line] ?? '';
        return table.columns[i].align === 'left' ? text.padEnd(widths[i]) : text.padStart(widths[i]);
      })
      .join('  ')
      .trimEnd(),
  );
}

/** RFC 4180, one header line with units in brackets, numbers without spaces between thousands and with a plain minus. */
export function tableCsv(table: Table): string {
  const header = table.columns.map((column) => quoted(heading(column)));
  const rows = table.rows.map((row) =>
    row.map((cell, i) => quoted(table.columns[i].unit === '' ? plainSpaces(cell) : bare(cell))),
  );
  return `${[header, ...rows].map((row) => row.join(',')).join('\r\n')}\r\n`;
}

function bare(cell: string): string {
  return cell.replaceAll('\u2009', '').replaceAll('−', '-');
}

function quoted(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
