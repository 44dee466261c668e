/**
 * The standard atmosphere for the inside of a step: temperature as in standard.ts, pressure and its logarithm by cubic
 * Hermite pieces of 100 m, since their exponential and logarithm would cost half of a sample. Within 2e-10 of both; the
 * slopes are continuous, as those of the atmosphere are.
 */
import { gasConstant, standardGravity } from '../quantities/constants.ts';
import {
  highestAltitudeM,
  layerLapseKM,
  lowestAltitudeM,
  standardLayer,
  standardLogPressure,
  standardTemperature,
} from './standard.ts';

/** T [K], its gradient [K/m], p [Pa] and ln(p/Pa) at one pressure altitude. */
export interface StandardPoint {
  temperatureK: number;
  lapseKM: number;
  pressurePa: number;
  logPressure: number;
}

/** An empty point to be filled by `standardPoint`. */
export function newStandardPoint(): StandardPoint {
  return { temperatureK: 0.5, lapseKM: 0.5, pressurePa: 0.5, logPressure: 0.5 };
}

/** Length of a piece, m; every layer begins at a node. */
const pieceM = 100;
const pieceCount = Math.ceil((highestAltitudeM - lowestAltitudeM) / pieceM) + 1;
const firstM = pieceM * Math.floor(lowestAltitudeM / pieceM);
/** At the start of a piece: T and its gradient, then four coefficients of ln p and of p in the place in it, 0 to 1. */
const width = 10;
const table = new Float64Array(width * pieceCount);

for (let piece = 0; piece < pieceCount; piece++) {
  // The first and the last piece reach beyond the atmosphere: their outer node stands on its edge.
  const start = Math.max(firstM + piece * pieceM, lowestAltitudeM);
  const end = Math.min(firstM + (piece + 1) * pieceM, highestAltitudeM);
  if (end > start) fill(piece, firstM + piece * pieceM, start, end);
}

function fill(piece: number, originM: number, startM: number, endM: number): void {
  const lapse = layerLapseKM[standardLayer(startM)];
  const at = piece * width;
  table[at] = standardTemperature(startM) - lapse * (startM - originM);
  table[at + 1] = lapse;
  const low = standardLogPressure(startM);
  const high = standardLogPressure(endM);
  const lowFall = -standardGravity / (gasConstant * standardTemperature(startM));
  const highFall = -standardGravity / (gasConstant * standardTemperature(endM));
  cubic(at + 2, originM, startM, endM, [low, lowFall, high, highFall]);
  const [p, q] = [Math.exp(low), Math.exp(high)];
  cubic(at + 6, originM, startM, endM, [p, p * lowFall, q, q * highFall]);
}

/** The cubic through two values with two slopes, as powers of (h - origin)/piece. */
function cubic(at: number, originM: number, startM: number, endM: number, ends: readonly number[]): void {
  const span = endM - startM;
  const [value, slope, end, endSlope] = ends;
  const chord = (end - value) / span;
  const square = (3 * chord - 2 * slope - endSlope) / span;
  const cube = (slope + endSlope - 2 * chord) / (span * span);
  const shift = originM - startM;
  table[at] = value + shift * (slope + shift * (square + shift * cube));
  table[at + 1] = pieceM * (slope + shift * (2 * square + 3 * shift * cube));
  table[at + 2] = pieceM * pieceM * (square + 3 * shift * cube);
  table[at + 3] = pieceM * pieceM * pieceM * cube;
}

/** Writes the standard atmosphere at a pressure altitude [m]; unchecked, the caller keeps to its range. */
export function standardPoint(pressureAltitudeM: number, out: StandardPoint): void {
  const height = pressureAltitudeM - firstM;
  const piece = Math.floor(height / pieceM);
  const past = height - piece * pieceM;
  const t = past / pieceM;
  const at = piece * width;
  const lapse = table[at + 1];
  out.temperatureK = table[at] + lapse * past;
  out.lapseKM = lapse;
  out.logPressure = table[at + 2] + t * (table[at + 3] + t * (table[at + 4] + t * table[at + 5]));
  out.pressurePa = table[at + 6] + t * (table[at + 7] + t * (table[at + 8] + t * table[at + 9]));
}
