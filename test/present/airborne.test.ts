/** What readings come to in words: as planned or not, how much, what follows; every number from the answer. */
import { describe, expect, it } from 'vitest';
import type { Advice, Choice } from '../../src/core/airborne/advice.ts';
import type { Answer } from '../../src/core/airborne/answer.ts';
import type { Follows, FuelAhead } from '../../src/core/airborne/follow.ts';
import { airborneSentences } from '../../src/present/airborne.ts';
import {
  adviceTable,
  followSentences,
  fuelTable,
  gaugeSentences,
  limitsTable,
  reachNowTable,
} from '../../src/present/airborne-follows.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { testPlan } from '../support/plan.ts';

const plan = testPlan();
const [inlet] = plan.limits.filter(({ quantity }) => quantity === 'inletTemperatureK');

const answer = {
  timeS: 4500,
  planTimeS: 4500,
  fuelKg: { mean: -312, sd: 41 },
  onBoardKg: { mean: 20_000, sd: 41 },
  rateKgS: { mean: 0.15, sd: 0.02 },
  alert: {
    raisedS: 4400,
    cause: null,
    odds: [
      {
        key: 'bothEngines',
        probability: 0.6,
        sinceS: 4000,
        sinceSdS: 100,
        amplitude: 0.03,
        amplitudeSd: 0.01,
      },
      { key: 'leak', probability: 0.4, sinceS: 4000, sinceSdS: 100, amplitude: 0.1, amplitudeSd: 0.1 },
    ],
    sinceS: 3900,
    sinceSdS: 130,
    evidence: 30,
  },
  known: [{ cause: 'leak', sinceS: 3000, raisedS: 3300, learnedS: 3900, amount: { mean: 0.15, sd: 0.01 } }],
  questions: [],
  unexplained: [],
} as unknown as Answer;

const gate = (more: Partial<FuelAhead>): FuelAhead => ({
  kind: 'contact',
  name: 'Tanker',
  leg: 1,
  planTimeS: 6000,
  plannedKg: 9_500,
  plannedRequiredKg: 4_000,
  timeS: 6090,
  fuelKg: 9_128,
  requiredKg: 4_121,
  sdKg: 83,
  by: 'flown',
  ...more,
});

const choice = (more: Partial<Choice>): Choice => ({
  raisedM: 0,
  machMore: 0,
  fuelKg: 9000,
  savesKg: 0,
  laterS: 0,
  forbidden: null,
  passes: null,
  ...more,
});

const advice: Advice = {
  to: 'Tanker',
  mach: 2.85,
  pressureAltitudeM: 21_000,
  passesNow: null,
  best: choice({ raisedM: -304.8, machMore: -0.05, savesKg: 128, laterS: 90 }),
  heldBy: inlet.key,
  choices: [
    choice({ raisedM: 304.8, savesKg: -64 }),
    choice({ machMore: 0.05, savesKg: Number.NaN, forbidden: { key: 'thrust', by: null } }),
  ],
  evaluations: 1,
};

const follows = (more: Partial<Follows> = {}): Follows => ({
  flown: true,
  failed: [],
  newStartDowns: [],
  fuel: [gate({})],
  stopped: null,
  stoppedIfWorse: null,
  reach: [
    {
      key: 'none',
      name: 'Nothing failed',
      best: { end: 'North', overKg: 812 },
      next: { end: 'South', inS: 719 },
      beyondData: false,
    },
    { key: 'oneEngine', name: 'One engine stopped', best: null, next: null, beyondData: true },
  ],
  next: { after: 'Nothing failed', end: 'South', inS: 719 },
  advice,
  limitsAhead: [],
  limitsRead: [],
  gauge: null,
  beyondData: [],
  notComputed: [],
  evaluations: 0,
  ...more,
});

const words = (list: readonly string[]): readonly string[] => list.map(plainSpaces);
const said = (more: Partial<Follows> = {}) => words(followSentences(follows(more), answer, plan));

describe('[SAY-40] what the readings come to', () => {
  it('since when, why not told, how much; what is known by its amount', () => {
    const [first, known, rate] = words(airborneSentences(answer, plan));
    // 130 s are three minutes, rounded up.
    expect(first).toContain(
      'NOT as planned since 1:05 ± 3 min: cannot tell why (both engines burn more, or more drag 60 %',
    );
    expect(first).toContain('310 ± 50 kg less fuel than planned at 1:15.');
    // 0.15 kg/s are 9 kg/min.
    expect(known).toBe('Known since 0:50: fuel is lost, 9.0 ± 0.6 kg/min.');
    expect(rate).toBe('9.0 ± 1.2 kg a minute more than planned goes now.');
  });
});

