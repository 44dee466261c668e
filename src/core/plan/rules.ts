/**
 * The day's own rules of thumb. The planned sortie is flown again with one driver changed and its decisions held; what fuel is less
 * at each gate is the cost. Where the sortie fails it is planned anew. A contact for full tanks fills them whatever came before,
 * so that no cost passes through it; one for a fixed mass passes all on.
 */
import { standardDay } from '../air/offset-day.ts';
import { crewOf, type Draft, draft, type PlanRequest } from './draft.ts';
import { type Changed, type Driver, driversOf } from './drivers.ts';
import { toTheEnd } from './explain.ts';
import { Log } from './log.ts';
import { type Mark, marksOf } from './outcome.ts';
import type { DriverRule, LegDecisions, RuleCost, RuleEdge, RuleGate, RuleMark, Rules } from './plan.ts';
import type { Crew } from './route-flight.ts';
import { edgeOf, tryOut } from './rules-edge.ts';
import { CannotPlan, flySortie, type SortieFlown } from './sortie-flyer.ts';

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
  const today = new Held(request);
  const planned = tryOut(() => today.plan({ request }));
  yield null;
  const standard = standardOf(request);
  yield null;
  const drivers: DriverRule[] = [];
  for (const driver of driversOf(request)) {
    const { key, of, quantity, step } = driver;
    const costs = yield* costsOf(driver, today, typeof standard === 'string' ? null : standard);
    const edges: RuleEdge[] = [];
    for (const towards of planned.failure === null ? driver.edges : []) {
      const fly = (value: number) => tryOut(() => today.plan(driver.change(request, value)));
      edges.push(yield* edgeOf(fly, planned, towards === 'more' ? driver.most : driver.least, towards));
    }
    drivers.push({ key, of, quantity, step, ...costs, edges });
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
    evaluations: today.evaluations + (typeof standard === 'string' ? 0 : standard.evaluations),
  };
}

/** The same sortie on the standard day, or why there is none. */
function standardOf(request: PlanRequest): Held | string {
  const what = 'what the drivers cost on the standard day';
  if (request.day.description.title === standardDay.description.title) return `${what}: it is today's`;
  try {
    const held = new Held({ ...request, day: standardDay });
    return held.stopped ? `${what}: the sortie cannot be flown on it` : held;
  } catch (error) {
    if (error instanceof CannotPlan) return `${what}: ${error.message}`;
    throw error;
  }
}

/** A planned sortie that is flown again as decided. */
class Held {
  readonly gates: readonly RuleGate[];
  readonly marks: readonly Mark[];
  readonly stopped: boolean;
  readonly request: PlanRequest;
  private readonly altitudes: Crew['altitudes'];
  private readonly decisions: readonly LegDecisions[];
  private latest: Crew;
  private before = 0;

  constructor(request: PlanRequest) {
    this.request = request;
    const crew = crewOf(request);
    this.latest = crew;
    this.altitudes = crew.altitudes;
    const drafted = draft(crew);
    this.stopped = drafted.flown.stopped !== null;
    this.decisions = heldDecisions(drafted);
    this.gates = gatesOf(drafted);
    this.marks = marksIn(drafted.log, request);
  }

  get evaluations(): number {
    return this.before + this.latest.flight.evaluations;
  }

  /** The best altitude stays that of the aircraft as its deck has it: it is what stands on the cards. */
  crew({ request, variation, raisedM }: Changed): Crew {
    const { altitudes } = this;
    const raised: Crew['altitudes'] = (mach) => {
      const table = altitudes(mach);
      return { altitudeM: (massKg, offsetK) => table.altitudeM(massKg, offsetK) + (raisedM ?? 0) };
    };
    const crew = { ...crewOf(request, variation), altitudes: raisedM === undefined ? altitudes : raised };
    this.before += this.latest.flight.evaluations;
    this.latest = crew;
    return crew;
  }

  /** Planned anew; another cruise altitude is reached from the same climb, as decided. */
  plan(changed: Changed): Draft {
    const crew = this.crew(changed);
    if (changed.raisedM === undefined) return draft(crew);
    const log = new Log(crew.flight.setup.aircraft.limits);
    return { crew, log, flown: flySortie(crew, this.decisions, log) };
  }

  /** Fuel at each gate as decided; NaN from where it is not flown on. */
  fly(changed: Changed, log: Log | null = null): number[] {
    try {
      return fuelAtGates(flySortie(this.crew(changed), this.decisions, log), this.gates.length);
    } catch (error) {
      if (error instanceof CannotPlan) return this.gates.map(() => Number.NaN);
      throw error;
    }
  }
}

/** As decided, but that full tanks are asked for again where the sortie asks for them. */
function heldDecisions({ crew, flown }: Draft): LegDecisions[] {
  return flown.legs.map(({ decisions }, index) => {
    const { end } = crew.sortie.legs[index];
    const refuelling = flown.refuellings[index];
    if (end.kind !== 'contact' || end.takeKg !== 'full' || !refuelling) return decisions;
    return { ...decisions, takenKg: refuelling.takenKg + refuelling.offloadLeftKg };
  });
}

