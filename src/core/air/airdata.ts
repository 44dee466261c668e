/**
 * Air data with constant gamma 1.4: Mach, airspeeds and pressures of one another.
 *
 * Conventions: SI; pressures absolute unless named impact or dynamic; Mach = TAS / sqrt(1.4 R T).
 * Impact pressure is what a pitot tube measures above static: isentropic below Mach 1, behind a normal shock above
 * (Rayleigh). Sources: NACA Report 1135 (1953) equations 44 and 100; Gracey, NASA RP-1046 (1980).
 */
import { seaLevelPressure, seaLevelSpeedOfSound } from '../quantities/constants.ts';
import { OutsideRange } from '../quantities/errors.ts';
import type {
  CalibratedAirspeed,
  EquivalentAirspeed,
  Mach,
  StaticPressure,
  StaticTemperature,
} from '../quantities/kinds.ts';

/** qc/p at Mach 1: 1.2^3.5 - 1. */
const sonicRatio = 1.2 ** 3.5 - 1;

/**
 * Impact pressure over static pressure, qc/p, at a Mach number from 0; isentropic below 1, Rayleigh's pitot formula above.
 * Below Mach 1 it is (1 + u)^7 - 1 written out in u = sqrt(1 + 0.2 M^2) - 1, so that no digit of a low speed is lost.
 */
export function impactRatio(mach: Mach): number {
  const square = mach * mach;
  if (mach <= 1) {
    const u = (0.2 * square) / (Math.sqrt(1 + 0.2 * square) + 1);
    return u * (7 + u * (21 + u * (35 + u * (35 + u * (21 + u * (7 + u))))));
  }
  // Rayleigh: pt2/p = (1.2 M^2)^3.5 (6 / (7 M^2 - 1))^2.5 = 1.2^3.5 6^2.5 M^7 / (7 M^2 - 1)^2.5
  const d = 7 * square - 1;
  return (rayleigh * square * square * square * mach) / (d * d * Math.sqrt(d)) - 1;
}
const rayleigh = 1.2 ** 3.5 * 6 ** 2.5;

/**
 * Mach of an impact ratio qc/p from 0: the inverse of `impactRatio`. Closed form below Mach 1; above it Newton's method
 * on Rayleigh's formula from a start that is never lower than the root, to 1e-14.
 */
export function machFromImpactRatio(ratio: number): Mach {
  if (!(ratio >= 0)) throw new OutsideRange('impact pressure ratio', ratio, '1', 0, Infinity, 'a pitot tube');
  if (ratio <= sonicRatio) {
    // expm1 and log1p keep the digits of low speeds: M^2 = 5 ((1 + r)^(2/7) - 1)
    return Math.sqrt(5 * Math.expm1((2 / 7) * Math.log1p(ratio)));
  }
  const target = (ratio + 1) / rayleigh;
  // For great M the right side tends to M^2 / 7^2.5; the first correction of 1/M^2 gives the start.
  let square = target * 7 ** 2.5 - 2.5 / 7;
  if (square < 1) square = 1;
  for (let iteration = 0; iteration < 40; iteration++) {
    const d = 7 * square - 1;
    const value = square ** 3.5 / d ** 2.5 - target;
    const slope = (square ** 2.5 / d ** 3.5) * (7 * square - 3.5);
    const step = value / slope;
    square -= step;
    if (Math.abs(step) <= 1e-14 * square) break;
  }
  return Math.sqrt(square);
}

/** Calibrated airspeed [m/s] at a Mach and static pressure [Pa]: the sea-level standard speed of the same impact pressure. */
export function calibratedAirspeed(mach: Mach, pressurePa: StaticPressure): CalibratedAirspeed {
  return seaLevelSpeedOfSound * machFromImpactRatio((impactRatio(mach) * pressurePa) / seaLevelPressure);
}

/** Impact pressure [Pa] that a calibrated airspeed [m/s] stands for. */
export function impactPressureOfCalibrated(calibratedMS: CalibratedAirspeed): number {
  return impactRatio(calibratedMS / seaLevelSpeedOfSound) * seaLevelPressure;
}

/** Mach at a calibrated airspeed [m/s] and static pressure [Pa]. */
export function machFromCalibrated(calibratedMS: CalibratedAirspeed, pressurePa: StaticPressure): Mach {
  return machFromImpactRatio(impactPressureOfCalibrated(calibratedMS) / pressurePa);
}

/** Equivalent airspeed [m/s] at a Mach and static pressure [Pa]: EAS = sqrt(2 q / rho0) = M a0 sqrt(p/p0). */
export function equivalentAirspeed(mach: Mach, pressurePa: StaticPressure): EquivalentAirspeed {
  return mach * seaLevelSpeedOfSound * Math.sqrt(pressurePa / seaLevelPressure);
}

/** Mach at an equivalent airspeed [m/s] and static pressure [Pa]. */
export function machFromEquivalent(equivalentMS: EquivalentAirspeed, pressurePa: StaticPressure): Mach {
  return equivalentMS / (seaLevelSpeedOfSound * Math.sqrt(pressurePa / seaLevelPressure));
}

/** Dynamic pressure [Pa], q = 0.7 p M^2. */
export function dynamicPressure(mach: Mach, pressurePa: StaticPressure): number {
  return 0.7 * pressurePa * mach * mach;
}

/** Impact pressure qc [Pa]. */
export function impactPressure(mach: Mach, pressurePa: StaticPressure): number {
  return impactRatio(mach) * pressurePa;
}

/** Total temperature [K] with constant cp: T (1 + 0.2 M^2). Beyond Mach 2 use `totalTemperature` of perfect-air. */
export function totalTemperatureConstantCp(mach: Mach, temperatureK: StaticTemperature): number {
  return temperatureK * (1 + 0.2 * mach * mach);
}

/** Static pressure [Pa] at which an equivalent airspeed [m/s] is a Mach number: where a climb at constant EAS meets it. */
export function pressureWhereEquivalentMeets(equivalentMS: EquivalentAirspeed, mach: Mach): StaticPressure {
  const ratio = equivalentMS / (mach * seaLevelSpeedOfSound);
  return seaLevelPressure * ratio * ratio;
}

/** Static pressure [Pa] at which a calibrated airspeed [m/s] is a Mach number. */
export function pressureWhereCalibratedMeets(calibratedMS: CalibratedAirspeed, mach: Mach): StaticPressure {
  return impactPressureOfCalibrated(calibratedMS) / impactRatio(mach);
}
