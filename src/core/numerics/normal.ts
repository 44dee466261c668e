/** The normal distribution of mean 0 and variance 1. */

const peak = 1 / Math.sqrt(2 * Math.PI);

/** From here on down the tail is told by its series alone. */
const farBelow = -6;

export function normalDensity(z: number): number {
  return peak * Math.exp(-0.5 * z * z);
}

/**
 * Distribution function, to 1e-7 of 1. Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.17 (coefficients
 * from memory, checked against tabled values in the tests).
 */
export function normalBelow(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = normalDensity(z) * series;
  return z > 0 ? 1 - tail : tail;
}

export function logNormalDensity(z: number): number {
  return Math.log(peak) - 0.5 * z * z;
}

/** Logarithm of the distribution function, finite however far below: there by the asymptotic series of its tail, ibid. 26.2.12. */
export function logNormalBelow(z: number): number {
  if (z > farBelow) return Math.log(normalBelow(z));
  const square = 1 / (z * z);
  return logNormalDensity(z) - Math.log(-z) + Math.log1p(-square * (1 - 3 * square * (1 - 5 * square)));
}