function fuelAtGates({ legs, landingFuelKg }: SortieFlown, gates: number): number[] {
  return Array.from({ length: gates }, (_, leg) =>
    leg === gates - 1 ? landingFuelKg : (legs[leg]?.endFuelKg ?? Number.NaN),
  );
}

function gatesOf(drafted: Draft): RuleGate[] {
  const { crew, flown } = drafted;
  const { sortie } = crew;
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

function marksIn(log: Log, { sortie }: Pick<PlanRequest, 'sortie'>): Mark[] {
  const { timeS } = sortie.takeOff;
  const events = log.events.map((event) => ({ ...event, timeS: event.timeS - timeS }));
  return marksOf(events, [], [], []).filter(({ kind }) => kind !== 'take-off');
}

/** What one driver costs at the gates and marks, how far that is straight, and the same on the standard day. */
function* costsOf(
  driver: Driver,
  today: Held,
  standard: Held | null,
): Generator<null, Pick<DriverRule, 'costs' | 'marks'>> {
  const { step, least, most } = driver;
  const { request, gates } = today;
  const bothWays = least < 0;
  const moreLog = new Log(request.aircraft.limits);
  const lessLog = new Log(request.aircraft.limits);
  function* cost(of: Held, value: number, log: Log | null = null): Generator<null, number[]> {
    const fuelKg = of.fly(driver.change(of.request, value), log);
    yield null;
    return fuelKg.map((kg, gate) => (of.gates[gate].fuelKg ?? Number.NaN) - kg);
  }
  const more = yield* cost(today, step, moreLog);
  const less = bothWays ? yield* cost(today, -step, lessLog) : null;
  const slopes = slopesOf(more, less);
  const standardSlopes =
    standard && slopesOf(yield* cost(standard, step), bothWays ? yield* cost(standard, -step) : null);
  function* reaches(way: 1 | -1, near: readonly number[] | null, farthest: number) {
    if (near === null) return gates.map(() => 0);
    return yield* reachOf(slopes, step, way, near, farthest, (value) => cost(today, value));
  }
  const to = yield* reaches(1, more, most);
  const from = yield* reaches(-1, less, least);
  return {
    costs: gates.map(
      (_, gate): RuleCost => ({
        perStepKg: numberOrNull(slopes[gate]),
        moreKg: numberOrNull(more[gate]),
        lessKg: numberOrNull(less?.[gate] ?? Number.NaN),
        standardPerStepKg: numberOrNull(standardSlopes?.[gate] ?? Number.NaN),
        straight: isRule(slopes[gate]) && from[gate] < to[gate] ? { from: from[gate], to: to[gate] } : null,
      }),
    ),
    marks: marksBetween(today, moreLog, bothWays ? lessLog : null),
  };
}

/** By a step each way, or one way where the other has no meaning; NaN where it is not flown. */
function slopesOf(more: readonly number[], less: readonly number[] | null): number[] {
  return more.map((kg, gate) => (less === null ? kg : (kg - less[gate]) / 2));
}

function isRule(slopeKg: number): boolean {
  return Math.abs(slopeKg) >= leastKg;
}

/**
 * For each gate, how far one way the rule holds: to where the part by which it is off, on a line between the values that were flown,
 * passes what it may be. The next value is flown only while the rule holds at some gate.
 */
function* reachOf(
  slopes: readonly number[],
  step: number,
  way: 1 | -1,
  near: readonly number[],
  farthest: number,
  costAt: (value: number) => Generator<null, number[]>,
): Generator<null, number[]> {
  const reach = slopes.map(() => Number.NaN);
  let last = { value: 0, off: slopes.map(() => 0) };
  for (const value of [way * step, farthest / 3, farthest]) {
    if (Math.abs(value) <= Math.abs(last.value)) continue;
    const kg = value === way * step ? near : yield* costAt(value);
    const off = slopes.map((slope, gate) => Math.abs(((slope / step) * value - kg[gate]) / kg[gate]));
    for (let gate = 0; gate < slopes.length; gate++) {
      if (!Number.isNaN(reach[gate]) || off[gate] <= straightWithin) continue;
      const part = (straightWithin - last.off[gate]) / (off[gate] - last.off[gate]);
      reach[gate] = last.value + (Number.isNaN(part) ? 0 : part) * (value - last.value);
    }
    last = { value, off };
    if (reach.every((at, gate) => !Number.isNaN(at) || !isRule(slopes[gate]))) break;
  }
  return reach.map((at) => (Number.isNaN(at) ? last.value : at));
}

function marksBetween({ marks, request }: Held, moreLog: Log, lessLog: Log | null): RuleMark[] {
  const changed = { more: marksIn(moreLog, request), less: lessLog && marksIn(lessLog, request) };
  return marks.map((mark): RuleMark => {
    const { kind, name, leg, timeS, fuelKg } = mark;
    const at = (others: readonly Mark[]) => others.find(({ key }) => key === mark.key)?.fuelKg ?? Number.NaN;
    const dearer = fuelKg - at(changed.more);
    const perStepKg = changed.less ? (dearer - (fuelKg - at(changed.less))) / 2 : dearer;
    return { kind, name, leg, timeS, perStepKg: numberOrNull(perStepKg) };
  });
}

function numberOrNull(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}
