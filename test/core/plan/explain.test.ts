/** Sorties that cannot be flown: what binds, where, by how much, what frees it; never an exception, never a blank. */
import { describe, expect, it } from 'vitest';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { Failure, Plan } from '../../../src/core/plan/plan.ts';
import { failureSentences } from '../../../src/present/sentences.ts';
import { change, longLoopText, requestOf, warmDayText } from '../../support/demo.ts';

const planOf = (text: string): Plan => makePlan(requestOf(text));

function failed(plan: Plan): Failure {
  if (!plan.failure) throw new Error('the sortie can be flown');
  expect(plan.flyable).toBe(false);
  return plan.failure;
}

const failureOf = (text: string): Failure => failed(planOf(text));

/** Static temperature of the standard day in the stratosphere up to 32 km [K] (US Standard Atmosphere 1976, table 4). */
const standardK = (altitudeM: number): number => 216.65 + 1e-3 * Math.max(0, altitudeM - 20_000);

/**
 * Total temperature [K] of air whose molecules vibrate as harmonic oscillators of 5500 degR (NACA Report 1135, equations
 * 178 to 187; from memory): independent of the program's polynomials, right to about 0.5 K up to 800 K.
 */
function totalTemperatureK(staticK: number, mach: number): number {
  const theta = 5500 / 1.8;
  const enthalpy = (t: number): number => 3.5 * t + theta / (Math.exp(theta / t) - 1);
  const wanted = enthalpy(staticK) + 0.5 * 1.4 * staticK * mach * mach;
  let [low, high] = [staticK, 6 * staticK];
  while (high - low > 1e-6) {
    const middle = 0.5 * (low + high);
    if (enthalpy(middle) < wanted) low = middle;
    else high = middle;
  }
  return low;
}

describe('a warm day', () => {
  const plan = planOf(warmDayText);
  const failure = failed(plan);
  const limitOf = (made: Plan, key: string) => made.limits.find((limit) => limit.key === key);

  it('[FAIL-1] is bound by inlet temperature and not by Mach', () => {
    expect(failure.limit).toBe('inletTemperature');
    expect(limitOf(plan, 'mach')?.leastMargin).toBeCloseTo(3 - 2.98, 3);
    expect(failure.pad).toBe(5);
    expect(failure.phase).toMatch(/^Cruise/);
  });

  it('[FAIL-2] the excess is that of the gauge over the pad, by an independent total temperature', () => {
    const { columns } = plan.trace;
    const node = columns.timeS.findIndex(
      (time) => time >= (limitOf(plan, 'inletTemperature')?.timeS ?? 0) - 0.01,
    );
    const staticK = standardK(columns.pressureAltitudeM[node]) + 8;
    expect(columns.temperatureK[node]).toBeCloseTo(staticK, 1);
    const gauge = staticK + 0.99 * (totalTemperatureK(staticK, columns.mach[node]) - staticK);
    expect(Math.abs((failure.excess ?? 0) - (gauge - (620 - 5)))).toBeLessThan(0.7);
  });

  it('[FAIL-3] begins where the margin first is less than the pad, with its place', () => {
    const { columns, margins } = plan.trace;
    const first = margins.inletTemperature.findIndex((margin) => margin < 5);
    expect(failure.timeS).toBeCloseTo(columns.timeS[first], 1);
    expect(failure.latitudeDeg).toBeCloseTo(columns.latitudeDeg[first], 3);
    expect(failure.longitudeDeg).toBeCloseTo(columns.longitudeDeg[first], 3);
  });

  it('[FAIL-4] is freed by less cruise Mach: the re-run passes, and 0.01 more does not', () => {
    const freed = failure.freedBy;
    expect(freed?.lever).toBe('legs.1.fly.3.cruise.mach');
    expect(freed?.from).toBe(2.98);
    const to = freed?.to ?? Number.NaN;
    const rerun = planOf(change(warmDayText, [/2\.98 Mach/g, `${to.toFixed(2)} Mach`]));
    expect(rerun.failure).toBe(null);
    expect(limitOf(rerun, 'inletTemperature')?.leastMargin).toBeCloseTo(freed?.marginAfter ?? Number.NaN, 6);
    const more = planOf(warmDayText.replaceAll('2.98 Mach', `${(to + 0.01).toFixed(2)} Mach`));
    expect(more.flyable).toBe(false);
  });

  it('[FAIL-5] 0.01 of Mach is worth 2.5 to 2.7 K on the gauge', () => {
    // 2.55 K at Mach 3.1 and 216.65 K (worked out from the NASA Glenn coefficients); warmer air gives more.
    const { freedBy } = failure;
    const gained = (freedBy?.marginAfter ?? 0) - (limitOf(plan, 'inletTemperature')?.leastMargin ?? 0);
    const steps = Math.round((2.98 - (freedBy?.to ?? 0)) * 100);
    expect(gained / steps).toBeGreaterThan(2.5);
    expect(gained / steps).toBeLessThan(2.7);
  });
});

describe('the cold analysis', () => {
  it('[FAIL-6] is bound by Mach first, and freed at the limit or a step below', () => {
    const failure = failureOf(change(longLoopText, [/2\.85 Mach/g, '3.02 Mach']));
    expect(failure.limit).toBe('mach');
    expect(failure.excess).toBeCloseTo(3.02 - 3, 6);
    // Flown at the limit itself, rounding decides.
    expect(failure.freedBy?.to).toBeGreaterThan(2.985);
    expect(failure.freedBy?.marginAfter).toBeGreaterThanOrEqual(0);
  });
});

