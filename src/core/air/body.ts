/** What the pressure outside means to a body without a suit. */
import { pressureAltitudeOf } from './standard.ts';

/** Pressure of water vapour at 37 degC, 47 mmHg (the physiologists' value, from memory; 6.28 kPa by the IAPWS formulation). */
export const bodyVapourPressurePa = 47 * 133.322;

/** Pressure altitude [m] above which water boils at the temperature of the body: about 62 800 ft, on any day. */
export const bodyBoilingAltitudeM = pressureAltitudeOf(bodyVapourPressurePa);

/** Time [s] of a flight above a pressure altitude [m], its altitude linear between the nodes of two columns of equal length. */
export function timeAbove(
  altitudeM: number,
  timeS: ArrayLike<number>,
  pressureAltitudeM: ArrayLike<number>,
): number {
  let above = 0;
  for (let i = 1; i < timeS.length; i++) {
    const before = pressureAltitudeM[i - 1] - altitudeM;
    const after = pressureAltitudeM[i] - altitudeM;
    const reach = Math.max(before, 0) + Math.max(after, 0);
    if (reach > 0) above += ((timeS[i] - timeS[i - 1]) * reach) / (Math.abs(before) + Math.abs(after));
  }
  return above;
}
