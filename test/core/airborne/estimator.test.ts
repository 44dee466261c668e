/** The estimate of what is off the plan: the same in any order, asked before taken, named or not. */
import { describe, expect, it } from 'vitest';
import { Estimator } from '../../../src/core/airborne/estimator.ts';
import { swaps } from '../../../src/core/airborne/plausible.ts';
import type { Entry } from '../../../src/core/airborne/reading.ts';
import { chance } from '../../support/random.ts';
import { cruise, from, steady } from '../../trials/flight.ts';
import { read, readingsOf, type Sensor, white } from '../../trials/gauges.ts';

const off = steady(60, 0.03);
const all: readonly Sensor[] = ['fuel', 'flow', 'inlet', 'ground'];

function entriesOf(flown: typeof off, sensors: readonly Sensor[], seed: number, every = 60): Entry[] {
  const luck = chance(seed);
  const gauge = white(luck);
  return flown.moments
    .filter(({ timeS }) => timeS % every === 0)
    .flatMap((moment) => readingsOf(moment, sensors, luck, gauge));
}

function answerTo(entries: readonly Entry[]) {
  const estimator = new Estimator(off.expectation);
  for (const entry of entries) estimator.add(entry);
  return estimator.answer();
}

function shuffled<T>(list: readonly T[], seed: number): T[] {
  const luck = chance(seed);
  return list
    .map((each) => ({ each, at: luck.even() }))
    .sort((a, b) => a.at - b.at)
    .map(({ each }) => each);
}

describe('[AIRBORNE-3] readings in any order', () => {
  const inOrder = entriesOf(off, ['fuel', 'flow'], 3, 120);
  const answer = answerTo(inOrder);

  it('shuffled and doubled, they give the same answer', () => {
    expect(answer.known.length + (answer.alert ? 1 : 0)).toBeGreaterThan(0);
    expect(answerTo(shuffled([...inOrder, ...inOrder.slice(10, 30)], 5))).toEqual(answer);
  });

  it('a correction holds, whether it comes before or after what it corrects', () => {
    const at = inOrder.findIndex(({ key, timeS }) => key === 'fuelKg' && timeS === 1800);
    const wrong: Entry = { ...inOrder[at], value: inOrder[at].value + 120 };
    const right: Entry = { ...inOrder[at], status: 'corrected' };
    const rest = inOrder.filter((_, i) => i !== at);
    const corrected = answerTo([...rest, wrong, right]);
    expect(answerTo([right, ...rest, wrong])).toEqual(corrected);
    expect(corrected.fuelKg).toEqual(answer.fuelKg);
    expect(answerTo([...rest, wrong]).fuelKg).not.toEqual(answer.fuelKg);
  });

  it('what is withdrawn counts for nothing', () => {
    const extra: Entry = { timeS: 1810, key: 'fuelKg', value: 27_050, status: 'read' };
    const without = answerTo([...inOrder, extra, { ...extra, status: 'withdrawn' }]);
    expect(without.fuelKg.mean).toBeCloseTo(answer.fuelKg.mean, 9);
  });

  it('an hour without readings leaves the answer with a wider spread', () => {
    const few = inOrder.filter(({ timeS }) => timeS < 120);
    const gap = answerTo([...few, ...inOrder.filter(({ timeS }) => timeS === 3600)]);
    expect(gap.fuelKg.sd).toBeGreaterThan(answer.fuelKg.sd);
    expect(gap.questions).toEqual([]);
  });
});

