/** How far a driver can go: the sortie planned again for it, and the value at which it can no longer be flown. */
import { findAreas } from './areas.ts';
import type { Draft } from './draft.ts';
import { stopped } from './explain.ts';
import { summariseLimits } from './limits.ts';
import type { Failure, RuleEdge } from './plan.ts';
import { fuelAfterDivert } from './required.ts';
import type { Crew } from './route-flight.ts';
import { CannotPlan } from './sortie-flyer.ts';

/** A sortie planned for one value of a driver. */
export interface Trial {
  readonly failure: Pick<Failure, 'limit' | 'name' | 'phase' | 'text'> | null;
  readonly leg: number | null;
  /** What is left of each limit and of the fuel, in what counts as one for it; negative beyond. Empty where it was not flown to its end. */
  readonly left: ReadonlyMap<string, number>;
  /** Of fuel on board less required at the ends of the legs that were flown. */
  readonly leastInHandKg: number;
  readonly evaluations: number;
}

/** Fuel that is as near as one of any limit. */
const countsAsOneKg = 500;

/** Judges a sortie as a plan is judged, or says why it cannot be planned. */
export function tryOut(fly: () => Draft): Trial {
  try {
    return judged(fly());
  } catch (error) {
    if (!(error instanceof CannotPlan)) throw error;
    const failure = { limit: 'outside', name: "the deck's data", phase: 'take-off', text: error.message };
    return { failure, leg: 0, left: new Map(), leastInHandKg: Number.NaN, evaluations: 0 };
  }
}

export function judged(drafted: Draft): Trial {
  const { crew, log, flown } = drafted;
  const { sortie, flight } = crew;
  const limits = summariseLimits(flight.setup.aircraft.limits, sortie.pads, log, sortie.takeOff.timeS);
  const requiredKg = requiredAtEnds(drafted);
  const { failure } = stopped(drafted, { limits, requiredKg, findings: findAreas(drafted) });
  const left = new Map(flown.stopped ? [] : limits.map(({ key, closeness }) => [key, closeness]));
  const leastInHandKg = leastOver(drafted, requiredKg);
  if (!flown.stopped) left.set('fuelRequired', leastInHandKg / countsAsOneKg);
  const leg = failure === null ? null : legOf(drafted, failure.timeS + sortie.takeOff.timeS);
  return { failure, leg, left, leastInHandKg, evaluations: flight.evaluations };
}

/** The leg flown at a time; that of the last phase afterwards. */
function legOf({ log }: Draft, timeS: number): number {
  const phase = log.phases.find(({ endS }) => endS > timeS - 1e-6) ?? log.phases[log.phases.length - 1];
  return phase?.leg ?? 0;
}

/** On landing after the worst case, as it is flown with what is on board; that case may not be flown to its end at all. */
function overReserveKg({ sortie }: Crew, fuelOnLandingKg: number): number {
  return Number.isNaN(fuelOnLandingKg) ? Number.NEGATIVE_INFINITY : fuelOnLandingKg - sortie.landingReserveKg;
}

/**
 * At the first and the last node of each leg that was flown to its end the fuel on board less what its worst case, or the approach,
 * lands with above the reserve. Whether there is enough anywhere on the leg is known there: what is required before is what
 * arrives with just that.
 */
function requiredAtEnds({ crew, log, flown }: Draft): number[] {
  const { sortie } = crew;
  const { fuelKg } = log.columns;
  const requiredKg = new Array<number>(log.nodes).fill(Number.NaN);
  flown.legs.forEach((leg, index) => {
    const { end } = sortie.legs[index];
    const inLeg = (at: number): boolean => {
      const phase = log.phases[at];
      return phase?.leg === index && phase.kind !== 'contact';
    };
    const overKg =
      end.kind === 'contact'
        ? overReserveKg(crew, fuelAfterDivert(crew, end, leg))
        : leg.endFuelKg - sortie.landingReserveKg - sortie.approach.fuelKg;
    for (const node of [log.phaseOf.findIndex(inLeg), log.phaseOf.findLastIndex(inLeg)]) {
      if (node >= 0) requiredKg[node] = fuelKg[node] - overKg;
    }
  });
  return requiredKg;
}

function leastOver({ log }: Draft, requiredKg: readonly number[]): number {
  return requiredKg.reduce(
    (least, required, node) =>
      Number.isNaN(required) ? least : Math.min(least, log.columns.fuelKg[node] - required),
    Number.POSITIVE_INFINITY,
  );
}

