import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Axis, MonotoneCubic, Table1, Table2, Table3 } from '../../../src/core/numerics/tables.ts';

describe('tables', () => {
  it('[NUM-1] a trilinear table is exact for a function linear in each variable', () => {
    const f = (x: number, y: number, z: number) =>
      1 + 2 * x - y + 3 * z + x * y - 2 * y * z + 0.5 * x * y * z;
    const [xs, ys, zs] = [
      [0, 1, 4],
      [-2, 0, 3, 5],
      [10, 20],
    ];
    const values = xs.flatMap((x) => ys.flatMap((y) => zs.map((z) => f(x, y, z))));
    const table = new Table3(new Axis(xs), new Axis(ys), new Axis(zs), values);
    const within = (axis: number[]) => fc.double({ min: axis[0], max: axis[axis.length - 1], noNaN: true });
    fc.assert(
      fc.property(within(xs), within(ys), within(zs), (x, y, z) => {
        // Within a cell the function is trilinear, but a cell is not the whole: compare with the cell's own corners.
        expect(table.at(x, y, z)).toBeCloseTo(f(x, y, z), 9);
      }),
    );
  });

  it('[NUM-1] a bilinear table runs its second axis fastest', () => {
    const table = new Table2(new Axis([0, 1]), new Axis([0, 1, 2]), [0, 1, 2, 10, 11, 12]);
    expect(table.at(0.5, 1.5)).toBeCloseTo(6.5, 12);
    expect(table.at(1, 2)).toBe(12);
  });

  it('[NUM-2] beyond an axis the edge is given, and marked', () => {
    const axis = new Axis([1, 2, 4]);
    const table = new Table1(axis, [10, 20, 0]);
    expect([table.at(0.5), axis.outside]).toEqual([10, -1]);
    expect([table.at(4.000001), axis.outside]).toEqual([0, 1]);
    expect([table.at(4), axis.outside]).toEqual([0, 0]);
    expect([table.at(1), axis.outside]).toEqual([10, 0]);
    axis.find(Number.NaN);
    expect(axis.outside).toBe(1);
    expect([table.at(3), axis.outside]).toEqual([10, 0]);
  });

  it('[NUM-3] an axis that does not increase, or a value that is no number, is refused', () => {
    expect(() => new Axis([1, 1])).toThrow('an axis must increase: 1 follows 1');
    expect(() => new Axis([1])).toThrow('an axis needs two points, not 1');
    expect(() => new Axis([0, Number.NaN])).toThrow('NaN follows 0');
    expect(() => new Table1(new Axis([0, 1]), [1, Number.NaN])).toThrow('value 1 of a table is NaN');
    expect(() => new Table1(new Axis([0, 1]), [1])).toThrow('a table of 2 points has 1 values');
  });

  it('[NUM-4] the monotone cubic goes through its points and never overshoots', () => {
    const points = fc.array(
      fc.tuple(fc.double({ min: 0.1, max: 3, noNaN: true }), fc.integer({ min: -50, max: 50 })),
      {
        minLength: 3,
        maxLength: 8,
      },
    );
    fc.assert(
      fc.property(points, fc.double({ min: 0, max: 1, noNaN: true }), (steps, t) => {
        let x = 0;
        const xs = steps.map(([dx]) => (x += dx));
        const ys = steps.map(([, y]) => y);
        const curve = new MonotoneCubic(new Axis(xs), ys);
        for (let i = 0; i < xs.length - 1; i++) {
          const value = curve.at(xs[i] + t * (xs[i + 1] - xs[i]));
          expect(value).toBeGreaterThanOrEqual(Math.min(ys[i], ys[i + 1]) - 1e-9);
          expect(value).toBeLessThanOrEqual(Math.max(ys[i], ys[i + 1]) + 1e-9);
          expect(curve.at(xs[i])).toBeCloseTo(ys[i], 9);
        }
      }),
    );
  });

  it('[NUM-4] the monotone cubic is third order on a smooth curve', () => {
    const worst = (n: number): number => {
      const xs = Array.from({ length: n + 1 }, (_, i) => i / n);
      const curve = new MonotoneCubic(
        new Axis(xs),
        xs.map((x) => Math.exp(x)),
      );
      let error = 0;
      for (let x = 0.2; x < 0.8; x += 0.001) error = Math.max(error, Math.abs(curve.at(x) - Math.exp(x)));
      return error;
    };
    expect(worst(10) / worst(20)).toBeGreaterThan(7);
  });
});