describe('[AIRBORNE-4] what cannot be is asked about', () => {
  const before = entriesOf(steady(60), ['fuel'], 1).slice(0, 20);
  const asked = (value: number, key: Entry['key'] = 'fuelKg') =>
    answerTo([...before, { timeS: 1200, key, value, status: 'read' }]);

  // 36 000 kg less 20 min of 300 kg are 30 000 kg, see steady().
  it('two digits exchanged', () => {
    const { questions, fuelKg } = answerTo([
      ...before,
      { timeS: 1260, key: 'fuelKg', value: 27_900, status: 'read' },
    ]);
    expect(questions).toHaveLength(1);
    expect(questions[0].slip).toBe('transposed');
    expect(questions[0].meant).toBe(29_700);
    expect(Math.abs(fuelKg.mean)).toBeLessThan(100);
  });

  it('pounds for kilograms, and a point in another place', () => {
    expect(asked(30_000 / 0.45359237).questions[0]).toMatchObject({ slip: 'unit', as: 'lb' });
    expect(asked(3_000).questions[0]).toMatchObject({ slip: 'decimal' });
  });

  // Mach 2.85 at 20 km: 2.85 * 340.29 m/s * sqrt(5475 Pa / 101325 Pa) = 225 m/s (US Standard Atmosphere 1976).
  it('an equivalent airspeed for a ground speed', () => {
    const { questions } = asked(225, 'groundSpeedMS');
    expect(questions[0]).toMatchObject({ slip: 'kind', as: 'equivalent airspeed' });
  });

  it('is taken where the crew stands by it, and where the next reading bears it out', () => {
    const far: Entry = { timeS: 1260, key: 'fuelKg', value: 28_900, status: 'read' };
    const next: Entry = { timeS: 1320, key: 'fuelKg', value: 28_600, status: 'read' };
    expect(answerTo([...before, far]).questions).toHaveLength(1);
    expect(answerTo([...before, { ...far, status: 'confirmed' }]).questions).toEqual([]);
    const both = answerTo([...before, far, next]);
    expect(both.questions).toEqual([]);
    expect(both.alert).not.toBeNull();
  });

  it('every exchange of two neighbouring digits', () => {
    expect(swaps(34.2)).toEqual([43.2, 32.4]);
  });
});

describe('[AIRBORNE-8] fuel that was not loaded', () => {
  const short = (loaded: number) =>
    answerTo(entriesOf(steady(60), ['fuel'], 4).map((entry) => ({ ...entry, value: entry.value + loaded })));

  it.each([-150, -280, 280])('%f kg are on board, and no fault is alerted', (loaded) => {
    const { fuelKg, alert, known } = short(loaded);
    expect(alert).toBeNull();
    expect(known).toEqual([]);
    expect(Math.abs(fuelKg.mean - loaded)).toBeLessThan(40);
  });

  it('a lot of it is asked about once, then taken', () => {
    const { fuelKg, questions, alert } = short(-2000);
    expect(questions).toEqual([]);
    expect(alert).toBeNull();
    expect(fuelKg.mean).toBeLessThan(-1900);
  });
});

describe('[AIRBORNE-5] detects and names', () => {
  it('3 % of fuel flow from the fuel quantity alone, and cannot tell the cause', () => {
    const outcomes = Array.from({ length: 25 }, (_, seed) => read(off, ['fuel'], seed, [45]));
    const minutes = outcomes.map(({ alertMin }) => (alertMin ?? 99) - 20).sort((a, b) => a - b);
    expect(minutes[12]).toBeLessThanOrEqual(12);
    for (const { answers } of outcomes) {
      const { alert, known } = answers.get(45) as NonNullable<ReturnType<typeof answers.get>>;
      expect(known).toEqual([]);
      expect(alert?.cause ?? null).toBeNull();
    }
  });

  const right = [
    ['leak', { leakKgS: 9 / 60 }],
    ['temperature', { temperatureK: 6 }],
    ['headwind', { headwindMS: (30 * 1852) / 3600 }],
    ['leftEngine', { left: 1.06 }],
    ['bothEngines', { drag: 1.03 }],
    ['gauge', { gaugeKg: -250 }],
  ] as const;

  it.each(right)('%s, 25 minutes after its onset', (cause, deviation) => {
    const { answers } = read(cruise(45, from(20, deviation)), all, 7, [45]);
    const { alert, known } = answers.get(45) as NonNullable<ReturnType<typeof answers.get>>;
    const named = [...known.map((each) => each.cause), ...(alert ? [alert.cause] : [])];
    expect(named).toEqual([cause]);
  });

  it('hardly ever anything of a sortie as planned', () => {
    const quiet = steady(90);
    const alarms = Array.from(
      { length: 24 },
      (_, seed) => read(quiet, ['fuel'], 2000 + seed).alertMin,
    ).filter((minute) => minute !== null);
    // One in 20: of 24 more than 4 in 1 of 170 cases (binomial).
    expect(alarms.length).toBeLessThanOrEqual(4);
  });
});
