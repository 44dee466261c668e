/** What follows from an answer: flown where deck and day are at hand, from the plan where not, marked where the data end. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Answer } from '../../../src/core/airborne/answer.ts';
import { deckSlopes } from '../../../src/core/airborne/deck-slopes.ts';
import { Estimator } from '../../../src/core/airborne/estimator.ts';
import { Expectation } from '../../../src/core/airborne/expectation.ts';
import { deviationNow, type Follows, following } from '../../../src/core/airborne/follow.ts';
import { STATE } from '../../../src/core/airborne/model.ts';
import { type Entry, MOST_READ } from '../../../src/core/airborne/reading.ts';
import { FlyingOn } from '../../../src/core/airborne/refly.ts';
import { toTheEnd } from '../../../src/core/plan/explain.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { reachOf } from '../../../src/core/plan/reach.ts';
import { quantity } from '../../../src/core/quantities/quantities.ts';
import { airborneSentences, READ_AS } from '../../../src/present/airborne.ts';
import { followSentences } from '../../../src/present/airborne-follows.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

const request = requestOf(longLoopText);
const takeOffS = request.sortie.takeOff.timeS;
let plan: Plan;
let on: FlyingOn;
let expectation: Expectation;

beforeAll(() => {
  const made = makePlan(request);
  plan = { ...made, reach: reachOf(request, made) };
  on = new FlyingOn(request, plan);
  expectation = new Expectation(plan, deckSlopes(request.aircraft, plan.trace));
});

/** Fuel as planned every five minutes up to one, less what is missing then. */
function readTo(minute: number, missingKg: number): { answer: Answer; readings: readonly Entry[] } {
  const estimator = new Estimator(expectation);
  for (let at = 5; at <= minute; at += 5) {
    const value = expectation.fuelAt(60 * at) - (missingKg * at) / minute;
    estimator.add({ timeS: 60 * at, key: 'fuelKg', value, status: 'read' });
  }
  return { answer: estimator.answer(), readings: estimator.entries };
}

const told = (answer: Answer, readings: readonly Entry[] = []) => ({
  plan,
  answer,
  readings,
  expectation,
  takeOffS,
});

/** The same answer with another estimate of one state. */
function with_(answer: Answer, state: number, value: number): Answer {
  const mean = answer.state.mean.slice();
  mean[state] = value;
  return { ...answer, state: { ...answer.state, mean } };
}

const contact = ({ fuel }: Follows) =>
  fuel.find(({ kind, name }) => kind === 'contact' && name === 'Ewer Two');

describe('[AIRFOLLOW-1] flown on', () => {
  it('fuel at the contact, its spread, and what is in hand agree with the slopes where all is nearly as planned', () => {
    const { answer, readings } = readTo(90, 0);
    const follows = toTheEnd(following(told(answer, readings), on, null));
    expect(follows).toMatchObject({ flown: true, stopped: null, stoppedIfWorse: null, notComputed: [] });
    const flown = contact(follows);
    const slope = answer.gates.at(-1);
    expect(slope?.name).toBe('Ewer Two');
    expect(Math.abs((flown?.fuelKg ?? 0) - (slope?.fuelKg.mean ?? 0))).toBeLessThan(40);
    // The same covariance through slopes and through a flight.
    expect((flown?.sdKg ?? 0) / (slope?.fuelKg.sd ?? 1)).toBeGreaterThan(0.7);
    expect((flown?.sdKg ?? 0) / (slope?.fuelKg.sd ?? 1)).toBeLessThan(1.3);
  });

  it('what was in reach of the plan is in reach as planned, and what closes next is told', () => {
    const { answer, readings } = readTo(90, 0);
    const { reach, next } = toTheEnd(following(told(answer, readings), on, null));
    const whole = reach?.find(({ key }) => key === 'none');
    const minute = plan.reach?.timeS.findIndex((at) => at >= 90 * 60) ?? 0;
    const ladder = plan.reach?.ladders.find(({ key }) => key === 'none');
    const best = ladder?.best[minute] ?? 0;
    expect(whole?.best?.end).toBe(plan.reach?.ends[best].name);
    expect(next?.inS).toBeGreaterThanOrEqual(0);
    for (const row of reach ?? []) expect(row.beyondData).toBe(false);
  });
});

