/** Steady level flight at one point: the thrust it needs, the power that gives it, and what the limits read there. */
import { calibratedAirspeed, equivalentAirspeed } from '../air/airdata.ts';
import { quickTotalTemperature } from '../air/quick-total.ts';
import { geometricFromGeopotential, standardPressure, standardTemperature } from '../air/standard.ts';
import type { AeroPoint, Aircraft, EnginePoint, LimitInputs } from '../aircraft/aircraft.ts';
import { newLimitInputs } from '../aircraft/limits.ts';
import { gammaAir, gasConstant, standardGravity } from '../quantities/constants.ts';

/** One level point; filled in place. Forces of the whole aircraft in newtons. */
export interface LevelPoint {
  thrustN: number;
  /** Power of each engine; NaN where the greatest thrust is less than needed. */
  power: number;
  fuelFlowKgS: number;
  trueAirspeedMS: number;
  liftToDrag: number;
  /** Not 0 where a table of the deck was left. */
  outside: number;
  readonly inputs: LimitInputs;
}

export function newLevelPoint(): LevelPoint {
  return {
    thrustN: 0.5,
    power: 0.5,
    fuelFlowKgS: 0.5,
    trueAirspeedMS: 0.5,
    liftToDrag: 0.5,
    outside: 0,
    inputs: newLimitInputs(),
  };
}

const aero: AeroPoint = {
  liftSlope: 1.5,
  zeroLiftAngleRad: 0.5,
  zeroLiftDrag: 0.5,
  inducedFactor: 0.5,
  outside: 0,
};
const engine: EnginePoint = { thrustN: 0.5, fuelFlowKgS: 0.5, power: 0.5, outside: 0 };

/**
 * Level flight at `mach` and `pressureAltitudeM` where the air is `temperatureOffsetK` from standard: lift and the
 * normal part of thrust carry `weightN` (what curvature and rotation leave of it), thrust along the path equals drag.
 * `fuelKg` sets CG and limits. Right to 1e-9 of weight after at most eight iterations of angle of attack.
 */
export function levelFlight(
  aircraft: Aircraft,
  mach: number,
  pressureAltitudeM: number,
  temperatureOffsetK: number,
  weightN: number,
  fuelKg: number,
  out: LevelPoint,
): void {
  const temperature = standardTemperature(pressureAltitudeM) + temperatureOffsetK;
  const pressure = standardPressure(pressureAltitudeM);
  const speed = mach * Math.sqrt(gammaAir * gasConstant * temperature);
  const height = geometricFromGeopotential(pressureAltitudeM);
  const cg = aircraft.balance.cgFraction(fuelKg, mach);
  const force = 0.5 * gammaAir * pressure * mach * mach * aircraft.aerodynamics.wingAreaM2;
  aircraft.aerodynamics.at(mach, pressureAltitudeM, height, cg, aero);
  let alpha = 0;
  let lift = weightN;
  let thrust = 0;
  for (let iteration = 0; iteration < 8; iteration++) {
    const coefficient = lift / force;
    alpha = aero.zeroLiftAngleRad + coefficient / aero.liftSlope;
    thrust = (force * (aero.zeroLiftDrag + aero.inducedFactor * coefficient * coefficient)) / Math.cos(alpha);
    const next = weightN - thrust * Math.sin(alpha);
    if (Math.abs(next - lift) < 1e-9 * weightN) break;
    lift = next;
  }
  const { propulsion } = aircraft;
  const engines = propulsion.engines.length;
  propulsion.powerFor(thrust / engines, mach, pressureAltitudeM, height, temperatureOffsetK, engine);
  out.thrustN = thrust;
  out.power = engine.power;
  out.fuelFlowKgS = engine.fuelFlowKgS * engines;
  out.trueAirspeedMS = speed;
  out.liftToDrag = lift / (thrust * Math.cos(alpha));
  out.outside = aero.outside | engine.outside;
  const inputs = out.inputs;
  inputs.mach = mach;
  inputs.pressureAltitudeM = pressureAltitudeM;
  inputs.equivalentAirspeedMS = equivalentAirspeed(mach, pressure);
  inputs.calibratedAirspeedMS = calibratedAirspeed(mach, pressure);
  inputs.staticTemperatureK = temperature;
  const total = quickTotalTemperature(temperature, speed);
  inputs.indicatedInletTemperatureK =
    temperature + aircraft.gauges.inletTemperatureRecovery * (total - temperature);
  inputs.angleOfAttackRad = alpha;
  inputs.ledAngleOfAttackRad = alpha;
  inputs.fuelKg = fuelKg;
  inputs.massKg = weightN / standardGravity;
  inputs.loadFactor = lift / weightN;
  inputs.cgFraction = cg;
}
