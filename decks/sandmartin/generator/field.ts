/**
 * Take-off and landing of Sandmartin, integrated on the ground run. Rolling friction 0.02, landing at 0.25 g with a parachute
 * (usual values, from memory); the rest is notional.
 *
 * - Friction of braked wheels on dry and wet concrete: the low end of Raymer, Aircraft Design: A Conceptual Approach, table
 *   17.1 (from memory).
 * - Drag of an engine that windmills: D/q = 0.3 of the area of its face (Raymer 13.6, from memory).
 * - Least speed at which the fins hold the nose: thrust times arm over what the fins carry at their greatest lift; their drag
 *   due to that lift by lifting-line theory, F^2/(q pi b^2).
 * - Brakes: carbon, of mean specific heat 1.6 kJ/(kg K), warmed by 1200 K in one stop (usual values, from memory).
 * - Tyres: of the rating of 275 miles an hour (TSO-C62, from memory).
 */
import { standardPressure, standardTemperature } from '../../../src/core/air/standard.ts';
import {
  gammaAir,
  gasConstant,
  seaLevelDensity,
  seaLevelPressure,
  seaLevelTemperature,
  standardGravity,
} from '../../../src/core/quantities/constants.ts';
import { airframe, dragDueToLift, liftSlope, zeroLiftDrag } from './airframe.ts';
import { engine } from './engine.ts';

const degree = Math.PI / 180;
const groundAngleDeg = 1.5;
const groundAngle = groundAngleDeg * degree;
const liftOffAngle = 11 * degree;
const approachAngle = 10 * degree;
const gearDrag = 0.022;
const rolling = 0.02;
const braking = 0.25;
const lowMach = 0.25;
const mileAnHour = 0.44704;
const fins = { areaM2: 22, spanM: 3, count: 2, armM: 12, greatestLift: 0.6 } as const;
const engineFaceM2 = 0.75;
const engineArmM = 2.6;
const brakes = { massKg: 100, specificHeat: 1600, riseK: 1200 } as const;

/** What deck.yaml says of the aircraft on its wheels, in SI; angles in degrees. */
export function groundData() {
  const thrust = engine(0.2, seaLevelPressure, seaLevelTemperature, 'maximumAfterburner').thrustN;
  const sideForce = (thrust * engineArmM) / fins.armM;
  const controlPressure = sideForce / (fins.areaM2 * fins.greatestLift);
  // At the lift-off of a mass in the middle of the tables.
  const { liftOffSpeedMS } = takeOff(52000, 0, 0);
  const pressure = 0.5 * seaLevelDensity * liftOffSpeedMS ** 2;
  const finDrag = (fins.count * (sideForce / fins.count) ** 2) / (pressure ** 2 * Math.PI * fins.spanM ** 2);
  return {
    angleOfAttackDeg: groundAngleDeg,
    gearDrag,
    /** A ribbon parachute of 5.5 m diameter, CD 0.5. */
    brakingDrag: (0.5 * Math.PI * 5.5 ** 2) / 4 / airframe.wingAreaM2,
    engineOutDrag: (0.3 * engineFaceM2 + finDrag) / airframe.wingAreaM2,
    rollingFriction: rolling,
    brakingFriction: { dry: 0.3, wet: 0.15 },
    minimumControlSpeedMS: Math.sqrt((2 * controlPressure) / seaLevelDensity),
    tyreSpeedMS: 275 * mileAnHour,
    brakeEnergyJ: brakes.massKg * brakes.specificHeat * brakes.riseK,
  };
}

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
