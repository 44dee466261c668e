/**
 * What the Earth's curvature and rotation do to level flight. Speeds are over the ground (wind included), track true.
 *
 * Weight to be carried per mass = gravityDown - curvatureRelief - coriolisRelief.
 */
import { earthRate } from '../quantities/constants.ts';
import { meridianRadius, primeVerticalRadius } from './ellipsoid.ts';

/** V^2/R over the ellipsoid [m/s2] from ground speed north and east [m/s], sin^2 of latitude and height [m]. */
export function curvatureRelief(northMS: number, eastMS: number, sinSquare: number, heightM: number): number {
  return (
    (northMS * northMS) / (meridianRadius(sinSquare) + heightM) +
    (eastMS * eastMS) / (primeVerticalRadius(sinSquare) + heightM)
  );
}

/** Vertical Coriolis term [m/s2], 2 omega vE cos(latitude): positive, a relief, eastbound. */
export function coriolisRelief(eastMS: number, cosLatitude: number): number {
  return 2 * earthRate * eastMS * cosLatitude;
}

/** Horizontal Coriolis acceleration [m/s2], 2 omega V sin(latitude): to the right of the track in the northern hemisphere. */
export function coriolisToTheRight(groundSpeedMS: number, sinLatitude: number): number {
  return 2 * earthRate * groundSpeedMS * sinLatitude;
}
