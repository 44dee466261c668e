/** A cause in the bank says what a filter that was opened for it says: likelihood, size and state, by another computation. */
import { describe, expect, it } from 'vitest';
import type { Bank } from '../../../src/core/airborne/bank.ts';
import { causes } from '../../../src/core/airborne/causes.ts';
import { newExpected } from '../../../src/core/airborne/expectation.ts';
import {
  gaugeNoises,
  measure,
  newMeasurement,
  ORDER,
  STATE,
  Transition,
  usualScatter,
} from '../../../src/core/airborne/model.ts';
import type { ReadKey } from '../../../src/core/airborne/reading.ts';
import { Watch } from '../../../src/core/airborne/watch.ts';
import { chance } from '../../support/random.ts';
import { steady } from '../../trials/flight.ts';

const { expectation } = steady(60);
const keys: readonly ReadKey[] = ['fuelKg', 'fuelFlowLeftKgS', 'fuelFlowRightKgS', 'groundSpeedMS'];
const notRead = { mach: null, pressureAltitudeM: null };

/** An hour read each minute; `at` is called before each minute's readings. */
function fly(watch: Watch, at: (watch: Watch, minute: number) => void): Watch {
  const luck = chance(60_000);
  const [before, now] = [newExpected(), newExpected()];
  const transition = new Transition();
  const measurement = newMeasurement();
  for (let minute = 1; minute <= 60; minute++) {
    expectation.at(60 * (minute - 1), before);
    expectation.at(60 * minute, now);
    at(watch, minute - 1);
    transition.between(before, now, 0);
    watch.move(transition);
    for (const key of keys) {
      measure(key, now, notRead, usualScatter, measurement);
      const value = measurement.expected + Math.sqrt(measurement.variance) * luck.normal();
      watch.take(measurement, value, key === 'fuelKg');
    }
  }
  return watch;
}

/** The moment of the bank at 40 min, or the next before that was kept. */
function onsetOf({ times, count }: Bank): number {
  return times.subarray(0, count).findLastIndex((timeS) => timeS <= 2400);
}

describe.each(['gauge', 'headwind'] as const)('[AIRBORNE-7] %s', (key) => {
  const cause = causes.findIndex((each) => each.key === key);
  const [noise] = gaugeNoises;
  const watch = fly(new Watch(usualScatter, noise), ({ bank }, minute) => {
    bank.begin(60 * minute, 1 / 60);
  });
  const { bank } = watch;
  const onset = onsetOf(bank);
  const cell = Array.from({ length: bank.cells }, (_, i) => i).find(
    (i) => bank.onsetOf(i) === onset && bank.causeOf(i) === cause,
  ) as number;
  const opened = fly(new Watch(usualScatter, noise), (each, minute) => {
    if (60 * minute === bank.times[onset]) each.open(cause);
  });

  it('likelihood', () => {
    bank.weigh();
    const prior = bank.weights[onset] * causes[cause].share;
    const gain = Math.log(bank.weightOf(cell, 0) / prior);
    expect(gain).toBeCloseTo(opened.logLikelihood - watch.logLikelihood, 8);
  });

  it('state and its variance', () => {
    const { mean, variance } = bank.amplitudeOf(cell);
    const error = bank.errorOf(cell);
    for (let i = 0; i < ORDER; i++) {
      expect(watch.kalman.state[i] + mean * error[i]).toBeCloseTo(opened.kalman.state[i], 6);
      const own = watch.kalman.covariance[i * ORDER + i] + variance * error[i] ** 2;
      const other = opened.kalman.covariance[i * ORDER + i];
      expect(Math.abs(own - other)).toBeLessThan(1e-9 * (1 + other));
    }
  });
});

describe('[AIRBORNE-7] the bank as a whole', () => {
  it('keeps all probability when moments are given up', () => {
    const { bank } = fly(new Watch(usualScatter, gaugeNoises[0]), (each, minute) => {
      each.bank.begin(60 * minute, 1 / 90);
    });
    expect(bank.quiet).toBeCloseTo(1 / 3, 12);
    const times = [...bank.times.subarray(0, bank.count)];
    expect(times[0]).toBe(0);
    expect(times.at(-1)).toBe(3540);
    expect(times).toEqual([...times].sort((a, b) => a - b));
  });

  // A half-normal distribution of scale 1 has mean sqrt(2 / pi) and variance 1 - 2 / pi.
  it('a leak that nothing was read of is as large as it is wont to be', () => {
    const { bank } = new Watch(usualScatter, gaugeNoises[0]);
    bank.begin(0, 1);
    const leak = causes.findIndex(({ direction }) => direction[STATE.leak] === 1);
    const { mean, variance } = bank.amplitudeOf(leak);
    expect(mean).toBeCloseTo(causes[leak].spread * Math.sqrt(2 / Math.PI), 6);
    expect(variance).toBeCloseTo(causes[leak].spread ** 2 * (1 - 2 / Math.PI), 6);
  });
});
