/**
 * Beside one filter: what each cause, had it begun at each moment, would have left in the filter's surprises. Source: Willsky and
 * Jones, IEEE Trans. AC-21 (1976) 108, the generalised likelihood ratio; here the amplitude of a jump is integrated over its
 * spread and the moments are summed, which gives the odds of Bayes.
 *
 * A cell is one cause at one moment. Its numbers, each for a jump of one unit: the error of each of the filter's states, then the
 * sums of what would have been seen against the surprises, and of its square.
 */
import { logNormalBelow, logNormalDensity, normalBelow } from '../numerics/normal.ts';
import { causes } from './causes.ts';
import { ORDER, type Transition } from './model.ts';

/** Moments kept at most; those far back lie further apart. */
const mostOnsets = 16;
const kinds = causes.length;
/** Numbers of a cell, and of all cells of a moment. */
const width = ORDER + 2;
const block = kinds * width;
/** Places behind those of the states. */
const SUM = ORDER;
const SQUARE = ORDER + 1;

const spreadsSquared = causes.map(({ spread }) => spread * spread);

/** What the surprises say of the amplitude in one cell. */
export interface Amplitude {
  readonly mean: number;
  readonly variance: number;
}

export class Bank {
  /** Moments kept, the earliest first. */
  count: number;
  readonly times: Float64Array;
  /** Probability before any reading that something begins there. */
  readonly weights: Float64Array;
  private readonly numbers: Float64Array;
  /** Logarithms of the weights of the cells, as last weighed: finite however far off a reading is. */
  private readonly logWeights = new Float64Array(mostOnsets * kinds);
  private likeliest: number;

  constructor(from: Bank | null = null) {
    this.count = from?.count ?? 0;
    this.times = from?.times.slice() ?? new Float64Array(mostOnsets);
    this.weights = from?.weights.slice() ?? new Float64Array(mostOnsets);
    this.numbers = from?.numbers.slice() ?? new Float64Array(mostOnsets * block);
    this.likeliest = from?.likeliest ?? 0;
  }

  get cells(): number {
    return this.count * kinds;
  }

  clear(): void {
    this.count = 0;
  }

  causeOf(cell: number): number {
    return cell % kinds;
  }

  onsetOf(cell: number): number {
    return Math.floor(cell / kinds);
  }

  /** Something may begin now. */
  begin(timeS: number, weight: number): void {
    if (this.count === mostOnsets) this.thin(timeS);
    const { count, numbers } = this;
    this.times[count] = timeS;
    this.weights[count] = weight;
    numbers.fill(0, count * block, (count + 1) * block);
    causes.forEach(({ direction }, cause) => {
      numbers.set(direction, count * block + cause * width);
    });
    this.count++;
  }

  /** Gives up the moment whose neighbours lie closest for their age, never the likeliest; its weight goes to the one before. */
  private thin(nowS: number): void {
    const { count, times, weights, numbers } = this;
    let least = 1;
    let closest = Number.POSITIVE_INFINITY;
    for (let i = 1; i < count - 1; i++) {
      const apart = (times[i + 1] - times[i - 1]) / (nowS - times[i]);
      if (i !== this.likeliest && apart < closest) [closest, least] = [apart, i];
    }
    weights[least - 1] += weights[least];
    times.copyWithin(least, least + 1, count);
    weights.copyWithin(least, least + 1, count);
    numbers.copyWithin(least * block, (least + 1) * block, count * block);
    if (this.likeliest > least) this.likeliest--;
    this.count--;
  }

  move(transition: Transition): void {
    transition.apply(this.numbers, width, this.cells);
  }