describe('[AIRFOLLOW-4] where the flight is beside its plan', () => {
  it('after a tanker was left late the way lost before it counts no more, and after it the headwind', () => {
    const { answer } = readTo(10, 0);
    const [first] = plan.refuellings;
    const late = 600;
    // 20 min after the disconnect, a headwind of 10 m/s: 12 km; 54 km lost before.
    const planTimeS = first.disconnectS + 1200;
    const mean = answer.state.mean.slice();
    [mean[STATE.lag], mean[STATE.headwind]] = [54_000, 10];
    const now = { ...answer, planTimeS, timeS: planTimeS + late, state: { ...answer.state, mean } };
    expect(deviationNow({ plan, answer: now, readings: [] }).lagM).toBeCloseTo(12_000, 6);
    // The same on the plan's own clock, and with a distance that was read since.
    expect(deviationNow({ plan, answer: { ...now, timeS: planTimeS }, readings: [] }).lagM).toBe(54_000);
    const distance: Entry = { timeS: planTimeS + late - 60, key: 'distanceM', value: 1, status: 'read' };
    expect(deviationNow({ plan, answer: now, readings: [distance] }).lagM).toBe(54_000);
  });
});

describe('[AIRFOLLOW-2] without the deck or the day', () => {
  it('answers from the plan alone and says why', () => {
    const { answer, readings } = readTo(90, 300);
    const follows = toTheEnd(following(told(answer, readings), null, 'the deck of the plan is not found'));
    expect(follows.flown).toBe(false);
    expect(follows.notComputed).toEqual(['the deck of the plan is not found']);
    expect(follows.fuel.map(({ fuelKg }) => fuelKg)).toEqual(answer.gates.map(({ fuelKg }) => fuelKg.mean));
    expect(follows.fuel.every(({ by }) => by === 'slopes')).toBe(true);
    expect(follows.reach?.length).toBe(plan.reach?.ladders.length);
    expect([follows.advice, follows.gauge]).toEqual([null, null]);
  });

  it('with less fuel no end is left with more', () => {
    const over = (missingKg: number) => {
      const { answer, readings } = readTo(90, missingKg);
      const { reach } = toTheEnd(following(told(answer, readings), null, ''));
      return reach?.map(({ best }) => best?.overKg ?? Number.NEGATIVE_INFINITY) ?? [];
    };
    const [full, less] = [over(0), over(400)];
    expect(full.some(Number.isFinite)).toBe(true);
    full.forEach((kg, i) => {
      if (Number.isFinite(kg)) expect(less[i]).toBeLessThan(kg);
    });
  });
});

describe('[AIRFOLLOW-3] beyond data', () => {
  it('is marked and told at the edge least favourable, never blank', () => {
    const { answer, readings } = readTo(5, 0);
    const hot = with_(answer, STATE.temperature, 35);
    const follows = toTheEnd(following(told(hot, readings), on, null));
    expect(follows.stopped?.reason).toMatch(/^outside:/);
    expect(follows.beyondData.length).toBeGreaterThan(1);
    const first = follows.fuel.find(({ kind }) => kind === 'contact');
    const slope = answer.gates.at(-1);
    expect(first?.by).toBe('beyondData');
    expect(first?.fuelKg).toBeCloseTo((slope?.fuelKg.mean ?? 0) - (slope?.fuelKg.sd ?? 0), 6);
    for (const { fuelKg, timeS, sdKg } of follows.fuel) {
      expect([fuelKg, timeS, sdKg].every(Number.isFinite)).toBe(true);
    }
  });
});

