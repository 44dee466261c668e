/**
 * Take-off and landing of Sandmartin, integrated on the ground run. Rolling friction 0.02, braking 0.25 g with a parachute
 * (usual values, from memory); the rest is notional.
 */
import { standardPressure, standardTemperature } from '../../../src/core/air/standard.ts';
import {
  gammaAir,
  gasConstant,
  seaLevelDensity,
  standardGravity,
} from '../../../src/core/quantities/constants.ts';
import { airframe, dragDueToLift, liftSlope, zeroLiftDrag } from './airframe.ts';
import { engine } from './engine.ts';

const degree = Math.PI / 180;
const groundAngle = 1.5 * degree;
const liftOffAngle = 11 * degree;
const approachAngle = 10 * degree;
const gearDrag = 0.022;
const rolling = 0.02;
const braking = 0.25;
const lowMach = 0.25;

export interface GroundRun {
  groundRollM: number;
  timeS: number;
  fuelKg: number;
  liftOffSpeedMS: number;
}

/** Ground run with both engines in full afterburner from brake release to lift-off, no wind, level runway. */
export function takeOff(massKg: number, pressureAltitudeM: number, offsetK: number): GroundRun {
  const pressure = standardPressure(pressureAltitudeM);
  const temperature = standardTemperature(pressureAltitudeM) + offsetK;
  const density = pressure / (gasConstant * temperature);
  const sound = Math.sqrt(gammaAir * gasConstant * temperature);
  const weight = massKg * standardGravity;
  const slope = liftSlope(lowMach);
  const factor = dragDueToLift(lowMach) / slope;
  const lift = slope * groundAngle;
  const drag = zeroLiftDrag(lowMach, pressureAltitudeM) + gearDrag + factor * lift * lift;
  const liftOff = Math.sqrt((2 * weight) / (density * airframe.wingAreaM2 * slope * liftOffAngle));

  // Thrust is smooth in speed: the cycle at nine speeds and Simpson's rule over dt = dV/a are exact to 1e-5.
  const parts = 8;
  const sum = { time: 0, distance: 0, fuel: 0 };
  for (let i = 0; i <= parts; i++) {
    const speed = (liftOff * i) / parts;
    const weightOfPoint = ((i === 0 || i === parts ? 1 : i % 2 === 1 ? 4 : 2) * (liftOff / parts)) / 3;
    const one = engine(speed / sound, pressure, temperature, 'maximumAfterburner');
    const force = 0.5 * density * speed * speed * airframe.wingAreaM2;
    const friction = rolling * Math.max(0, weight - force * lift);
    const acceleration = (2 * one.thrustN - force * drag - friction) / massKg;
    sum.time += weightOfPoint / acceleration;
    sum.distance += (weightOfPoint * speed) / acceleration;
    sum.fuel += (weightOfPoint * 2 * one.fuelFlowKgS) / acceleration;
  }
  return { groundRollM: sum.distance, timeS: sum.time, fuelKg: sum.fuel, liftOffSpeedMS: liftOff };
}

/** Equivalent airspeed [m/s] of the approach at a mass [kg]. */
export function approachSpeed(massKg: number): number {
  const lift = liftSlope(lowMach) * approachAngle;
  return Math.sqrt((2 * massKg * standardGravity) / (seaLevelDensity * airframe.wingAreaM2 * lift));
}

/** Ground run [m] from touch-down at 0.95 of the approach speed. */
export function landingRoll(massKg: number, pressureAltitudeM: number, offsetK: number): number {
  const density =
    standardPressure(pressureAltitudeM) / (gasConstant * (standardTemperature(pressureAltitudeM) + offsetK));
  const touchDown = 0.95 * approachSpeed(massKg) * Math.sqrt(seaLevelDensity / density);
  return touchDown ** 2 / (2 * braking * standardGravity);
}
