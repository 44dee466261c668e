import { describe, expect, it } from 'vitest';
import type { Aircraft, Limit } from '../../../src/core/aircraft/aircraft.ts';
import { balanceOf } from '../../../src/core/aircraft/balance.ts';
import { balanceState, balanceTable, outsideBalance } from '../../../src/core/aircraft/balance-state.ts';
import { benchmarkAircraft } from '../../support/benchmark.ts';

const wing = { areaM2: 100, meanChordM: 10, leadingEdgeArmM: 20 };
const masses = [{ item: 'empty', massKg: 10_000, armM: 22 }];
const tanks = [
  { name: 'rear', capacityKg: 2000, unusableKg: 0, volumeM3: null, armM: 30, order: 1 },
  { name: 'front', capacityKg: 4000, unusableKg: 0, volumeM3: null, armM: 18, order: 2 },
];
function limit(side: 'upper' | 'lower', bound: (mach: number) => number): Limit {
  return {
    key: side,
    name: side,
    quantity: 'cgFraction',
    side,
    spread: 0,
    value: (at) => at.cgFraction,
    bound: (at) => bound(at.mach),
    source: 'test',
  };
}
const aircraft: Aircraft = {
  ...benchmarkAircraft(),
  balance: balanceOf(masses, tanks, wing),
  limits: [limit('lower', (mach) => (mach < 1 ? 0.1 : 0.05)), limit('upper', () => 0.3)],
};

describe('balance against its limits', () => {
  it('[CG-20] leaves a limit with the fuel that the moments give', () => {
    // With f in the front tank the arm is (220 000 + 18 f) / (10 000 + f) = 21 m, 10 % of the chord, at f = 10 000 / 3.
    // Full front tank and r in the rear one: (220 000 + 72 000 + 30 r) / (14 000 + r) = 21 at r = 2000 / 9.
    const [range, ...others] = outsideBalance(aircraft, 0.5);
    expect(others).toEqual([]);
    expect(range.side).toBe('forward');
    expect(range.fromKg).toBeCloseTo(10_000 / 3, 2);
    expect(range.toKg).toBeCloseTo(4000 + 2000 / 9, 2);
    expect(range.mostAtKg).toBe(4000);
    // 292 000 / 14 000 = 20.857 m.
    expect(range.mostFraction).toBeCloseTo(0.1 - (292_000 / 14_000 - 20) / 10, 12);
  });

  it('[CG-21] reads its limits at the Mach asked for', () => {
    expect(outsideBalance(aircraft, 1.5)).toEqual([]);
    const state = balanceState(aircraft, 4000, 1.5);
    expect(state).toMatchObject({
      forwardLimit: expect.closeTo(0.05, 12),
      aftLimit: expect.closeTo(0.3, 12),
    });
    expect(state.marginFraction).toBeCloseTo((292_000 / 14_000 - 20) / 10 - 0.05, 12);
    expect(state.tanksKg).toEqual([0, 4000]);
  });

  it('[CG-22] a table has a state wherever another tank begins to fill', () => {
    const { states } = balanceTable(aircraft, 0.5, 2500);
    expect(states.map(({ fuelKg }) => fuelKg)).toEqual([0, 2500, 4000, 5000, 6000]);
    expect(balanceTable(aircraft, 0.5, 2500, [1234]).states.map(({ fuelKg }) => fuelKg)).toEqual([1234]);
  });

  it('[CG-23] is not known for an aircraft without tanks', () => {
    expect(outsideBalance(benchmarkAircraft(), 0.5)).toEqual([]);
  });
});
