/**
 * `ramrise air` as a user runs it. Expected values: rows of airspeed.csv and total-temperature.csv of the published data,
 * computed with 30 digits from the definitions named at their head.
 */
import { describe, expect, it } from 'vitest';
import { ramrise, ramriseJson } from './support/ramrise.ts';

const knot = 1852 / 3600;

const keys = [
  'pressureAltitudeM',
  'temperatureK',
  'pressurePa',
  'densityKgM3',
  'speedOfSoundMS',
  'mach',
  'calibratedAirspeedMS',
  'equivalentAirspeedMS',
  'trueAirspeedMS',
  'dynamicPressurePa',
  'impactPressurePa',
  'totalTemperatureK',
  'totalPressurePa',
];

type AirData = Record<string, number>;

function relative(value: number, published: number): number {
  return Math.abs(value / published - 1);
}

describe('ramrise air', () => {
  it('[CLI-1] gives every air-data quantity at 80 000 ft and Mach 3.2', () => {
    const air = ramriseJson<AirData>('air', '--altitude', '80000 ft', '--speed', '3.2 Mach');
    expect(Object.keys(air)).toEqual(keys);
    expect(air.pressureAltitudeM).toBeCloseTo(24384, 9);
    // airspeed.csv, row 80000, 0, mach, 3.2
    expect(relative(air.pressurePa, 2761.48179)).toBeLessThan(1e-8);
    expect(air.temperatureK).toBeCloseTo(221.034, 6);
    expect(relative(air.calibratedAirspeedMS, 439.658973 * knot)).toBeLessThan(1e-8);
    expect(relative(air.equivalentAirspeedMS, 349.444904 * knot)).toBeLessThan(1e-8);
    expect(relative(air.trueAirspeedMS, 1853.89936 * knot)).toBeLessThan(1e-8);
    expect(relative(air.dynamicPressurePa, 19794.3015)).toBeLessThan(1e-8);
    expect(relative(air.impactPressurePa, 34949.0944)).toBeLessThan(1e-8);
    // total-temperature.csv, row 3.2, 221.034, columns ...AirData
    expect(air.totalTemperatureK).toBeCloseTo(664.82121, 4);
    expect(relative(air.totalPressurePa, 49.913115 * 2761.48179)).toBeLessThan(1e-6);
  });

  it.each([
    // airspeed.csv: altitude, offset, speed as given, Mach, KCAS, KEAS, KTAS
    ['80000 ft', '0 K', '450 KCAS', 3.28043514, 450, 358.228545, 1900.49895],
    ['75000 ft', '0 K', '400 KEAS', 3.25465478, 496.242963, 400, 1879.05166],
    ['78000 ft', '8 K', '1850 KTAS', 3.1411874, 450.824929, 359.592411, 1850],
    ['80000 ft', '-10 K', 'M 3.2', 3.2, 439.658973, 349.444904, 1811.47702],
    ['18000 ft', '0 K', '350 KCAS', 0.72639237, 350, 339.549825, 449.778431],
  ])('[CLI-2] reads a speed of each kind: %s, %s, %s', (altitude, offset, speed, mach, cas, eas, tas) => {
    const air = ramriseJson<AirData>('air', '--altitude', altitude, '--offset', offset, '--speed', speed);
    expect(relative(air.mach, mach)).toBeLessThan(1e-8);
    expect(relative(air.calibratedAirspeedMS, cas * knot)).toBeLessThan(1e-8);
    expect(relative(air.equivalentAirspeedMS, eas * knot)).toBeLessThan(1e-8);
    expect(relative(air.trueAirspeedMS, tas * knot)).toBeLessThan(1e-8);
  });

  it('[CLI-3] prints the units of the trade beside SI', () => {
    const { code, stdout } = ramrise('air', '--altitude', '80000 ft', '--speed', '3.2 Mach');
    expect(code).toBe(0);
    expect(stdout).toMatch(/^ISA$/m);
    expect(stdout).toMatch(/^Calibrated airspeed +440 +KCAS +226\.18 +m\/s$/m);
    expect(stdout).toMatch(/^Static temperature +-52\.1 +degC +221\.034 +K$/m);
  });
});

describe('ramrise air refuses', () => {
  it('[CLI-4] a speed in knots that does not say which', () => {
    const { code, stdout, stderr } = ramrise('air', '--altitude', '80000 ft', '--speed', '430 kt');
    expect(code).toBe(1);
    expect(stdout).toBe('');
    expect(stderr).toMatch(
      /^speed "430 kt": "kt" may be calibrated airspeed, equivalent airspeed, true airspeed/,
    );
    expect(stderr).toContain('KEAS');
  });

  it('[CLI-5] a value without a unit, with the fault as data', () => {
    const { code, stdout } = ramrise('air', '--altitude', '80000', '--speed', '430 KEAS', '--json');
    expect(code).toBe(1);
    const { error } = JSON.parse(stdout);
    expect(error.kind).toBe('refused');
    expect(error.faults).toEqual([
      expect.objectContaining({ quantity: 'pressure altitude', text: '80000', reason: 'has no unit' }),
    ]);
  });

  it('[CLI-6] an altitude above the standard atmosphere, naming the range', () => {
    const { code, stderr } = ramrise('air', '--altitude', '300000 ft', '--speed', '2 Mach');
    expect(code).toBe(1);
    expect(stderr).toContain('pressure altitude 300000 ft');
    expect(stderr).toContain('84.8 km');
  });

  it('[CLI-7] a command line that is wrong, with exit code 2 and a suggestion', () => {
    const misspelt = ramrise('air', '--altitud', '80000 ft', '--speed', '2 Mach', '--json');
    expect(misspelt.code).toBe(2);
    expect(misspelt.stderr).toContain("unknown option '--altitud'");
    expect(misspelt.stderr).toContain('Did you mean --altitude?');
    expect(JSON.parse(misspelt.stdout).error.kind).toBe('usage');

    const missing = ramrise('air', '--speed', '2 Mach');
    expect(missing.code).toBe(2);
    expect(missing.stderr).toContain('air needs --altitude <altitude>');

    const both = ramrise('air', '--altitude', '8 km', '--speed', '2 Mach', '--at', '45N 85W');
    expect(both.code).toBe(2);
    expect(both.stderr).toContain('--weather');

    const command = ramrise('trak');
    expect(command.code).toBe(2);
    expect(command.stderr).toContain('Did you mean track?');
  });

  it('[CLI-8] nothing when asked for help', () => {
    for (const name of ['plan', 'air', 'track', 'day', 'schema']) {
      const { code, stdout } = ramrise(name, '--help');
      expect(code, name).toBe(0);
      expect(stdout, name).toContain(`Usage: ramrise ${name}`);
      expect(stdout, name).toContain('--json');
    }
  });
});
