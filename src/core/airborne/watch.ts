/** A Kalman filter of the state beside a plan, for one kind of noise of the fuel gauge, and its bank of causes. */
import { Kalman } from '../numerics/kalman.ts';
import { Bank } from './bank.ts';
import { causes, slopeError } from './causes.ts';
import {
  type GaugeNoise,
  initialVariance,
  type Measurement,
  ORDER,
  type Scatter,
  type Transition,
} from './model.ts';

export class Watch {
  readonly kalman = new Kalman(ORDER);
  readonly bank: Bank;
  readonly noise: GaugeNoise;
  readonly scatter: Scatter;
  /** Logarithm of the likelihood of all readings with no further change. */
  logLikelihood = 0;

  constructor(scatter: Scatter, noise: GaugeNoise, bank = new Bank()) {
    this.bank = bank;
    this.scatter = scatter;
    this.noise = noise;
    initialVariance(scatter, noise).forEach((variance, i) => {
      this.kalman.covariance[i * ORDER + i] = variance;
    });
  }

  copy(): Watch {
    const other = new Watch(this.scatter, this.noise, new Bank(this.bank));
    other.kalman.copyFrom(this.kalman);
    other.logLikelihood = this.logLikelihood;
    return other;
  }

  /** A cause that is taken to be known began now: the filter opens for it. */
  open(index: number): void {
    const { key, direction, spread } = causes[index];
    this.widenAlong(direction, spread);
    const both = causes.find((each) => each.key === 'bothEngines');
    if (key === 'temperature' && both) this.widenAlong(both.direction, slopeError);
  }

  /** Variance added along a direction of the state. */
  widenAlong(direction: Float64Array, spread: number): void {
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
    this.bank.move(transition);
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
    this.logLikelihood -= 0.5 * (Math.log(2 * Math.PI * variance) + (surprise * surprise) / variance);
    this.bank.take(row, this.kalman.gain, surprise, variance);
    return surprise / Math.sqrt(variance);
  }
}
