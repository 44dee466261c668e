/**
 * The inlet of Sandmartin with its ramp beside the schedule: what that costs, and how near the shock is to being expelled. All of it is
 * notional.
 *
 * Model: one ramp of the scheduled angle, whose oblique shock meets the cowl lip at the design Mach; a throat behind it sized for a
 * scheduled throat Mach; a normal shock just behind the throat. Angles move about the leading edge of the ramp, so that the throat
 * closes by the length of the ramp times the angle. Constant gamma 1.4: NACA Report 1135, equations 80 (area), 93 and 99 (normal shock;
 * by the normal Mach they serve the oblique one), 139a (deflection), all from memory.
 */
import { bleedRatio, captureAreaM2, captureRatio, designMach, ductRecovery, rampAngleDeg } from './inlet.ts';

const degree = Math.PI / 180;
/** Mach in the throat on schedule: what keeps the shock from being expelled by small errors (1.2 to 1.4 is usual; from memory). */
const throatMach = 1.35;

/** Static pressure behind a normal shock over that ahead: equation 93. */
function pressureRise(normalMach: number): number {
  return (7 * normalMach * normalMach - 1) / 6;
}

/** Total pressure behind a normal shock over that ahead: equation 99. */
function shockRecovery(normalMach: number): number {
  if (normalMach <= 1) return 1;
  const m2 = normalMach * normalMach;
  return ((6 * m2) / (m2 + 5)) ** 3.5 * (6 / (7 * m2 - 1)) ** 2.5;
}

/** Sonic area over area at a Mach: equation 80. */
function sonicArea(mach: number): number {
  return (216 / 125) * mach * (1 + (mach * mach) / 5) ** -3;
}

/** Deflection behind a shock at an angle: tan d = 2 cot s (M^2 sin^2 s - 1) / (M^2 (1.4 + cos 2s) + 2). */
function deflection(mach: number, shock: number): number {
  const m2 = mach * mach;
  const normal = m2 * Math.sin(shock) ** 2 - 1;
  return Math.atan((2 * normal) / (Math.tan(shock) * (m2 * (1.4 + Math.cos(2 * shock)) + 2)));
}

/** Angle of the weak shock that turns the flow by an angle [rad]; NaN where it is detached. */
export function shockAngle(mach: number, turn: number): number {
  let [low, high] = [Math.asin(1 / mach), Math.PI / 2];
  // The greatest deflection, by golden section; the weak shock lies below it.
  for (let i = 0; i < 80; i++) {
    const [a, b] = [low + 0.382 * (high - low), low + 0.618 * (high - low)];
    if (deflection(mach, a) < deflection(mach, b)) low = a;
    else high = b;
  }
  const strongest = (low + high) / 2;
  if (deflection(mach, strongest) < turn) return Number.NaN;
  [low, high] = [Math.asin(1 / mach), strongest];
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (deflection(mach, middle) < turn) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Length of the ramp ahead of the lip over the height of the inlet: the shock of the design meets the lip. */
const rampLength = 1 / Math.tan(shockAngle(designMach, rampAngleDeg(designMach) * degree));

/** Stream tube let in over the capture area, and pressure and total pressure behind the shock of the ramp. */
function ahead(mach: number, turn: number) {
  const shock = shockAngle(mach, turn);
  const normal = mach * Math.sin(shock);
  const tube = (1 - rampLength * Math.tan(turn)) / (1 - Math.tan(turn) / Math.tan(shock));
  return { tube: Math.min(1, tube), rise: pressureRise(normal), recovery: shockRecovery(normal) };
}

/** The supersonic Mach at which the sonic area is a part of the area; 1 where it would have to be more than all of it. */
function machOfArea(part: number): number {
  if (part >= 1) return 1;
  let [low, high] = [1, 8];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (sonicArea(middle) > part) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

interface State {
  /** Air let in, over the capture area, and recovery of shocks and duct. */
  readonly tube: number;
  readonly recovery: number;
  /** Mach in the throat; 1 once it chokes. */
  readonly throatMach: number;
  readonly rise: number;
}

function stateOf(mach: number, errorDeg: number): State {
  const scheduled = rampAngleDeg(mach) * degree;
  const error = errorDeg * degree;
  const design = ahead(mach, scheduled);
  const throat = (design.tube * sonicArea(mach)) / (design.recovery * sonicArea(throatMach));
  const here = ahead(mach, scheduled + error);
  const open = throat - rampLength * Math.tan(error);
  const part = (here.tube * sonicArea(mach)) / (here.recovery * open);
  const tube = Math.min(here.tube, here.tube / part);
  const inThroat = machOfArea(part);
  return {
    tube,
    recovery: here.recovery * shockRecovery(inThroat) * ductRecovery,
    throatMach: inThroat,
    rise: here.rise,
  };
}

/** Error at which the throat chokes and the shock is expelled [deg]. */
function expelledAt(mach: number): number {
  let [low, high] = [0, 8];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    const state = stateOf(mach, middle);
    if (state.throatMach > 1 + 1e-9) low = middle;
    else high = middle;
  }
  return low;
}

export interface InletError {
  /** Total pressure at the engine face over that on schedule. */
  readonly recoveryRatio: number;
  /** Added to the drag coefficient by both inlets. */
  readonly dragIncrement: number;
  readonly shockMarginDeg: number;
}

/** From the Mach at which the ramp begins to move; below it an error does nothing. */
const firstMach = 1.3;

/**
 * At a Mach and an error [deg] with which the shock of the ramp is attached. Recovery is what shocks and duct leave, or what the air
 * let in allows: an engine that asks for more draws the normal shock back until its corrected flow is met. Drag is that of the
 * stream tube turned away ahead of the lip at the pressure behind the shock.
 */
export function inletError(mach: number, errorDeg: number, wingAreaM2: number): InletError {
  if (mach < firstMach) {
    return { recoveryRatio: 1, dragIncrement: 0, shockMarginDeg: expelledAt(firstMach) - errorDeg };
  }
  const design = stateOf(mach, 0);
  const here = stateOf(mach, errorDeg);
  const supply = captureRatio(mach) * Math.min(1, here.tube / design.tube) - bleedRatio(mach);
  const shocks = here.recovery / design.recovery;
  const air = supply / (captureRatio(mach) - bleedRatio(mach));
  const pressure = (2 * (design.rise - 1)) / (1.4 * mach * mach);
  const turnedAway = Math.max(0, design.tube - here.tube);
  return {
    recoveryRatio: Math.min(shocks, air),
    dragIncrement: (2 * captureAreaM2 * turnedAway * pressure) / wingAreaM2,
    shockMarginDeg: expelledAt(mach) - errorDeg,
  };
}
