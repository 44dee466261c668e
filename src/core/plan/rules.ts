/**
 * The day's own rules of thumb. The planned sortie is flown again with one driver changed and its decisions held; what fuel is less
 * at each gate is the cost. Where the sortie fails it is planned anew. A contact for full tanks fills them whatever came before,
 * so that no cost passes through it; one for a fixed mass passes all on.
 */
import { standardDay } from '../air/offset-day.ts';
import { ENGINEERING, type Tolerance } from '../flight/setup.ts';
import { crewOf, type Draft, type PlanRequest } from './draft.ts';
import { type Changed, type Driver, driversOf } from './drivers.ts';
import { toTheEnd } from './explain.ts';
import { EventLog, Log } from './log.ts';
import { type Mark, marksOf } from './outcome.ts';
import type { DriverRule, LegDecisions, PlanEvent, RuleCost, RuleEdge, RuleGate, Rules } from './plan.ts';
import type { Crew } from './route-flight.ts';
import { edgeOf, judged, type Trial, tryOut } from './rules-edge.ts';
import { besidesOf, flownLater, isRefusedLater } from './slip.ts';
import {
  asPumped,
  CannotPlan,
  flyOn,
  flySortie,
  type Onward,
  onwardFrom,
  type SortieFlown,
} from './sortie-flyer.ts';

/** Events nearer than this move no gate by a tenth of a kilogram. */
const tolerance: Tolerance = { ...ENGINEERING, eventTimeS: 1e-5 };
/** The straight rule holds where it is off by no more than this part of the cost. */
const straightWithin = 0.05;
/** A slope below this over one step is no rule. */
const leastKg = 2;

/** A flyable sortie of `request` is looked at; one that is not has no edges. Throws `CannotPlan`. */
export function rulesOf(request: PlanRequest): Rules {
  return toTheEnd(ruling(request));
}

/** The same, with null between two flights, so that who waits can give up. */
export function* ruling(request: PlanRequest): Generator<null, Rules> {
  const { altitudes } = crewOf(request);
  const log = new Log(request.aircraft.limits);
  const today = new Held(request, altitudes, log);
  const drafted = { crew: today.asPlanned, log, flown: today.flown };
  const planned = judged(drafted);
  yield null;
  const standard = standardOf(request, altitudes);
  yield null;
  const drivers: DriverRule[] = [];
  for (const driver of driversOf(request)) {
    const { key, of, quantity, step } = driver;
    const before = evaluationsOf(today, standard);
    const { costs, marks, flown } = yield* costsOf(
      driver,
      today,
      typeof standard === 'string' ? null : standard,
    );
    const edges: RuleEdge[] = [];
    const trials = new Trials(today, { drafted, planned }, driver);
    for (const towards of planned.failure === null ? driver.edges : []) {
      const lookedTo = towards === 'more' ? driver.most : driver.least;
      const guess = driver.guess?.(log, towards) ?? guessOf(planned, today.gates, flown, lookedTo);
      edges.push(yield* edgeOf({ fly: (value) => trials.at(value), lookedTo, towards, guess }));
    }
    const evaluations = evaluationsOf(today, standard) - before;
    drivers.push({ key, of, quantity, step, costs, marks, edges, evaluations });
  }
  const notComputed = [
    ...(typeof standard === 'string' ? [standard] : []),
    ...(request.aircraft.inletError === null
      ? ['what an inlet off its schedule costs: the deck has no table of it']
      : []),
    ...(request.day.steady
      ? ['what a later take-off costs in other air: the weather is the same at every time']
      : []),
    ...(planned.failure === null
      ? []
      : [`how far each driver can go: the sortie cannot be flown as it is (${planned.failure.name})`]),
  ];
  return {
    gates: today.gates,
    drivers,
    withStandardDay: typeof standard !== 'string',
    notComputed,
    evaluations: evaluationsOf(today, standard),
  };
}

function evaluationsOf(today: Held, standard: Held | string): number {
  return today.evaluations + (typeof standard === 'string' ? 0 : standard.evaluations);
}

/** The same sortie on the standard day, or why there is none. */
function standardOf(request: PlanRequest, altitudes: Crew['altitudes']): Held | string {
  const what = 'what the drivers cost on the standard day';
  if (request.day.description.title === standardDay.description.title) return `${what}: it is today's`;
  try {
    const held = new Held({ ...request, day: standardDay }, altitudes, null);
    return held.flown.stopped ? `${what}: the sortie cannot be flown on it` : held;
  } catch (error) {
    if (error instanceof CannotPlan) return `${what}: ${error.message}`;
    throw error;
  }
}

