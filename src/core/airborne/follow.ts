/** What follows from an answer: fuel ahead, what is in reach, what to do now, limits, the gauge; flown, or from the plan alone. */
import type { Aircraft } from '../aircraft/aircraft.ts';
import type { Plan } from '../plan/plan.ts';
import { type Advice, advising } from './advice.ts';
import type { Answer } from './answer.ts';
import { type Deviation, deviationOf, stateWhere } from './deviation.ts';
import { type Expectation, newExpected } from './expectation.ts';
import { fuelAlong } from './gates.ts';
import { type InletGauge, inletGauge } from './gauge.ts';
import { type ExpectedRead, type LimitRead, limitsRead } from './limits-met.ts';
import { ORDER, STATE } from './model.ts';
import { type FlownReach, flyingReach, plannedAt } from './reach-flown.ts';
import { nextToClose, type ReachNow, reachNow } from './reach-now.ts';
import type { Entry } from './reading.ts';
import type { FlownNow, FlownOn, FlyingOn, GateAhead, LimitAhead, Now } from './refly.ts';

export interface FuelAhead extends GateAhead {
  /** One standard deviation of the fuel [kg]. */
  readonly sdKg: number;
  /**
   * 'flown'; 'slopes': not flown to, from the slopes of the estimate; 'beyondData': likewise because the data end before it, at the
   * edge least favourable.
   */
  readonly by: 'flown' | 'slopes' | 'beyondData';
}

export interface Follows {
  /** From the deck and the day of the plan; false: from the plan's own numbers. */
  readonly flown: boolean;
  readonly fuel: readonly FuelAhead[];
  /** Legs on which the decided start of the descent leaves no room: it was solved for anew. */
  readonly newStartDowns: readonly number[];
  /** Why the rest cannot be flown with what is found; null where it can. */
  readonly stopped: FlownOn['stopped'];
  /** The same where it is one standard deviation worse. */
  readonly stoppedIfWorse: FlownOn['stopped'];
  /** null where the plan was kept without its reach. */
  readonly reach: readonly ReachNow[] | null;
  readonly next: ReturnType<typeof nextToClose>;
  /** null where nothing is left to choose, or without the deck. */
  readonly advice: Advice | null;
  readonly limitsAhead: readonly LimitAhead[];
  readonly limitsRead: readonly LimitRead[];
  /** null without the deck. */
  readonly gauge: InletGauge | null;
  readonly beyondData: readonly string[];
  /** Why it is of the plan's own numbers. */
  readonly notComputed: readonly string[];
  /** Parts that could not be told, and why. */
  readonly failed: readonly string[];
  readonly evaluations: number;
}

/** What an answer was made of. */
export interface Told {
  readonly plan: Plan;
  readonly answer: Answer;
  /** In order of time. */
  readonly readings: readonly Entry[];
  readonly expectation: Expectation;
  /** As flown, in seconds since 1970. */
  readonly takeOffS: number;
}

/** Speed over the ground of a divert below Mach 0.9, where the plan alone stands (common practice) [m/s]. */
const slowMS = 220;

