/** The normal distribution: tables of Abramowitz and Stegun, 26.1 (from memory). */
import { expect, it } from 'vitest';
import {
  logNormalBelow,
  logNormalDensity,
  normalBelow,
  normalDensity,
} from '../../../src/core/numerics/normal.ts';

it('density and distribution function as tabled', () => {
  expect(normalBelow(0)).toBeCloseTo(0.5, 7);
  expect(normalBelow(1)).toBeCloseTo(0.8413447, 6);
  expect(normalBelow(-1.96)).toBeCloseTo(0.0249979, 6);
  expect(normalDensity(0)).toBeCloseTo(0.3989423, 7);
  expect(normalDensity(1)).toBeCloseTo(0.2419707, 7);
});

it('the logarithm of what is far below is finite, and goes on from that of what is near', () => {
  // Table 26.2 of the same, from memory: -log10 Q(10) = 23.11805, -log10 Q(50) = 544.96634, -log10 Q(200) = 8688.58977.
  for (const [z, digits] of [
    [-10, 23.11805],
    [-50, 544.96634],
    [-200, 8688.58977],
  ]) {
    expect(logNormalBelow(z)).toBeCloseTo(-digits * Math.LN10, 3);
  }
  // Q(6) = 9.866e-10, from memory, on either side of where the series begins.
  expect(logNormalBelow(-6.0001)).toBeCloseTo(Math.log(9.866e-10), 2);
  expect(logNormalBelow(-5.9999)).toBeCloseTo(Math.log(9.866e-10), 2);
  expect(logNormalDensity(-3)).toBeCloseTo(Math.log(normalDensity(-3)), 12);
});