/** What a changed flight has left at each gate, and what it met on the way. */
interface Reflown {
  readonly fuelKg: readonly number[];
  readonly events: readonly PlanEvent[];
}

/** A planned sortie that is flown again as decided. */
class Held {
  readonly request: PlanRequest;
  readonly gates: readonly RuleGate[];
  readonly asPlanned: Crew;
  readonly flown: SortieFlown;
  readonly log: Log | null;
  readonly decisions: readonly LegDecisions[];
  private readonly altitudes: Crew['altitudes'];
  /** Evaluations of all crews before the last one, which may still fly: none but that is held on to. */
  private before = 0;
  private last: Crew | null = null;

  constructor(request: PlanRequest, altitudes: Crew['altitudes'], log: Log | null) {
    this.request = request;
    this.altitudes = altitudes;
    this.log = log;
    this.asPlanned = this.crew({ request });
    this.flown = flySortie(this.asPlanned, null, log);
    this.decisions = heldDecisions(request, this.flown);
    this.gates = gatesOf(request, this.flown);
  }

  get evaluations(): number {
    return this.before + (this.last?.flight.evaluations ?? 0);
  }

  /** The best altitude stays that of the aircraft as its deck has it: it is what stands on the cards. */
  crew({ request, variation, raisedM }: Changed): Crew {
    const { altitudes } = this;
    const raised: Crew['altitudes'] = (mach) => {
      const table = altitudes(mach);
      return { altitudeM: (massKg, offsetK) => table.altitudeM(massKg, offsetK) + (raisedM ?? 0) };
    };
    const crew = {
      ...crewOf(request, variation, tolerance),
      altitudes: raisedM === undefined ? altitudes : raised,
    };
    this.before = this.evaluations;
    this.last = crew;
    return crew;
  }

  /** Fuel at each gate as decided; NaN from where it is not flown on. */
  fly(changed: Changed, marked = false): Reflown {
    const count = this.gates.length;
    if (this.isSameFlight(changed)) {
      return { fuelKg: fuelAtGates(this.flown, count), events: this.log?.events ?? [] };
    }
    const onward = this.onward(changed);
    const before = onward === null ? [] : (this.log?.beforeContact(onward.progress.leg).events ?? []);
    const log = marked ? new EventLog(before) : null;
    try {
      const crew = this.crew(changed);
      const flown =
        onward === null ? flySortie(crew, this.decisions, log) : flyOn(crew, this.decisions, log, onward);
      return { fuelKg: fuelAtGates(flown, count), events: log?.events ?? [] };
    } catch (error) {
      if (!(error instanceof CannotPlan)) throw error;
      return { fuelKg: this.gates.map(() => Number.NaN), events: [] };
    }
  }

  /** A flight that is only later, on a day that is the same at every time. */
  isSameFlight({ laterS }: Changed): boolean {
    const { request, flown } = this;
    return laterS !== undefined && request.day.steady && !isRefusedLater(request.sortie, flown, laterS);
  }

  /** From the contact before which nothing differs; null where all of it is to be flown. */
  onward({ fromContact }: Changed): Onward | null {
    const isFlown = fromContact !== undefined && this.flown.legs[fromContact] !== undefined;
    return isFlown ? onwardFrom(this.flown, fromContact) : null;
  }
}

/** As decided, but that full tanks are asked for again where the sortie asks for them. */
function heldDecisions({ sortie }: PlanRequest, flown: SortieFlown): LegDecisions[] {
  return flown.legs.map(({ decisions }, index) => {
    const { end } = sortie.legs[index];
    const refuelling = flown.refuellings[index];
    if (end.kind !== 'contact' || end.takeKg !== 'full' || !refuelling) return decisions;
    return { ...decisions, takenKg: refuelling.takenKg + refuelling.offloadLeftKg };
  });
}

/** A sortie planned anew for values of one driver. */
class Trials {
  private readonly today: Held;
  private readonly drafted: Draft;
  private readonly planned: Trial;
  private readonly driver: Driver;

  constructor(today: Held, { drafted, planned }: { drafted: Draft; planned: Trial }, driver: Driver) {
    this.today = today;
    this.drafted = drafted;
    this.planned = planned;
    this.driver = driver;
  }

