/**
 * The level coordinated turn in still air: n = 1/cos(bank), R = V^2/(g tan(bank)), rate = g tan(bank)/V.
 *
 * SI, radians. V is the speed through the air; `gravityMS2` is what the lift has to balance for each mass, so that relief
 * by the Earth's curvature and rotation belongs in it. Textbook kinematics.
 */
import { OutsideRange } from '../quantities/errors.ts';

/** A level turn. */
export interface LevelTurn {
  readonly loadFactor: number;
  readonly radiusM: number;
  readonly rateRadS: number;
}

/** The level turn flown at a true airspeed [m/s] and bank [rad, above 0 and below 90 deg]. */
export function levelTurn(speedMS: number, bankRad: number, gravityMS2: number): LevelTurn {
  if (!(bankRad > 0 && bankRad < Math.PI / 2)) {
    throw new OutsideRange('bank', bankRad, 'rad', 0, Math.PI / 2, 'a level turn');
  }
  const pull = gravityMS2 * Math.tan(bankRad);
  return { loadFactor: 1 / Math.cos(bankRad), radiusM: (speedMS * speedMS) / pull, rateRadS: pull / speedMS };
}

/** Bank [rad] of a level turn with a load factor from 1. */
export function bankOfLoadFactor(loadFactor: number): number {
  if (!(loadFactor >= 1)) throw new OutsideRange('load factor', loadFactor, '1', 1, Infinity, 'a level turn');
  return Math.acos(1 / loadFactor);
}

/** Bank [rad] of a level turn with a turn rate [rad/s] at a speed [m/s]. */
export function bankOfRate(rateRadS: number, speedMS: number, gravityMS2: number): number {
  return Math.atan((rateRadS * speedMS) / gravityMS2);
}
