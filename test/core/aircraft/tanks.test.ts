import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Transfer } from '../../../src/core/aircraft/aircraft.ts';
import { balanceOf } from '../../../src/core/aircraft/balance.ts';

const wing = { areaM2: 100, meanChordM: 10, leadingEdgeArmM: 20 };
const masses = [{ item: 'empty', massKg: 10_000, armM: 21 }];
const tanks = [
  { name: 'front', capacityKg: 1000, unusableKg: 20, volumeM3: null, armM: 15, order: 1 },
  { name: 'left', capacityKg: 500, unusableKg: 50, volumeM3: null, armM: 23, order: 2 },
  { name: 'right', capacityKg: 700, unusableKg: 30, volumeM3: null, armM: 23, order: 2 },
  { name: 'rear', capacityKg: 2000, unusableKg: 100, volumeM3: null, armM: 28, order: 3 },
];
const aft: Transfer = { from: 0, to: 3, massKg: 600, beginsMach: 1, endsMach: 2, rateKgS: null };
const forth: Transfer = { from: 3, to: 1, massKg: 300, beginsMach: 2.2, endsMach: 2.6, rateKgS: null };
const plain = balanceOf(masses, tanks, wing);
const moving = balanceOf(masses, tanks, wing, [aft, forth]);

const held = new Float64Array(tanks.length);
function filled(balance: typeof plain, fuelKg: number, mach: number): number[] {
  balance.fillTanks(fuelKg, mach, held);
  return [...held];
}
const onBoard = fc.double({ min: 0, max: plain.fuelCapacityKg, noNaN: true });
const mach = fc.double({ min: 0, max: 3.2, noNaN: true });

describe('tanks', () => {
  it('[CG-6] fill from the last order to the first, those of one order in proportion, unusable fuel before all', () => {
    // 200 kg unusable, 1900 kg rear, 450 and 670 kg left and right, 980 kg front.
    expect(filled(plain, 100, 0)).toEqual([10, 25, 15, 50]);
    expect(filled(plain, 200 + 1900, 0)).toEqual([20, 50, 30, 2000]);
    const half = filled(plain, 200 + 1900 + 560, 0);
    expect(half[1]).toBeCloseTo(50 + 225, 9);
    expect(half[2]).toBeCloseTo(30 + 335, 9);
    expect(filled(plain, 4200, 0)).toEqual([1000, 500, 700, 2000]);
  });

  it('[CG-7] hold together what is on board, with and without transfers', () => {
    fc.assert(
      fc.property(onBoard, mach, (fuelKg, at) => {
        for (const balance of [plain, moving]) {
          const sum = filled(balance, fuelKg, at).reduce((a, b) => a + b, 0);
          expect(Math.abs(sum - fuelKg)).toBeLessThan(1e-9);
        }
      }),
    );
  });

  it('[CG-8] never hold more than their capacity, less than nothing, or less with more on board', () => {
    fc.assert(
      fc.property(onBoard, onBoard, mach, (a, b, at) => {
        const [less, more] = [Math.min(a, b), Math.max(a, b)].map((fuelKg) => filled(moving, fuelKg, at));
        tanks.forEach(({ capacityKg }, i) => {
          expect(less[i]).toBeGreaterThanOrEqual(0);
          expect(more[i]).toBeLessThanOrEqual(capacityKg + 1e-9);
          expect(more[i] - less[i]).toBeGreaterThanOrEqual(-1e-9);
        });
      }),
    );
  });

  it('[CG-9] have the centre of gravity of what each of them holds', () => {
    fc.assert(
      fc.property(onBoard, mach, (fuelKg, at) => {
        const moment = filled(moving, fuelKg, at).reduce((sum, kg, i) => sum + kg * tanks[i].armM, 0);
        const byHand = ((10_000 * 21 + moment) / (10_000 + fuelKg) - 20) / 10;
        expect(moving.cgFraction(fuelKg, at)).toBeCloseTo(byHand, 12);
      }),
    );
  });

  it('[CG-10] move the centre of gravity without a jump in fuel or in Mach', () => {
    fc.assert(
      fc.property(onBoard, mach, (fuelKg, at) => {
        const here = moving.cgFraction(fuelKg, at);
        const next = Math.min(fuelKg + 0.01, plain.fuelCapacityKg);
        // 0.01 kg over the longest arm from the centre of gravity, and 6 kg/0.01 Mach over 13 m, on 10 t and 10 m.
        expect(Math.abs(moving.cgFraction(next, at) - here)).toBeLessThan(2e-6);
        expect(Math.abs(moving.cgFraction(fuelKg, at + 1e-5) - here)).toBeLessThan(2e-6);
      }),
    );
  });

  it('[CG-11] a transfer takes no more than the one has to use and the other has room for', () => {
    // With the rear tank full there is no room; with the front tank at its unusable fuel there is none to take.
    expect(filled(moving, 4200, 2)).toEqual([1000, 500, 700, 2000]);
    expect(filled(moving, 2100, 2)).toEqual([20, 50, 30, 2000]);
    const roomy = balanceOf(masses, tanks, wing, [{ ...aft, from: 3, to: 0 }]);
    // 300 kg at half of the way, all 600 kg at the end and beyond it.
    expect(filled(roomy, 2100, 1.5)).toEqual([320, 50, 30, 1700]);
    expect(filled(roomy, 2100, 3)).toEqual([620, 50, 30, 1400]);
    expect(filled(roomy, 2100, 0.9)).toEqual([20, 50, 30, 2000]);
    expect(roomy.cgFraction(2100, 3)).toBeCloseTo(roomy.cgFraction(2100) - (600 * 13) / 12_100 / 10, 12);
  });
});
