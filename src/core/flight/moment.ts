import type { LimitInputs } from '../aircraft/aircraft.ts';
import { newLimitInputs } from '../aircraft/limits.ts';
import { type FlightState, newState } from './state.ts';

/**
 * Everything that a trace, a limit or a card needs to know of one moment; filled in place by `Flight.describe`, at
 * recorded points and events only. Forces are those of the whole aircraft in newtons.
 */
export interface Moment extends FlightState {
  courseRad: number;
  mach: number;
  equivalentAirspeedMS: number;
  calibratedAirspeedMS: number;
  groundSpeedMS: number;
  dynamicPressurePa: number;
  staticTemperatureK: number;
  /** From the standard atmosphere at the same pressure altitude. */
  temperatureOffsetK: number;
  totalTemperatureK: number;
  /** As the inlet gauge reads it, with the probe's recovery. */
  indicatedInletTemperatureK: number;
  windEastMS: number;
  windNorthMS: number;
  /** Along and to the right of the course over the ground. */
  tailwindMS: number;
  windFromLeftMS: number;
  geometricHeightM: number;
  /** geometric height + V^2 / (2 g0), V through the air. */
  energyHeightM: number;
  /** Of geometric height. */
  climbRateMS: number;
  /** Of true airspeed, m/s2. */
  accelerationMS2: number;
  pathAngleRateRadS: number;
  angleOfAttackRad: number;
  /** d(alpha)/dt and alpha + lead * d(alpha)/dt; equal to alpha where the rate is not known. */
  ledAngleOfAttackRad: number;
  /** Lift / (m g0); thrust has no part in it. */
  loadFactor: number;
  liftN: number;
  dragN: number;
  thrustN: number;
  /** The greatest thrust at this moment, all running engines at their highest setting. */
  availableThrustN: number;
  /** Power on the deck's ladder: the highest of the running engines, and each by itself (NaN: not running). */
  power: number;
  readonly enginePowers: Float64Array;
  fuelFlowKgS: number;
  /** (T cos alpha - D) / weight. */
  excessThrustRatio: number;
  /** (T cos alpha - D) V / (m g0). */
  specificExcessPowerMS: number;
  fuelKg: number;
  cgFraction: number;
  /** What the aircraft's limits read. */
  readonly limitInputs: LimitInputs;
}

export function newMoment(engines = 8): Moment {
  return {
    ...newState(),
    courseRad: 0.5,
    mach: 0.5,
    equivalentAirspeedMS: 0.5,
    calibratedAirspeedMS: 0.5,
    groundSpeedMS: 0.5,
    dynamicPressurePa: 0.5,
    staticTemperatureK: 0.5,
    temperatureOffsetK: 0.5,
    totalTemperatureK: 0.5,
    indicatedInletTemperatureK: 0.5,
    windEastMS: 0.5,
    windNorthMS: 0.5,
    tailwindMS: 0.5,
    windFromLeftMS: 0.5,
    geometricHeightM: 0.5,
    energyHeightM: 0.5,
    climbRateMS: 0.5,
    accelerationMS2: 0.5,
    pathAngleRateRadS: 0.5,
    angleOfAttackRad: 0.5,
    ledAngleOfAttackRad: 0.5,
    loadFactor: 0.5,
    liftN: 0.5,
    dragN: 0.5,
    thrustN: 0.5,
    availableThrustN: 0.5,
    power: 0.5,
    enginePowers: new Float64Array(engines),
    fuelFlowKgS: 0.5,
    excessThrustRatio: 0.5,
    specificExcessPowerMS: 0.5,
    fuelKg: 0.5,
    cgFraction: 0.5,
    limitInputs: newLimitInputs(),
  };
}