  at(value: number): Trial {
    const { today, drafted, planned, driver } = this;
    const changed = driver.change(today.request, value);
    const { laterS, raisedM } = changed;
    const besides = laterS === undefined ? () => [] : besidesOf;
    if (laterS !== undefined && today.isSameFlight(changed)) {
      const later = flownLater(drafted, laterS);
      return judged(later, planned.overKg, besides(later));
    }
    if (value === 0) return planned;
    const crew = { ...today.crew(changed), once: true, near: today.decisions };
    const onward = today.onward(changed);
    if (onward !== null) {
      const { leg } = onward.progress;
      const log = drafted.log.beforeContact(leg);
      return tryOut({ crew, log, besides, knownKg: planned.overKg.slice(0, leg) }, (goesOn) =>
        asPumped(crew, log, flyOn(crew, null, log, onward, goesOn)),
      );
    }
    // Another cruise altitude is reached from the same climb, as decided.
    const held = raisedM === undefined ? null : today.decisions;
    const log = new Log(crew.flight.setup.aircraft.limits);
    return tryOut({ crew, log, besides, knownKg: [] }, (goesOn) => flySortie(crew, held, log, goesOn));
  }
}

function fuelAtGates({ legs, landingFuelKg }: SortieFlown, gates: number): number[] {
  return Array.from({ length: gates }, (_, leg) =>
    leg === gates - 1 ? landingFuelKg : (legs[leg]?.endFuelKg ?? Number.NaN),
  );
}

function gatesOf({ sortie }: PlanRequest, flown: SortieFlown): RuleGate[] {
  const fuelKg = fuelAtGates(flown, sortie.legs.length);
  return sortie.legs.map(({ end }, leg): RuleGate => {
    const lands = end.kind === 'landing';
    const timeS = lands ? flown.landingTimeS : (flown.legs[leg]?.end.state.timeS ?? Number.NaN);
    return {
      leg,
      kind: end.kind,
      name: lands ? end.base.name : end.tanker.name,
      timeS: numberOrNull(timeS - sortie.takeOff.timeS),
      fuelKg: numberOrNull(fuelKg[leg]),
    };
  });
}

function marksIn(events: readonly PlanEvent[], { sortie }: PlanRequest): Mark[] {
  const { timeS } = sortie.takeOff;
  const since = events.map((event) => ({ ...event, timeS: event.timeS - timeS }));
  return marksOf(since, [], [], []).filter(({ kind }) => kind !== 'take-off');
}

/** Fuel less at each gate for one value of a driver. */
interface Cost {
  readonly value: number;
  readonly kg: readonly number[];
}

interface Costs extends Pick<DriverRule, 'costs' | 'marks'> {
  /** By the slopes, and what was flown beyond the step, each way. */
  readonly flown: readonly Cost[];
}

/** What one driver costs at the gates and marks, how far that is straight, and the same on the standard day. */
function* costsOf(driver: Driver, today: Held, standard: Held | null): Generator<null, Costs> {
  const { step, least, ruleTo } = driver;
  const { request, gates } = today;
  const bothWays = least < 0;
  const events = new Map<number, readonly PlanEvent[]>();
  function* cost(of: Held, value: number): Generator<null, Cost> {
    const marked = of === today && Math.abs(value) === step;
    const reflown = of.fly(driver.change(of.request, value), marked);
    if (marked) events.set(value, reflown.events);
    yield null;
    return { value, kg: reflown.fuelKg.map((kg, gate) => (of.gates[gate].fuelKg ?? Number.NaN) - kg) };
  }
  const more = yield* cost(today, step);
  const less = bothWays ? yield* cost(today, -step) : null;
  const slopes = slopesOf(more, less);
  const further = (value: number) => cost(today, value);
  const to = yield* reachOf(slopes, more, ruleTo, further);
  const from = less === null ? null : yield* reachOf(slopes, less, ruleTo, further);
  const isStraight = to.isRule || (from?.isRule ?? false);
  const standardSlopes =
    standard && isStraight
      ? slopesOf(yield* cost(standard, step), bothWays ? yield* cost(standard, -step) : null)
      : null;
  const marksAt = (value: number) => marksIn(events.get(value) ?? [], request);
  return {
    costs: gates.map((_, gate): RuleCost => {
      const straight = { from: from?.reach[gate] ?? 0, to: to.reach[gate] };
      return {
        perStepKg: numberOrNull(slopes[gate]),
        moreKg: numberOrNull(more.kg[gate]),
        lessKg: numberOrNull(less?.kg[gate] ?? Number.NaN),
        standardPerStepKg: numberOrNull(standardSlopes?.[gate] ?? Number.NaN),
        straight: isRule(slopes[gate]) && straight.from < straight.to ? straight : null,
      };
    }),
    marks: marksBetween(
      marksIn(today.log?.events ?? [], request),
      marksAt(step),
      bothWays ? marksAt(-step) : null,
    ),
    flown: [
      { value: step, kg: slopes },
      ...to.flown,
      { value: -step, kg: slopes.map((kg) => -kg) },
      ...(from?.flown ?? []),
    ],
  };
}