/** The failing value is known to this part of itself. */
const within = 0.01;
/** How far beyond the estimate a trial is set, so that two trials close the bracket. */
const nudge = 0.003;
const mostTrials = 24;
/** So many steps back, each such a part of what was looked at. */
const stepsBack = 4;
const partsBack = 12;

/**
 * From a sortie that passes as planned towards `lookedTo`: the last value that passes, and what fails 1 % beyond it. Assumes that
 * whoever fails goes on failing further out, but for manoeuvres. Yields null between two trials.
 */
export function* edgeOf(
  fly: (value: number) => Trial,
  planned: Trial,
  lookedTo: number,
  towards: RuleEdge['towards'],
): Generator<null, RuleEdge> {
  const passed: Tried[] = [{ value: 0, trial: planned }];
  let between = { passes: passed[0], fails: { value: lookedTo, trial: fly(lookedTo) } };
  if (between.fails.trial.failure === null) {
    const nothing = { limit: null, name: null, phase: null, leg: null, text: null };
    return { towards, passes: null, lookedTo, ...nothing };
  }
  between = yield* closedIn(fly, between, passed);
  // A turn that is met in a climb may fail nearer too, and pass again: looked for on the way back.
  for (let step = 1; step <= stepsBack && between.fails.trial.failure?.limit === 'manoeuvre'; step++) {
    const value = between.passes.value - (step * lookedTo) / partsBack;
    if (value / lookedTo <= 0) break;
    const fails = { value, trial: fly(value) };
    yield null;
    if (fails.trial.failure === null) continue;
    between = yield* closedIn(fly, { passes: nearest(passed, value), fails }, passed);
    step = 0;
  }
  const { passes, fails } = between;
  const { limit, name, phase, text } = fails.trial.failure ?? {};
  return {
    towards,
    passes: passes.value,
    lookedTo,
    limit: limit ?? null,
    name: name ?? null,
    phase: phase ?? null,
    leg: fails.trial.leg,
    text: text ?? null,
  };
}

/** The farthest that passed nearer than a value. */
function nearest(passed: readonly Tried[], value: number): Tried {
  const nearer = passed.filter((each) => Math.abs(each.value) < Math.abs(value));
  return nearer.reduce((best, each) => (Math.abs(each.value) > Math.abs(best.value) ? each : best));
}

/** The two values brought together to within what is asked; what passes on the way is added to `passed`. */
function* closedIn(
  fly: (value: number) => Trial,
  between: Between,
  passed: Tried[],
): Generator<null, Between> {
  let { passes, fails } = between;
  let slow = 0;
  for (let trials = 0; trials < mostTrials; trials++) {
    const width = fails.value - passes.value;
    if (Math.abs(width) <= within * Math.abs(passes.value)) break;
    const line = slow < 2 ? crossing(passes, fails) : null;
    const value = line === null ? passes.value + width / 2 : nudged(line, passes.value, fails.value);
    const trial = fly(value);
    yield null;
    if (trial.failure === null) {
      passes = { value, trial };
      passed.push(passes);
    } else fails = { value, trial };
    slow = Math.abs(fails.value - passes.value) > Math.abs(width) / 2 ? slow + 1 : 0;
  }
  return { passes, fails };
}

interface Between {
  readonly passes: Tried;
  readonly fails: Tried;
}

interface Tried {
  readonly value: number;
  readonly trial: Trial;
}

/** Where the margin that stops the sortie beyond runs out on a straight line, or else the first of all; null where none tells. */
function crossing(passes: Tried, fails: Tried): number | null {
  const partOf = (key: string): number => {
    const [here, there] = [passes.trial.left.get(key) ?? Number.NaN, fails.trial.left.get(key) ?? Number.NaN];
    return here > 0 && there < 0 && Number.isFinite(there) ? here / (here - there) : Number.POSITIVE_INFINITY;
  };
  const stopping = partOf(fails.trial.failure?.limit ?? '');
  const part = Number.isFinite(stopping) ? stopping : Math.min(...[...fails.trial.left.keys()].map(partOf));
  return Number.isFinite(part) ? passes.value + part * (fails.value - passes.value) : null;
}

/** A little towards the end of the bracket that is farther away, and inside of it. */
function nudged(value: number, passes: number, fails: number): number {
  const farther = Math.abs(fails - value) > Math.abs(value - passes) ? 1 : -1;
  const moved = value + farther * nudge * Math.abs(value) * Math.sign(fails - passes);
  const [low, high] = passes < fails ? [passes, fails] : [fails, passes];
  const rim = 0.02 * (high - low);
  return Math.min(Math.max(moved, low + rim), high - rim);
}
