/**
 * A Kalman filter of the state beside a plan, and beside it what each cause, had it begun at each moment, would have left in the
 * filter's surprises. Source: Willsky and Jones, IEEE Trans. AC-21 (1976) 108, the generalised likelihood ratio; here the
 * amplitude of a jump is integrated over its spread and the moments are summed, which gives the odds of Bayes.
 */
import { Kalman } from '../numerics/kalman.ts';
import { causes, slopeError } from './causes.ts';
import {
  type GaugeNoise,
  initialVariance,
  type Measurement,
  ORDER,
  type Scatter,
  type Transition,
} from './model.ts';

/** Moments kept at most; beyond them every other one of the older half is given up, its weight to its neighbour. */
const mostOnsets = 48;
const rows = causes.length;
/** Of one cause at one moment: the filter's error for a jump of one unit, then sums of it against surprises and of its square. */
const width = ORDER + 2;

export interface Onset {
  readonly timeS: number;
  /** Probability before any reading that something begins there. */
  weight: number;
  /** `rows` times `width`. */
  readonly jumps: Float64Array;
}

/** What a cause at a moment comes to. */
export interface Candidate {
  readonly cause: number;
  readonly onset: number;
  /** Natural logarithm of its weight times its likelihood over that of no change. */
  readonly log: number;
  readonly amplitude: number;
  readonly variance: number;
}

export class Watch {
  readonly kalman = new Kalman(ORDER);
  readonly noise: GaugeNoise;
  readonly scatter: Scatter;
  onsets: Onset[] = [];
  /** Logarithm of the likelihood of all readings with no further change. */
  logLikelihood = 0;

  constructor(scatter: Scatter, noise: GaugeNoise) {
    this.scatter = scatter;
    this.noise = noise;
    initialVariance(scatter, noise).forEach((variance, i) => {
      this.kalman.covariance[i * ORDER + i] = variance;
    });
  }

  copy(): Watch {
    const other = new Watch(this.scatter, this.noise);
    other.kalman.copyFrom(this.kalman);
    other.logLikelihood = this.logLikelihood;
    other.onsets = this.onsets.map(({ timeS, weight, jumps }) => ({ timeS, weight, jumps: jumps.slice() }));
    return other;
  }

  /** Something may begin now. */
  begin(timeS: number, weight: number): void {
    const jumps = new Float64Array(rows * width);
    causes.forEach(({ direction }, i) => {
      jumps.set(direction, i * width);
    });
    this.onsets.push({ timeS, weight, jumps });
    if (this.onsets.length > mostOnsets) this.thin();
  }

  private thin(): void {
    const half = this.onsets.length >> 1;
    for (let i = half - (half % 2) - 1; i > 0; i -= 2) {
      this.onsets[i - 1].weight += this.onsets[i].weight;
      this.onsets.splice(i, 1);
    }
  }

  /** A cause that is taken to be known began now: the filter opens for it. */
  open(index: number): void {
    const { key, direction, spread } = causes[index];
    this.widenAlong(direction, spread);
    const both = causes.find((each) => each.key === 'bothEngines');
    if (key === 'temperature' && both) this.widenAlong(both.direction, slopeError);
  }

  private widenAlong(direction: Float64Array, spread: number): void {
    for (let i = 0; i < ORDER; i++) {
      for (let j = 0; j < ORDER; j++) {
        this.kalman.covariance[i * ORDER + j] += spread * spread * direction[i] * direction[j];
      }
    }
  }

  /** Variance added to one state, for what is not a cause: fuel that a tanker gave. */
  widen(state: number, variance: number): void {
    this.kalman.covariance[state * ORDER + state] += variance;
  }

  move(transition: Transition): void {
    const slow = (this.noise.slow * this.scatter.fuelKg) ** 2;
    this.kalman.predict(transition.matrix, transition.noiseOf(slow));
    for (let i = 0; i < ORDER; i++) this.kalman.state[i] += transition.shift[i];
    for (const { jumps } of this.onsets) {
      for (let row = 0; row < rows; row++) transition.apply(jumps, row * width);
    }
  }

  innovationOf({ row, expected }: Measurement, value: number): number {
    let surprise = value - expected;
    for (let i = 0; i < ORDER; i++) surprise -= row[i] * this.kalman.state[i];
    return surprise;
  }

  varianceOf(measurement: Measurement, isFuel: boolean): number {
    return isFuel ? this.noise.white ** 2 * measurement.variance : measurement.variance;
  }

  /** Takes a value; returns its surprise in standard deviations. */
  take(measurement: Measurement, value: number, isFuel: boolean): number {
    const { row } = measurement;
    const surprise = this.innovationOf(measurement, value);
    const variance = this.kalman.update(row, surprise, this.varianceOf(measurement, isFuel));
    const { gain } = this.kalman;
    this.logLikelihood -= 0.5 * (Math.log(2 * Math.PI * variance) + (surprise * surprise) / variance);
    for (const { jumps } of this.onsets) {
      for (let start = 0; start < jumps.length; start += width) {
        let seen = 0;
        for (let i = 0; i < ORDER; i++) seen += row[i] * jumps[start + i];
        if (seen === 0) continue;
        jumps[start + ORDER] += (seen * surprise) / variance;
        jumps[start + ORDER + 1] += (seen * seen) / variance;
        for (let i = 0; i < ORDER; i++) jumps[start + i] -= gain[i] * seen;
      }
    }
    return surprise / Math.sqrt(variance);
  }

  candidates(): Candidate[] {
    return this.onsets.flatMap(({ weight, jumps }, onset) =>
      causes.map(({ spread, positiveOnly, share }, cause) => {
        const [sum, square] = [jumps[cause * width + ORDER], jumps[cause * width + ORDER + 1]];
        const variance = 1 / (square + 1 / (spread * spread));
        const amplitude = sum * variance;
        const gain = 0.5 * sum * amplitude + 0.5 * Math.log(variance / (spread * spread));
        const side = positiveOnly ? Math.log(2 * normalBelow(amplitude / Math.sqrt(variance))) : 0;
        return { cause, onset, log: Math.log(weight * share) + gain + side, amplitude, variance };
      }),
    );
  }

  /** How the filter's state would stand beside what it says, for a jump of one unit. */
  errorOf({ cause, onset }: Candidate): Float64Array {
    const start = cause * width;
    return this.onsets[onset].jumps.subarray(start, start + ORDER);
  }

  /** Probability before any reading that nothing has begun yet. */
  get quiet(): number {
    return 1 - this.onsets.reduce((sum, { weight }) => sum + weight, 0);
  }
}

/**
 * Normal distribution function, to 1e-7 of 1. Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.17 (coefficients
 * from memory, checked against tabled values in the tests); never below the smallest number of a logarithm.
 */
export function normalBelow(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)) * series;
  return Math.max(1e-300, z > 0 ? 1 - tail : tail);
}