/** `on` is null where the deck or the day of the plan is not at hand, and `why` says so. With null between two flights. */
export function* following(all: Told, on: FlyingOn | null, why: string | null): Generator<null, Follows> {
  const told = { ...all, readings: believed(all) };
  const { plan, answer } = told;
  const now: Now = { timeS: answer.timeS, planTimeS: answer.planTimeS, takeOffS: told.takeOffS };
  const deviation = deviationNow(told);
  const notComputed = why === null ? [] : [why];
  const beyondData: string[] = [];
  let mean: FlownOn | null = null;
  let worse: FlownOn | null = null;
  let advice: Advice | null = null;
  let ends: FlownReach = new Map();
  let evaluations = 0;
  if (on !== null) {
    try {
      const read = flownNow(told);
      mean = on.fly(now, deviation, read);
      yield null;
      worse = on.fly(now, deviationNow(told, stateWhere(answer.state, endRow(told), 1)), read);
      yield null;
      const reach = yield* flyingReach(on, now, deviation);
      ends = reach.ends;
      advice = yield* advising(on, now, deviation, read);
      evaluations = mean.evaluations + worse.evaluations + reach.evaluations + (advice?.evaluations ?? 0);
    } catch (error) {
      // In the air no answer is worse than one from the plan alone; what stopped it is told.
      notComputed.push(`flying on failed: ${(error as Error).message}`);
    }
    if (mean?.beyondData) beyondData.push(mean.beyondData);
    for (const stopped of [mean?.stopped, worse?.stopped]) {
      if (stopped?.reason.startsWith('outside:')) beyondData.push(`${stopped.phase}: ${stopped.text}`);
    }
  }
  const failed: string[] = [];
  /** In the air a part that fails is told, and takes no other with it. */
  const part = <T>(name: string, work: () => T, without: T): T => {
    try {
      return work();
    } catch (error) {
      failed.push(`${name}: ${(error as Error).message}`);
      return without;
    }
  };
  const fuel = fuelAhead(told, mean, worse);
  const reach = plan.reach && reachNow(plan.reach, besideOf(told, fuel, ends));
  return {
    flown: mean !== null && worse !== null,
    fuel,
    newStartDowns: mean?.newStartDowns ?? [],
    stopped: mean?.stopped ?? null,
    stoppedIfWorse: worse?.stopped ?? null,
    reach,
    next: reach && nextToClose(reach),
    advice,
    limitsAhead: mean?.limits ?? [],
    limitsRead: part(
      'limits as read',
      () => limitsRead(told.readings, boundsOf(told, on), expectedReads(told)),
      [],
    ),
    gauge: part('the inlet gauge', () => (on === null ? null : gaugeOf(told, on.request.aircraft)), null),
    beyondData: [...new Set(beyondData)],
    notComputed,
    failed,
    evaluations,
  };
}

/** Without the readings that are asked about. */
function believed({ readings, answer: { questions } }: Told): readonly Entry[] {
  const asked = ({ key, timeS, value }: Entry): boolean =>
    questions.some(({ entry }) => entry.key === key && entry.timeS === timeS && entry.value === value);
  return readings.filter((entry) => entry.status !== 'read' || !asked(entry));
}

/**
 * What is flown on with. Where a tanker was left at another time than planned the plan's clock was set by that: the way lost before it is in
 * the clock already, and what counts is lost since, as a distance that was read tells or else the headwind.
 */
export function deviationNow(
  { plan, answer, readings }: Pick<Told, 'plan' | 'answer' | 'readings'>,
  state: ArrayLike<number> = answer.state.mean,
): Deviation {
  const deviation = deviationOf(state);
  const shiftS = answer.timeS - answer.planTimeS;
  const left = plan.refuellings.findLast(({ disconnectS }) => disconnectS <= answer.planTimeS);
  if (shiftS === 0 || left === undefined) return deviation;
  const sinceS = left.disconnectS + shiftS;
  const read = readings.some(
    ({ key, timeS, status }) => key === 'distanceM' && timeS > sinceS && status !== 'withdrawn',
  );
  return read ? deviation : { ...deviation, lagM: deviation.headwindMS * (answer.timeS - sinceS) };
}

const at = newExpected();

/** Fuel at the end of the leg along the state. */
function endRow({ answer, expectation }: Told): Float64Array {
  const row = new Float64Array(ORDER);
  const endS = answer.gates.at(-1)?.timeS ?? expectation.endS;
  expectation.at(answer.planTimeS, at);
  fuelAlong(endS, expectation, at, row);
  return row;
}

/**
 * One standard deviation of what a known cause is off by beside its own spread, as a part of the fuel that is burnt to a gate: when it began,
 * slopes that are no straight lines, drag taken for flow. From flights of known truth, on seeds other than those that check it.
 */
const knownShare = 0.015;

/** What a known cause leaves open at a gate [kg]; full tanks end what was open before. */
function openAt({ plan, answer }: Told, { leg, fuelKg }: GateAhead): number {
  if (answer.known.length === 0) return 0;
  const last = plan.refuellings.findLast(({ disconnectS }) => disconnectS <= answer.planTimeS);
  const first = last === undefined ? 0 : plan.refuellings.indexOf(last) + 1;
  let variance = 0;
  for (let at = first; at <= leg; at++) {
    const begun = at === first ? answer.onBoardKg.mean : plan.refuellings[at - 1];
    const fromKg = typeof begun === 'number' ? begun : begun.fuelOnContactKg + begun.takenKg - begun.burntKg;
    if (typeof begun !== 'number' && begun.endedBy === 'full') variance = 0;
    const toKg = at === leg ? fuelKg : (plan.refuellings[at]?.fuelOnContactKg ?? fuelKg);
    variance += (knownShare * Math.max(0, fromKg - toKg)) ** 2;
  }
  return Math.sqrt(variance);
}

