/**
 * Lighting one afterburner in contact. The engine to be lit goes to military power and the others come back by as much, and by
 * something more; it lights after its lag, a step forward; when the crew feels that, the others come back by the rest. What is
 * brought back first makes the receiver fall back a little before it comes forward, and is what a light that fails costs.
 *
 * One engine lit first and the others brought back a few seconds later is common practice. Neglected for these seconds: the mass
 * that comes in (but for what it leaves of the thrust after a light that fails), the change of drag with speed.
 */
import type { LightUp } from '../aircraft/aircraft.ts';
import { minimise } from '../numerics/optimum.ts';
import { type Excursion, excursion, type ForceChange } from './contact-motion.ts';
import type { LightCase } from './plan-contact.ts';
import type { ContactEnvelope } from './sortie.ts';

/** The receiver as it stands before one engine is lit; thrusts are those of one engine [N]. */
export interface BeforeLight {
  readonly massKg: number;
  readonly engines: number;
  /** Of all engines together. */
  readonly requiredN: number;
  readonly idleN: number;
  readonly militaryN: number;
  readonly leastLitN: number;
  readonly mostLitN: number;
  /** That `requiredN` rises by each second, as weight comes [N/s]. */
  readonly risingNS: number;
}

export interface LightTried {
  /** The others are brought back by so much together before it lights, beyond what military power of the first gives [N]. */
  readonly earlyN: number;
  /** Largest part of the envelope that is used, by a light soon, as expected, late, or one that fails. */
  readonly use: number;
  readonly cases: readonly (Pick<LightCase, 'name' | 'afterS'> & Excursion & { readonly use: number })[];
}

/** From a selection to what the crew does about a light that has not come. */
export function failureSeenS({ lagS, spreadS, reactionS }: LightUp): number {
  return lagS + 2 * spreadS + reactionS;
}

/** From a selection until throttles have followed, also where the light has failed. */
export function followedS(lightUp: LightUp): number {
  return failureSeenS(lightUp) + followed * lightUp.spoolS;
}

/** Time constants after which a moved throttle counts as followed. */
const followed = 3;

/** The way of lighting that uses least of the envelope. */
export function bestLight(before: BeforeLight, lightUp: LightUp, envelope: ContactEnvelope): LightTried {
  const stepN = before.leastLitN - before.militaryN;
  // What the others have left above idle after military power of the first.
  const roomN = before.requiredN - before.militaryN - (before.engines - 1) * before.idleN;
  const most = Math.max(0, Math.min(stepN, roomN));
  const use = (earlyN: number) => lightWith(before, lightUp, envelope, earlyN).use;
  const found = minimise(use, 0, most, most / 40);
  const x = use(0) <= found.value ? 0 : found.x;
  return lightWith(before, lightUp, envelope, x);
}

/** What is brought back early given. */
export function lightWith(
  before: BeforeLight,
  lightUp: LightUp,
  envelope: ContactEnvelope,
  earlyN: number,
): LightTried {
  const { lagS, spreadS } = lightUp;
  const lit = (name: LightCase['name'], afterS: number) =>
    caseOf(name, afterS, whenLit(before, lightUp, earlyN, afterS), envelope);
  const cases = [
    lit('soon', lagS - 2 * spreadS),
    lit('expected', lagS),
    lit('late', lagS + 2 * spreadS),
    caseOf('fails', null, whenFailed(before, lightUp, earlyN), envelope),
  ];
  return { earlyN, use: Math.max(...cases.map((one) => one.use)), cases };
}

function whenLit(before: BeforeLight, lightUp: LightUp, earlyN: number, afterS: number): Excursion {
  const { massKg, engines, requiredN, militaryN, leastLitN, mostLitN, idleN } = before;
  const { reactionS, spoolS } = lightUp;
  const stepN = leastLitN - militaryN;
  const changes: ForceChange[] = [
    { atS: 0, forceN: -earlyN, constantS: spoolS },
    { atS: afterS, forceN: stepN, constantS: 0 },
    { atS: afterS + reactionS, forceN: earlyN - stepN, constantS: spoolS },
  ];
  const othersN = requiredN - leastLitN;
  const slowingN = othersN - (engines - 1) * idleN;
  const pushingN = mostLitN - leastLitN + (engines - 1) * militaryN - othersN;
  return excursion(changes, massKg, afterS + reactionS + followed * spoolS, slowingN, pushingN);
}

/** Both back to where they were; what the weight that came in meanwhile leaves of dry thrust stops the fall. */
function whenFailed(before: BeforeLight, lightUp: LightUp, earlyN: number): Excursion {
  const { massKg, engines, requiredN, militaryN, idleN, risingNS } = before;
  const { spoolS } = lightUp;
  const seenS = failureSeenS(lightUp);
  const untilS = followedS(lightUp);
  const changes: ForceChange[] = [
    { atS: 0, forceN: -earlyN, constantS: spoolS },
    { atS: seenS, forceN: earlyN, constantS: spoolS },
  ];
  const neededN = requiredN + risingNS * untilS;
  const pushingN = engines * militaryN - neededN;
  const result = excursion(changes, massKg, untilS, neededN - engines * idleN, pushingN);
  // Without dry thrust left it falls away even from rest.
  return pushingN < 0 ? { ...result, aftM: Number.POSITIVE_INFINITY } : result;
}

function caseOf(
  name: LightCase['name'],
  afterS: number | null,
  motion: Excursion,
  envelope: ContactEnvelope,
): LightTried['cases'][number] {
  const { foreM, aftM, closureMS } = motion;
  const use = Math.max(foreM / envelope.foreM, aftM / envelope.aftM, closureMS / envelope.closureMS);
  return { name, afterS, ...motion, use };
}
