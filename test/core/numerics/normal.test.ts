/** The normal distribution: tables of Abramowitz and Stegun, 26.1 (from memory). */
import { expect, it } from 'vitest';
import { normalBelow, normalDensity } from '../../../src/core/numerics/normal.ts';

it('density and distribution function as tabled', () => {
  expect(normalBelow(0)).toBeCloseTo(0.5, 7);
  expect(normalBelow(1)).toBeCloseTo(0.8413447, 6);
  expect(normalBelow(-1.96)).toBeCloseTo(0.0249979, 6);
  expect(normalDensity(0)).toBeCloseTo(0.3989423, 7);
  expect(normalDensity(1)).toBeCloseTo(0.2419707, 7);
});

it('the logarithm of what is far below is finite', () => {
  expect(Math.log(normalBelow(-60))).toBeLessThan(-600);
  expect(Math.log(normalBelow(-60))).toBeGreaterThan(-Infinity);
});