/** Flown where that was possible; else the slopes, less what is one standard deviation worse. */
function fuelAhead(told: Told, mean: FlownOn | null, worse: FlownOn | null): FuelAhead[] {
  const { answer } = told;
  if (mean === null || worse === null) {
    return answer.gates.map(({ kind, name, timeS, laterS, plannedKg, requiredKg, fuelKg }) => ({
      kind,
      name,
      leg: 0,
      planTimeS: timeS,
      plannedKg,
      plannedRequiredKg: requiredKg,
      timeS: timeS - answer.planTimeS + answer.timeS + laterS,
      fuelKg: fuelKg.mean,
      requiredKg,
      sdKg: fuelKg.sd,
      by: 'slopes' as const,
    }));
  }
  let lastMoreKg = answer.fuelKg.mean;
  return mean.gates.map((gate, i): FuelAhead => {
    const slope = answer.gates.find(({ timeS }) => Math.abs(timeS - gate.planTimeS) < 1);
    const sd = Math.abs(gate.fuelKg - (worse.gates[i]?.fuelKg ?? Number.NaN));
    const linear = slope?.fuelKg ?? { mean: gate.plannedKg + lastMoreKg, sd: answer.fuelKg.sd };
    if (Number.isNaN(gate.fuelKg)) {
      const outside = mean.stopped?.reason.startsWith('outside:') ?? false;
      const fuelKg = linear.mean - (outside ? linear.sd : 0);
      const timeS = gate.planTimeS - answer.planTimeS + answer.timeS + (slope?.laterS ?? 0);
      return {
        ...gate,
        timeS,
        fuelKg,
        requiredKg: gate.plannedRequiredKg,
        sdKg: linear.sd,
        by: outside ? 'beyondData' : 'slopes',
      };
    }
    lastMoreKg = gate.fuelKg - gate.plannedKg;
    const requiredKg = gate.requiredKg ?? gate.plannedRequiredKg;
    return {
      ...gate,
      requiredKg,
      sdKg: Math.hypot(Number.isNaN(sd) ? linear.sd : sd, openAt(told, gate)),
      by: 'flown',
    };
  });
}

/** Fuel beside the plan for the reach: on the way to each gate in proportion to time, and what each way to an end takes. */
function besideOf({ plan, answer }: Told, fuel: readonly FuelAhead[], ends: FlownReach) {
  const { timeS, fuelKg } = plan.trace.columns;
  const { planTimeS } = answer;
  const plannedKg = (at: number): number => plannedAt(timeS, fuelKg, at);
  const times = [planTimeS, ...fuel.map((gate) => gate.planTimeS)];
  const more = [answer.fuelKg.mean, ...fuel.map((gate) => gate.fuelKg - gate.plannedKg)];
  const ladders = plan.reach?.ladders ?? [];
  const whole = ladders.findIndex(({ key }) => key === 'none');
  const minute = Math.max(0, plan.reach?.timeS.findLastIndex((at) => at <= planTimeS) ?? 0);
  const minuteS = plan.reach?.timeS[minute] ?? planTimeS;
  const slopes = slopeBurn(answer);
  const flownBurn = (ladder: number, end: number): number => {
    // With a tanker or a base that is not there the aircraft is whole.
    const of = ends.has(ladders[ladder]?.key) ? ladder : whole;
    const flownKg = ends.get(ladders[of]?.key)?.[end]?.fuelKg ?? null;
    const planned = ladders[of]?.choices[end]?.fuelKg[minute] ?? null;
    if (flownKg === null || planned === null) return Number.NaN;
    const onBoard = plannedKg(minuteS);
    const meanwhileKg = onBoard - plannedKg(planTimeS);
    return (
      (plannedKg(planTimeS) + answer.fuelKg.mean - flownKg) / Math.max(1, onBoard - meanwhileKg - planned)
    );
  };
  const burns = ladders.map((ladder, i) => ladder.choices.map((_, end) => flownBurn(i, end)));
  const worst = Math.max(...burns.flat().filter(Number.isFinite), slopes);
  return {
    planTimeS,
    plannedKg,
    moreKg: (at: number): number => plannedAt(times, more, at),
    burn: (ladder: number, end: number): number => {
      const burn = burns[ladder][end];
      if (Number.isFinite(burn)) return burn;
      return ends.size === 0 ? slopes : worst;
    },
    flown: (ladder: number, end: number) => ends.get(ladders[ladder].key)?.[end],
  };
}

