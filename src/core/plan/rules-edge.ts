/** How far a driver can go: the sortie planned again for it, and the value at which it can no longer be flown. */
import { findIncursions } from './areas.ts';
import { cabinMarginMS } from './descent-held.ts';
import type { Draft } from './draft.ts';
import { stopped } from './explain.ts';
import { firstFault } from './failure.ts';
import { summariseLimits } from './limits.ts';
import type { Log } from './log.ts';
import type { Failure, RuleEdge } from './plan.ts';
import { fuelAfterDivert } from './required.ts';
import type { Crew } from './route-flight.ts';
import type { Besides } from './slip.ts';
import { CannotPlan, type GoesOn, type SortieFlown } from './sortie-flyer.ts';
import { takeOffMargins } from './take-off.ts';

/** A sortie planned for one value of a driver. */
export interface Trial {
  readonly failure: (Pick<Failure, 'limit' | 'name' | 'text'> & { readonly phase: string | null }) | null;
  readonly leg: number | null;
  /** What is left of each limit and of the fuel, in what counts as one for it; negative beyond. As far as it was flown. */
  readonly left: ReadonlyMap<string, number>;
  /** For each leg that was flown to its end, fuel on board less what is required there. */
  readonly overKg: readonly number[];
  /** The least of them; Infinity where there is none. */
  readonly leastInHandKg: number;
}

/** Fuel that is as near as one of any limit. */
const countsAsOneKg = 500;

/** What a trial is flown with. */
export interface Tryout {
  readonly crew: Crew;
  readonly log: Log;
  /** Fuel over that required at the ends of the first legs, which need not be flown. */
  readonly knownKg: readonly number[];
  besides(drafted: Draft): readonly Besides[];
}

/**
 * Flies and judges a sortie, but no further than to the end of the first leg on which something fails, which is the first of all;
 * or says why it cannot be planned.
 */
export function tryOut({ crew, log, knownKg, besides }: Tryout, fly: (goesOn: GoesOn) => SortieFlown): Trial {
  let overKg = knownKg;
  const passesSoFar = (flown: SortieFlown): boolean => {
    const drafted = { crew, log, flown };
    overKg = overAtEnds(drafted, overKg);
    const { limits, requiredKg } = soFar(drafted, overKg);
    // The centre of gravity is as pumped only when all is flown.
    const told = limits.filter(({ quantity }) => quantity !== 'cgFraction');
    return firstFault(drafted, { limits: told, requiredKg, findings: [] }) === null;
  };
  try {
    const flown = fly(passesSoFar);
    const drafted = { crew, log, flown };
    const isWhole = !Number.isNaN(flown.landingFuelKg);
    return judged(drafted, overAtEnds(drafted, overKg), isWhole ? besides(drafted) : []);
  } catch (error) {
    if (!(error instanceof CannotPlan)) throw error;
    const failure = { limit: 'outside', name: "the deck's data", phase: 'take-off', text: error.message };
    const inHand = { overKg: [], leastInHandKg: Number.NaN };
    return { failure, leg: 0, left: new Map(), ...inHand };
  }
}

/** Judges a flown sortie as a plan is judged; `besides` is what else ends it, once all of it was flown. */
export function judged(
  drafted: Draft,
  overKg: readonly number[] = overAtEnds(drafted),
  besides: readonly Besides[] = [],
): Trial {
  const by = { ...soFar(drafted, overKg), findings: findIncursions(drafted) };
  const leastInHandKg = Math.min(...overKg);
  const left = new Map(by.limits.map(({ key, closeness }) => [key, closeness]));
  left.set('fuelRequired', leastInHandKg / countsAsOneKg);
  const { runway, tyreSpeed } = takeOffMargins(drafted.crew);
  const others = { runway, tyreSpeed, cabinRate: cabinMarginMS(drafted) };
  for (const [key, margin] of Object.entries(others)) if (margin !== null) left.set(key, margin);
  for (const { limit, leftS } of besides) left.set(limit, Math.min(leftS, left.get(limit) ?? leftS));
  const inHand = { left, overKg, leastInHandKg };
  const { failure } = stopped(drafted, by);
  if (failure !== null) return { failure, leg: firstFault(drafted, by)?.leg ?? null, ...inHand };
  const over = besides.find(({ leftS }) => leftS < 0);
  if (over === undefined) return { failure: null, leg: null, ...inHand };
  const { limit, name } = over;
  return { failure: { limit, name, phase: null, text: null }, leg: null, ...inHand };
}

function soFar(drafted: Draft, overKg: readonly number[]) {
  const { crew, log } = drafted;
  const { sortie, flight } = crew;
  return {
    limits: summariseLimits(flight.setup.aircraft.limits, sortie.pads, log, sortie.takeOff.timeS),
    requiredKg: requiredAtEnds(drafted, overKg),
  };
}

