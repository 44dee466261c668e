/** The normal distribution of mean 0 and variance 1. */

const peak = 1 / Math.sqrt(2 * Math.PI);

export function normalDensity(z: number): number {
  return peak * Math.exp(-0.5 * z * z);
}

/**
 * Distribution function, to 1e-7 of 1. Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.17 (coefficients
 * from memory, checked against tabled values in the tests); never below the smallest number of a logarithm.
 */
export function normalBelow(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = normalDensity(z) * series;
  return Math.max(1e-300, z > 0 ? 1 - tail : tail);
}
