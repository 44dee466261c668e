import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OutsideRange, QuantityError } from '../../../src/core/quantities/errors.ts';
import { quantities } from '../../../src/core/quantities/quantities.ts';
import { findUnit, fromSI, toSI, unitsOf } from '../../../src/core/quantities/units.ts';
import {
  columnUnit,
  readOneOf,
  readQuantity,
  requireInside,
  show,
  speedKeys,
} from '../../../src/core/quantities/values.ts';

const fault = (run: () => unknown): QuantityError => {
  try {
    run();
  } catch (error) {
    if (error instanceof QuantityError) return error;
    throw error;
  }
  throw new Error('was accepted');
};

describe('reading values', () => {
  // Factors: NIST SP 811 (2008), appendix B.8: exact.
  it.each([
    ['80000 ft', 'pressureAltitudeM', 24384],
    ['80 000 ft', 'pressureAltitudeM', 24384],
    ['FL 800', 'pressureAltitudeM', 24384],
    ['430 KEAS', 'equivalentAirspeedMS', (430 * 1852) / 3600],
    ['340 KCAS', 'calibratedAirspeedMS', (340 * 1852) / 3600],
    ['1650 KTAS', 'trueAirspeedMS', (1650 * 1852) / 3600],
    ['430 kt', 'equivalentAirspeedMS', (430 * 1852) / 3600],
    ['M 2.9', 'mach', 2.9],
    ['2.9 Mach', 'mach', 2.9],
    ['5 K', 'temperatureOffsetK', 5],
    ['-5 degC', 'temperatureOffsetK', -5],
    ['9 degF', 'temperatureOffsetK', 5],
    ['-56.5 degC', 'temperatureK', 216.65],
    ['\u221256.5 °C', 'temperatureK', 216.65],
    ['12 min', 'durationS', 720],
    ['3500 kg/min', 'fuelRateKgS', 3500 / 60],
    ['30 deg', 'bankDeg', Math.PI / 6],
    ['180 nm', 'distanceM', 333360],
    ['120 t', 'massKg', 120000],
    ['1000 lb', 'massKg', 453.59237],
    ['1 lbf', 'thrustN', 4.4482216152605],
    ['1 slug', 'massKg', 14.593902937206],
    ['1 psi', 'pressurePa', 6894.7572931684],
    ['25 %', 'cgFraction', 0.25],
    ['1.4', 'loadFactor', 1.4],
    ['1e3 m', 'distanceM', 1000],
  ])('[QTY-2] reads "%s" as %s', (text, key, si) => {
    expect(Math.abs(readQuantity(text, key) - si)).toBeLessThanOrEqual(1e-13 * Math.abs(si));
  });

  it('[QTY-3] refuses a number without its unit and says which it may have', () => {
    const error = fault(() => readQuantity('430', 'equivalentAirspeedMS'));
    expect(error.message).toBe(
      'equivalent airspeed "430": has no unit; write m/s, km/h, ft/s, kt, KEAS or m/s EAS',
    );
    expect(error.reason).toBe('has no unit');
  });

  it('[QTY-4] refuses a knot whose kind is open and lists the kinds', () => {
    const error = fault(() => readOneOf('430 kt', 'speed', speedKeys));
    expect(error.reason).toBe('"kt" may be calibrated airspeed, equivalent airspeed, true airspeed');
    expect(error.allowed).toEqual(['Mach', 'KCAS', 'm/s CAS', 'KEAS', 'm/s EAS', 'KTAS', 'm/s TAS']);
  });

  it('[QTY-4] refuses feet whose kind is open', () => {
    const keys = ['pressureAltitudeM', 'geopotentialHeightM', 'geometricHeightM'];
    const error = fault(() => readOneOf('80000 ft', 'altitude', keys));
    expect(error.reason).toContain('pressure altitude, geopotential height, geometric height');
    expect(readOneOf('80000 ft geometric', 'altitude', keys)).toEqual({ key: 'geometricHeightM', si: 24384 });
  });

  it.each([
    ['430 KEAS', 'equivalentAirspeedMS'],
    ['340 KCAS', 'calibratedAirspeedMS'],
    ['1650 KTAS', 'trueAirspeedMS'],
    ['M 2.9', 'mach'],
  ])('[QTY-5] takes the kind of "%s" from its unit', (text, key) => {
    expect(readOneOf(text, 'speed', speedKeys).key).toBe(key);
  });

  it.each([
    ['430 KCAS', 'equivalentAirspeedMS', 'KCAS is a calibrated airspeed'],
    ['FL 800', 'geometricHeightM', 'FL is a pressure altitude'],
    ['80,000 ft', 'pressureAltitudeM', 'a comma is ambiguous'],
    ['5 furlong', 'distanceM', 'unknown unit "furlong"'],
    ['5 kg', 'distanceM', '"kg" does not measure it'],
    ['M 2.9 Mach', 'mach', 'has two units'],
    ['fast', 'mach', 'is not a number with a unit'],
    ['', 'mach', 'is not a number with a unit'],
    ['NaN m', 'distanceM', 'is not a number with a unit'],
    ['95 deg', 'bankDeg', 'must be -90 to 90 deg'],
    ['-1 kg', 'massKg', 'must be at least 0 kg'],
    ['-300 degC', 'temperatureK', 'must be at least -273.15 degC'],
    ['12 Mach', 'mach', 'must be 0 to 10 Mach'],
  ])('[QTY-6] refuses "%s" as %s: %s', (text, key, reason) => {
    expect(fault(() => readQuantity(text, key)).reason).toBe(reason);
  });

  it('[QTY-7] refuses the unit of a column that does not measure its quantity', () => {
    expect(columnUnit('lbf', 'thrustN', 'thrust').factor).toBeCloseTo(4.4482216152605, 12);
    const error = fault(() => columnUnit('kg', 'thrustN', 'thrust'));
    expect(error.message).toBe('unit of column thrust "kg": does not measure thrust; write N, kN or lbf');
  });

  it('[QTY-8] refuses a number outside a range, NaN too, with quantity, value and range', () => {
    expect(() => requireInside('mach', 3.41, 0.2, 3.3, 'column cd0 (drag.csv)')).toThrow(
      'Mach 3.41 is outside 0.2 to 3.3 of column cd0 (drag.csv)',
    );
    expect(() => requireInside('mach', Number.NaN, 0.2, 3.3, 'a table')).toThrow(OutsideRange);
    expect(() => requireInside('mach', 3.3, 0.2, 3.3, 'a table')).not.toThrow();
  });
});

