import { describe, expect, it } from 'vitest';
import { balanceOf } from '../../../src/core/aircraft/balance.ts';

const wing = { areaM2: 100, meanChordM: 10, leadingEdgeArmM: 20 };
const masses = [
  { item: 'empty', massKg: 9000, armM: 22 },
  { item: 'crew', massKg: 1000, armM: 12 },
];
const tanks = [
  { name: 'front', capacityKg: 1000, unusableKg: 0, volumeM3: null, armM: 15, order: 1 },
  { name: 'left', capacityKg: 500, unusableKg: 50, volumeM3: null, armM: 23, order: 2 },
  { name: 'right', capacityKg: 500, unusableKg: 50, volumeM3: null, armM: 23, order: 2 },
  { name: 'rear', capacityKg: 2000, unusableKg: 100, volumeM3: null, armM: 28, order: 3 },
];
const balance = balanceOf(masses, tanks, wing);

describe('balance', () => {
  it('[CG-1] adds up masses and tanks', () => {
    expect(balance.emptyMassKg).toBe(10000);
    expect(balance.fuelCapacityKg).toBe(4000);
    expect(balance.unusableFuelKg).toBe(200);
    expect([...balance.corners]).toEqual([0, 200, 2100, 3000, 4000]);
  });

  it('[CG-2] agrees with moments added by hand at each corner', () => {
    const moment = 9000 * 22 + 1000 * 12;
    const byHand: readonly (readonly [fuel: number, fuelMoment: number])[] = [
      [0, 0],
      [200, 100 * 23 + 100 * 28],
      [2100, 100 * 23 + 2000 * 28],
      [3000, 1000 * 23 + 2000 * 28],
      [4000, 1000 * 15 + 1000 * 23 + 2000 * 28],
      // Half of the front tank left.
      [3500, 500 * 15 + 1000 * 23 + 2000 * 28],
    ];
    for (const [fuel, fuelMoment] of byHand) {
      expect(balance.cgFraction(fuel)).toBeCloseTo(((moment + fuelMoment) / (10000 + fuel) - 20) / 10, 12);
    }
  });

  it('[CG-3] moves aft while a tank ahead of the centre of gravity empties, forward while one behind it does', () => {
    expect(balance.cgFraction(3500)).toBeGreaterThan(balance.cgFraction(4000));
    expect(balance.cgFraction(1000)).toBeLessThan(balance.cgFraction(1500));
  });

  it('[CG-4] is not known without masses, tanks or a chord', () => {
    expect(balanceOf([], [], wing).cgFraction(0)).toBeNaN();
    expect(balanceOf([], [], wing).fuelCapacityKg).toBe(0);
    expect(balanceOf(masses, tanks, { ...wing, meanChordM: null }).cgFraction(100)).toBeNaN();
  });

  it('[CG-5] with a density each tank holds its capacity by mass or what its volume holds, with the moments of those', () => {
    const small = tanks.map((tank) => ({ ...tank, volumeM3: tank.capacityKg / 800 }));
    const told = balanceOf(masses, small, wing);
    expect(told.volumeM3).toBeCloseTo(5, 12);
    expect(told.fuelCapacityKg).toBe(4000);
    expect(told.heldAt(820).fuelCapacityKg).toBe(4000);
    const warm = told.heldAt(720);
    expect(warm.fuelCapacityKg).toBeCloseTo(3600, 9);
    expect(warm.unusableFuelKg).toBe(200);
    const moment = 9000 * 22 + 1000 * 12 + 900 * 15 + 900 * 23 + 1800 * 28;
    expect(warm.cgFraction(3600)).toBeCloseTo((moment / 13_600 - 20) / 10, 12);
    // Heavier again, the volume no longer binds.
    expect(warm.heldAt(900).fuelCapacityKg).toBe(4000);
    expect(balance.volumeM3).toBe(null);
    expect(balance.heldAt(720).fuelCapacityKg).toBe(4000);
  });
});
