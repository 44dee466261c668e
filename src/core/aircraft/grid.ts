/**
 * Rows of a deck's table as a grid: the axes found in the rows, every cell filled once, and look-ups that are linear
 * between neighbours. Outside an axis the nearest edge answers and the look-up says so.
 */
import { Axis } from '../numerics/tables.ts';
import type { DeckTable, FaultSink, Place } from './deck.ts';

/** Distinct values of a column in rising order. */
function distinct(values: Float64Array): Float64Array {
  return Float64Array.from(new Set(values)).sort();
}

function indexMap(values: Float64Array): Map<number, number> {
  const map = new Map<number, number>();
  for (let index = 0; index < values.length; index++) map.set(values[index], index);
  return map;
}

/** A table as a grid; columns are flat arrays in which the first axis varies slowest. */
export interface Grid {
  readonly file: string;
  readonly names: readonly string[];
  readonly axes: readonly Axis[];
  readonly columns: ReadonlyMap<string, Float64Array>;
  /** The rows it was made from, and which of them each cell came from. */
  readonly table: DeckTable;
  readonly rowOf: Int32Array;
}

/** A column that the caller knows to be there. */
export function columnOf(grid: Grid, name: string): Float64Array {
  const values = grid.columns.get(name);
  if (values === undefined) throw new Error(`${grid.file} has no column ${name}`);
  return values;
}

/** The axis of a name, or null. */
export function axisOf(grid: Grid, name: string): Axis | null {
  const index = grid.names.indexOf(name);
  return index < 0 ? null : grid.axes[index];
}

/** Value of a column at what all axes of the grid last found; linear in each axis. */
export function gridValue({ axes }: Pick<Grid, 'axes'>, values: Float64Array): number {
  if (axes.length !== 1) return corner(axes, values, 0, 0);
  const { cell, weight } = axes[0];
  return values[cell] + weight * (values[cell + 1] - values[cell]);
}

function corner(axes: readonly Axis[], values: Float64Array, depth: number, offset: number): number {
  if (depth === axes.length) return values[offset];
  const { cell, weight, points } = axes[depth];
  const base = offset * points.length + cell;
  const low = corner(axes, values, depth + 1, base);
  return low + weight * (corner(axes, values, depth + 1, base + 1) - low);
}

/** A fixed axis given as words, with the order of the words. */
export interface WordAxis {
  readonly column: string;
  readonly words: readonly string[];
}

/**
 * Builds the grid of a table; null where it is not one, with each missing or doubled cell reported (a table without rows
 * could not be read, and that was told). Columns in `axes` that
 * the table does not have are left out: the values then do not depend on them.
 */
export function gridOf(
  table: DeckTable,
  axisNames: readonly string[],
  faults: FaultSink,
  words?: WordAxis,
): Grid | null {
  if (table.rows === 0) return null;
  const names = axisNames.filter((name) => table.numbers.has(name));
  const points = names.map((name) => distinct(table.numbers.get(name) as Float64Array));
  const single = names.filter((_, index) => points[index].length < 2);
  for (const name of single) {
    faults.add(
      { file: table.file, line: 0, column: 0 },
      name,
      `${name} has one value only; an axis needs two`,
    );
  }
  if (single.length > 0) return null;
  const axes = points.map((values) => new Axis(values));
  const lookups = points.map(indexMap);
  const sizes = points.map((values) => values.length);
  if (words) sizes.unshift(words.words.length);
  const strides = sizes.map((_, depth) =>
    sizes.slice(depth + 1).reduce((product, size) => product * size, 1),
  );
  const cells = sizes.reduce((product, size) => product * size, 1);
  const rowOf = new Int32Array(cells).fill(-1);
  let sound = true;

  const order = new Map(words?.words.map((word, index) => [word, index]));
  const texts = words ? (table.words.get(words.column) ?? []) : [];
  for (let row = 0; row < table.rows; row++) {
    let cell = 0;
    let depth = 0;
    if (words) {
      const index = order.get(texts[row]);
      if (index === undefined) {
        const allowed = words.words.join(', ');
        faults.add(rowPlace(table, row), words.column, `"${texts[row]}" is none of ${allowed}`);
        sound = false;
        continue;
      }
      cell += index * strides[depth++];
    }
    for (let axis = 0; axis < axes.length; axis++) {
      const value = (table.numbers.get(names[axis]) as Float64Array)[row];
      cell += (lookups[axis].get(value) as number) * strides[depth++];
    }
    if (rowOf[cell] >= 0) {
      const first = table.lines[rowOf[cell]];
      faults.add(rowPlace(table, row), '', `the same point stands on line ${first}`);
      sound = false;
    }
    rowOf[cell] = row;
  }
  if (!reportMissing(table, names, axes, words, sizes, rowOf, faults)) sound = false;
  if (!reportOrder(table, names, faults)) sound = false;
  if (!sound) return null;

  const columns = new Map<string, Float64Array>();
  for (const [name, values] of table.numbers) {
    if (names.includes(name)) continue;
    const grid = new Float64Array(cells);
    for (let cell = 0; cell < cells; cell++) grid[cell] = values[rowOf[cell]];
    columns.set(name, grid);
  }
  return { file: table.file, names, axes, columns, table, rowOf };
}

/** Where a row of a table stands. */
function rowPlace(table: DeckTable, row: number): Place {
  return { file: table.file, line: table.lines[row], column: 0 };
}

/** Where the row of a cell stands. */
export function cellPlace(grid: Grid, cell: number): Place {
  return rowPlace(grid.table, grid.rowOf[cell]);
}

/** Tells how many points no row gives, and the first of them. */
function reportMissing(
  table: DeckTable,
  names: readonly string[],
  axes: readonly Axis[],
  words: WordAxis | undefined,
  sizes: readonly number[],
  rowOf: Int32Array,
  faults: FaultSink,
): boolean {
  const missing = rowOf.reduce((count, row) => count + (row < 0 ? 1 : 0), 0);
  if (missing === 0) return true;
  let rest = rowOf.indexOf(-1);
  const point: string[] = [];
  for (let depth = sizes.length - 1; depth >= 0; depth--) {
    const index = rest % sizes[depth];
    rest = Math.floor(rest / sizes[depth]);
    const axis = words ? depth - 1 : depth;
    if (axis < 0) point.unshift(words?.words[index] ?? '');
    else point.unshift(`${names[axis]} ${Number(axes[axis].points[index].toPrecision(8))}`);
  }
  const message = `${missing} of ${rowOf.length} points of the grid are missing; the first is ${point.join(', ')} (SI)`;
  faults.add({ file: table.file, line: 0, column: 0 }, '', message);
  return false;
}

/** An axis of a table with one axis only has to rise from row to row. */
function reportOrder(table: DeckTable, names: readonly string[], faults: FaultSink): boolean {
  if (names.length !== 1 || table.words.size > 0) return true;
  const values = table.numbers.get(names[0]) as Float64Array;
  let sound = true;
  for (let row = 1; row < table.rows; row++) {
    if (values[row] < values[row - 1]) {
      faults.add(rowPlace(table, row), names[0], `${names[0]} falls from the row before; it has to rise`);
      sound = false;
    }
  }
  return sound;
}
