/** The WGS 84 ellipsoid: radii of curvature. Latitudes are geodetic. */
import { equatorialRadius, flattening } from '../quantities/constants.ts';

/** First eccentricity squared. */
export const eccentricitySquare = flattening * (2 - flattening);

/** Radius of curvature in the meridian [m] from sin^2 of latitude: M = a (1 - e^2) / (1 - e^2 sin^2)^1.5. */
export function meridianRadius(sinSquare: number): number {
  const w = 1 - eccentricitySquare * sinSquare;
  return (equatorialRadius * (1 - eccentricitySquare)) / (w * Math.sqrt(w));
}

/** Radius of curvature in the prime vertical [m] from sin^2 of latitude: N = a / sqrt(1 - e^2 sin^2). */
export function primeVerticalRadius(sinSquare: number): number {
  return equatorialRadius / Math.sqrt(1 - eccentricitySquare * sinSquare);
}

/** Radius of curvature [m] of the normal section at a true course: Euler's formula, 1/R = cos^2/M + sin^2/N. */
export function radiusOnCourse(sinSquare: number, courseRad: number): number {
  const cos = Math.cos(courseRad);
  const sin = Math.sin(courseRad);
  return 1 / ((cos * cos) / meridianRadius(sinSquare) + (sin * sin) / primeVerticalRadius(sinSquare));
}
