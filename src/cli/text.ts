/** Text on the terminal: values in the trade's units beside SI, numbers flush right, units flush left. */
import { quantity } from '../core/quantities/quantities.ts';
import { show } from '../core/quantities/values.ts';

/** Prints a line on stdout. */
export function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

/** Prints a result as JSON on stdout. */
export function sayJson(result: object): void {
  say(JSON.stringify(result, null, 2));
}

/** Lays rows of cells out in columns; the first column is flush left, the others as `right` says. */
export function columns(rows: readonly (readonly string[])[], right: (column: number) => boolean): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, column) => {
      widths[column] = Math.max(widths[column] ?? 0, cell.length);
    });
  }
  return rows.map((row) =>
    row
      .map((cell, column) => (right(column) ? cell.padStart(widths[column]) : cell.padEnd(widths[column])))
      .join('  ')
      .trimEnd(),
  );
}

/** A sheet of quantities: name, value in the display unit, value in SI with six digits; angles as they stand in degrees. */
export function sheet(values: readonly (readonly [key: string, si: number])[]): string[] {
  const rows = values.map(([key, si]) => {
    const { name, displayUnit, siUnit } = quantity(key);
    const label = name[0].toUpperCase() + name.slice(1);
    const inSI = siUnit === '1' || siUnit === 'rad' ? ['', ''] : [String(Number(si.toPrecision(6))), siUnit];
    const unit = displayUnit === 'Mach' || displayUnit === '1' ? '' : displayUnit;
    return [label, show(key, si, { bare: true }), unit, ...inSI];
  });
  return columns(rows, (column) => column === 1 || column === 3);
}
