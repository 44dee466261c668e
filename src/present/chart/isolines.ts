/** Lines of equal value through a grid of values, and places for their names. */
import { hundredth } from '../svg.ts';

/** Values of columns from left to right, each of rows; `x` and `y` are their places on the drawing. */
export interface Field {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly values: readonly (readonly (number | null)[])[];
}

/** A round step that makes at most `most` lines between the least and the greatest value. */
export function isolineStep(field: Field, most: number): number {
  const { least, greatest } = rangeOf(field);
  return [1, 2, 5, 10, 20, 50, 100].find((step) => (greatest - least) / step <= most) ?? 200;
}

/** The multiples of a step within the values; none where nothing is known. */
export function isolineLevels(field: Field, step: number): number[] {
  const { least, greatest } = rangeOf(field);
  if (!(greatest >= least)) return [];
  const first = Math.ceil(least / step);
  const count = Math.floor(greatest / step) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => (first + i) * step);
}

function rangeOf({ values }: Field): { least: number; greatest: number } {
  const known = values.flat().filter(isKnown);
  return {
    least: known.reduce((a, b) => Math.min(a, b), Infinity),
    greatest: known.reduce((a, b) => Math.max(a, b), -Infinity),
  };
}

function isKnown(value: number | null): value is number {
  return value !== null && Number.isFinite(value);
}

/** Path of the line of one value, a stroke for each cell, straight between neighbours; cells with an unknown corner have none. */
export function isoline({ x, y, values }: Field, level: number): string {
  let path = '';
  for (let i = 1; i < x.length; i++) {
    for (let j = 1; j < y.length; j++) {
      const corners = [values[i - 1][j - 1], values[i][j - 1], values[i][j], values[i - 1][j]];
      if (!corners.every(isKnown)) continue;
      const above = corners.map((value) => value >= level);
      if (above.every(Boolean) || !above.some(Boolean)) continue;
      const px = [x[i - 1], x[i], x[i], x[i - 1]];
      const py = [y[j - 1], y[j - 1], y[j], y[j]];
      const points: string[] = [];
      for (let edge = 0; edge < 4; edge++) {
        const next = (edge + 1) % 4;
        if (above[edge] === above[next]) continue;
        const part = (level - corners[edge]) / (corners[next] - corners[edge]);
        points.push(
          `${tenth(px[edge] + part * (px[next] - px[edge]))} ${tenth(py[edge] + part * (py[next] - py[edge]))}`,
        );
      }
      // Two lines through a saddle: its middle says which corners belong together.
      const turned =
        points.length === 4 && (corners[0] + corners[1] + corners[2] + corners[3]) / 4 >= level !== above[0];
      if (turned) points.push(points.shift() as string);
      for (let k = 0; k < points.length; k += 2) path += `M${points[k]}L${points[k + 1]}`;
    }
  }
  return path;
}

function tenth(value: number): string {
  return hundredth(Math.round(value * 10) / 10);
}

/** Where lines cross a column: for names on the lines, upward. */
export function crossings(
  { y, values }: Field,
  column: number,
  levels: readonly number[],
): { level: number; y: number }[] {
  const rows = values[column];
  const found: { level: number; y: number }[] = [];
  for (let j = 1; j < rows.length; j++) {
    const [a, b] = [rows[j - 1], rows[j]];
    if (!isKnown(a) || !isKnown(b)) continue;
    for (const level of levels) {
      if (a >= level === b >= level) continue;
      found.push({ level, y: y[j - 1] + ((level - a) / (b - a)) * (y[j] - y[j - 1]) });
    }
  }
  return found.sort((a, b) => b.y - a.y);
}
