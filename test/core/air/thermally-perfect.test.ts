import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quickTotalTemperature } from '../../../src/core/air/quick-total.ts';
import {
  enthalpy,
  entropy,
  heatRatio,
  indicatedTemperature,
  machOfTotalTemperature,
  mixtureGasConstant,
  specificHeat,
  staticTemperature,
  temperatureOfEnthalpy,
  temperatureOfEntropy,
  totalPressureRatio,
  totalTemperature,
  totalTemperatureSlope,
} from '../../../src/core/air/thermally-perfect.ts';
import { OutsideRange } from '../../../src/core/quantities/errors.ts';

const temperatures = fc.double({ min: 150, max: 6000, noNaN: true });

describe('thermally perfect air', () => {
  it.each([200, 1000])('[GAS-1] is continuous where its intervals meet, %d K', (joint) => {
    const [below, above] = [joint - 1e-7, joint + 1e-7];
    // The report's two fits meet within 1e-6 of cp and of enthalpy.
    expect(specificHeat(above) / specificHeat(below) - 1).toBeCloseTo(0, 6);
    expect(Math.abs(enthalpy(above) - enthalpy(below))).toBeLessThan(0.5);
    expect(Math.abs(entropy(above) - entropy(below))).toBeLessThan(5e-4);
  });

  it('[GAS-2] enthalpy and entropy are the integrals of cp and cp/T', () => {
    fc.assert(
      fc.property(fc.double({ min: 151, max: 5999, noNaN: true }), (t) => {
        if (Math.abs(t - 1000) < 1 || Math.abs(t - 200) < 1) return;
        const step = 0.05;
        const cp = (enthalpy(t + step) - enthalpy(t - step)) / (2 * step);
        expect(cp / specificHeat(t) - 1).toBeCloseTo(0, 6);
        const ds = (entropy(t + step) - entropy(t - step)) / (2 * step);
        expect((ds * t) / specificHeat(t) - 1).toBeCloseTo(0, 6);
      }),
    );
  });

  it('[GAS-3] the inverses are inverses', () => {
    fc.assert(
      fc.property(temperatures, (t) => {
        if (Math.abs(t - 1000) < 0.01) return;
        expect(Math.abs(temperatureOfEnthalpy(enthalpy(t)) - t)).toBeLessThan(1e-8);
        expect(Math.abs(temperatureOfEntropy(entropy(t)) - t)).toBeLessThan(1e-8);
      }),
    );
  });

  it('[GAS-4] tends to a diatomic gas with a little argon in the cold', () => {
    // Equipartition: 3.5 R for N2 and O2 and at least for CO2, 2.5 R for argon of 0.9365 %.
    const classical = 3.5 - 0.009365;
    expect(specificHeat(150) / mixtureGasConstant).toBeGreaterThan(classical);
    expect(specificHeat(150) / mixtureGasConstant / classical - 1).toBeLessThan(0.001);
    expect(heatRatio(150)).toBeCloseTo(1.401, 3);
  });

  it('[GAS-5] small speeds give the constant-cp total temperature and pressure', () => {
    const t = 250;
    const speed = 10;
    const total = totalTemperature(t, speed);
    expect((total - t) / ((speed * speed) / (2 * specificHeat(t)))).toBeCloseTo(1, 5);
    const g = heatRatio(t);
    expect(totalPressureRatio(t, total)).toBeCloseTo((total / t) ** (g / (g - 1)), 9);
  });

  it('[GAS-6] static temperature and Mach of a total temperature are inverse to it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 180, max: 320, noNaN: true }),
        fc.double({ min: 0.01, max: 4.5, noNaN: true }),
        (t, mach) => {
          const total = totalTemperature(t, mach * Math.sqrt(1.4 * (8314.32 / 28.9644) * t));
          expect(Math.abs(staticTemperature(total, mach) - t)).toBeLessThan(1e-6);
          expect(Math.abs(machOfTotalTemperature(t, total) - mach)).toBeLessThan(2e-7 / mach);
        },
      ),
    );
  });

  it('[GAS-7] the quick total temperature is within 1e-5 K of the full one, within its tables and beyond', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 150, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 2200, noNaN: true }),
        (t, speed) => {
          expect(Math.abs(quickTotalTemperature(t, speed) - totalTemperature(t, speed))).toBeLessThan(1e-5);
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('[GAS-8] refuses what is outside 150 to 6000 K', () => {
    for (const t of [149, 6001, Number.NaN]) {
      expect(() => specificHeat(t)).toThrow(OutsideRange);
      expect(() => enthalpy(t)).toThrow(OutsideRange);
      expect(() => entropy(t)).toThrow(OutsideRange);
      expect(() => quickTotalTemperature(t, 0)).toThrow(OutsideRange);
    }
    expect(() => temperatureOfEnthalpy(1e9)).toThrow(OutsideRange);
    expect(() => temperatureOfEntropy(Number.NaN)).toThrow(OutsideRange);
    expect(() => machOfTotalTemperature(300, 290)).toThrow(OutsideRange);
    expect(() => totalTemperature(200, Number.NaN)).toThrow(OutsideRange);
  });

  it('[GAS-9] a probe reads between static and total temperature', () => {
    expect(indicatedTemperature(220, 660, 1)).toBe(660);
    expect(indicatedTemperature(220, 660, 0)).toBe(220);
    expect(indicatedTemperature(220, 660, 0.99)).toBeCloseTo(655.6, 10);
  });

  it('[GAS-10] at Mach 3.1 and 216.65 K a kelvin of the air is 2.77 K at rest, Mach held (calculated from NASA TP-2002-211556)', () => {
    const speed = 3.1 * Math.sqrt(1.4 * 287.053 * 216.65);
    const total = totalTemperature(216.65, speed);
    expect(Math.abs(totalTemperatureSlope(216.65, total, 3.1) / 2.77 - 1)).toBeLessThan(0.01);
    // At rest both are one temperature.
    expect(totalTemperatureSlope(250, 250, 0)).toBe(1);
  });
});
