/** What is tried to free a sortie follows from what a limit bounds, whatever a deck calls it. */
import { describe, expect, it } from 'vitest';
import type { PlanRequest } from '../../../src/core/plan/draft.ts';
import type { Fault } from '../../../src/core/plan/failure.ts';
import { leversFor } from '../../../src/core/plan/levers.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { showPosition } from '../../../src/core/quantities/place.ts';
import { change, longLoopText, requestOf, warmDayText } from '../../support/demo.ts';

const knot = 1852 / 3600;
const foot = 0.3048;
const degree = Math.PI / 180;
const { sortie } = requestOf(longLoopText);

/** Paths of the levers of a fault, in the order in which they are tried. */
function tried(fault: Partial<Fault>): string[] {
  const none = { key: '', limit: null, node: 0, leg: 1, phase: '', phaseKind: '', text: null, excess: null };
  return leversFor({ ...none, through: null, ...fault }, sortie, 38_500).map(({ path }) => path);
}

const upper = (quantity: string) => ({ key: 'x', limit: { quantity, side: 'upper' as const } });
const lower = (quantity: string) => ({ key: 'x', limit: { quantity, side: 'lower' as const } });

describe('levers', () => {
  it('[LEVER-1] a deck with keys of its own is freed as one with those of the demonstration', () => {
    const request = requestOf(warmDayText);
    const limits = request.aircraft.limits.map((limit) => ({ ...limit, key: `own${limit.key}` }));
    const own: PlanRequest = {
      ...request,
      aircraft: { ...request.aircraft, limits },
      sortie: { ...request.sortie, pads: { owninletTemperature: 5 } },
    };
    const failure = makePlan(own).failure;
    expect(failure?.limit).toBe('owninletTemperature');
    const usual = makePlan(request).failure;
    expect(failure?.freedBy).toEqual(usual?.freedBy);
    expect(failure?.freedBy?.lever).toBe('legs.1.fly.3.cruise.mach');
  });

  it('[LEVER-2] the cruise Mach goes with every climb and cruise that has it', () => {
    const [lever] = leversFor(
      { ...upper('mach'), node: 0, leg: 1, phase: '', phaseKind: '', text: null, excess: 0, through: null },
      sortie,
      38_500,
    );
    expect(lever.also).toEqual([
      'legs.2.fly.3.cruise.mach',
      'legs.1.fly.2.climb.mach',
      'legs.2.fly.2.climb.mach',
    ]);
    const machs = lever
      .set(2.7)
      .legs.flatMap(({ fly }) => fly.flatMap((step) => ('mach' in step ? [step.mach] : [])));
    expect(machs.filter((mach) => mach === 2.7)).toHaveLength(4);
    expect(machs.filter((mach) => mach === 2.85)).toHaveLength(0);
    expect(machs.filter((mach) => mach < 1).length).toBeGreaterThan(3);
  });

  it('[LEVER-3] airspeed is that of the phase in which it is passed', () => {
    const eas = 'equivalentAirspeedMS';
    const bottom = 'legs.1.fly.1.pushover.bottom';
    const climb = 'legs.1.fly.2.climb.equivalentAirspeed';
    const descent = 'legs.1.fly.4.descend.equivalentAirspeed';
    expect(tried({ ...upper(eas), phaseKind: 'pushover' })).toEqual([bottom, climb]);
    expect(tried({ ...upper(eas), phaseKind: 'climb' })).toEqual([climb, bottom]);
    expect(tried({ ...lower(eas), phaseKind: 'climb' })).toEqual([climb]);
    expect(tried({ ...upper('calibratedAirspeedMS'), phaseKind: 'descent' })).toEqual([descent]);
  });

  it('[LEVER-4] lift is asked for by a bank, a pull or a mass', () => {
    for (const quantity of ['angleOfAttackDeg', 'loadFactor', 'bankDeg']) {
      const turn = (phase: string) => tried({ ...upper(quantity), phaseKind: 'turn', phase });
      expect(turn('Turn at Birch')).toEqual(['legs.1.through.1.bank']);
      expect(turn('Turn at disconnect')).toEqual(['tankers.0.bank', 'legs.0.refuel.take']);
      expect(turn('Turn at Ewer Two')).toEqual(['tankers.1.bank']);
      expect(tried({ ...upper(quantity), phaseKind: 'pushover' })).toEqual(['legs.1.fly.1.pushover.pull']);
      expect(tried({ ...upper(quantity), phaseKind: 'contact' })).toEqual(['legs.1.refuel.take']);
      expect(tried({ ...upper(quantity), phaseKind: 'climb' })).toEqual(['legs.0.refuel.take']);
    }
    expect(tried({ ...lower('loadFactor'), phaseKind: 'pushover' })).toEqual(['legs.1.fly.1.pushover.push']);
  });

  it('[LEVER-5] fuel, however a deck calls its minimum', () => {
    expect(tried({ ...lower('fuelKg'), leg: 0 })).toEqual(['aircraft.fuel', 'tankers.0.at']);
    expect(tried({ key: 'fuelRequired', leg: 2 })).toEqual(['legs.1.refuel.take']);
  });
});

describe('a flight that stops is freed', () => {
  const freedOf = (text: string) => {
    const freed = makePlan(requestOf(text)).failure?.freedBy;
    if (!freed) throw new Error('the sortie can be flown, or nothing frees it');
    return freed;
  };
  const flyable = (text: string): boolean => makePlan(requestOf(text)).flyable;

  it('[LEVER-6] by less speed in contact, where the tanker may not fly so fast', () => {
    const text = change(longLoopText, ['maximumMach: 0.80', 'maximumMach: 0.70']);
    const freed = freedOf(text);
    expect(freed.lever).toBe('tankers.0.calibratedAirspeed');
    const knots = Math.round(freed.to / knot);
    // By the isentropic relation at 24 000 ft, pressure ratio 0.3876: 298 KCAS is Mach 0.6987, 299 KCAS Mach 0.7009.
    expect(knots).toBe(298);
    const slower = (speed: number) =>
      change(text, ['calibratedAirspeed: 320 KCAS', `calibratedAirspeed: ${speed} KCAS`]);
    expect(flyable(slower(knots))).toBe(true);
    expect(flyable(slower(knots + 1))).toBe(false);
  });

  it('[LEVER-7] by a lower bottom, where a pushover has no room for its dive', () => {
    const text = change(longLoopText, ['bottom: 28500 ft', 'bottom: 32500 ft']);
    const freed = freedOf(text);
    expect(freed.lever).toBe('legs.1.fly.1.pushover.bottom');
    const feet = Math.round(freed.to / foot);
    const lowered = (bottom: number) => change(text, ['bottom: 32500 ft', `bottom: ${bottom} ft`]);
    expect(flyable(lowered(feet))).toBe(true);
    expect(flyable(lowered(feet + 100))).toBe(false);
  });

  it('[LEVER-8] by a waypoint further on, where a turn has no room before its corner', () => {
    const near = '35.60N 90.60W';
    const text = change(longLoopText, ['46.80N 96.00W', near]);
    const freed = freedOf(text);
    expect(freed.lever).toBe('legs.1.through.0.at');
    const { latitudeDeg = 0, longitudeDeg = 0 } = freed.place ?? {};
    const place = { latitudeRad: latitudeDeg * degree, longitudeRad: longitudeDeg * degree };
    expect(flyable(change(text, [near, showPosition(place, 2)]))).toBe(true);
  });
});