/**
 * Fuel on board less required at the end of each leg that was flown to it: what its worst case, or the approach, lands with above
 * the reserve; that case may not be flown to its end at all. `known` is that of the first legs.
 */
export function overAtEnds({ crew, flown }: Draft, known: readonly number[] = []): number[] {
  const { sortie } = crew;
  return flown.legs.map((leg, index) => {
    if (index < known.length) return known[index];
    const { end } = sortie.legs[index];
    const landsKg =
      end.kind === 'contact' ? fuelAfterDivert(crew, end, leg) : leg.endFuelKg - sortie.approach.fuelKg;
    return Number.isNaN(landsKg) ? Number.NEGATIVE_INFINITY : landsKg - sortie.landingReserveKg;
  });
}

/**
 * At the first and the last node of each leg that was flown to its end. Whether there is enough anywhere on the leg is known there:
 * what is required before is what arrives with just that.
 */
function requiredAtEnds({ log }: Draft, overKg: readonly number[]): number[] {
  const { fuelKg } = log.columns;
  const requiredKg = new Array<number>(log.nodes).fill(Number.NaN);
  overKg.forEach((over, index) => {
    const inLeg = (at: number): boolean => {
      const phase = log.phases[at];
      return phase?.leg === index && phase.kind !== 'contact';
    };
    for (const node of [log.phaseOf.findIndex(inLeg), log.phaseOf.findLastIndex(inLeg)]) {
      if (node >= 0) requiredKg[node] = fuelKg[node] - over;
    }
  });
  return requiredKg;
}

/** The failing value is known to this part of itself. */
const within = 0.01;
/** A trial set to close a bracket leaves so much. */
const closeTo = 0.99 * within;
/** How far to a side of the estimate a trial is set, so that one to each side closes the bracket. */
const nudge = 0.004;
const leastNudge = 0.001;
/** An estimate this part of itself from a known trial is off by as much as is nudged. */
const perNearness = 1 / 0.04;
const mostTrials = 24;
/** After so many trials in a row that did not halve the bracket it is halved. */
const mostSlow = 3;
/** So many steps back, each such a part of what was looked at. */
const stepsBack = 4;
const partsBack = 12;

/** What an edge is looked for with. */
export interface EdgeQuestion {
  fly(value: number): Trial;
  readonly lookedTo: number;
  readonly towards: RuleEdge['towards'];
  /** About where it may be; null where nothing is known. */
  readonly guess: number | null;
}

interface Tried {
  readonly value: number;
  readonly trial: Trial;
}

/**
 * From a sortie that passes as planned towards `lookedTo`: the last value that passes, and what fails 1 % beyond it. Assumes that
 * whoever fails goes on failing further out, but for manoeuvres. Yields null between two trials.
 */
export function* edgeOf({ fly, lookedTo, towards, guess }: EdgeQuestion): Generator<null, RuleEdge> {
  const tried: Tried[] = [{ value: 0, trial: fly(0) }];
  function* attempt(value: number): Generator<null, Tried> {
    const one = { value, trial: fly(value) };
    tried.push(one);
    yield null;
    return one;
  }
  let value = guess ?? lookedTo;
  let last = tried[0];
  while (last.trial.failure === null) {
    if (last.value === lookedTo) {
      const nothing = { limit: null, name: null, phase: null, leg: null, text: null };
      return { towards, passes: null, lookedTo, ...nothing };
    }
    last = yield* attempt(value);
    value = beyond(tried, lookedTo);
  }
  let fails = yield* closedIn(attempt, tried, last, guess);
  // A manoeuvre may fail nearer too, and pass again: looked for on the way back.
  for (let step = 1; step <= stepsBack && fails.trial.failure?.limit === 'manoeuvre'; step++) {
    const nearer = passing(tried, fails).value - (step * lookedTo) / partsBack;
    if (nearer / lookedTo <= 0) break;
    const one = yield* attempt(nearer);
    if (one.trial.failure === null) continue;
    fails = yield* closedIn(attempt, tried, one, null);
    step = 0;
  }
  const { limit, name, phase, text } = fails.trial.failure ?? {};
  return {
    towards,
    passes: fails.value === 0 ? 0 : passing(tried, fails).value,
    lookedTo,
    limit: limit ?? null,
    name: name ?? null,
    phase: phase ?? null,
    leg: fails.trial.leg,
    text: text ?? null,
  };
}

