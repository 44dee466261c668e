/** What is left of a reach with another fuel: by hand on a ladder of four minutes. */
import { describe, expect, it } from 'vitest';
import { type FuelBeside, nextToClose, reachNow } from '../../../src/core/airborne/reach-now.ts';
import type { Reach, ReachChoice } from '../../../src/core/plan/plan.ts';

const choice = (requiredKg: number, fuelKg: readonly (number | null)[]): ReachChoice => ({
  requiredKg,
  fuelKg,
  arrivalS: fuelKg.map(() => null),
  open: [],
  none: [],
  never: null,
});

const end = (name: string) => ({ kind: 'base', name, latitudeDeg: 0, longitudeDeg: 0 }) as const;

const reach: Reach = {
  reserveKg: 2000,
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

/** A plan with 10 000 kg on board all the time; so much more than that, and each way takes `burn` times the plan's. */
const beside = (planTimeS: number, moreKg: number, burn = 1): FuelBeside => ({
  planTimeS,
  plannedKg: () => 10_000,
  moreKg: () => moreKg,
  burn: () => burn,
});

describe('what is in reach now', () => {
  it('[AIRREACH-1] is the plan\u2019s own with the fuel of the plan; the minute before holds', () => {
    const [row] = reachNow(reach, beside(150, 0));
    expect(row.best).toEqual({ end: 'North', overKg: 1000 });
    // From 100 kg over at 180 s to 1000 kg short at 240 s: nothing over at 180 + 60 / 11 s.
    expect(row.next?.end).toBe('North');
    expect(row.next?.inS).toBeCloseTo(30 + 60 / 11, 9);
  });

  it('[AIRREACH-2] closes sooner with less fuel, and later with more', () => {
    // 800 kg over at 120 s, 100 kg short at 180 s.
    expect(reachNow(reach, beside(120, -200))[0].next?.inS).toBeCloseTo((60 * 800) / 900, 9);
    expect(reachNow(reach, beside(120, 1000))[0].next).toBeNull();
    expect(reachNow(reach, beside(120, -600))[0].best).toEqual({ end: 'North', overKg: 400 });
  });

  it('[AIRREACH-3] is nothing where no fuel is enough', () => {
    expect(reachNow(reach, beside(240, -1000))[0]).toMatchObject({ best: null, next: null });
  });

  it('[AIRREACH-4] a way that takes more leaves less: 10 % of the 7000 kg to North', () => {
    expect(reachNow(reach, beside(120, 0, 1.1))[0].best?.overKg).toBeCloseTo(300, 9);
  });

  it('[AIRREACH-5] what was flown from here counts, and an end out of the data is marked and told from the plan', () => {
    const flown = (fuelKg: number | null, beyondData: boolean): FuelBeside => ({
      ...beside(120, 0),
      flown: (_, of) => (of === 0 ? { fuelKg, beyondData } : undefined),
    });
    expect(reachNow(reach, flown(2400, false))[0].best).toEqual({ end: 'South', overKg: 500 });
    expect(reachNow(reach, flown(null, false))[0].best?.end).toBe('South');
    const beyond = reachNow(reach, flown(null, true))[0];
    expect(beyond).toMatchObject({ best: { end: 'North', overKg: 1000 }, beyondData: true });
  });

  it('[AIRREACH-6] of all failures the choice that closes first', () => {
    const rows = [...reachNow(reach, beside(120, 0)), ...reachNow(reach, beside(120, -200))];
    expect(nextToClose(rows)?.inS).toBeCloseTo((60 * 800) / 900, 9);
    expect(nextToClose([])).toBeNull();
  });
});
