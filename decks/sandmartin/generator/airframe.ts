/**
 * The airframe of Sandmartin: a cranked delta with two engines under the wing, and its lift and drag by
 * preliminary-design methods. Dimensions are notional. Coefficients are referred to the wing area.
 *
 * - Friction: turbulent flat plate by Prandtl-Schlichting, cf = 0.455/(log10 Re)^2.58, with Eckert's reference temperature
 *   T* / T = 0.5 (1 + Tw/T) + 0.22 (Taw - T)/T (Eckert 1955) on an adiabatic wall of recovery factor 0.89; form factors of
 *   Raymer, Aircraft Design: A Conceptual Approach, section 12.5 (from memory).
 * - Volume wave drag of the body: Sears-Haack, CD S = 9 pi/2 (A/l)^2, times an empirical efficiency factor (Raymer 12.5.10,
 *   from memory).
 * - Thickness wave drag of the wing: 16/3 (t/c)^2 over beta with a supersonic leading edge, times cot(sweep) with a subsonic
 *   one (USAF DATCOM 4.1.5.1, from memory).
 * - Afterbody drag: a boat-tail coefficient on the nozzles' area (order of magnitude from memory).
 * - Between drag divergence and Mach 1.15 the wave drag rises on a smooth cosine blend.
 * - Lift slope: Helmbold-Diederich with sweep below Mach 0.95 (DATCOM 4.1.3.2); slender-delta theory 2 pi cot(sweep)/E(k)
 *   with a subsonic leading edge, 4/beta with a supersonic one (Jones and Cohen, High Speed Wing Theory, 1960; from memory).
 * - Drag due to lift: eta, the part of the lift's resultant that tilts back with the wing: 1 without leading-edge suction,
 *   less by the suction that is attained of what theory gives (Nicolai, Fundamentals of Aircraft Design; from memory).
 */
import { dynamicViscosity, standardPressure, standardTemperature } from '../../../src/core/air/standard.ts';
import { gammaAir, gasConstant } from '../../../src/core/quantities/constants.ts';

export const airframe = {
  wingAreaM2: 200,
  spanM: 19,
  meanChordM: 12.2,
  leadingEdgeSweepDeg: 65,
  thicknessRatio: 0.034,
  lengthM: 35,
  /** Greatest cross-section of body and nacelles less the captured stream tube. */
  frontalAreaM2: 5.0,
  /** Drag of the real area distribution over that of a Sears-Haack body. */
  waveFactor: 2.2,
  divergenceMach: 0.88,
  nozzleAreaM2: 3.2,
  boatTail: 0.28,
  /** Greatest attained part of leading-edge suction below Mach 0.8. */
  suction: 0.45,
  /** Excrescences, gaps and leaks on friction. */
  roughness: 1.08,
} as const;

/** Wetted area [m2], length [m] on which Reynolds number is formed, form factor. */
const parts: readonly (readonly [number, number, number])[] = [
  [286, 10.5, 1.05], // wing
  [182, 33, 1.04], // body
  [104, 11, 1.06], // two nacelles
  [44, 4, 1.05], // two fins
];

function skinFriction(mach: number, temperatureK: number, densityKgM3: number, lengthM: number): number {
  const wall = 1 + 0.89 * 0.2 * mach * mach;
  const reference = 0.5 * (1 + wall) + 0.22 * (wall - 1);
  const speed = mach * Math.sqrt(gammaAir * gasConstant * temperatureK);
  const viscosity = dynamicViscosity(temperatureK * reference);
  const reynolds = ((densityKgM3 / reference) * speed * lengthM) / viscosity;
  return 0.455 / Math.log10(Math.max(reynolds, 1e5)) ** 2.58 / reference;
}

function frictionDrag(mach: number, pressureAltitudeM: number): number {
  const temperature = standardTemperature(pressureAltitudeM);
  const density = standardPressure(pressureAltitudeM) / (gasConstant * temperature);
  let sum = 0;
  for (const [area, length, form] of parts) {
    // The form factor is of subsonic pressure drag; beyond Mach 1 thickness is charged to wave drag.
    const factor = mach < 1 ? form : 1;
    sum += skinFriction(Math.max(mach, 0.2), temperature, density, length) * area * factor;
  }
  return (airframe.roughness * sum) / airframe.wingAreaM2;
}

const sweep = (airframe.leadingEdgeSweepDeg * Math.PI) / 180;
const cotSweep = 1 / Math.tan(sweep);
const aspectRatio = airframe.spanM ** 2 / airframe.wingAreaM2;

