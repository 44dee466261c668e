/** The filters of all kinds of noise weighed together: how well any change is borne out, and which. */
import { type CauseKey, causes } from './causes.ts';
import type { Watch } from './watch.ts';

export interface CauseOdds {
  readonly key: CauseKey;
  /** That it is this, where anything has changed. */
  readonly probability: number;
  /** Mean of when it began [s] and its standard deviation. */
  readonly sinceS: number;
  readonly sinceSdS: number;
  /** In the unit of its state. */
  readonly amplitude: number;
  readonly amplitudeSd: number;
}

export interface Weighed {
  /** How many times as well a change so far is borne out as none, each moment of the plan as likely to begin one. */
  readonly evidence: number;
  /** Probability of each kind of noise. */
  readonly noises: readonly number[];
  readonly likeliest: number;
  /** For each kind of noise the logarithm by which its weights, that of no change among them, are scaled down: the greatest of all is 1. */
  readonly shifts: readonly number[];
}

export function weigh(watches: readonly Watch[]): Weighed {
  const best = Math.max(...watches.map(({ bank, logLikelihood }) => logLikelihood + bank.weigh()));
  const shifts = watches.map(({ logLikelihood }) => best - logLikelihood);
  let [none, changed] = [0, 0];
  const totals = watches.map(({ bank, noise: { prior } }, i) => {
    const still = Math.exp(-shifts[i]);
    let sum = 0;
    for (let cell = 0; cell < bank.cells; cell++) sum += bank.weightOf(cell, shifts[i]);
    none += prior * still;
    changed += prior * sum;
    return prior * (sum + bank.quiet * still);
  });
  const total = totals.reduce((a, b) => a + b, 0);
  const noises = totals.map((each) => each / total);
  const evidence = Math.min(changed / none, Number.MAX_VALUE);
  return { evidence, noises, likeliest: noises.indexOf(Math.max(...noises)), shifts };
}

/** What weighs less beside the greatest is nothing; its inverse may be no number. */
const leastWeight = 1e-200;

/** Sums over the cells of one cause: weight, and weight times moment, amplitude and their squares. */
interface Sums {
  weight: number;
  since: number;
  sinceSquare: number;
  amplitude: number;
  amplitudeSquare: number;
}

/** Causes by their odds, the likeliest first; of watches as they were weighed. */
export function oddsOf(watches: readonly Watch[], { shifts }: Weighed): CauseOdds[] {
  const sums = causes.map(
    (): Sums => ({ weight: 0, since: 0, sinceSquare: 0, amplitude: 0, amplitudeSquare: 0 }),
  );
  watches.forEach(({ bank, noise }, i) => {
    for (let cell = 0; cell < bank.cells; cell++) {
      const weight = noise.prior * bank.weightOf(cell, shifts[i]);
      const sum = sums[bank.causeOf(cell)];
      const since = bank.times[bank.onsetOf(cell)];
      const { mean, variance } = bank.amplitudeOf(cell);
      sum.weight += weight;
      sum.since += weight * since;
      sum.sinceSquare += weight * since * since;
      sum.amplitude += weight * mean;
      sum.amplitudeSquare += weight * (variance + mean * mean);
    }
  });
  const changed = sums.reduce((sum, { weight }) => sum + weight, 0);
  return sums
    .map(({ weight, since, sinceSquare, amplitude, amplitudeSquare }, cause): CauseOdds => {
      const part = weight > leastWeight ? 1 / weight : 0;
      const [sinceS, mean] = [part * since, part * amplitude];
      return {
        key: causes[cause].key,
        probability: changed > 0 ? weight / changed : 0,
        sinceS,
        sinceSdS: Math.sqrt(Math.max(0, part * sinceSquare - sinceS * sinceS)),
        amplitude: mean,
        amplitudeSd: Math.sqrt(Math.max(0, part * amplitudeSquare - mean * mean)),
      };
    })
    .sort((a, b) => b.probability - a.probability);
}
