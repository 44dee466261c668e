/** What one driver costs at the gates and on the way, how far that is straight, and where it would leave no fuel. */
import type { PlanRequest } from './draft.ts';
import type { Driver } from './drivers.ts';
import { type Mark, marksOf } from './outcome.ts';
import type { DriverRule, PlanEvent, RuleCost, RuleGate } from './plan.ts';
import type { Trial } from './rules-edge.ts';
import { type Held, numberOrNull } from './rules-held.ts';

/** The straight rule holds where it is off by no more than this part of the cost. */
const straightWithin = 0.05;
/** A slope below this over one step is no rule. */
const leastKg = 2;

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
export function* costsOf(driver: Driver, today: Held, standard: Held | null): Generator<null, Costs> {
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
export function guessOf(
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
