/**
 * One-dimensional flow of a perfect gas with gamma 7/5: isentropic ratios, expansion, normal shock.
 *
 * Source: NACA Report 1135 (1953), Equations, Tables and Charts for Compressible Flow; equation numbers from memory.
 * Ratios are static over total unless named otherwise; Mach from 0, and from 1 where a function says supersonic.
 */
import { OutsideRange } from '../quantities/errors.ts';
import type { Mach } from '../quantities/kinds.ts';

/** T/Tt, equation 43. */
export function temperatureRatio(mach: Mach): number {
  return 1 / (1 + 0.2 * mach * mach);
}

/** p/pt, equation 44. */
export function pressureRatio(mach: Mach): number {
  return temperatureRatio(mach) ** 3.5;
}

/** rho/rhot, equation 45. */
export function densityRatio(mach: Mach): number {
  return temperatureRatio(mach) ** 2.5;
}

/** A/A*, the area of a stream tube over that where it is sonic, equation 80. Infinite at Mach 0. */
export function areaRatio(mach: Mach): number {
  return ((1 + 0.2 * mach * mach) / 1.2) ** 3 / mach;
}

/** Prandtl-Meyer angle [rad], the turn of a sonic stream that expands to a supersonic Mach, equation 171c. */
export function prandtlMeyer(mach: Mach): number {
  requireSupersonic(mach);
  const beta = Math.sqrt(mach * mach - 1);
  return Math.sqrt(6) * Math.atan(beta / Math.sqrt(6)) - Math.atan(beta);
}

/** Mach angle [rad], asin(1/M), supersonic. */
export function machAngle(mach: Mach): number {
  requireSupersonic(mach);
  return Math.asin(1 / mach);
}

/** What a normal shock makes of a supersonic stream: ratios behind over ahead. */
export interface NormalShock {
  readonly machBehind: number;
  readonly pressure: number;
  readonly density: number;
  readonly temperature: number;
  readonly totalPressure: number;
}

/** A normal shock at a supersonic Mach, equations 93 to 99. */
export function normalShock(mach: Mach): NormalShock {
  requireSupersonic(mach);
  const square = mach * mach;
  const pressure = (7 * square - 1) / 6;
  const density = (6 * square) / (square + 5);
  return {
    machBehind: Math.sqrt((square + 5) / (7 * square - 1)),
    pressure,
    density,
    temperature: pressure / density,
    totalPressure: density ** 3.5 * pressure ** -2.5,
  };
}

function requireSupersonic(mach: number): void {
  if (mach >= 1) return;
  throw new OutsideRange('Mach', mach, '1', 1, Infinity, 'supersonic flow');
}
