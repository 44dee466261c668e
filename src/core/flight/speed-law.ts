import { calibratedAirspeed, impactPressureOfCalibrated, machFromImpactRatio } from '../air/airdata.ts';
import type { Air } from '../air/day.ts';
import { seaLevelPressure, seaLevelSpeedOfSound, standardGravity } from '../quantities/constants.ts';
import type { CalibratedAirspeed, EquivalentAirspeed, Mach, TrueAirspeed } from '../quantities/kinds.ts';

/** What a speed law asks for at one point of the air. */
export interface LawSpeed {
  trueAirspeedMS: number;
  /** d ln V / d ln p at constant temperature. */
  perLogPressure: number;
  /** d ln V / d ln T at constant pressure. */
  perLogTemperature: number;
}

/** A speed that is held while pressure and temperature change. */
export interface SpeedLaw {
  /** In SI, for a message: "EAS 221.2 m/s". */
  readonly title: string;
  at(air: Air, out: LawSpeed, massKg: number): void;
}

export function constantMach(mach: Mach): SpeedLaw {
  return {
    title: `Mach ${mach}`,
    at(air, out) {
      out.trueAirspeedMS = mach * air.speedOfSoundMS;
      out.perLogPressure = 0;
      out.perLogTemperature = 0.5;
    },
  };
}

export function constantTrueAirspeed(speedMS: TrueAirspeed): SpeedLaw {
  return {
    title: `TAS ${speedMS.toFixed(1)} m/s`,
    at(_air, out) {
      out.trueAirspeedMS = speedMS;
      out.perLogPressure = 0;
      out.perLogTemperature = 0;
    },
  };
}

/** V = EAS sqrt(rho0/rho), written as M = EAS / (a0 sqrt(p/p0)). */
export function constantEquivalentAirspeed(speedMS: EquivalentAirspeed): SpeedLaw {
  return {
    title: `EAS ${speedMS.toFixed(1)} m/s`,
    at(air, out) {
      out.trueAirspeedMS = (speedMS / speedOfMach(air)) * air.speedOfSoundMS;
      out.perLogPressure = -0.5;
      out.perLogTemperature = 0.5;
    },
  };
}

/** Impact pressure held: qc = p f(M), so that d ln M / d ln p = -f / (M f'). */
export function constantCalibratedAirspeed(speedMS: CalibratedAirspeed): SpeedLaw {
  const impact = impactPressureOfCalibrated(speedMS);
  return {
    title: `CAS ${speedMS.toFixed(1)} m/s`,
    at(air, out) {
      const ratio = impact / air.pressurePa;
      const mach = machFromImpactRatio(ratio);
      out.trueAirspeedMS = mach * air.speedOfSoundMS;
      out.perLogPressure = -ratio / (mach * impactSlope(mach, ratio));
      out.perLogTemperature = 0.5;
    },
  };
}

/** EAS = start up to the break; above it EAS = start - slope (M - break). Slope in m/s per Mach, 0 or more. */
export function bledEquivalentAirspeed(
  startMS: EquivalentAirspeed,
  breakMach: Mach,
  slopeMSPerMach: number,
): SpeedLaw {
  return {
    title: `EAS ${startMS.toFixed(1)} m/s less ${slopeMSPerMach.toFixed(1)} m/s per Mach above ${breakMach}`,
    at(air, out) {
      const unit = speedOfMach(air);
      const bled = startMS / unit > breakMach;
      const slope = bled ? slopeMSPerMach : 0;
      out.trueAirspeedMS = ((startMS + slope * breakMach) / (unit + slope)) * air.speedOfSoundMS;
      out.perLogPressure = (-0.5 * unit) / (unit + slope);
      out.perLogTemperature = 0.5;
    },
  };
}

/**
 * V = sqrt(2 m g0 / (rho S CL)): slower as mass falls. The slowing down itself, V m'/(2 m), is left out of the balance: it is
 * about 0.2 % of the drag.
 */
export function constantLiftCoefficient(liftCoefficient: number, wingAreaM2: number): SpeedLaw {
  const perMass = (2 * standardGravity) / (wingAreaM2 * liftCoefficient);
  return {
    title: `CL ${liftCoefficient.toFixed(3)}`,
    at(air, out, massKg) {
      out.trueAirspeedMS = Math.sqrt((perMass * massKg) / air.densityKgM3);
      out.perLogPressure = -0.5;
      out.perLogTemperature = 0.5;
    },
  };
}

/** The calibrated airspeed that a speed through the air is. */
export function calibratedOf(air: Air, speedMS: TrueAirspeed): CalibratedAirspeed {
  return calibratedAirspeed(speedMS / air.speedOfSoundMS, air.pressurePa);
}

/** EAS of Mach 1 at a pressure. */
function speedOfMach(air: Air): number {
  return seaLevelSpeedOfSound * Math.sqrt(air.pressurePa / seaLevelPressure);
}

/** d(qc/p)/dM of `impactRatio`, from Mach and the ratio itself. */
function impactSlope(mach: number, ratio: number): number {
  const square = mach * mach;
  if (mach <= 1) return 1.4 * mach * (1 + 0.2 * square) ** 2.5;
  return (ratio + 1) * (7 / mach - (35 * mach) / (7 * square - 1));
}
