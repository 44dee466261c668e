import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  coldestFuelK,
  density15Of,
  expansionAt15,
  fuelDensity,
  fuelMass,
  fuelVolume,
  hottestFuelK,
  volumeCorrection,
} from '../../../src/core/aircraft/fuel.ts';

const densities = fc.double({ min: 751, max: 839, noNaN: true });
const temperatures = fc.double({ min: coldestFuelK, max: hottestFuelK, noNaN: true });

describe('fuel density', () => {
  it('[FUEL-1] 800 kg/m3 at 15 degC loses 5.7 % a litre in +60 K (common practice)', () => {
    expect(100 * (1 - volumeCorrection(800, 288.15 + 60))).toBeCloseTo(5.7, 1);
  });

  it('[FUEL-2] falls with temperature everywhere', () => {
    fc.assert(
      fc.property(
        densities,
        fc.double({ min: coldestFuelK, max: hottestFuelK - 1, noNaN: true }),
        (rho, t) => {
          expect(fuelDensity(rho, t + 1)).toBeLessThan(fuelDensity(rho, t));
        },
      ),
    );
  });

  it('[FUEL-3] the groups of products meet within 0.3 % of the expansion', () => {
    for (const edge of [770, 787.5, 838.5]) {
      expect(Math.abs(expansionAt15(edge - 1e-9) / expansionAt15(edge) - 1)).toBeLessThan(0.003);
    }
  });

  it('[FUEL-4] a density measured warm or cold goes back to 15 degC', () => {
    fc.assert(
      fc.property(densities, temperatures, (rho, t) => {
        // Where two groups of products meet, densities 0.2 kg/m3 apart may have the same density hot.
        const back = density15Of(fuelDensity(rho, t), t);
        expect(fuelDensity(back, t)).toBeCloseTo(fuelDensity(rho, t), 7);
        expect(Math.abs(back - rho)).toBeLessThan(0.2);
      }),
    );
  });

  it('[FUEL-5] a mass fills a volume that holds it', () => {
    expect(fuelMass(fuelVolume(12_345, 803, 310), 803, 310)).toBeCloseTo(12_345, 8);
    expect(fuelVolume(800, 800, 288.15)).toBeCloseTo(1, 12);
  });

  it('[FUEL-6] refuses what the table does not hold', () => {
    expect(() => fuelDensity(800, 273.15 + 90.1)).toThrow(/fuel temperature .* outside 255.15.* to 363.15 K/);
    expect(() => fuelDensity(800, 273.15 - 18.1)).toThrow(/fuel temperature/);
    expect(() => fuelDensity(749, 288.15)).toThrow(
      'fuel density at 15 degC 749 kg/m3 is outside 750 to 840 kg/m3 of the fuel of ASTM D1250 table 54B',
    );
    expect(() => density15Of(700, 288.15)).toThrow(/fuel density 700/);
    expect(() => fuelDensity(Number.NaN, 288.15)).toThrow(/NaN/);
  });
});
