/**
 * A linear Kalman filter whose measurements come one number at a time; knows no physics.
 * Source: Maybeck, Stochastic Models, Estimation and Control, vol. 1 (1979), sec. 5.3; the covariance is updated in the form of Joseph.
 */
export class Kalman {
  readonly order: number;
  readonly state: Float64Array;
  /** Row by row, symmetric. */
  readonly covariance: Float64Array;
  /** Of the last update. */
  readonly gain: Float64Array;
  private readonly work: Float64Array;
  private readonly column: Float64Array;

  constructor(order: number) {
    this.order = order;
    this.state = new Float64Array(order);
    this.covariance = new Float64Array(order * order);
    this.gain = new Float64Array(order);
    this.work = new Float64Array(order * order);
    this.column = new Float64Array(order);
  }

  /** State and covariance through `transition` (row by row), then `noise` added to the variance of each state. */
  predict(transition: Float64Array, noise: ArrayLike<number>): void {
    const { order, state, covariance, work, column } = this;
    for (let i = 0; i < order; i++) column[i] = dot(transition, i * order, state, order);
    state.set(column);
    for (let i = 0; i < order; i++) {
      for (let j = 0; j < order; j++) {
        // The covariance is symmetric: its row stands for its column.
        let sum = 0;
        for (let k = 0; k < order; k++) sum += transition[i * order + k] * covariance[j * order + k];
        work[i * order + j] = sum;
      }
    }
    for (let i = 0; i < order; i++) {
      for (let j = 0; j <= i; j++) {
        let sum = 0;
        for (let k = 0; k < order; k++) sum += work[i * order + k] * transition[j * order + k];
        covariance[i * order + j] = sum;
        covariance[j * order + i] = sum;
      }
      covariance[i * order + i] += noise[i];
    }
  }

  /** Variance that a measurement of `row` times the state, itself of `variance`, is expected to have. */
  innovationVariance(row: ArrayLike<number>, variance: number): number {
    const { order, covariance, column } = this;
    let sum = variance;
    for (let i = 0; i < order; i++) {
      column[i] = 0;
      for (let k = 0; k < order; k++) column[i] += covariance[i * order + k] * row[k];
      sum += row[i] * column[i];
    }
    return sum;
  }

  /** Takes a measurement whose difference from what was expected is `innovation`; returns the variance of that difference. */
  update(row: ArrayLike<number>, innovation: number, variance: number): number {
    const { order, state, covariance, gain, column } = this;
    const total = this.innovationVariance(row, variance);
    for (let i = 0; i < order; i++) {
      gain[i] = column[i] / total;
      state[i] += gain[i] * innovation;
    }
    for (let i = 0; i < order; i++) {
      for (let j = 0; j <= i; j++) {
        const value =
          covariance[i * order + j] - gain[i] * column[j] - column[i] * gain[j] + gain[i] * total * gain[j];
        covariance[i * order + j] = value;
        covariance[j * order + i] = value;
      }
    }
    return total;
  }

  copyFrom({ state, covariance }: Kalman): void {
    this.state.set(state);
    this.covariance.set(covariance);
  }
}

function dot(a: ArrayLike<number>, from: number, b: ArrayLike<number>, length: number): number {
  let sum = 0;
  for (let k = 0; k < length; k++) sum += a[from + k] * b[k];
  return sum;
}
