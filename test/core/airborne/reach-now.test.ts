/** What is left of a reach with another fuel: by hand on a ladder of four minutes. */
import { describe, expect, it } from 'vitest';
import { reachNow } from '../../../src/core/airborne/reach-now.ts';
import type { Reach, ReachChoice } from '../../../src/core/plan/plan.ts';

const choice = (requiredKg: number, fuelKg: readonly (number | null)[]): ReachChoice => ({
  requiredKg,
  fuelKg,
  arrivalS: fuelKg.map(() => null),
  open: [],
  never: null,
});

const end = (name: string) => ({ kind: 'base', name, latitudeDeg: 0, longitudeDeg: 0 }) as const;

const reach: Reach = {
  reserveKg: 2000,
  within: 0.005,
  timeS: [60, 120, 180, 240],
  ends: [end('North'), end('South')],
  ladders: [
    {
      key: 'none',
      name: 'Nothing failed',
      source: '',
      burnSpread: null,
      // North closes after the third minute, South opens and stays.
      choices: [choice(2000, [4000, 3000, 2100, 1000]), choice(2000, [null, 2500, 2600, 2700])],
      best: [0, 0, 1, 1],
      equalTimes: [],
    },
  ],
  unstarts: [],
  evaluations: 0,
  flights: 0,
  notComputed: [],
};

describe('what is in reach now', () => {
  it('[AIRREACH-1] is the plan\u2019s own with the fuel of the plan; the minute before holds', () => {
    expect(reachNow(reach, 150, 0)).toEqual([
      { name: 'Nothing failed', best: { end: 'North', overKg: 1000 }, next: { end: 'North', inS: 30 } },
    ]);
  });

  it('[AIRREACH-2] closes sooner with less fuel, and later with more', () => {
    expect(reachNow(reach, 120, -200)[0].next).toEqual({ end: 'North', inS: 0 });
    expect(reachNow(reach, 120, 1000)[0].next).toBeNull();
    expect(reachNow(reach, 120, -600)[0]).toEqual({
      name: 'Nothing failed',
      best: { end: 'North', overKg: 400 },
      next: { end: 'North', inS: 0 },
    });
  });

  it('[AIRREACH-3] is nothing where no fuel is enough', () => {
    expect(reachNow(reach, 240, -1000)).toEqual([{ name: 'Nothing failed', best: null, next: null }]);
  });
});
