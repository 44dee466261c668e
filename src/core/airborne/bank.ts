/**
 * Beside one filter: what each cause, had it begun at each moment, would have left in the filter's surprises. Source: Willsky and
 * Jones, IEEE Trans. AC-21 (1976) 108, the generalised likelihood ratio; here the amplitude of a jump is integrated over its
 * spread and the moments are summed, which gives the odds of Bayes.
 *
 * A cell is one cause at one moment. Its numbers, each for a jump of one unit, stand in rows of all cells: the error of each of the
 * filter's states, then the sums of what would have been seen against the surprises, and of its square.
 */

import { normalBelow, normalDensity } from '../numerics/normal.ts';
import { causes } from './causes.ts';
import { ORDER, type Transition } from './model.ts';

/** Moments kept at most; those far back lie further apart. */
const mostOnsets = 20;
const kinds = causes.length;
const stride = mostOnsets * kinds;
/** Rows behind those of the states. */
const sumRow = ORDER * stride;
const squareRow = sumRow + stride;

const spreadsSquared = causes.map(({ spread }) => spread * spread);

/** What the surprises say of the amplitude in one cell. */
export interface Amplitude {
  readonly mean: number;
  readonly variance: number;
}

export class Bank {
  /** Moments kept, the earliest first. */
  count = 0;
  readonly times = new Float64Array(mostOnsets);
  /** Probability before any reading that something begins there. */
  readonly weights = new Float64Array(mostOnsets);
  private readonly rows = new Float64Array((ORDER + 2) * stride);
  private readonly seen = new Float64Array(stride);
  /** Of the cells, as last weighed: half the square of amplitude over spread, and all else that weighs. */
  private readonly exponents = new Float64Array(stride);
  private readonly factors = new Float64Array(stride);
  private likeliest = 0;

  get cells(): number {
    return this.count * kinds;
  }

  copyFrom(other: Bank): void {
    this.count = other.count;
    this.likeliest = other.likeliest;
    this.times.set(other.times);
    this.weights.set(other.weights);
    this.rows.set(other.rows);
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
    const { count, rows } = this;
    this.times[count] = timeS;
    this.weights[count] = weight;
    for (let row = 0; row < ORDER + 2; row++) {
      for (let cause = 0; cause < kinds; cause++) {
        rows[row * stride + count * kinds + cause] = row < ORDER ? causes[cause].direction[row] : 0;
      }
    }
    this.count++;
  }

  /** Gives up the moment whose neighbours lie closest for their age, never the likeliest; its weight goes to the one before. */
  private thin(nowS: number): void {
    const { count, times, weights, rows } = this;
    let least = 1;
    let closest = Number.POSITIVE_INFINITY;
    for (let i = 1; i < count - 1; i++) {
      const apart = (times[i + 1] - times[i - 1]) / (nowS - times[i]);
      if (i !== this.likeliest && apart < closest) [closest, least] = [apart, i];
    }
    weights[least - 1] += weights[least];
    times.copyWithin(least, least + 1, count);
    weights.copyWithin(least, least + 1, count);
    for (let row = 0; row < ORDER + 2; row++) {
      const start = row * stride;
      rows.copyWithin(start + least * kinds, start + (least + 1) * kinds, start + count * kinds);
    }
    if (this.likeliest > least) this.likeliest--;
    this.count--;
  }

  move(transition: Transition): void {
    transition.apply(this.rows, stride, this.cells);
  }

  /** What a measurement of `row`, with its surprise and the variance of that, says of each cell, and what the filter's gain does to it. */
  take(row: Float64Array, gain: Float64Array, surprise: number, variance: number): void {
    const { rows, seen, cells } = this;
    seen.fill(0, 0, cells);
    for (let i = 0; i < ORDER; i++) {
      const part = row[i];
      if (part === 0) continue;
      const start = i * stride;
      for (let cell = 0; cell < cells; cell++) seen[cell] += part * rows[start + cell];
    }
    const [bySurprise, bySquare] = [surprise / variance, 1 / variance];
    for (let cell = 0; cell < cells; cell++) {
      const each = seen[cell];
      rows[sumRow + cell] += each * bySurprise;
      rows[squareRow + cell] += each * each * bySquare;
    }
    for (let i = 0; i < ORDER; i++) {
      const part = gain[i];
      if (part === 0) continue;
      const start = i * stride;
      for (let cell = 0; cell < cells; cell++) rows[start + cell] -= part * seen[cell];
    }
  }

  /** Weighs the cells anew; the largest exponent of them, 0 at least. */
  weigh(): number {
    const { rows, exponents, factors, weights, count } = this;
    let highest = 0;
    for (let onset = 0; onset < count; onset++) {
      for (let cause = 0; cause < kinds; cause++) {
        const cell = onset * kinds + cause;
        const { spread, positive, share } = causes[cause];
        const variance = 1 / (rows[squareRow + cell] + 1 / spreadsSquared[cause]);
        const deviation = Math.sqrt(variance);
        const z = rows[sumRow + cell] * deviation;
        const exponent = 0.5 * z * z;
        exponents[cell] = exponent;
        factors[cell] = (2 * weights[onset] * share * deviation * sides(positive, z)) / spread;
        if (exponent > highest) {
          highest = exponent;
          this.likeliest = onset;
        }
      }
    }
    return highest;
  }

  /** Prior probability times likelihood over that of no change, over the exponential of `shift`; of the cells as last weighed. */
  weightOf(cell: number, shift: number): number {
    return this.factors[cell] * Math.exp(this.exponents[cell] - shift);
  }

  /** Moments of a normal distribution whose two sides are weighed unlike: Johnson, Kotz and Balakrishnan (1994), ch. 13, both sides. */
  amplitudeOf(cell: number): Amplitude {
    const { positive } = causes[this.causeOf(cell)];
    const variance = 1 / (this.rows[squareRow + cell] + 1 / spreadsSquared[this.causeOf(cell)]);
    const middle = this.rows[sumRow + cell] * variance;
    const deviation = Math.sqrt(variance);
    const z = middle / deviation;
    const pull = (deviation * (2 * positive - 1) * normalDensity(z)) / sides(positive, z);
    const mean = middle + pull;
    return { mean, variance: middle * middle + variance + middle * pull - mean * mean };
  }

  /** How the filter's state stands beside the true one, for a jump of one unit in a cell. */
  errorOf(cell: number, out: Float64Array): void {
    for (let i = 0; i < ORDER; i++) out[i] = this.rows[i * stride + cell];
  }

  /** Probability before any reading that nothing has begun yet. */
  get quiet(): number {
    let begun = 0;
    for (let onset = 0; onset < this.count; onset++) begun += this.weights[onset];
    return 1 - begun;
  }
}

function sides(positive: number, z: number): number {
  const below = normalBelow(z);
  return positive * below + (1 - positive) * (1 - below);
}
