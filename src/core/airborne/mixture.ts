/** The state over all causes, moments and kinds of noise at once: Hoeting and others, Bayesian model averaging, Statist. Sci. 14 (1999) 382. */
import { ORDER } from './model.ts';
import type { Run } from './run.ts';

export interface Estimate {
  readonly mean: number;
  readonly sd: number;
}

/** Mean and covariance over all causes, moments and kinds of noise, each by its probability. */
export interface Mixture {
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
}

/** A sum of the state, each times its place in a row. */
export function estimateAlong({ mean, covariance }: Mixture, row: Float64Array): Estimate {
  let value = 0;
  let variance = 0;
  for (let i = 0; i < ORDER; i++) {
    value += row[i] * mean[i];
    for (let j = 0; j < ORDER; j++) variance += row[i] * covariance[i * ORDER + j] * row[j];
  }
  return { mean: value, sd: Math.sqrt(Math.max(0, variance)) };
}

/** Probabilities below it change no digit that is shown. */
const negligible = 1e-7;

export function mixtureOf(run: Run): Mixture {
  const mean = new Float64Array(ORDER);
  const second = new Float64Array(ORDER * ORDER);
  const add = (
    weight: number,
    value: Float64Array,
    spread: Float64Array | null,
    error: Float64Array | null,
    variance: number,
  ): void => {
    for (let i = 0; i < ORDER; i++) {
      mean[i] += weight * value[i];
      for (let j = 0; j < ORDER; j++) {
        const own = (spread?.[i * ORDER + j] ?? 0) + (error ? variance * error[i] * error[j] : 0);
        second[i * ORDER + j] += weight * (own + value[i] * value[j]);
      }
    }
  };
  const { shifts } = run.weighed;
  const quiet = run.watches.map(({ bank, noise }, w) => noise.prior * bank.quiet * Math.exp(-shifts[w]));
  const total = run.watches.reduce((sum, { bank, noise }, w) => {
    let cells = 0;
    for (let cell = 0; cell < bank.cells; cell++) cells += bank.weightOf(cell, shifts[w]);
    return sum + quiet[w] + noise.prior * cells;
  }, 0);
  const moved = new Float64Array(ORDER);
  run.watches.forEach(({ bank, noise, kalman: { state, covariance } }, w) => {
    add(quiet[w] / total, state, covariance, null, 0);
    for (let cell = 0; cell < bank.cells; cell++) {
      const weight = (noise.prior / total) * bank.weightOf(cell, shifts[w]);
      if (weight < negligible) continue;
      const amplitude = bank.amplitudeOf(cell);
      const error = bank.errorOf(cell);
      for (let i = 0; i < ORDER; i++) moved[i] = state[i] + amplitude.mean * error[i];
      add(weight, moved, covariance, error, amplitude.variance);
    }
  });
  for (let i = 0; i < ORDER; i++) {
    for (let j = 0; j < ORDER; j++) second[i * ORDER + j] -= mean[i] * mean[j];
  }
  return { mean, covariance: second };
}