describe('too little fuel', () => {
  it('[FAIL-10] is freed by taking more from the tanker before: the least that is enough, in steps of 100 kg', () => {
    const failure = failureOf(change(longLoopText, ['take: full', 'take: 14000 kg']));
    expect(failure.limit).toBe('fuelRequired');
    expect(failure.phase).not.toMatch(/^Contact/);
    expect(failure.excess).toBeGreaterThan(500);
    expect(failure.freedBy?.lever).toBe('legs.0.refuel.take');
    const to = failure.freedBy?.to ?? Number.NaN;
    const enough = planOf(change(longLoopText, ['take: full', `take: ${to} kg`]));
    expect(enough.flyable).toBe(true);
    const { fuelKg, fuelRequiredKg } = enough.trace.columns;
    const inHand = Math.min(...fuelKg.map((fuel, i) => fuel - fuelRequiredKg[i]));
    expect(inHand).toBeCloseTo(failure.freedBy?.fuelInHandKg ?? Number.NaN, 3);
    expect(planOf(change(longLoopText, ['take: full', `take: ${to - 100} kg`])).flyable).toBe(false);
  });

  it('[FAIL-11] so far that the tanks run to their minimum is answered in the same way', () => {
    const failure = failureOf(change(longLoopText, ['take: full', 'take: 9000 kg']));
    // Fast, the fuel that has to be left for cooling comes before the minimum.
    expect(failure.limit).toBe('coolingFuel');
    expect(failure.freedBy?.lever).toBe('legs.0.refuel.take');
    expect(failure.freedBy?.to).toBeGreaterThan(9000);
  });

  it('[FAIL-12] at take-off is freed by more fuel at take-off', () => {
    const failure = failureOf(change(longLoopText, ['fuel: 14000 kg', 'fuel: 5500 kg']));
    expect(['fuelRequired', 'minimumFuel']).toContain(failure.limit);
    expect(failure.freedBy?.lever).toBe('aircraft.fuel');
    expect(failure.freedBy?.to).toBeGreaterThan(5500);
  });
});

describe('what a flight itself says where it stops', () => {
  const cases: readonly (readonly [string, string, string, RegExp, RegExp])[] = [
    [
      '[FAIL-20] a tanker that may not fly so fast',
      change(longLoopText, ['maximumMach: 0.80', 'maximumMach: 0.70']),
      'tankerMach',
      // 320 KCAS at 24 000 ft is Mach 0.747: the design point of the deck.
      /^contact at Mach 0\.747 is above Mach 0\.700, the limit of Ewer One$/,
      /^Contact with Ewer One$/,
    ],
    [
      '[FAIL-21] a pushover that runs into a turn',
      change(longLoopText, ['46.80N 96.00W', '43.00N 93.00W'], ['50.60N 86.50W', '40.0N 91.5W']),
      'route',
      /^the pushover runs into the turn at Alder$/,
      /^Pushover$/,
    ],
    [
      '[FAIL-22] a turn of more than 155 degrees',
      change(longLoopText, ['46.80N 96.00W', '45.00N 85.50W'], ['50.60N 86.50W', '36.0N 91.0W']),
      'route',
      /^the turn at Alder is 17\d deg; more than 155 needs a further waypoint$/,
      /./,
    ],
    [
      '[FAIL-23] a pushover without room for its dive',
      change(longLoopText, ['bottom: 28500 ft', 'bottom: 32500 ft']),
      'manoeuvre',
      /^the pushover cannot be flown: the path angle is reached \d+ m below the bottom$/,
      /^Pushover$/,
    ],
    [
      '[FAIL-24] a leg that ends below its tanker',
      change(
        longLoopText,
        ['to: 24000 ft', 'to: 20000 ft'],
        ['cruise: { mach: 0.78 Mach, altitude: 24000 ft', 'cruise: { mach: 0.78 Mach, altitude: 20000 ft'],
      ),
      'route',
      // 4000 ft.
      /^the leg ends 1219 m below Ewer One without a descent$/,
      /./,
    ],
    [
      '[FAIL-26] a cruise at an altitude that nothing leads to',
      change(longLoopText, [
        'cruise: { mach: 0.78 Mach, altitude: 24000 ft',
        'cruise: { mach: 0.78 Mach, altitude: 30000 ft',
      ]),
      'route',
      // 6000 ft.
      /^the cruise begins 1829 m below its altitude: nothing flown before it ends there$/,
      /^Cruise at Mach 0\.78$/,
    ],
    [
      '[FAIL-25] a climb that has not the thrust',
      change(longLoopText, [
        /power: maximumAfterburner\n {10}equivalentAirspeed/g,
        'power: military\n          equivalentAirspeed',
      ]),
      'thrust',
      /thrust/,
      /./,
    ],
  ];

  it.each(cases)('%s', (_name, text, key, says, phase) => {
    const plan = planOf(text);
    const failure = failed(plan);
    expect(failure.limit).toBe(key);
    expect(failure.text).toMatch(says);
    expect(failure.phase).toMatch(phase);
    for (const value of [failure.timeS, failure.latitudeDeg, failure.longitudeDeg]) {
      expect(Number.isFinite(value)).toBe(true);
    }
    const words = failureSentences(plan, failure).join(' ').replaceAll('\u00a0', ' ');
    expect(words).toContain(failure.text ?? '');
    expect(words).not.toMatch(/NaN|undefined|null/);
  });
});
