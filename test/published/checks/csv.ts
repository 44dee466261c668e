/**
 * Published values: CSV files whose header names each column with its unit in brackets, comment lines first. Columns are
 * found by name, numbers are turned into SI by the bracket, a blank cell is "not published".
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';

const knot = 1852 / 3600;
const degree = Math.PI / 180;

/** SI factors of the brackets that the files use; kept apart from the program's own list of units on purpose. */
const factors: Readonly<Record<string, number>> = {
  1: 1,
  '%': 0.01,
  m: 1,
  km: 1000,
  ft: 0.3048,
  nmi: 1852,
  'm/s': 1,
  kt: knot,
  'ft/s': 0.3048,
  'm/s2': 1,
  K: 1,
  kg: 1,
  N: 1,
  '1/s': 1,
  'K/m': 1,
  Pa: 1,
  hPa: 100,
  'lbf/ft2': (0.45359237 * 9.80665) / 0.3048 ** 2,
  'kg/m3': 1,
  'Pa s': 1,
  deg: degree,
  'deg/s': degree,
  s: 1,
  'J/(kg K)': 1,
  'kJ/kg': 1000,
  'g/mol': 0.001,
  'J/mol': 1,
  'm2/s2': 1,
};

export class MissingFile extends Error {}

export class Row {
  /** Number of the row among the data, from 1. */
  readonly number: number;
  private readonly cells: Readonly<Record<string, string>>;
  private readonly table: PublishedTable;

  constructor(number: number, cells: Readonly<Record<string, string>>, table: PublishedTable) {
    this.number = number;
    this.cells = cells;
    this.table = table;
  }

  /** The cell as it stands; '' where nothing is published. */
  text(column: string): string {
    return (this.cells[this.table.column(column).title] ?? '').trim();
  }

  /** The cell in the unit of its bracket; null where blank. */
  raw(column: string): number | null {
    const text = this.text(column);
    if (text === '') return null;
    const value = Number(text);
    if (Number.isNaN(value)) throw new Error(`${this.table.name} row ${this.number}: ${column} "${text}"`);
    return value;
  }

  /** The cell in SI; null where blank. */
  si(column: string): number | null {
    const value = this.raw(column);
    return value === null ? null : value * this.table.factor(column);
  }

  /** A cell that the row cannot do without, in SI. */
  need(column: string): number {
    const value = this.si(column);
    if (value === null) throw new Error(`${this.table.name} row ${this.number} has no ${column}`);
    return value;
  }
}

interface Column {
  readonly title: string;
  readonly name: string;
  readonly unit: string;
}

export class PublishedTable {
  readonly name: string;
  readonly comments: readonly string[];
  readonly rows: readonly Row[];
  private readonly columns: readonly Column[];
  private readonly used = new Set<string>();

  constructor(directory: string, name: string) {
    const path = join(directory, `${name}.csv`);
    if (!existsSync(path)) throw new MissingFile(`${name}.csv is not in ${directory}`);
    const text = readFileSync(path, 'utf8');
    const records: string[][] = parse(text, { comment: '#', comment_no_infix: true, skip_empty_lines: true });
    const [header, ...body] = records;
    this.name = name;
    this.comments = text.split('\n').filter((line) => line.startsWith('#'));
    this.columns = header.map((title) => {
      const match = /^(.*?)(?: \[(.*)\])?$/.exec(title.trim());
      return { title: title.trim(), name: match?.[1] ?? title, unit: match?.[2] ?? '' };
    });
    const titles = this.columns.map((column) => column.title);
    this.rows = body.map(
      (cells, i) =>
        new Row(i + 1, Object.fromEntries(titles.map((title, k) => [title, cells[k] ?? ''])), this),
    );
  }

  /** The column of a name ("radius"), the first where two have it, or of a whole title ("radius [nmi]"); now used. */
  column(name: string): Column {
    const { columns } = this;
    const found =
      columns.find((column) => column.title === name) ?? columns.find((column) => column.name === name);
    if (!found) throw new Error(`${this.name}.csv has no column ${name}`);
    this.used.add(found.title);
    return found;
  }

  /** SI factor of a column's unit; of "kt|1" the first. */
  factor(name: string): number {
    const { title, unit } = this.column(name);
    const [first] = unit.split('|');
    const factor = factors[first === '' ? '1' : first];
    if (factor === undefined) throw new Error(`${this.name}.csv: unit of ${title} is not known`);
    return factor;
  }

  /** Titles of columns that no check has read. */
  unread(): string[] {
    return this.columns.map((column) => column.title).filter((title) => !this.used.has(title));
  }
}
