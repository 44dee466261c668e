/** The filters of all kinds of noise weighed together: how well any change is borne out, and which. */
import { type CauseKey, causes } from './causes.ts';
import type { Candidate, Watch } from './watch.ts';

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
  /** The likeliest first. */
  readonly causes: readonly CauseOdds[];
  /** Probability of each kind of noise. */
  readonly noises: readonly number[];
  readonly likeliest: number;
}

interface Weighted {
  readonly candidate: Candidate;
  readonly weight: number;
  readonly sinceS: number;
}

export function weigh(watches: readonly Watch[]): Weighed {
  const found = watches.map((watch) => watch.candidates());
  const highest = Math.max(0, ...found.flatMap((each) => each.map(({ log }) => log)));
  const best = Math.max(...watches.map(({ logLikelihood }) => logLikelihood));
  const base = watches.map(({ logLikelihood, noise }) => noise.prior * Math.exp(logLikelihood - best));
  const all: Weighted[] = found.flatMap((each, i) =>
    each.map((candidate) => ({
      candidate,
      weight: base[i] * Math.exp(candidate.log - highest),
      sinceS: watches[i].onsets[candidate.onset].timeS,
    })),
  );
  const none = base.reduce((a, b) => a + b, 0) * Math.exp(-highest);
  const changed = all.reduce((sum, { weight }) => sum + weight, 0);
  const total = found.map(
    (each, i) =>
      base[i] *
      each.reduce((sum, { log }) => sum + Math.exp(log - highest), watches[i].quiet * Math.exp(-highest)),
  );
  const sum = total.reduce((a, b) => a + b, 0);
  const noises = total.map((each) => each / sum);
  return {
    evidence: changed / none,
    causes: causes
      .map(({ key }, index) =>
        oddsOf(
          key,
          all.filter(({ candidate }) => candidate.cause === index),
          changed,
        ),
      )
      .sort((a, b) => b.probability - a.probability),
    noises,
    likeliest: noises.indexOf(Math.max(...noises)),
  };
}

function oddsOf(key: CauseKey, all: readonly Weighted[], changed: number): CauseOdds {
  const sum = all.reduce((total, { weight }) => total + weight, 0);
  const mean = (of: (each: Weighted) => number): number =>
    sum > 0 ? all.reduce((total, each) => total + each.weight * of(each), 0) / sum : 0;
  const sinceS = mean((each) => each.sinceS);
  const amplitude = mean(({ candidate }) => candidate.amplitude);
  return {
    key,
    probability: changed > 0 ? sum / changed : 0,
    sinceS,
    sinceSdS: Math.sqrt(mean((each) => (each.sinceS - sinceS) ** 2)),
    amplitude,
    amplitudeSd: Math.sqrt(
      mean(({ candidate }) => candidate.variance + (candidate.amplitude - amplitude) ** 2),
    ),
  };
}
