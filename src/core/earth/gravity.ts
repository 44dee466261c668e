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

/** -4 (h/a)^3 of the spherical series; the lower powers are fitted. */
const cubic = -4;

/** Coefficients of (h/a) and (h/a)^2 in gravity over surface gravity, so that 15 and 30 km agree with the closed form. */
function seriesAt(latitudeRad: number): [linear: number, square: number] {
  const surface = normalGravity(latitudeRad, 0).down;
  const [low, high] = [15000, 30000].map((height) => {
    const ratio = height / a;
    const relative = normalGravity(latitudeRad, height).down / surface - 1 - cubic * ratio ** 3;
    return { ratio, slope: relative / ratio };
  });
  const square = (high.slope - low.slope) / (high.ratio - low.ratio);
  return [low.slope - square * low.ratio, square];
}

/** The same as parabolas in sin^2 of latitude through 0, 45 and 90 degrees: value, first and second difference. */
const [linear, square] = [0, 1].map((power) => {
  const [equator, middle, pole] = [0, Math.PI / 4, Math.PI / 2].map((latitude) => seriesAt(latitude)[power]);
  const bend = 2 * (equator - 2 * middle + pole);
  return { constant: equator, slope: pole - equator - bend, bend };
});

/**
 * Normal gravity [m/s2] along the normal, for equations of motion, from sin^2 of geodetic latitude and height [m]: a
 * series in height like TR8350.2 equation 4-3, its coefficients set from the closed form. Error below 3e-8 m/s2 from -1
 * to 40 km.
 */
export function gravityDown(sinSquare: number, heightM: number): number {
  const ratio = heightM / a;
  const first = linear.constant + sinSquare * (linear.slope + sinSquare * linear.bend);
  const second = square.constant + sinSquare * (square.slope + sinSquare * square.bend);
  return surfaceGravity(sinSquare) * (1 + ratio * (first + ratio * (second + ratio * cubic)));
}

/**
 * The small component of normal gravity along the meridian [m/s2], northward positive: -8.1e-9 h sin(2 latitude), the
 * curvature of the plumb line; error below 3e-7 m/s2 to 30 km.
 */
export function gravityNorth(latitudeRad: number, heightM: number): number {
  return -8.13e-9 * heightM * Math.sin(2 * latitudeRad);
}
