/** Sorties that cannot be flown and the one change that frees each: typed into its file it passes, a step less does not. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { direct } from '../../../src/core/earth/line.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { Failure, Freed, Plan } from '../../../src/core/plan/plan.ts';
import { showPosition } from '../../../src/core/quantities/place.ts';
import { failureSentences } from '../../../src/present/sentences.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const degree = Math.PI / 180;
const mile = 1852;
const textOf = (name: string): string => readFileSync(`examples/${name}.yaml`, 'utf8');
const planOf = (text: string): Plan => makePlan(requestOf(text));
const words = (plan: Plan, failure: Failure): string =>
  failureSentences(plan, failure).join(' ').replaceAll('\u00a0', ' ');

function failed(plan: Plan): { failure: Failure; freed: Freed } {
  const { failure } = plan;
  if (!failure?.freedBy) throw new Error('the sortie can be flown, or nothing frees it');
  return { failure, freed: failure.freedBy };
}

/** The place as a sortie file writes it. */
function typed({ place }: Freed): string {
  if (!place) throw new Error('the change moves no place');
  const at = { latitudeRad: place.latitudeDeg * degree, longitudeRad: place.longitudeDeg * degree };
  return showPosition(at, 2);
}

describe('a route that cuts an area', () => {
  const text = textOf('long-loop-first-route');
  const plan = planOf(text);
  const { failure, freed } = failed(plan);
  const [gannet] = plan.areas;

  it('[FAIL-30] is answered with the area, how deep the flown turn goes into it, and when', () => {
    expect([failure.limit, failure.name, failure.phase]).toEqual(['area', 'Gannet Range', 'Turn at Damson']);
    const [{ entry, depthM }] = gannet.incursions;
    expect(failure.timeS).toBe(entry.timeS);
    expect(failure.excess).toBe(depthM);
    expect(words(plan, failure)).toMatch(
      /^Not flyable: the route: \d+ nm into Gannet Range and the 5 nm kept beside it, 2:\d\d to 2:\d\d, /,
    );
  });

  it('[FAIL-31] is entered and left again within the turn at the waypoint', () => {
    const turn = plan.turns.find(({ name }) => name === 'Damson');
    expect(gannet.incursions).toHaveLength(1);
    expect(gannet.incursions[0].entry.timeS).toBeGreaterThan(turn?.startS ?? Number.NaN);
    expect(gannet.incursions[0].exit.timeS).toBeLessThan(turn?.endS ?? Number.NaN);
  });

  it('[FAIL-32] is freed by its waypoint at a position that can be typed; a mile less is not enough', () => {
    expect(freed.lever).toBe('legs.2.through.1.at');
    expect(words(plan, failure)).toContain(`Damson at ${typed(freed).replace(' 0', ' ')}, `);
    const moved = planOf(change(text, ['40.80N 96.80W', typed(freed)]));
    expect(moved.flyable).toBe(true);
    const clearM = (moved.areas[0].nearest?.distanceM ?? 0) - 5 * mile;
    expect(clearM).toBeGreaterThan(0);
    expect(clearM).toBeCloseTo(freed.marginAfter ?? Number.NaN, 3);
    const old = { latitudeRad: 40.8 * degree, longitudeRad: -96.8 * degree };
    const { latitudeDeg = 0, longitudeDeg = 0 } = freed.place ?? {};
    const east = (longitudeDeg + 96.8) * Math.cos(40.8 * degree);
    const less = direct(old, Math.atan2(east, latitudeDeg - 40.8), freed.to - mile);
    expect(planOf(change(text, ['40.80N 96.80W', showPosition(less, 2)])).failure?.limit).toBe('area');
  });

  it('[FAIL-33] cleared by the final route, which goes over one area and ends before the hours of another', () => {
    const final = planOf(longLoopText);
    expect(final.flyable).toBe(true);
    const [range, moor, sound] = final.areas;
    expect(range.nearest?.distanceM).toBeGreaterThan(5 * mile);
    // The cruise is above 66 000 ft, the ceiling 45 000 ft.
    expect(moor.vertical?.side).toBe('over');
    expect(moor.vertical?.clearanceM).toBeGreaterThan(21_000 * 0.3048);
    expect([sound.nearest, sound.vertical]).toEqual([null, null]);
    expect(final.turns.filter(({ bankDeg }) => Math.round(bankDeg) === 30)).toHaveLength(4);
    expect(final.refuellings).toHaveLength(2);
  });
});

describe('a limit on the way', () => {
  const text = textOf('limit-on-the-way');
  const plan = planOf(text);
  const { failure, freed } = failed(plan);

  it('[FAIL-34] is that of airspeed, in the pushover, 480 KEAS up to Mach 2', () => {
    expect([failure.limit, failure.phase]).toEqual(['maximumEquivalentAirspeed', 'Pushover']);
    const most = Math.max(...plan.trace.columns.equivalentAirspeedMS);
    expect(most / (mile / 3600) - 480).toBeCloseTo((failure.excess ?? 0) / (mile / 3600), 6);
  });

  it('[FAIL-35] is freed by a higher bottom in both pushovers; 100 ft less is not enough', () => {
    expect(freed.lever).toBe('legs.2.fly.1.pushover.bottom');
    expect(freed.also).toEqual(['legs.1.fly.1.pushover.bottom']);
    const feet = freed.to / 0.3048;
    expect(feet / 100).toBeCloseTo(Math.round(feet / 100), 6);
    const raised = (to: number): Plan =>
      planOf(change(text, [/bottom: 25500 ft/g, `bottom: ${Math.round(to)} ft`]));
    const passes = raised(feet);
    expect(passes.flyable).toBe(true);
    const limit = passes.limits.find(({ key }) => key === failure.limit);
    expect(limit?.leastMargin).toBeCloseTo(freed.marginAfter ?? Number.NaN, 6);
    expect(raised(feet - 100).failure?.limit).toBe(failure.limit);
  });
});

describe('a tanker out of reach', () => {
  const text = textOf('tanker-out-of-reach');
  const plan = planOf(text);
  const { failure, freed } = failed(plan);

  it('[FAIL-36] is more fuel required than is on board when the tanker before is left full', () => {
    expect(failure.limit).toBe('fuelRequired');
    expect(failure.timeS).toBeCloseTo(plan.refuellings[0].disconnectS, 0);
    const { fuelKg, fuelRequiredKg } = plan.trace.columns;
    const short = Math.max(...fuelRequiredKg.map((required, i) => required - fuelKg[i]));
    expect(failure.excess).toBeCloseTo(short, 6);
  });

  it('[FAIL-37] is freed by a nearer contact point; 5 nm less is not enough', () => {
    expect(freed.lever).toBe('tankers.1.at');
    const nearer = planOf(change(text, ['33.30N 77.20W', typed(freed)]));
    expect(nearer.flyable).toBe(true);
    const { fuelKg, fuelRequiredKg } = nearer.trace.columns;
    const inHand = Math.min(...fuelKg.map((fuel, i) => fuel - fuelRequiredKg[i]));
    expect(inHand).toBeCloseTo(freed.fuelInHandKg, 3);
    const part = (freed.to - 5 * mile) / freed.to;
    const { latitudeDeg = 0, longitudeDeg = 0 } = freed.place ?? {};
    const less = {
      latitudeRad: (33.3 + part * (latitudeDeg - 33.3)) * degree,
      longitudeRad: (-77.2 + part * (longitudeDeg + 77.2)) * degree,
    };
    const still = planOf(change(text, ['33.30N 77.20W', showPosition(less, 2)]));
    expect(still.failure?.limit).toBe('fuelRequired');
  });
});
