import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  calibratedAirspeed,
  equivalentAirspeed,
  impactRatio,
  machFromCalibrated,
  machFromEquivalent,
  machFromImpactRatio,
  pressureWhereCalibratedMeets,
  pressureWhereEquivalentMeets,
} from '../../../src/core/air/airdata.ts';
import { airData, machFromSpeed } from '../../../src/core/air/airdata-record.ts';
import { normalShock, prandtlMeyer } from '../../../src/core/air/compressible.ts';
import { newAir } from '../../../src/core/air/day.ts';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import { seaLevelSpeedOfSound } from '../../../src/core/quantities/constants.ts';
import { OutsideRange } from '../../../src/core/quantities/errors.ts';

/**
 * A Mach is kept to its last bits: no step of the subsonic way subtracts like numbers, and Rayleigh's formula, whose 1 is
 * taken from a ratio of 1.9 or more, is solved to 1e-14 of the square. Below Mach 1e-150 its square is no double any more.
 */
const lastBits = 4e-15;
const noSquare = 1e-150;
const keeps = (back: number, mach: number) => Math.abs(back - mach) <= lastBits * mach + noSquare;
const machs = fc.double({ min: 0, max: 10, noNaN: true });
const pressures = fc.double({ min: 50, max: 110000, noNaN: true });

describe('air data', () => {
  it('[AIRDATA-1] impact pressure is continuous with its slope at Mach 1', () => {
    const step = 1e-6;
    const [below, at, above] = [1 - step, 1, 1 + step].map(impactRatio);
    expect(at).toBeCloseTo(1.2 ** 3.5 - 1, 14);
    expect((above - at) / (at - below)).toBeCloseTo(1, 5);
  });

  it('[AIRDATA-2] Mach of an impact ratio is the inverse on both branches', () => {
    fc.assert(
      fc.property(machs, (mach) => {
        expect(keeps(machFromImpactRatio(impactRatio(mach)), mach)).toBe(true);
      }),
    );
    for (const mach of [0, 1e-9, 1e-4, 0.999999999, 1, 1.000000001, 50]) {
      expect(keeps(machFromImpactRatio(impactRatio(mach)), mach)).toBe(true);
    }
  });

  it('[AIRDATA-3] impact pressure rises with Mach and exceeds dynamic pressure', () => {
    fc.assert(
      fc.property(machs, (mach) => {
        expect(impactRatio(mach + 1e-3)).toBeGreaterThan(impactRatio(mach));
        expect(impactRatio(mach)).toBeGreaterThanOrEqual(0.7 * mach * mach * (1 - lastBits) - noSquare);
      }),
    );
  });

  it('[AIRDATA-4] calibrated airspeed and its inverse branch on the sea-level speed of sound', () => {
    fc.assert(
      fc.property(machs, pressures, (mach, pressure) => {
        const back = machFromCalibrated(calibratedAirspeed(mach, pressure), pressure);
        expect(keeps(back, mach)).toBe(true);
      }),
    );
    // At 50 m/s TAS and less, and at speeds no gauge reads.
    for (const mach of [0, 1e-160, 4e-8, 1e-6, 1e-3, 0.14, 1, 1.000000001, 10]) {
      expect(keeps(machFromCalibrated(calibratedAirspeed(mach, 50), 50), mach)).toBe(true);
    }
    // A calibrated airspeed at the speed of sound itself: Mach 1 at sea level.
    expect(calibratedAirspeed(1, 101325)).toBeCloseTo(seaLevelSpeedOfSound, 9);
    expect(machFromCalibrated(seaLevelSpeedOfSound, 101325)).toBeCloseTo(1, 12);
  });

  it('[AIRDATA-5] at sea level of the standard day all speeds are one', () => {
    const air = newAir();
    standardDay.sample(0, 0, 0, 0, air);
    const data = airData(0, air, 0.5);
    for (const speed of [data.calibratedAirspeedMS, data.equivalentAirspeedMS, data.trueAirspeedMS]) {
      expect(speed).toBeCloseTo(0.5 * seaLevelSpeedOfSound, 9);
    }
  });

  it('[AIRDATA-6] every kind of speed gives the Mach it came from', () => {
    const air = newAir();
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 4, noNaN: true }),
        fc.double({ min: 0, max: 30000, noNaN: true }),
        (mach, at) => {
          standardDay.sample(0, 0, at, 0, air);
          const data = airData(at, air, mach);
          const keys = ['mach', 'calibratedAirspeedMS', 'equivalentAirspeedMS', 'trueAirspeedMS'] as const;
          for (const key of keys) expect(machFromSpeed(key, data[key], air)).toBeCloseTo(mach, 9);
        },
      ),
    );
  });

  it('[AIRDATA-7] the pressure where an airspeed meets a Mach gives that Mach', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 330, noNaN: true }),
        fc.double({ min: 0.4, max: 4, noNaN: true }),
        (speed, mach) => {
          expect(machFromEquivalent(speed, pressureWhereEquivalentMeets(speed, mach))).toBeCloseTo(mach, 10);
          expect(machFromCalibrated(speed, pressureWhereCalibratedMeets(speed, mach))).toBeCloseTo(mach, 8);
        },
      ),
    );
  });

  it('[AIRDATA-8] refuses NaN and what no gauge can read', () => {
    expect(() => machFromImpactRatio(Number.NaN)).toThrow(OutsideRange);
    expect(() => machFromImpactRatio(-0.1)).toThrow(OutsideRange);
    expect(() => airData(0, newAir(), 11)).toThrow('Mach 11 is outside 0 to 10 of air data');
    expect(() => airData(0, newAir(), Number.NaN)).toThrow(OutsideRange);
    expect(() => normalShock(0.9)).toThrow(OutsideRange);
    expect(() => prandtlMeyer(Number.NaN)).toThrow(OutsideRange);
    expect(machFromImpactRatio(-0)).toBeCloseTo(0, 15);
    expect(equivalentAirspeed(0, 101325)).toBe(0);
  });

  it('[AIRDATA-9] a normal shock keeps mass, momentum and energy', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 10, noNaN: true }), (mach) => {
        const shock = normalShock(mach);
        const behind = shock.machBehind;
        // Per unit of p1 and a1: mass rho V, momentum p + rho V^2, energy T (1 + 0.2 M^2).
        const mass = (behind * shock.pressure) / Math.sqrt(shock.temperature);
        expect(mass / mach).toBeCloseTo(1, 10);
        expect((shock.pressure * (1 + 1.4 * behind ** 2)) / (1 + 1.4 * mach ** 2)).toBeCloseTo(1, 10);
        expect((shock.temperature * (1 + 0.2 * behind ** 2)) / (1 + 0.2 * mach ** 2)).toBeCloseTo(1, 10);
        const totals = (shock.pressure * (1 + 0.2 * behind ** 2) ** 3.5) / (1 + 0.2 * mach ** 2) ** 3.5;
        expect(totals / shock.totalPressure).toBeCloseTo(1, 9);
      }),
    );
  });
});
