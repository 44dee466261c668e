/**
 * What to do now: the rest of the leg flown at other heights and another Mach with what the readings tell of, and what each saves at
 * the end of it against going on as now. Turns and the start of the descent are solved for anew in every flight.
 */

import { fileUnit, summariseLimits } from '../plan/limits.ts';
import { Log } from '../plan/log.ts';
import type { LimitSummary } from '../plan/plan.ts';
import type { Crew } from '../plan/route-flight.ts';
import type { CruiseStep, Leg, Sortie, Step } from '../plan/sortie.ts';
import { flyOn } from '../plan/sortie-flyer.ts';
import type { Deviation } from './deviation.ts';
import type { Begin, FlownNow, FlyingOn, Now } from './refly.ts';

/** Steps of height [m] and Mach. */
const heightStepM = 304.8;
const machStep = 0.05;
/** Each way. */
const mostSteps = 2;
/** Time in which another height and Mach are reached [s]. */
const settlesS = 300;
/** Less than this is no reason to change anything [kg]. */
const worthKg = 50;

/** Another cruise: how much higher and faster than now, and what comes of it. */
export interface Choice {
  readonly raisedM: number;
  readonly machMore: number;
  /** At the end of the leg; NaN where it cannot be flown. */
  readonly fuelKg: number;
  /** Against going on as now [kg]; NaN where one of the two cannot be flown. */
  readonly savesKg: number;
  readonly laterS: number;
  /** What forbids it: a limit that is passed further than now, or why it cannot be flown; null where nothing does. */
  readonly forbidden: Passed | null;
  /** The limit that is passed once the change is made, or why it cannot be flown; null where neither. */
  readonly passes: Passed | null;
}

/** Key of a limit, with by how much more than is kept from it, or why it cannot be flown. */
export interface Passed {
  readonly key: string;
  readonly by: number | null;
}

export interface Advice {
  /** End of the leg: name of the tanker or base. */
  readonly to: string;
  /** Of the cruise as it goes on now. */
  readonly mach: number;
  readonly pressureAltitudeM: number;
  /** The same of going on as now. */
  readonly passesNow: Passed | null;
  /** The most that is saved inside all limits; all 0 where to go on as now is best. */
  readonly best: Choice;
  /** What stops the step after the best: a limit's key or a reason such as 'thrust'; null where that step would only cost. */
  readonly heldBy: string | null;
  /** Each height at the Mach of now, then each Mach at the height of now. */
  readonly choices: readonly Choice[];
  readonly evaluations: number;
}

/** null where no cruise is left on the leg; with null between two flights. */
export function* advising(
  on: FlyingOn,
  now: Now,
  deviation: Deviation,
  flown: FlownNow | null,
): Generator<null, Advice | null> {
  const from = on.begin(now, deviation, flown);
  if (from === null) return null;
  const question = new Question(on, now, deviation, from, flown);
  if (question.step === null) return null;
  const asNow = question.fly(0, 0);
  yield null;
  const choices: Choice[] = [];
  const tried = new Map<string, Choice>();
  const choose = (raised: number, more: number): Choice => {
    const key = `${raised} ${more}`;
    const found = tried.get(key) ?? question.choice(raised, more, asNow);
    tried.set(key, found);
    return found;
  };
  const steps = Array.from({ length: 2 * mostSteps + 1 }, (_, i) => i - mostSteps).filter((i) => i !== 0);
  for (const i of steps) {
    choices.push(choose(i, 0));
    yield null;
  }
  for (const i of steps) {
    choices.push(choose(0, i));
    yield null;
  }
  // From the best of these on, one step at a time, as long as it saves.
  let at = { raised: 0, more: 0, choice: choose(0, 0) };
  const better = (raised: number, more: number): boolean => {
    const choice = choose(raised, more);
    if (choice.forbidden !== null) return false;
    // Inside all limits comes first, then fuel.
    const [inside, was] = [choice.passes === null, at.choice.passes === null];
    if (inside === was ? !(choice.fuelKg > at.choice.fuelKg) : !inside) return false;
    at = { raised, more, choice };
    return true;
  };
  for (const i of steps) {
    better(i, 0);
    better(0, i);
  }
  for (let moved = true; moved; ) {
    moved = false;
    for (const [raised, more] of neighbours(at)) {
      if (better(raised, more)) {
        moved = true;
        break;
      }
      yield null;
    }
  }
  if (at.choice.savesKg < worthKg && asNow.passes === null) at = { raised: 0, more: 0, choice: choose(0, 0) };
  const next = neighbours(at)
    .map(([raised, more]) => choose(raised, more))
    .filter(({ forbidden, fuelKg }) => forbidden !== null && !(fuelKg <= at.choice.fuelKg))
    .sort((a, b) => (Number.isNaN(b.fuelKg) ? -1 : b.fuelKg - a.fuelKg))[0];
  return {
    to: question.to,
    mach: question.mach,
    pressureAltitudeM: question.altitudeM,
    passesNow: asNow.passes,
    best: at.choice,
    heldBy: next?.forbidden?.key ?? null,
    choices,
    evaluations: question.evaluations,
  };
}

