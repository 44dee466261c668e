/** What gauges read of a flight, once a minute, each with its own scatter. */

import type { Answer } from '../../src/core/airborne/answer.ts';
import { Estimator } from '../../src/core/airborne/estimator.ts';
import type { Entry, ReadKey } from '../../src/core/airborne/reading.ts';
import { type Chance, chance } from '../support/random.ts';
import type { Flown, Moment } from './flight.ts';

/** An error of the fuel gauge at a minute, of 50 kg at one standard deviation [kg]. */
export type GaugeError = (luck: Chance) => (trueKg: number) => number;

const SIGMA = 50;

/** New with each reading. */
export const white: GaugeError = (luck) => () => SIGMA * luck.normal();

/** Forgotten with 3 minutes. */
const correlated: GaugeError = (luck) => {
  const kept = Math.exp(-1 / 3);
  let error = SIGMA * luck.normal();
  return () => {
    error = kept * error + SIGMA * Math.sqrt(1 - kept * kept) * luck.normal();
    return error;
  };
};

/** Shown in steps of 100 kg, which scatter by 29 kg, and white beside. */
const stepped: GaugeError = (luck) => {
  const beside = Math.sqrt(SIGMA * SIGMA - 100 ** 2 / 12);
  return (trueKg) => Math.round((trueKg + beside * luck.normal()) / 100) * 100 - trueKg;
};

/** Fuel that swings in its tanks with a period of 11 s that wanders, and 20 kg of white. */
const sloshing: GaugeError = (luck) => {
  let phase = 2 * Math.PI * luck.even();
  const swing = Math.sqrt(2 * (SIGMA * SIGMA - 20 * 20));
  return () => {
    phase += 2 * Math.PI * (60 / (11 + 0.3 * luck.normal()));
    return swing * Math.sin(phase) + 20 * luck.normal();
  };
};

export const kinds: Readonly<Record<string, GaugeError>> = { white, correlated, stepped, sloshing };

export type Sensor = 'fuel' | 'flow' | 'inlet' | 'ground';

/** The readings of one minute. */
export function readingsOf(
  moment: Moment,
  sensors: readonly Sensor[],
  luck: Chance,
  gauge: (trueKg: number) => number,
): Entry[] {
  const { timeS } = moment;
  const read = (key: ReadKey, value: number): Entry => ({ timeS, key, value, status: 'read' });
  return sensors.flatMap((sensor): Entry[] => {
    switch (sensor) {
      case 'fuel':
        return [read('fuelKg', moment.fuelKg + moment.gaugeKg + gauge(moment.fuelKg))];
      case 'flow':
        return [
          read('fuelFlowLeftKgS', moment.leftKgS * (1 + 0.01 * luck.normal())),
          read('fuelFlowRightKgS', moment.rightKgS * (1 + 0.01 * luck.normal())),
        ];
      case 'inlet':
        return [
          read('mach', 2.85 + 0.003 * luck.normal()),
          read('inletTemperatureK', moment.inletTemperatureK + 2 * luck.normal()),
        ];
      default:
        return [read('groundSpeedMS', moment.groundSpeedMS + 2 * luck.normal())];
    }
  });
}

export interface Outcome {
  /** Minute of the first alert; null where there was none. */
  readonly alertMin: number | null;
  readonly answers: ReadonlyMap<number, Answer>;
  /** Fuel read each minute less planned [kg]. */
  readonly fuelOffKg: readonly number[];
}

/** One sortie read once a minute; answers are kept at the minutes asked for. */
export function read(
  { expectation, moments }: Flown,
  sensors: readonly Sensor[],
  seed: number,
  asked: readonly number[] = [],
  error: GaugeError = white,
): Outcome {
  const luck = chance(seed);
  const gauge = error(luck);
  const estimator = new Estimator(expectation);
  const answers = new Map<number, Answer>();
  const fuelOffKg: number[] = [];
  let alertMin: number | null = null;
  for (const moment of moments) {
    if (moment.timeS % 60 !== 0) continue;
    const minute = moment.timeS / 60;
    for (const entry of readingsOf(moment, sensors, luck, gauge)) {
      estimator.add(entry);
      if (entry.key === 'fuelKg') fuelOffKg.push(entry.value - expectation.fuelAt(moment.timeS));
    }
    if (alertMin === null && estimator.alerting) alertMin = minute;
    if (asked.includes(minute)) answers.set(minute, estimator.answer());
  }
  return { alertMin, answers, fuelOffKg };
}

/** The greatest evidence for any change in a sortie read once a minute. */
export function greatestEvidence(
  { expectation, moments }: Flown,
  sensors: readonly Sensor[],
  luck: Chance,
  error: GaugeError,
): number {
  const gauge = error(luck);
  const estimator = new Estimator(expectation);
  let greatest = 0;
  for (const moment of moments) {
    if (moment.timeS % 60 !== 0) continue;
    for (const entry of readingsOf(moment, sensors, luck, gauge)) estimator.add(entry);
    greatest = Math.max(greatest, estimator.evidence);
  }
  return greatest;
}
