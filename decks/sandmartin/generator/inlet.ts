/**
 * The two-dimensional ramp inlet of Sandmartin: recovery, capture, and the drag of air that it takes aboard or turns
 * away without giving it to the engine. All of it is notional.
 */

/** Greatest Mach of the shock system: the ramp shocks then meet the cowl lip. */
export const designMach = 3.0;
/** Capture area of one inlet, m2. */
export const captureAreaM2 = 1.52;
/** Recovery of the subsonic duct; the shock system has the rest. Typical 0.96 to 0.98 (from memory). */
export const ductRecovery = 0.975;
/** Boundary-layer bleed as a fraction of capture at the design Mach, growing from none at Mach 1.4. */
const greatestBleed = 0.05;

/** Shock recovery of MIL-E-5007: 1 up to Mach 1, then 1 - 0.075 (M - 1)^1.35 (up to Mach 5). */
export function standardRecovery(mach: number): number {
  return mach <= 1 ? 1 : 1 - 0.075 * (mach - 1) ** 1.35;
}

/** Total pressure at the engine face over that of the free stream. */
export function recovery(mach: number): number {
  return ductRecovery * standardRecovery(mach);
}

/** Angle of the movable ramp to the stream, degrees: flat to Mach 1.2, then linear to 22 at the design Mach. */
export function rampAngleDeg(mach: number): number {
  return mach <= 1.2 ? 2 : 2 + (20 * (mach - 1.2)) / (designMach - 1.2);
}

/**
 * Stream tube that the ramps let in, over the capture area: 1 at the design Mach, falling because the ramp shocks stand
 * before the lip (shape from memory of measured external-compression inlets).
 */
export function captureRatio(mach: number): number {
  if (mach >= designMach) return 1;
  if (mach <= 1) return 0.62;
  return 0.62 + 0.38 * ((mach - 1) / (designMach - 1)) ** 0.9;
}

export function bleedRatio(mach: number): number {
  if (mach <= 1.4) return 0;
  return greatestBleed * Math.min(1, (mach - 1.4) / (designMach - 1.4));
}

/**
 * Part of the momentum of air turned away in front of the lip that is drag: none up to Mach 0.6 where the lip's suction
 * gives it back, 0.35 at Mach 1.1, 0.10 at Mach 2 and above (order of magnitude from memory of wind-tunnel surveys).
 */
function spillFactor(mach: number): number {
  if (mach <= 0.6) return 0;
  if (mach <= 1.1) return (0.35 * (mach - 0.6)) / 0.5;
  if (mach <= 2) return 0.35 - (0.25 * (mach - 1.1)) / 0.9;
  return 0.1;
}

/** Part of its free-stream momentum that air loses on its way through a bypass door or a bleed exit. */
const bypassLoss = 0.2;
const bleedLoss = 0.7;

/**
 * Drag [N] of one inlet, charged to the engine: spilled, bypassed and bled air, each mass flow [kg/s] times speed [m/s]
 * times the part of its momentum that is lost.
 */
export function inletDrag(mach: number, speedMS: number, densityKgM3: number, engineFlowKgS: number): number {
  const captured = densityKgM3 * speedMS * captureAreaM2;
  if (captured === 0) return 0;
  const bleed = bleedRatio(mach) * captured;
  const supply = Math.max(captureRatio(mach) * captured, engineFlowKgS + bleed);
  const spilled = Math.max(0, captured - supply);
  // While no shock holds the excess back it goes round the lip; the doors take it over between Mach 1.1 and 1.5.
  const excess = supply - engineFlowKgS - bleed;
  const bypassed = excess * Math.min(1, Math.max(0, (mach - 1.1) / 0.4));
  const turnedAway = spilled + (excess - bypassed);
  // Momentum of turned-away air is reckoned with half its speed, as q A (1 - A0/A) is.
  return (0.5 * spillFactor(mach) * turnedAway + bypassLoss * bypassed + bleedLoss * bleed) * speedMS;
}

/** Greatest engine flow [kg/s] that the inlet can supply. */
export function greatestSupply(mach: number, speedMS: number, densityKgM3: number): number {
  return (captureRatio(mach) - bleedRatio(mach)) * densityKgM3 * speedMS * captureAreaM2;
}
