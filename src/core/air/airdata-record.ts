/** Every air-data quantity of one moment, for people and files; not for the inside of a step. */
import { OutsideRange } from '../quantities/errors.ts';
import {
  calibratedAirspeed,
  dynamicPressure,
  equivalentAirspeed,
  impactPressure,
  machFromCalibrated,
  machFromEquivalent,
} from './airdata.ts';
import type { Air } from './day.ts';
import { totalPressureRatio, totalTemperature } from './thermally-perfect.ts';

/** Keys as files carry them; SI. */
export interface AirData {
  readonly pressureAltitudeM: number;
  readonly temperatureK: number;
  readonly pressurePa: number;
  readonly densityKgM3: number;
  readonly speedOfSoundMS: number;
  readonly mach: number;
  readonly calibratedAirspeedMS: number;
  readonly equivalentAirspeedMS: number;
  readonly trueAirspeedMS: number;
  readonly dynamicPressurePa: number;
  readonly impactPressurePa: number;
  readonly totalTemperatureK: number;
  readonly totalPressurePa: number;
}

/** The kinds of speed that may be given, by their key in the table of quantities. */
export type SpeedKey = 'mach' | 'calibratedAirspeedMS' | 'equivalentAirspeedMS' | 'trueAirspeedMS';

/** Mach of a speed [1 or m/s] of a kind in this air. */
export function machFromSpeed(key: SpeedKey, value: number, air: Air): number {
  switch (key) {
    case 'mach':
      return value;
    case 'calibratedAirspeedMS':
      return machFromCalibrated(value, air.pressurePa);
    case 'equivalentAirspeedMS':
      return machFromEquivalent(value, air.pressurePa);
    case 'trueAirspeedMS':
      return value / air.speedOfSoundMS;
  }
}

/**
 * All air data at a pressure altitude [m], in this air, at a Mach number from 0 to 10. Total temperature and pressure are
 * those of thermally perfect air, the rest has gamma 1.4.
 */
export function airData(pressureAltitudeM: number, air: Air, mach: number): AirData {
  if (!(mach >= 0 && mach <= 10)) throw new OutsideRange('Mach', mach, '1', 0, 10, 'air data');
  const { temperatureK, pressurePa } = air;
  const trueAirspeedMS = mach * air.speedOfSoundMS;
  const totalTemperatureK = totalTemperature(temperatureK, trueAirspeedMS);
  return {
    pressureAltitudeM,
    temperatureK,
    pressurePa,
    densityKgM3: air.densityKgM3,
    speedOfSoundMS: air.speedOfSoundMS,
    mach,
    calibratedAirspeedMS: calibratedAirspeed(mach, pressurePa),
    equivalentAirspeedMS: equivalentAirspeed(mach, pressurePa),
    trueAirspeedMS,
    dynamicPressurePa: dynamicPressure(mach, pressurePa),
    impactPressurePa: impactPressure(mach, pressurePa),
    totalTemperatureK,
    totalPressurePa: pressurePa * totalPressureRatio(temperatureK, totalTemperatureK),
  };
}
