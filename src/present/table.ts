/**
 * Tables as data, and as text: aligned columns for a terminal, CSV for a program or a reader of screens.
 */
import { plainSpaces } from './units.ts';

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

export function heading(column: Column): string {
  return column.unit === '' ? column.name : `${column.name} [${column.unit}]`;
}

/** Aligned columns two spaces apart; name and unit stand over each other. */
export function tableText(table: Table): string {
  const lines = [table.columns.map((column) => column.name), table.columns.map((column) => column.unit)];
  if (lines[1].every((unit) => unit === '')) lines.pop();
  const rows = [...lines, ...table.rows.map((row) => row.map(plainSpaces))];
  const widths = table.columns.map((_, i) => Math.max(...rows.map((row) => row[i].length)));
  const text = rows.map((row) =>
    row
      .map((cell, i) =>
        table.columns[i].align === 'left' ? cell.padEnd(widths[i]) : cell.padStart(widths[i]),
      )
      .join('  ')
      .trimEnd(),
  );
  text.splice(lines.length, 0, widths.map((width) => '-'.repeat(width)).join('  '));
  return [table.title, ...text].filter((line) => line !== '').join('\n');
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
