/** The climb just after lift-off, steady, out of ground effect. */
import type { AeroPoint, Aircraft, EnginePoint } from '../aircraft/aircraft.ts';
import type { RunwayConditions } from './ground-roll.ts';

export interface ClimbOut {
  /** Rise over run; NaN where lift and thrust do not carry the weight or a table was left. */
  readonly gradient: number;
  readonly angleOfAttackRad: number;
}

const rounds = 50;
const settled = 1e-12;

/**
 * Steady climb at a true airspeed [m/s] with so many engines at take-off power, drag coefficients of gear or a stopped engine
 * added: L = W cos(gamma) - T sin(alpha), W sin(gamma) = T cos(alpha) - D, by repeated substitution.
 */
export function climbOut(
  aircraft: Aircraft,
  on: RunwayConditions,
  trueAirspeedMS: number,
  engines: number,
  dragIncrement: number,
): ClimbOut {
  const aero: AeroPoint = {
    liftSlope: 0,
    zeroLiftAngleRad: 0,
    zeroLiftDrag: 0,
    inducedFactor: 0,
    outside: 0,
  };
  const engine: EnginePoint = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };
  const { aerodynamics, propulsion } = aircraft;
  const { pressureAltitudeM, geometricHeightM, temperatureOffsetK, cgFraction } = on;
  const mach = trueAirspeedMS / on.speedOfSoundMS;
  aerodynamics.at(mach, pressureAltitudeM, geometricHeightM, cgFraction, aero);
  propulsion.at(propulsion.maximum, mach, pressureAltitudeM, geometricHeightM, temperatureOffsetK, engine);
  const failed: ClimbOut = { gradient: Number.NaN, angleOfAttackRad: Number.NaN };
  if (aero.outside !== 0 || engine.outside !== 0) return failed;

  const weight = on.massKg * on.gravityMS2;
  const thrust = engines * engine.thrustN;
  const pressureArea = 0.5 * on.densityKgM3 * trueAirspeedMS ** 2 * aerodynamics.wingAreaM2;
  let alpha = 0;
  let sinGamma = 0;
  for (let round = 0; round < rounds; round++) {
    const lift = weight * Math.sqrt(1 - sinGamma * sinGamma) - thrust * Math.sin(alpha);
    const coefficient = lift / pressureArea;
    const drag = pressureArea * (aero.zeroLiftDrag + dragIncrement + aero.inducedFactor * coefficient ** 2);
    const before = alpha;
    alpha = aero.zeroLiftAngleRad + coefficient / aero.liftSlope;
    sinGamma = (thrust * Math.cos(alpha) - drag) / weight;
    if (Math.abs(sinGamma) >= 1) return failed;
    if (Math.abs(alpha - before) < settled) {
      return { gradient: sinGamma / Math.sqrt(1 - sinGamma * sinGamma), angleOfAttackRad: alpha };
    }
  }
  return failed;
}