describe('the table of quantities', () => {
  it.each([...quantities.values()])(
    '[QTY-9] $key has a display unit and an SI unit of its dimension',
    (of) => {
      expect(unitsOf(of.dimension).map((unit) => unit.name)).toContain(of.displayUnit);
      expect(findUnit(of.siUnit, of.dimension)?.factor).toBe(1);
      expect(of.sentence.endsWith('.')).toBe(true);
    },
  );

  it('[QTY-10] what is shown is read back, to the rounding', () => {
    const keys = [...quantities.keys()].filter((key) => quantities.get(key)?.range === null);
    fc.assert(
      fc.property(fc.constantFrom(...keys), fc.double({ min: -1e4, max: 1e4, noNaN: true }), (key, value) => {
        const of = quantities.get(key);
        const unit = of ? findUnit(of.displayUnit, of.dimension) : null;
        if (!of || !unit) throw new Error(key);
        const back = readQuantity(show(key, toSI(value, unit)), key);
        expect(Math.abs(fromSI(back, unit) - value)).toBeLessThanOrEqual(
          0.5 * 10 ** -of.decimals * (1 + 1e-6),
        );
      }),
    );
  });
});

describe('showing values', () => {
  it.each([
    ['fuelKg', 1234.2, 'up', '1235 kg'],
    ['fuelKg', 1234.8, 'down', '1234 kg'],
    ['fuelKg', 1234, 'up', '1234 kg'],
    ['fuelKg', 0.1 + 0.2 - 0.3, 'up', '0 kg'],
    ['fuelKg', -0.2, 'nearest', '0 kg'],
    ['fuelKg', -0.2, 'down', '-1 kg'],
    ['mach', 3.2, 'nearest', 'M 3.200'],
    ['cgFraction', 0.251, 'nearest', '25.1%'],
    ['temperatureK', Number.NaN, 'nearest', 'not computed'],
  ] as const)('[QTY-11] shows %s %s rounded %s as "%s"', (key, si, round, text) => {
    expect(show(key, si, { round })).toBe(text);
  });

  it('[QTY-12] 800 degF reads 427 degC on a gauge in Celsius (common practice)', () => {
    const limit = readQuantity('800 degF', 'inletTemperatureK');
    expect(show('inletTemperatureK', limit, { unit: 'degC', decimals: 0 })).toBe('427 degC');
  });
});
