import { describe, expect, it } from 'vitest';
import type { DeckTable } from '../../../src/core/aircraft/deck.ts';
import { columnOf, gridOf, gridValue } from '../../../src/core/aircraft/grid.ts';
import { Faults, faultText } from '../../../src/files/faults.ts';

function table(
  columns: Readonly<Record<string, readonly number[]>>,
  words: readonly string[] = [],
): DeckTable {
  const rows = Object.values(columns)[0].length;
  return {
    file: 'table.csv',
    rows,
    numbers: new Map(Object.entries(columns).map(([name, values]) => [name, Float64Array.from(values)])),
    words: new Map(words.length > 0 ? [['setting', words]] : []),
    lines: Int32Array.from({ length: rows }, (_, row) => row + 2),
  };
}

describe('grids of deck tables', () => {
  it('[GRID-1] are the same whatever the order of the rows', () => {
    const faults = new Faults();
    const grid = gridOf(table({ x: [1, 0, 1, 0], y: [5, 7, 7, 5], f: [3, 2, 4, 1] }), ['x', 'y'], faults);
    expect(faults.list).toEqual([]);
    expect([...columnOf(grid as NonNullable<typeof grid>, 'f')]).toEqual([1, 2, 3, 4]);
  });

  it('[GRID-2] reproduce a function that is linear in each of three axes, everywhere', () => {
    const f = (x: number, y: number, z: number): number => 2 + 3 * x - y + 0.5 * x * y + z * (1 + x * y);
    const xs = [0, 1, 4];
    const ys = [-2, 5];
    const zs = [10, 20, 25];
    const points = xs.flatMap((x) => ys.flatMap((y) => zs.map((z) => [x, y, z] as const)));
    const columns = {
      x: points.map((p) => p[0]),
      y: points.map((p) => p[1]),
      z: points.map((p) => p[2]),
      f: points.map(([x, y, z]) => f(x, y, z)),
    };
    const grid = gridOf(table(columns), ['x', 'y', 'z'], new Faults());
    if (grid === null) throw new Error('no grid');
    for (const at of [
      [0, -2, 10],
      [4, 5, 25],
      [0.3, 1, 12],
      [3.9, 4.99, 24],
    ] as const) {
      at.forEach((value, axis) => {
        grid.axes[axis].find(value);
      });
      expect(gridValue(grid, columnOf(grid, 'f'))).toBeCloseTo(f(at[0], at[1], at[2]), 10);
    }
  });

  it('[GRID-3] refuse an axis of one value', () => {
    const faults = new Faults();
    expect(gridOf(table({ x: [1], f: [3] }), ['x'], faults)).toBeNull();
    expect(faults.list.map(faultText)).toEqual(['table.csv: x: x has one value only; an axis needs two']);
  });

  it('[GRID-4] refuse a word that is none of the axis', () => {
    const faults = new Faults();
    const words = { column: 'setting', words: ['low', 'high'] };
    const rows = table({ x: [0, 1, 0, 1], f: [1, 2, 3, 4] }, ['low', 'low', 'high', 'hihg']);
    expect(gridOf(rows, ['x'], faults, words)).toBeNull();
    expect(faults.list.map(faultText)).toEqual([
      'table.csv:5: setting: "hihg" is none of low, high',
      'table.csv: 1 of 4 points of the grid are missing; the first is high, x 1 (SI)',
    ]);
  });
});
