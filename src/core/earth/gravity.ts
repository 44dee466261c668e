/**
 * Normal gravity of WGS 84 at geodetic latitude and ellipsoidal height; the centrifugal part of an Earth at rest in its
 * rotating frame is included, so it must not be added again in the motion.
 *
 * Sources: NGA.STND.0036 / NIMA TR8350.2 chapter 4; Heiskanen and Moritz, Physical Geodesy (1967), chapter 2.
 */
import {
  equatorialRadius as a,
  earthRate,
  flattening as f,
  gravitationalParameter as gm,
} from '../quantities/constants.ts';

const b = a * (1 - f);
const eccentricitySquare = f * (2 - f);
const focus = a * Math.sqrt(eccentricitySquare);
const q0 = qOf(b);
/** m = omega^2 a^2 b / GM. */
const centrifugalRatio = (earthRate * earthRate * a * a * b) / gm;

function qOf(u: number): number {
  const ratio = u / focus;
  return 0.5 * ((1 + 3 * ratio * ratio) * Math.atan(1 / ratio) - 3 * ratio);
}

/** Gravity along the ellipsoid's normal (down) and along the meridian (north, negative in the northern hemisphere), m/s2. */
export interface Gravity {
  down: number;
  north: number;
}

/**
 * Normal gravity in closed form (ellipsoidal coordinates, TR8350.2 equations 4-5 to 4-23) at latitude [rad] and height
 * [m]; exact for the model, about 0.3 us.
 */
export function normalGravity(latitudeRad: number, heightM: number): Gravity {
  const sin = Math.sin(latitudeRad);
  const cos = Math.cos(latitudeRad);
  const n = a / Math.sqrt(1 - eccentricitySquare * sin * sin);
  const p = (n + heightM) * cos;
  const z = (n * (1 - eccentricitySquare) + heightM) * sin;
  const d = p * p + z * z - focus * focus;
  const u = Math.sqrt(0.5 * d * (1 + Math.sqrt(1 + (4 * focus * focus * z * z) / (d * d))));
  const v = Math.sqrt(u * u + focus * focus);
  const beta = Math.atan2(z * v, u * p);
  const sb = Math.sin(beta);
  const cb = Math.cos(beta);
  const w = Math.sqrt((u * u + focus * focus * sb * sb) / (v * v));
  const ratio = u / focus;
  const qPrime = 3 * (1 + ratio * ratio) * (1 - ratio * Math.atan(1 / ratio)) - 1;
  const spin = earthRate * earthRate;
  const alongU =
    (-(gm + ((spin * a * a * focus * qPrime) / q0) * (0.5 * sb * sb - 1 / 6)) / (v * v) +
      spin * u * cb * cb) /
    w;
  const alongBeta = (((spin * a * a) / v) * (qOf(u) / q0) - spin * v) * ((sb * cb) / w);
  const outward = (alongU * u * cb) / (w * v) - (alongBeta * sb) / w;
  const axial = (alongU * sb) / w + (alongBeta * u * cb) / (w * v);
  return { down: -(outward * cos + axial * sin), north: axial * cos - outward * sin };
}

const equatorGravity = normalGravity(0, 0).down;
const poleGravity = normalGravity(Math.PI / 2, 0).down;
const somigliana = (b * poleGravity) / (a * equatorGravity) - 1;

/** Normal gravity [m/s2] on the ellipsoid from sin^2 of geodetic latitude: Somigliana's formula, TR8350.2 equation 4-1. */
export function surfaceGravity(sinSquare: number): number {
  return (equatorGravity * (1 + somigliana * sinSquare)) / Math.sqrt(1 - eccentricitySquare * sinSquare);
}

/**
 * Normal gravity [m/s2] along the normal, for equations of motion: TR8350.2 equation 4-3 with the third term of the
 * spherical series added; from sin^2 of geodetic latitude and height [m]. Error below 1e-6 m/s2 from -1 to 30 km.
 */
export function gravityDown(sinSquare: number, heightM: number): number {
  const ratio = heightM / a;
  const series = -2 * (1 + f + centrifugalRatio - 2 * f * sinSquare) + ratio * (3 - 4 * ratio);
  return surfaceGravity(sinSquare) * (1 + ratio * series);
}

/**
 * The small component of normal gravity along the meridian [m/s2], northward positive: -8.1e-9 h sin(2 latitude), the
 * curvature of the plumb line; error below 3e-7 m/s2 to 30 km.
 */
export function gravityNorth(latitudeRad: number, heightM: number): number {
  return -8.13e-9 * heightM * Math.sin(2 * latitudeRad);
}
