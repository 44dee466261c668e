/** Level, unaccelerated flight of an aircraft with so much fuel on a day of one temperature offset, at any Mach and pressure altitude. */
import { calibratedAirspeed, dynamicPressure, equivalentAirspeed } from '../air/airdata.ts';
import { newAir } from '../air/day.ts';
import { offsetDay } from '../air/offset-day.ts';
import { quickTotalTemperature } from '../air/quick-total.ts';
import { standardGravity } from '../quantities/constants.ts';
import type { AeroPoint, Aircraft, LimitInputs } from './aircraft.ts';
import { newLimitInputs } from './limits.ts';

/** SI; written in place by the function that `levelFlight` gives. NaN where a table ends. */
export interface LevelPoint {
  geometricHeightM: number;
  readonly aero: AeroPoint;
  liftCoefficient: number;
  dragN: number;
  readonly limitInputs: LimitInputs;
}

/** Lift is the weight at standard gravity, thrust adds nothing to it; throws `OutsideRange` for an offset beyond 50 K. */
export function levelFlight(
  aircraft: Aircraft,
  fuelKg: number,
  temperatureOffsetK: number,
): (mach: number, pressureAltitudeM: number) => LevelPoint {
  const { aerodynamics, balance, gauges } = aircraft;
  const day = offsetDay(temperatureOffsetK);
  const air = newAir();
  const limitInputs = newLimitInputs();
  limitInputs.fuelKg = fuelKg;
  limitInputs.massKg = balance.emptyMassKg + fuelKg;
  const aero: AeroPoint = {
    liftSlope: 0,
    zeroLiftAngleRad: 0,
    zeroLiftDrag: 0,
    inducedFactor: 0,
    outside: 0,
  };
  const point: LevelPoint = { geometricHeightM: 0, aero, liftCoefficient: 0, dragN: 0, limitInputs };
  return (mach, pressureAltitudeM) => {
    day.sample(0, 0, pressureAltitudeM, 0, air);
    limitInputs.cgFraction = balance.cgFraction(fuelKg, mach);
    aerodynamics.at(mach, pressureAltitudeM, air.geometricHeightM, limitInputs.cgFraction, aero);
    const force = dynamicPressure(mach, air.pressurePa) * aerodynamics.wingAreaM2;
    const known = aero.outside === 0 && force > 0;
    const lift = known ? (limitInputs.massKg * standardGravity) / force : Number.NaN;
    const angle = aero.zeroLiftAngleRad + lift / aero.liftSlope;
    const total = quickTotalTemperature(air.temperatureK, mach * air.speedOfSoundMS);
    point.geometricHeightM = air.geometricHeightM;
    point.liftCoefficient = lift;
    point.dragN = force * (aero.zeroLiftDrag + aero.inducedFactor * lift * lift);
    limitInputs.mach = mach;
    limitInputs.pressureAltitudeM = pressureAltitudeM;
    limitInputs.equivalentAirspeedMS = equivalentAirspeed(mach, air.pressurePa);
    limitInputs.calibratedAirspeedMS = calibratedAirspeed(mach, air.pressurePa);
    limitInputs.staticTemperatureK = air.temperatureK;
    limitInputs.indicatedInletTemperatureK =
      air.temperatureK + gauges.inletTemperatureRecovery * (total - air.temperatureK);
    limitInputs.angleOfAttackRad = angle;
    limitInputs.ledAngleOfAttackRad = angle;
    return point;
  };
}