/** Zero-lift wave and afterbody drag from Mach 1.15 up. */
function supersonicWaveDrag(mach: number): number {
  const body =
    (airframe.waveFactor * 4.5 * Math.PI * (airframe.frontalAreaM2 / airframe.lengthM) ** 2) /
    airframe.wingAreaM2;
  const beta = Math.sqrt(mach * mach - 1);
  const wing = (16 / 3) * airframe.thicknessRatio ** 2 * Math.min(cotSweep, 1 / beta) * 0.72;
  const tail = (airframe.boatTail * airframe.nozzleAreaM2) / airframe.wingAreaM2 / (mach * mach);
  return body + wing + tail;
}

const blendTop = 1.15;

function waveDrag(mach: number): number {
  if (mach <= airframe.divergenceMach) return 0;
  if (mach >= blendTop) return supersonicWaveDrag(mach);
  const part = (mach - airframe.divergenceMach) / (blendTop - airframe.divergenceMach);
  return supersonicWaveDrag(blendTop) * 0.5 * (1 - Math.cos(Math.PI * part));
}

/** CD0 at a Mach and pressure altitude [m] on the standard day. */
export function zeroLiftDrag(mach: number, pressureAltitudeM: number): number {
  return frictionDrag(mach, pressureAltitudeM) + waveDrag(mach);
}

/** Complete elliptic integral of the second kind of parameter m = k^2 by the arithmetic-geometric mean. */
export function ellipticE(m: number): number {
  let a = 1;
  let b = Math.sqrt(1 - m);
  let c = Math.sqrt(m);
  let sum = c * c;
  let power = 1;
  while (Math.abs(c) > 1e-14) {
    const next = (a + b) / 2;
    c = (a - b) / 2;
    b = Math.sqrt(a * b);
    a = next;
    power *= 2;
    sum += power * c * c;
  }
  return (Math.PI / (2 * a)) * (1 - sum / 2);
}

function subsonicSlope(mach: number): number {
  const tanHalf = Math.tan(sweep) / 2;
  const square = aspectRatio ** 2 * (1 - mach * mach + tanHalf * tanHalf);
  return (2 * Math.PI * aspectRatio) / (2 + Math.sqrt(4 + square));
}

function supersonicSlope(mach: number): number {
  const beta = Math.sqrt(mach * mach - 1);
  const m = beta * cotSweep;
  if (m >= 1) return 4 / beta;
  return (2 * Math.PI * cotSweep) / ellipticE(1 - m * m);
}

/** Lift slope [1/rad]; a smooth blend joins the two theories between Mach 0.95 and 1.15. */
export function liftSlope(mach: number): number {
  if (mach <= 0.95) return subsonicSlope(mach);
  if (mach >= 1.15) return supersonicSlope(mach);
  const part = (mach - 0.95) / 0.2;
  const weight = part * part * (3 - 2 * part);
  return (1 - weight) * subsonicSlope(0.95) + weight * supersonicSlope(1.15);
}

/** Part of the theoretical leading-edge suction that is attained: falls to none at a sonic leading edge. */
function suction(mach: number): number {
  if (mach <= 0.8) return airframe.suction;
  const sonicEdge = Math.sqrt(1 + 1 / cotSweep ** 2);
  return airframe.suction * Math.max(0, 1 - (mach - 0.8) / (sonicEdge - 0.8));
}

/** eta of CD = CD0 + eta CL (alpha - alpha0): 1 less the suction attained; full suction would leave CL^2/(pi A). */
export function dragDueToLift(mach: number): number {
  const slope = liftSlope(mach);
  return 1 - suction(mach) * (1 - slope / (Math.PI * aspectRatio));
}

/** Neutral point as a fraction of the mean chord: 0.305 below Mach 0.9, 0.375 from Mach 1.3 (from memory of slender deltas). */
function neutralPoint(mach: number): number {
  if (mach <= 0.9) return 0.305;
  if (mach >= 1.3) return 0.375;
  const part = (mach - 0.9) / 0.4;
  return 0.305 + 0.07 * part * part * (3 - 2 * part);
}

/**
 * Factor on CL^2 of the drag of trimming: elevons at a distance of 0.55 chords behind the neutral point carry
 * CL (x_np - x_cg)/0.55 downwards; both the wing's extra lift and the elevons' own drag due to lift cost.
 */
export function trimFactor(mach: number, cgFraction: number): number {
  const load = (neutralPoint(mach) - cgFraction) / 0.55;
  const k = dragDueToLift(mach) / liftSlope(mach);
  const elevonPenalty = 1.6;
  return k * (Math.max(load, 0) + elevonPenalty * load * load);
}
