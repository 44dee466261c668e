/**
 * Motion of a receiver relative to the tanker along their track while thrust comes and goes, in closed form: forward positive,
 * at rest in the middle at first, mass and drag constant for the seconds that it takes.
 */

/** A force that comes at a time: at once where the time constant is 0, else as F (1 - exp(-t/c)). */
export interface ForceChange {
  readonly atS: number;
  readonly forceN: number;
  readonly constantS: number;
}

export interface RelativeMotion {
  speedMS: number;
  placeM: number;
}

/** m V' = sum of F (1 - exp(-u/c)), u since each came: V = F (u - c + c e)/m, s = F (u^2/2 - c u + c^2 - c^2 e)/m. */
export function relativeMotion(
  changes: readonly ForceChange[],
  massKg: number,
  timeS: number,
  out: RelativeMotion,
): void {
  let speed = 0;
  let place = 0;
  for (const { atS, forceN, constantS: c } of changes) {
    const u = timeS - atS;
    if (u <= 0) continue;
    const left = c > 0 ? c * (1 - Math.exp(-u / c)) : 0;
    speed += forceN * (u - left);
    place += forceN * (0.5 * u * u - c * u + c * left);
  }
  out.speedMS = speed / massKg;
  out.placeM = place / massKg;
}

/** Furthest forward, furthest aft (not negative) and fastest. */
export interface Excursion {
  foreM: number;
  aftM: number;
  closureMS: number;
}

/** Moments looked at. */
const looks = 32;

/**
 * What the forces do up to a time, and after it until the speed left is stopped with a force: `slowingN` against a speed forward,
 * `pushingN` against one aft. Infinite where there is none. s = V^2 m/(2 F).
 */
export function excursion(
  changes: readonly ForceChange[],
  massKg: number,
  untilS: number,
  slowingN: number,
  pushingN: number,
): Excursion {
  const at = { speedMS: 0, placeM: 0 };
  const out = { foreM: 0, aftM: 0, closureMS: 0 };
  for (let look = 1; look <= looks; look++) {
    relativeMotion(changes, massKg, (untilS * look) / looks, at);
    take(out, at.placeM, at.speedMS);
  }
  const force = at.speedMS > 0 ? slowingN : pushingN;
  const stop = at.speedMS === 0 ? 0 : (0.5 * massKg * at.speedMS * at.speedMS) / Math.max(0, force);
  take(out, at.placeM + Math.sign(at.speedMS) * stop, 0);
  return out;
}

function take(out: Excursion, placeM: number, speedMS: number): void {
  if (placeM > out.foreM) out.foreM = placeM;
  if (-placeM > out.aftM) out.aftM = -placeM;
  if (Math.abs(speedMS) > out.closureMS) out.closureMS = Math.abs(speedMS);
}