describe('[SAY-41] what follows', () => {
  it('fuel at the end of the leg down, what is required up, the spread up', () => {
    expect(said()[0]).toBe('9 120 kg ± 90 at contact with Tanker, of 4 130 kg required: enough.');
    expect(said({ fuel: [gate({ fuelKg: 4_200 })] })[0]).toContain(
      'not surely enough. Choose from what is in reach',
    );
    expect(said({ fuel: [gate({ fuelKg: 4_000 })] })[0]).toContain('NOT enough.');
  });

  it('the next choice that closes, in whole minutes down', () => {
    expect(said()[1]).toBe('Closes next: South in 11 min, nothing failed.');
    const next = { after: 'One engine stopped', end: 'North', inS: 125 };
    expect(said({ next })[1]).toBe(
      'Closes next: South in 11 min, nothing failed; North in 2 min, one engine stopped.',
    );
    expect(said({ reach: null })[1]).toContain('the plan was kept without its reach');
  });

  it('what to do now, what it saves, what it takes in time and what forbids more', () => {
    expect(said()[2]).toBe(
      `What to do now: 1 000 ft lower, M 2.80 saves 120 kg to Tanker, 1.5 min later. ${inlet.name} forbids the next step.`,
    );
    const stay = { ...advice, best: choice({}), heldBy: null, passesNow: { key: inlet.key, by: 3 } };
    expect(said({ advice: stay }).slice(2, 4)).toEqual([
      `Going on as now passes ${inlet.name.toLowerCase()}.`,
      'What to do now: keep this height and Mach; no other saves fuel to Tanker. What changed does not ask for another.',
    ]);
  });

  it('where going on as now cannot be flown, what can be; and an earlier start of the descent', () => {
    const slower = choice({ machMore: -0.05, savesKg: Number.NaN, laterS: Number.NaN, fuelKg: 9_314 });
    const can = { ...advice, best: slower, heldBy: null, passesNow: { key: 'thrust', by: null } };
    expect(said({ advice: can }).slice(2, 4)).toEqual([
      'Going on as now cannot be flown: the thrust does not suffice.',
      'What to do now: M 2.80 arrives with 9 310 kg at Tanker.',
    ]);
    const none = { ...can, best: choice({ fuelKg: Number.NaN }) };
    expect(said({ advice: none })[3]).toContain('choose from what is in reach now');
    const down = gate({ kind: 'start-down', name: 'start down', timeS: 5400 });
    expect(said({ newStartDowns: [1], fuel: [down, gate({})] })[0]).toBe(
      'The start of the descent planned at 1:40 leaves no room for it: start down at 1:30.',
    );
  });

  it('limits that were passed, for how long, and a gauge that is to be looked at', () => {
    const read = {
      key: inlet.key,
      name: inlet.name,
      quantity: inlet.quantity,
      side: inlet.side,
      pad: 0,
      timeS: 4500,
      value: 620,
      bound: 617,
      margin: -3,
      least: { timeS: 4440, margin: -5 },
      beyondS: 200,
      expected: null,
      checkGauge: true,
    };
    expect(said({ limitsRead: [read] })[3]).toBe(
      `${inlet.name} was read beyond its limit by 5.0 K at 1:14, for 3.4 min in all, and is now. The estimate expects no such reading: check that gauge.`,
    );
    const [row] = limitsTable(follows({ limitsRead: [read] }), plan).rows;
    expect(row[0]).toBe(inlet.name);
    expect(plainSpaces(row[2])).toBe('−3 K');
    expect(row[3]).toBe('3.4');
  });

  it('what is beyond data or not at hand is marked, never blank', () => {
    const marked = said({
      fuel: [gate({ by: 'beyondData' })],
      beyondData: ['air 40 K off the day’s'],
      notComputed: ['the deck of the plan is not found'],
    });
    expect(marked[0]).toContain('required (beyond data): enough.');
    expect(marked).toContain('beyond data: air 40 K off the day’s. Told at the edge least favourable.');
    expect(marked.at(-1)).toBe("From the plan's own numbers: the deck of the plan is not found.");
    expect(fuelTable(follows({ fuel: [gate({ by: 'beyondData' })] }), plan).rows[0][0]).toBe(
      'contact with Tanker, beyond data',
    );
    expect(reachNowTable(follows().reach ?? [], plan).rows.map((row) => row.slice(0, 2))).toEqual([
      ['Nothing failed', 'North'],
      ['One engine stopped, beyond data', 'NONE'],
    ]);
  });

  it('each other height and Mach, or why it cannot be flown', () => {
    expect(adviceTable(advice, plan).rows.map((row) => row.map(plainSpaces))).toEqual([
      ['1 000 ft higher', '−70', '0.0', ''],
      ['M 2.90', '', '', 'the thrust'],
    ]);
  });

  it('the gauge against the air', () => {
    const gauge = {
      expectedK: 573.15,
      totalK: 577.65,
      recoveryK: 3.5,
      lagK: 1,
      airK: 220,
      read: { timeS: 4500, readK: 575.15, airK: 220.8, perHundredthMachK: 0.92 },
    };
    const [should, read] = words(gaugeSentences(gauge, plan));
    expect(should).toMatch(/should read 300 °C now: 3\.5 K below .* probe, 1\.0 K below that by its lag\.$/);
    expect(read).toContain('of which 0.01 Mach moves 0.9 K');
  });
});
