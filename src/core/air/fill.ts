/** What a sample of any day begins and ends with, whatever its data. */
import { gammaAir, gasConstant, geopotentialRadius } from '../quantities/constants.ts';
import { type Air, OUTSIDE_ABOVE, OUTSIDE_BELOW } from './day.ts';
import type { StandardPoint } from './standard-point.ts';

/** Sets `air.outside` for a pressure altitude and gives it back, or the nearer end of its range, m. */
export function withinRange(altitudeM: number, lowestM: number, highestM: number, air: Air): number {
  air.outside = 0;
  if (!(altitudeM >= lowestM)) {
    air.outside = OUTSIDE_BELOW;
    return lowestM;
  }
  if (altitudeM > highestM) {
    air.outside = OUTSIDE_ABOVE;
    return highestM;
  }
  return altitudeM;
}

/**
 * Writes all of the air but its wind and gradients: from the standard atmosphere at its pressure altitude, its temperature [K]
 * and its geopotential height [m]. Returns geometric height over geopotential height; the gradient of the one is the square of
 * that times the gradient of the other.
 */
export function fillAir(
  air: Air,
  standard: Readonly<StandardPoint>,
  temperatureK: number,
  geopotentialM: number,
): number {
  const stretch = geopotentialRadius / (geopotentialRadius - geopotentialM);
  air.temperatureK = temperatureK;
  air.pressurePa = standard.pressurePa;
  air.densityKgM3 = standard.pressurePa / (gasConstant * temperatureK);
  air.speedOfSoundMS = Math.sqrt(gammaAir * gasConstant * temperatureK);
  air.temperatureOffsetK = temperatureK - standard.temperatureK;
  air.geometricHeightM = stretch * geopotentialM;
  return stretch;
}
