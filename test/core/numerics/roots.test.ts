import { describe, expect, it } from 'vitest';
import { minimise } from '../../../src/core/numerics/optimum.ts';
import { brent, secant } from '../../../src/core/numerics/roots.ts';

/** Wallis's cubic; its root to 16 digits is a textbook value (Numerical Recipes and others, from memory). */
const wallis = (x: number) => x * x * x - 2 * x - 5;
const wallisRoot = 2.0945514815423265;

describe('roots', () => {
  it("[NUM-5] Brent's method finds the root of Wallis's cubic in few evaluations", () => {
    const root = brent(wallis, 2, 3, 1e-14);
    expect(root.found).toBe(true);
    expect(root.x).toBeCloseTo(wallisRoot, 14);
    expect(root.evaluations).toBeLessThan(12);
  });

  it('[NUM-5] a root at an end, and of a function flat to the ninth order, is found', () => {
    expect(brent((x) => x - 1, 1, 5, 1e-12).x).toBe(1);
    const flat = brent((x) => (x - 0.3) ** 9, 0, 1, 1e-6);
    expect(flat.found).toBe(true);
    expect(flat.x).toBeCloseTo(0.3, 5);
  });

  it('[NUM-6] failure is a value with the last iterate and its residual', () => {
    const none = brent((x) => x * x + 1, -1, 2, 1e-9);
    expect(none).toMatchObject({ found: false, x: -1, residual: 2 });
    expect(none.reason).toBe('no change of sign between -1 and 2');
    const slow = brent(wallis, -1e6, 1e6, 1e-14, 5);
    expect(slow).toMatchObject({ found: false, evaluations: 5, reason: 'not found in 5 evaluations' });
    expect(slow.residual).toBe(wallis(slow.x));
  });

  it('[NUM-7] secants stay within their bounds and end at the residual asked for', () => {
    const root = secant(wallis, 2, 2.1, 1e-12, 0, 10);
    expect(root.found).toBe(true);
    expect(root.x).toBeCloseTo(wallisRoot, 12);
    const beyond = secant((x) => x - 20, 1, 2, 1e-9, 0, 10);
    expect(beyond).toMatchObject({ found: false, x: 10 });
    const seen: number[] = [];
    const watched = (x: number): number => {
      seen.push(x);
      return Math.tanh(5 * (x - 3));
    };
    secant(watched, 0, 0.1, 1e-9, 0, 10);
    expect(Math.min(...seen)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...seen)).toBeLessThanOrEqual(10);
    expect(seen[seen.length - 1]).toBeCloseTo(3, 9);
  });
});

describe('optimum', () => {
  it('[NUM-8] the minimum of a cosine is at pi', () => {
    const found = minimise(Math.cos, 2, 5, 1e-8);
    expect(found.x).toBeCloseTo(Math.PI, 7);
    expect(found.value).toBeCloseTo(-1, 15);
    expect(found.evaluations).toBeLessThan(25);
  });

  it('[NUM-8] a minimum at an end is the end', () => {
    expect(minimise((x) => x, 2, 5, 1e-6).x).toBe(2);
    expect(minimise((x) => -x, 2, 5, 1e-6).x).toBe(5);
  });

  it('[NUM-8] forbidden x are avoided', () => {
    const f = (x: number) => (x < 1 ? Number.POSITIVE_INFINITY : (x - 1.5) ** 2);
    expect(minimise(f, 0, 4, 1e-7).x).toBeCloseTo(1.5, 6);
  });
});
