import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { QuantityError } from '../../src/core/quantities/errors.ts';
import { figures, gaugesOf, margin, plainSpaces, read, rounded, shown } from '../../src/present/units.ts';
import { testPlan } from '../support/plan.ts';

const gauges = gaugesOf(testPlan());
const pounds = gaugesOf(
  testPlan({ gaugeUnits: { fuelKg: 'lb', pressureAltitudeM: 'm', inletTemperatureK: 'degF' } }),
);

/** A figure as printed, read back as a number. */
function number(text: string): number {
  return Number(text.replaceAll('\u2009', '').replace('−', '-').replace(/^< /, ''));
}

const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
const step = fc.constantFrom(0.01, 0.1, 1, 10, 20, 50, 100);

describe('rounding', () => {
  test('[SHOW-1] what is required is never rounded down, what is available never up, and by less than a step', () => {
    fc.assert(
      fc.property(value, step, (v, s) => {
        const slack = 1e-6 * s + 1e-9;
        const up = rounded(v, s, 'required');
        const down = rounded(v, s, 'available');
        expect(up).toBeGreaterThanOrEqual(v - slack);
        expect(up).toBeLessThan(v + s + slack);
        expect(down).toBeLessThanOrEqual(v + slack);
        expect(down).toBeGreaterThan(v - s - slack);
      }),
    );
  });

  test('[SHOW-1] fuel: printed required is at least the true one, printed available at most, in kilograms and pounds', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 60_000, noNaN: true }), (kg) => {
        for (const [gauge, perKg] of [
          [gauges('fuelKg'), 1],
          [pounds('fuelKg'), 1 / 0.45359237],
        ] as const) {
          expect(number(read(gauge, kg, 'required'))).toBeGreaterThanOrEqual(kg * perKg - 1e-4);
          expect(number(read(gauge, kg, 'available'))).toBeLessThanOrEqual(kg * perKg + 1e-4);
        }
      }),
    );
  });

  test('[SHOW-2] a margin is never rounded up and never changes its side of zero', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('inletTemperatureK', 'mach', 'fuelKg', 'loadFactor'),
        fc.double({ min: -50, max: 50, noNaN: true }),
        (key, si) => {
          const gauge = gauges(key);
          const { figure } = margin(gauge, si);
          const printed = number(figure);
          const isBelow = figure.startsWith('< ');
          if (!isBelow) expect(printed).toBeLessThanOrEqual(gauge.differenceFromSi(si) + 1e-6);
          if (si > 0) expect(figure).not.toContain('−');
          if (si > 0 && !isBelow) expect(printed).toBeGreaterThan(0);
          if (si < 0) expect(figure).toMatch(/^−.*[1-9]/);
        },
      ),
    );
  });

  test('[SHOW-2] small margins keep their sign with a finer step', () => {
    const inlet = gauges('inletTemperatureK');
    expect(plainSpaces(margin(inlet, 0.37).text)).toBe('0.3 K');
    expect(plainSpaces(margin(inlet, -0.37).text)).toBe('−0.4 K');
    expect(plainSpaces(margin(inlet, 0.001).text)).toBe('< 0.01 K');
    expect(plainSpaces(margin(inlet, -0.001).text)).toBe('−0.01 K');
    expect(plainSpaces(margin(inlet, 0).text)).toBe('0 K');
  });

  test('[SHOW-3] a margin shows its spread, rounded up, in the unit of a difference', () => {
    expect(plainSpaces(margin(gauges('inletTemperatureK'), 12.9, 4.2).text)).toBe('12 ± 5 K');
    expect(plainSpaces(margin(pounds('inletTemperatureK'), 10, 5).text)).toBe('18 ± 9 °F');
    expect(plainSpaces(margin(gauges('mach'), 0.1399, 0.012).text)).toBe('0.13 ± 0.02 Mach');
  });
});

describe('units of the gauges', () => {
  test('[SHOW-4] a value is shown in the unit of its gauge with its kind', () => {
    expect(plainSpaces(shown(gauges('inletTemperatureK'), 620))).toBe('347 °C');
    expect(plainSpaces(shown(pounds('inletTemperatureK'), 700))).toBe('800 °F');
    expect(gauges('pressureAltitudeM').unit).toBe('ft pressure altitude');
    expect(plainSpaces(shown(gauges('pressureAltitudeM'), 24_384))).toBe('80 000 ft');
    expect(plainSpaces(shown(gauges('equivalentAirspeedMS'), (430 * 1852) / 3600))).toBe('430 KEAS');
    expect(plainSpaces(shown(gauges('mach'), 2.849))).toBe('M 2.85');
    expect(plainSpaces(shown(gauges('angleOfAttackDeg'), 7.26))).toBe('7.3°');
    expect(plainSpaces(margin(gauges('angleOfAttackDeg'), 1.07, 0.13).text)).toBe('1.0 ± 0.2°');
  });

  test('[SHOW-4] 800 degrees Fahrenheit reads 427 degrees Celsius (arithmetic of the scales)', () => {
    expect(read(gauges('inletTemperatureK'), (800 - 32) / 1.8 + 273.15)).toBe('427');
  });

  test('[SHOW-5] what is not a number is said in words', () => {
    expect(figures(gauges('fuelKg'), Number.NaN)).toBe('not computed');
    expect(read(gauges('fuelKg'), null, 'required')).toBe('not computed');
    expect(shown(gauges('mach'), null)).toBe('not computed');
    expect(plainSpaces(margin(gauges('fuelKg'), Number.NaN).text)).toBe('not computed');
  });

  test('[SHOW-6] a gauge unit of another kind is refused by name', () => {
    const wrong = gaugesOf(testPlan({ gaugeUnits: { equivalentAirspeedMS: 'KCAS' } }));
    expect(() => wrong('equivalentAirspeedMS')).toThrow(QuantityError);
    expect(() => wrong('equivalentAirspeedMS')).toThrow(/equivalent airspeed "KCAS"/);
  });
});
