/** Steady states with closed form: a random walk (Welch and Bishop) and Kalata's tracking index, as named in the file. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Kalman } from '../../../src/core/numerics/kalman.ts';

const file = new URL('../../published/data/kalman-steady-state.csv', import.meta.url);
const rows = readFileSync(file, 'utf8')
  .split('\n')
  .filter((line) => /^(random|alpha)/.test(line))
  .map((line) => line.split(','));
const of = (kind: string): number[][] =>
  rows.filter(([filter]) => filter === kind).map((cells) => cells.slice(1).map(Number));

describe('[AIRBORNE-2] the filter comes to its published steady state', () => {
  it('has all rows', () => {
    expect(rows.length).toBe(5);
  });

  it.each(of('random-walk'))('random walk of %f read with %f', (walk, noise, gain, _none, variance) => {
    const filter = new Kalman(1);
    filter.covariance[0] = 1;
    for (let step = 0; step < 2000; step++) {
      filter.predict(Float64Array.of(1), [walk]);
      filter.update([1], 0, noise);
    }
    expect(filter.gain[0] / gain).toBeCloseTo(1, 8);
    expect(filter.covariance[0] / variance).toBeCloseTo(1, 8);
  });

  it.each(of('alpha-beta'))('tracking index %f', (index, _none, alpha, beta) => {
    // Unit steps and unit scatter; the acceleration acts through [1/2, 1], which is turned into one noise for each state.
    const filter = new Kalman(3);
    filter.covariance.set([1e3, 0, 0, 0, 1e3, 0, 0, 0, index * index]);
    // The third state is the acceleration of one step, new in each.
    const transition = Float64Array.of(1, 1, 0.5, 0, 1, 1, 0, 0, 0);
    for (let step = 0; step < 500; step++) {
      filter.predict(transition, [0, 0, index * index]);
      filter.update([1, 0, 0], 0, 1);
    }
    expect(filter.gain[0]).toBeCloseTo(alpha, 8);
    expect(filter.gain[1]).toBeCloseTo(beta, 8);
  });
});