/** What a way takes over what the plan has for it, from the factors alone; a tailwind and colder air help none. */
function slopeBurn({ factors, state }: Answer): number {
  const { flow, drag } = deviationOf(state.mean);
  const air = 1 + Math.max(0, factors.temperature.mean) * (0.5 / 220);
  return (1 + flow) * (1 + drag) * air * (1 + Math.max(0, factors.headwind.mean) / slowMS);
}

/** Readings count for so long [s]; nearer to the plan than this they are the plan [m, Mach]. */
const freshS = 600;
const sameM = 150;
const sameMach = 0.02;
/** Further off they are none of this flight's cruise. */
const mostM = 3000;
const mostMach = 0.3;

/** Height and Mach as last read, above those of the plan; 0 where that is no more than the gauges scatter. */
function flownNow({ answer, readings, expectation }: Told): FlownNow {
  const off = (key: 'mach' | 'pressureAltitudeM', same: number, most: number): number | null => {
    const last = readings.findLast((entry) => entry.key === key && entry.status !== 'withdrawn');
    if (last === undefined || answer.timeS - last.timeS > freshS) return null;
    expectation.at(answer.planTimeS - (answer.timeS - last.timeS), at);
    const by = last.value - at[key];
    return Math.abs(by) > most ? null : Math.abs(by) < same ? 0 : by;
  };
  return {
    raisedM: off('pressureAltitudeM', sameM, mostM),
    machMore: off('mach', sameMach, mostMach),
  };
}

function boundsOf({ plan, answer, expectation }: Told, on: FlyingOn | null) {
  const shiftS = answer.timeS - answer.planTimeS;
  return {
    limits: on?.request.aircraft.limits ?? null,
    plan,
    planTime: (timeS: number) => timeS - shiftS,
    expectedAt: (planTimeS: number, out: typeof at) => expectation.at(planTimeS, out),
  };
}

/** What is read of the air and the fuel, with its scatter beside the spread of the estimate. */
function expectedReads({ answer, expectation }: Told): ExpectedRead {
  expectation.at(answer.planTimeS, at);
  const { temperature } = answer.factors;
  const perKelvin = at.inletTemperatureK / Math.max(1, at.temperatureK);
  return {
    inletTemperatureK: {
      value: at.inletTemperatureK + perKelvin * temperature.mean,
      sd: Math.hypot(perKelvin * temperature.sd, 2.5),
    },
    fuelKg: { value: answer.onBoardKg.mean, sd: Math.hypot(answer.onBoardKg.sd, 50) },
  };
}

function gaugeOf({ answer, readings, expectation }: Told, { gauges }: Aircraft): InletGauge {
  const shiftS = answer.timeS - answer.planTimeS;
  const last = readings.findLast(
    (entry) => entry.key === 'inletTemperatureK' && entry.status !== 'withdrawn',
  );
  const mach =
    last &&
    readings.findLast(({ key, timeS, status }) => {
      return key === 'mach' && status !== 'withdrawn' && Math.abs(timeS - last.timeS) <= 120;
    });
  expectation.at(answer.planTimeS, at);
  const machMore = mach && answer.timeS - mach.timeS <= freshS ? machOff(mach, shiftS, expectation) : 0;
  return inletGauge(
    gauges,
    expectation,
    answer.planTimeS,
    answer.state.mean[STATE.temperature],
    machMore,
    last === undefined
      ? null
      : { timeS: last.timeS, planTimeS: last.timeS - shiftS, readK: last.value, mach: mach?.value ?? null },
  );
}

function machOff({ timeS, value }: Entry, shiftS: number, expectation: Expectation): number {
  expectation.at(timeS - shiftS, at);
  return value - at.mach;
}