function neighbours({ raised, more }: { readonly raised: number; readonly more: number }) {
  return [
    [raised + 1, more],
    [raised - 1, more],
    [raised, more + 1],
    [raised, more - 1],
  ] as const;
}

interface Tried {
  /** At the end of the leg; NaN where it was not reached. */
  readonly fuelKg: number;
  readonly timeS: number;
  readonly limits: readonly LimitSummary[];
  readonly stopped: string | null;
  readonly passes: Passed | null;
}

class Question {
  readonly step: CruiseStep | null;
  readonly to: string;
  readonly mach: number;
  readonly altitudeM: number;
  evaluations = 0;
  private readonly on: FlyingOn;
  private readonly now: Now;
  private readonly deviation: Deviation;
  private readonly from: Begin;
  /** How much higher than its rule the cruise is flown now. */
  private readonly offM: number;

  constructor(on: FlyingOn, now: Now, deviation: Deviation, from: Begin, flown: FlownNow | null) {
    this.on = on;
    this.now = now;
    this.deviation = deviation;
    this.from = from;
    const { leg: index, step } = from.progress;
    const leg = on.request.sortie.legs[index];
    const left = leg.fly.slice(step).find((each): each is CruiseStep => each.kind === 'cruise');
    const cruises = leg.fly[step]?.kind === 'cruise';
    this.step = left ?? null;
    this.to = leg.end.kind === 'contact' ? leg.end.tanker.name : leg.end.base.name;
    this.mach = (left?.mach ?? Number.NaN) + (cruises ? (flown?.machMore ?? 0) : 0);
    this.offM = from.offM;
    this.altitudeM = cruises ? from.progress.state.pressureAltitudeM : this.aimM();
  }

  /** Where the cruise that is still ahead begins, as decided. */
  private aimM(): number {
    const { step } = this;
    if (step === null) return Number.NaN;
    if (step.altitude !== 'optimum') return step.altitude;
    const { timeS, pressureAltitudeM } = this.on.plan.trace.columns;
    const begins = this.on.plan.events.find(
      (event) => event.kind === 'cruise' && event.timeS >= this.now.planTimeS,
    );
    const node = timeS.findIndex((at) => at >= (begins?.timeS ?? 0));
    return pressureAltitudeM[Math.max(0, node)];
  }

  choice(raised: number, more: number, asNow: Tried): Choice {
    const tried = raised === 0 && more === 0 ? asNow : this.fly(raised, more);
    return {
      raisedM: raised * heightStepM,
      machMore: more * machStep,
      fuelKg: tried.fuelKg,
      savesKg: tried.fuelKg - asNow.fuelKg,
      laterS: tried.timeS - asNow.timeS,
      forbidden: tried === asNow ? null : worse(tried, asNow),
      passes: tried.passes,
    };
  }