  /** What a measurement of `row`, with its surprise and the variance of that, says of each cell, and what the filter's gain does to it. */
  take(row: Float64Array, gain: Float64Array, surprise: number, variance: number): void {
    const { numbers } = this;
    const end = this.cells * width;
    const [bySurprise, bySquare] = [surprise / variance, 1 / variance];
    // Written out, since most of the time goes here: a loop over the states takes four times as long.
    const r0 = row[0],
      r1 = row[1],
      r2 = row[2],
      r3 = row[3],
      r4 = row[4],
      r5 = row[5],
      r6 = row[6],
      r7 = row[7],
      r8 = row[8],
      r9 = row[9],
      r10 = row[10];
    const g0 = gain[0],
      g1 = gain[1],
      g2 = gain[2],
      g3 = gain[3],
      g4 = gain[4],
      g5 = gain[5],
      g6 = gain[6],
      g7 = gain[7],
      g8 = gain[8],
      g9 = gain[9],
      g10 = gain[10];
    for (let at = 0; at < end; at += width) {
      const seen =
        r0 * numbers[at] +
        r1 * numbers[at + 1] +
        r2 * numbers[at + 2] +
        r3 * numbers[at + 3] +
        r4 * numbers[at + 4] +
        r5 * numbers[at + 5] +
        r6 * numbers[at + 6] +
        r7 * numbers[at + 7] +
        r8 * numbers[at + 8] +
        r9 * numbers[at + 9] +
        r10 * numbers[at + 10];
      numbers[at] -= g0 * seen;
      numbers[at + 1] -= g1 * seen;
      numbers[at + 2] -= g2 * seen;
      numbers[at + 3] -= g3 * seen;
      numbers[at + 4] -= g4 * seen;
      numbers[at + 5] -= g5 * seen;
      numbers[at + 6] -= g6 * seen;
      numbers[at + 7] -= g7 * seen;
      numbers[at + 8] -= g8 * seen;
      numbers[at + 9] -= g9 * seen;
      numbers[at + 10] -= g10 * seen;
      numbers[at + SUM] += seen * bySurprise;
      numbers[at + SQUARE] += seen * seen * bySquare;
    }
  }

  /** Weighs the cells anew; the largest logarithm of them, 0 at least. */
  weigh(): number {
    const { numbers, logWeights, weights, count } = this;
    let highest = 0;
    for (let onset = 0; onset < count; onset++) {
      for (let cause = 0; cause < kinds; cause++) {
        const cell = onset * kinds + cause;
        const { spread, positive, share } = causes[cause];
        const variance = 1 / (numbers[cell * width + SQUARE] + 1 / spreadsSquared[cause]);
        const deviation = Math.sqrt(variance);
        const z = numbers[cell * width + SUM] * deviation;
        const prior = Math.log((2 * weights[onset] * share * deviation) / spread);
        logWeights[cell] = prior + 0.5 * z * z + logSides(positive, z);
        if (logWeights[cell] > highest) {
          highest = logWeights[cell];
          this.likeliest = onset;
        }
      }
    }
    return highest;
  }

  /** Prior probability times likelihood over that of no change, over the exponential of `shift`; of the cells as last weighed. */
  weightOf(cell: number, shift: number): number {
    return Math.exp(this.logWeights[cell] - shift);
  }

  /** Moments of a normal distribution whose two sides are weighed unlike: Johnson, Kotz and Balakrishnan (1994), ch. 13, both sides. */
  amplitudeOf(cell: number): Amplitude {
    const { numbers } = this;
    const cause = this.causeOf(cell);
    const { positive } = causes[cause];
    const variance = 1 / (numbers[cell * width + SQUARE] + 1 / spreadsSquared[cause]);
    const middle = numbers[cell * width + SUM] * variance;
    const deviation = Math.sqrt(variance);
    const z = middle / deviation;
    const pull = deviation * (2 * positive - 1) * Math.exp(logNormalDensity(z) - logSides(positive, z));
    const mean = middle + pull;
    return { mean, variance: middle * middle + variance + middle * pull - mean * mean };
  }

  /** How the filter's state stands beside the true one, for a jump of one unit in a cell. */
  errorOf(cell: number): Float64Array {
    return this.numbers.subarray(cell * width, cell * width + ORDER);
  }

  /** Probability before any reading that nothing has begun yet. */
  get quiet(): number {
    let begun = 0;
    for (let onset = 0; onset < this.count; onset++) begun += this.weights[onset];
    return 1 - begun;
  }
}

function logSides(positive: number, z: number): number {
  if (positive === 0.5) return Math.log(0.5);
  if (positive === 1) return logNormalBelow(z);
  const below = normalBelow(z);
  return Math.log(positive * below + (1 - positive) * (1 - below));
}
