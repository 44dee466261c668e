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

  /**
   * State and covariance through `transition` (row by row), then `noise` added to the variance of each state. Entries that are 0 cost
   * nothing: transitions are mostly empty.
   */
  predict(transition: Float64Array, noise: ArrayLike<number>): void {
    const { order, state, covariance, work, column } = this;
    column.fill(0);
    work.fill(0);
    for (let i = 0; i < order; i++) {
      for (let k = 0; k < order; k++) {
        const entry = transition[i * order + k];
        if (entry === 0) continue;
        column[i] += entry * state[k];
        for (let j = 0; j < order; j++) work[i * order + j] += entry * covariance[k * order + j];
      }
    }
    state.set(column);
    covariance.fill(0);
    for (let j = 0; j < order; j++) {
      for (let k = 0; k < order; k++) {
        const entry = transition[j * order + k];
        if (entry === 0) continue;
        for (let i = j; i < order; i++) covariance[i * order + j] += work[i * order + k] * entry;
      }
    }
    for (let i = 0; i < order; i++) {
      covariance[i * order + i] += noise[i];
      for (let j = 0; j < i; j++) covariance[j * order + i] = covariance[i * order + j];
    }
  }

  /** Variance that a measurement of `row` times the state, itself of `variance`, is expected to have. */
  innovationVariance(row: ArrayLike<number>, variance: number): number {
    const { order, covariance, column } = this;
    let sum = variance;
    column.fill(0);
    for (let k = 0; k < order; k++) {
      if (row[k] === 0) continue;
      for (let i = 0; i < order; i++) column[i] += covariance[k * order + i] * row[k];
    }
    for (let i = 0; i < order; i++) sum += row[i] * column[i];
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