  fly(raised: number, more: number): Tried {
    const { on, now, deviation, from } = this;
    const raisedM = this.offM + raised * heightStepM;
    const mach = this.mach + more * machStep;
    const { leg: index } = from.progress;
    const { crew } = on.crewWith(deviation);
    const sortie = withCruise(crew.sortie, index, from.progress.step, mach);
    const fixed = this.step?.altitude === 'optimum' ? null : (this.step?.altitude ?? null);
    const other: Crew = {
      ...crew,
      sortie,
      altitudes: (at) => {
        const table = fixed === null ? crew.altitudes(at) : null;
        return {
          altitudeM: (massKg, offsetK) => (table?.altitudeM(massKg, offsetK) ?? fixed ?? 0) + raisedM,
        };
      },
    };
    const log = new Log(on.request.aircraft.limits);
    const { progress, route } = from;
    const flown = flyOn(other, null, log, {
      progress: { ...progress, state: { ...progress.state } },
      route,
      legs: [],
      refuellings: [],
      takeOff: { timeS: 0, fuelKg: 0, groundRollM: 0 },
    });
    this.evaluations += crew.flight.evaluations;
    const end = flown.legs[0];
    const limits = summariseLimits(on.request.aircraft.limits, on.request.sortie.pads, log, now.takeOffS);
    const tried = {
      fuelKg: end?.endFuelKg ?? Number.NaN,
      timeS: (end?.end.state.timeS ?? Number.NaN) - now.takeOffS,
      limits,
      stopped: end === undefined ? (flown.stopped?.reason ?? 'thrust') : null,
    };
    if (tried.stopped !== null) return { ...tried, passes: { key: tried.stopped, by: null } };
    const settledS = progress.state.timeS + settlesS;
    const later = limits.map((limit) => ({ ...limit, leastMargin: leastFrom(log, limit, settledS) }));
    return { ...tried, passes: passedOf(later.filter((limit) => limit.leastMargin < keptOf(limit))) };
  }
}

/** What is kept from a limit: the pad of the sortie, and at least two standard deviations of the limit as the deck states it. */
function keptOf({ pad, spread }: LimitSummary): number {
  return Math.max(pad, 2 * spread);
}

function leastFrom({ columns, margins }: Log, { key, quantity }: LimitSummary, fromS: number): number {
  const unit = fileUnit(quantity);
  return margins[key].reduce(
    (least, margin, node) => (columns.timeS[node] < fromS ? least : Math.min(least, margin * unit)),
    Number.POSITIVE_INFINITY,
  );
}

function passedOf([passed]: readonly LimitSummary[]): Passed | null {
  return passed === undefined ? null : { key: passed.key, by: keptOf(passed) - passed.leastMargin };
}

/** A limit that is come nearer to than it may, and nearer than going on as now comes. */
function worse({ limits, stopped }: Tried, asNow: Tried): Passed | null {
  if (stopped !== null) return { key: stopped, by: null };
  const before = new Map(asNow.limits.map(({ key, leastMargin }) => [key, leastMargin]));
  return passedOf(
    limits.filter((limit) => {
      const { key, leastMargin } = limit;
      return leastMargin < keptOf(limit) && leastMargin < (before.get(key) ?? Infinity) - 1e-3;
    }),
  );
}

/** The sortie to the end of a leg, what is left of it at another cruise Mach and at the altitudes of the crew. */
function withCruise(sortie: Sortie, index: number, from: number, mach: number): Sortie {
  const leg = sortie.legs[index];
  const cruise = leg.fly.slice(from).find((each) => each.kind === 'cruise');
  const changed = (step: Step, i: number): Step => {
    if (i < from || cruise?.kind !== 'cruise') return step;
    if (step.kind === 'cruise') return { ...step, mach, altitude: 'optimum' };
    const leads = step.kind === 'climb' && step.mach === cruise.mach;
    return leads ? { ...step, mach, to: 'optimum' } : step;
  };
  const other: Leg = { ...leg, fly: leg.fly.map(changed) };
  return { ...sortie, legs: [...sortie.legs.slice(0, index), other] };
}