describe('[AIRFOLLOW-6] a reading that is asked about', () => {
  it('is no limit that was passed, until it is confirmed', () => {
    const { answer, readings } = readTo(90, 0);
    const low = { timeS: 92 * 60, key: 'fuelKg', value: 700, status: 'read' } as const;
    const with700 = (status: 'read' | 'confirmed') => {
      const estimator = new Estimator(expectation);
      for (const entry of [...readings, { ...low, status }]) estimator.add(entry);
      const next = estimator.answer();
      const follows = toTheEnd(following(told(next, estimator.entries), on, null));
      return { next, fuel: follows.limitsRead.filter(({ quantity }) => quantity === 'fuelKg') };
    };
    expect(answer.questions).toEqual([]);
    const asked = with700('read');
    expect(asked.next.questions).toHaveLength(1);
    expect(asked.fuel.length).toBeGreaterThan(0);
    for (const { least, value } of asked.fuel) {
      expect(value).not.toBe(700);
      expect(least.margin).toBeGreaterThan(0);
    }
    for (const { value, margin } of with700('confirmed').fuel) {
      expect(value).toBe(700);
      expect(margin).toBeLessThan(0);
    }
  });
});

describe('[AIRFOLLOW-7] a Mach that was read as planned', () => {
  it('goes on as planned when the plan slows down: no way is won by it', () => {
    const { answer, readings } = readTo(95, 0);
    const down = plan.startDowns[0].timeS;
    expect(down).toBeGreaterThan(96 * 60);
    const estimator = new Estimator(expectation);
    for (const entry of readings) estimator.add(entry);
    const mach = plan.trace.columns.mach[plan.trace.columns.timeS.findIndex((time) => time >= 96 * 60)];
    estimator.add({ timeS: 96 * 60, key: 'mach', value: mach, status: 'read' });
    const later = 104 * 60;
    estimator.add({ timeS: later, key: 'fuelKg', value: expectation.fuelAt(later), status: 'read' });
    const next = estimator.answer();
    expect(Math.abs(answer.state.mean[STATE.lag])).toBeLessThan(5_000);
    // At Mach 2.85 all that time more than 100 km would have been won.
    expect(Math.abs(next.state.mean[STATE.lag])).toBeLessThan(5_000);
  });
});

describe('[AIRFOLLOW-8] whatever is typed and confirmed', () => {
  const kinds = Object.entries(READ_AS).map(([key, { quantity: name }]) => ({
    key: key as Entry['key'],
    range: (key === 'disconnect' ? [0, 1] : (quantity(name).range ?? [-MOST_READ, MOST_READ])).map((end) =>
      Math.min(Math.max(end, -MOST_READ), MOST_READ),
    ),
  }));
  const entries = fc.constantFrom(...kinds).chain(({ key, range: [least, most] }) =>
    fc.record({
      key: fc.constant(key),
      timeS: fc.integer({ min: 0, max: 220 }).map((minute) => 60 * minute),
      // The ends of what is allowed at all, and values spread over all sizes between.
      value: fc.oneof(
        fc.constantFrom(least, most),
        fc.double({ min: 0, max: 1, noNaN: true }).map((part) => least + part ** 4 * (most - least)),
      ),
      status: fc.constantFrom('read', 'confirmed', 'corrected', 'withdrawn' as const),
    }),
  );

  it('is answered in numbers, and nothing fails but what is said to', () => {
    const answered = (log: readonly Entry[]): boolean => {
      const estimator = new Estimator(expectation);
      for (const entry of log) estimator.add(entry);
      const answer = estimator.answer();
      const follows = toTheEnd(following(told(answer, estimator.entries), on, null));
      const said = [...airborneSentences(answer, plan), ...followSentences(follows, answer, plan)];
      return said.length > 0 && said.every((text) => !/NaN|undefined|Infinity/.test(text));
    };
    fc.assert(fc.property(fc.array(entries, { minLength: 1, maxLength: 20 }), answered), {
      numRuns: 60,
      seed: 20261128,
    });
  });
});