/** The farthest that passed, nearer than what fails. */
function passing(tried: readonly Tried[], fails: Tried): Tried {
  const nearer = tried.filter(
    ({ value, trial }) => trial.failure === null && Math.abs(value) < Math.abs(fails.value),
  );
  return nearer.reduce((best, each) => (Math.abs(each.value) > Math.abs(best.value) ? each : best));
}

/** Trials until what passes is as near to what fails as is asked, about a guess where no margin tells; the nearest that fails. */
function* closedIn(
  attempt: (value: number) => Generator<null, Tried>,
  tried: readonly Tried[],
  from: Tried,
  guess: number | null,
): Generator<null, Tried> {
  let fails = from;
  let slow = 0;
  for (let trials = 0; fails.value !== 0 && trials < mostTrials; trials++) {
    const passes = passing(tried, fails);
    const width = fails.value - passes.value;
    if (Math.abs(width) <= within * Math.abs(passes.value)) break;
    const near = slow < mostSlow ? crossing(tried, passes, fails) : null;
    const value =
      near !== null
        ? nudged(near, passes.value, fails.value)
        : fails.value === guess
          ? fails.value / (1 + closeTo)
          : passes.value + width / 2;
    const one = yield* attempt(value);
    if (one.trial.failure !== null) fails = one;
    const left = fails.value - passing(tried, fails).value;
    slow = Math.abs(left) > Math.abs(width) / 2 ? slow + 1 : 0;
  }
  return fails;
}

/** Where what runs out on the way from what passes to what fails does so first; null where nothing tells. */
function crossing(tried: readonly Tried[], passes: Tried, fails: Tried): number | null {
  const width = fails.value - passes.value;
  const roots = [...fails.trial.left].map(([key, there]) => {
    if (!(there < 0 && Number.isFinite(there))) return Number.NaN;
    const here = passes.trial.left.get(key) ?? Number.NaN;
    const parts = [(rootOf(tried, key) - passes.value) / width, here / (here - there)];
    const part = parts.find((one) => one > 0 && one < 1);
    return part === undefined ? Number.NaN : passes.value + part * width;
  });
  return nearestOf(roots);
}

/** A little further than where something runs out if it goes on as it does, no further than is looked. */
function beyond(tried: readonly Tried[], lookedTo: number): number {
  const farthest = tried[tried.length - 1];
  const roots = [...farthest.trial.left.keys()]
    .map((key) => rootOf(tried, key))
    .filter((root) => root / farthest.value > 1);
  const root = nearestOf(roots);
  return root === null || root / lookedTo > 1 - nudge ? lookedTo : root * (1 + nudge);
}

function nearestOf(values: readonly number[]): number | null {
  const known = values.filter((value) => !Number.isNaN(value));
  return known.length === 0 ? null : known.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
}

/** Where a margin runs out, by the value as a quadratic of it through the three trials with the least of it, or a line through two. */
function rootOf(tried: readonly Tried[], key: string): number {
  const points = tried
    .map(({ value, trial }) => ({ value, left: trial.left.get(key) ?? Number.NaN }))
    .filter(({ left }) => Number.isFinite(left))
    .sort((a, b) => Math.abs(a.left) - Math.abs(b.left))
    .slice(0, 3);
  // Lagrange's formula at 0.
  return points.length < 2
    ? Number.NaN
    : points.reduce(
        (sum, { value, left }) =>
          sum +
          points.reduce(
            (part, other) => (other.left === left ? part : (part * other.left) / (other.left - left)),
            value,
          ),
        0,
      );
}

/**
 * A little to a side of an estimate, the less the nearer a known end is, or so far as to close the bracket: to the side on which that can
 * be, else to where the bracket is longer; outward where nothing but the plan has passed, since what fails is given up sooner.
 */
function nudged(near: number, passes: number, fails: number): number {
  const known = Math.min(Math.abs(fails - near), Math.abs(near - passes)) / Math.abs(near);
  const aside = Math.min(Math.max(nudge * known * perNearness, leastNudge), nudge);
  const [out, into] = [passes * (1 + closeTo), fails / (1 + closeTo)];
  const [closesOut, closesIn] = [out / near > 1 + leastNudge, into / near < 1 - leastNudge];
  const isLonger = Math.abs(fails - near) > Math.abs(near - passes);
  const outward = closesOut === closesIn ? passes === 0 || isLonger : closesOut;
  const moved = near * (1 + (outward ? aside : -aside));
  if (outward ? closesOut : closesIn) {
    const closing = outward ? out : into;
    return Math.abs(closing - near) < Math.abs(moved - near) ? closing : moved;
  }
  const [low, high] = passes < fails ? [passes, fails] : [fails, passes];
  const rim = 0.02 * (high - low);
  return Math.min(Math.max(moved, low + rim), high - rim);
}