/** By a step each way, or one way where the other has no meaning; NaN where it is not flown. */
function slopesOf(more: Cost, less: Cost | null): number[] {
  return more.kg.map((kg, gate) => (less === null ? kg : (kg - less.kg[gate]) / 2));
}

function isRule(slopeKg: number): boolean {
  return Math.abs(slopeKg) >= leastKg;
}

interface Reach {
  /** For each gate. */
  readonly reach: readonly number[];
  /** Whether the rule holds for a step at some gate. */
  readonly isRule: boolean;
  /** What was flown beyond the step. */
  readonly flown: readonly Cost[];
}

/**
 * For each gate, how far one way the rule holds: to where the fuel by which it is off passes what it may be, both on lines between the
 * step and one more flight; to where was looked, where it holds so far. That flight is where the rule of the dearest gate would be off
 * so much if the part that it is off grew as up to the step.
 */
function* reachOf(
  slopes: readonly number[],
  near: Cost,
  farthest: number,
  costAt: (value: number) => Generator<null, Cost>,
): Generator<null, Reach> {
  const step = Math.abs(near.value);
  const offKg = ({ value, kg }: Cost, gate: number): number =>
    Math.abs((slopes[gate] / step) * value - kg[gate]);
  const beyondKg = (cost: Cost, gate: number): number =>
    offKg(cost, gate) - straightWithin * Math.abs(cost.kg[gate]);
  const holds = slopes.map((slope, gate) => isRule(slope) && beyondKg(near, gate) <= 0);
  const dearest = holds.reduce(
    (best, held, gate) => (held && !(Math.abs(slopes[gate]) <= Math.abs(slopes[best])) ? gate : best),
    -1,
  );
  const partOfStep = (gate: number): number => (straightWithin * Math.abs(near.kg[gate])) / offKg(near, gate);
  if (dearest < 0) {
    const reach = slopes.map((_, gate) => (Number.isNaN(near.kg[gate]) ? 0 : near.value * partOfStep(gate)));
    return { reach, isRule: false, flown: [] };
  }
  const lookedTo = Math.min(Math.max(partOfStep(dearest), 2) * step, farthest);
  const far = yield* costAt(Math.sign(near.value) * lookedTo);
  const reach = slopes.map((_, gate): number => {
    if (!holds[gate]) return Number.isNaN(near.kg[gate]) ? 0 : near.value * partOfStep(gate);
    const [before, after] = [near, far].map((cost) => beyondKg(cost, gate));
    if (Number.isNaN(after)) return near.value;
    return after <= 0 ? far.value : near.value + (before / (before - after)) * (far.value - near.value);
  });
  return { reach, isRule: true, flown: [far] };
}

/** Of each kilogram less at a contact so much is missing after its worst case: who is lighter burns less on the way. */
const arrives = 0.95;

/**
 * Where the fuel in hand as planned would be gone at a gate, if what it costs with decisions held grew on as at the farthest flight: the
 * tangent there of the parabola that has the slope of the rule at 0. null for nowhere.
 */
function guessOf(
  { overKg }: Trial,
  gates: readonly RuleGate[],
  flown: readonly Cost[],
  lookedTo: number,
): number | null {
  const [rule, far] = flown.filter(({ value }) => value / lookedTo > 0);
  if (far === undefined) return null;
  const guesses = overKg.map((over, gate) => {
    const goneKg = gates[gate].kind === 'contact' ? over / arrives : over;
    const [ruleRate, farRate] = [rule, far].map(({ value, kg }) => kg[gate] / value);
    return far.value + (goneKg - far.kg[gate]) / (2 * farRate - ruleRate);
  });
  const inside = guesses.filter((guess) => guess / lookedTo > 0 && guess / lookedTo < 1);
  return inside.length === 0 ? null : inside.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
}

function marksBetween(
  marks: readonly Mark[],
  more: readonly Mark[],
  less: readonly Mark[] | null,
): DriverRule['marks'] {
  return marks.map((mark) => {
    const { kind, name, leg, timeS, fuelKg } = mark;
    const at = (others: readonly Mark[]) => others.find(({ key }) => key === mark.key)?.fuelKg ?? Number.NaN;
    const dearer = fuelKg - at(more);
    const perStepKg = less ? (dearer - (fuelKg - at(less))) / 2 : dearer;
    return { kind, name, leg, timeS, perStepKg: numberOrNull(perStepKg) };
  });
}

function numberOrNull(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}
