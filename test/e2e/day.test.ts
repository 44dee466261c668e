/**
 * `ramrise day`, and `ramrise air` on a real day, as a user runs them on the analysis of the demonstration. Expected values:
 * rows of grid-samples-era5-2020.csv, read from the file and interpolated by general-purpose libraries.
 */
import { describe, expect, it } from 'vitest';
import { ramrise, ramriseJson } from './support/ramrise.ts';

const file = 'examples/weather/era5-2020-02-23T16Z-30N54N-100W75W.nc';
const attribution = /Copernicus Climate Change Service information 2020/;

interface Point {
  readonly temperatureK: number;
  readonly windEastMS: number;
  readonly windNorthMS: number;
  readonly geometricHeightM: number;
  readonly attribution: readonly string[];
}

/**
 * Pressure altitude [m] of a pressure [hPa] in the isothermal layer from 11 to 20 km: 11000 + (R T/g0) ln(p11/p) with
 * R = 8314.32/28.9644, T = 216.65, p11 = 22632.064 (US Standard Atmosphere 1976, tables 2 and 4).
 */
function isothermalAltitude(pressureHPa: number): number {
  return 11000 + (((8314.32 / 28.9644) * 216.65) / 9.80665) * Math.log(22632.064 / (pressureHPa * 100));
}

describe('ramrise day', () => {
  it.each([
    // pressure, position, temperature, wind east, wind north, geopotential height
    [60, '41.775,-86.572', 213.7018, 11.3776, -1.396, 19449.422],
    [150, '33.333N 77.777W', 215.8692, 28.4542, -24.6332, 13824.9202],
    [87.3, '45 00 00N 085 00 00W', 216.5792, 20.9772, -3.2092, 17021.6579],
  ])('[CLI-20] gives the air at %s hPa and %s', (hPa, at, temperatureK, windEast, windNorth, height) => {
    const altitude = `${isothermalAltitude(hPa)} m`;
    const time = '2020-02-23T16:00Z';
    const point = ramriseJson<Point>('day', file, '--at', at, '--altitude', altitude, '--time', time);
    expect(Math.abs(point.temperatureK - temperatureK)).toBeLessThan(1e-3);
    expect(Math.abs(point.windEastMS - windEast)).toBeLessThan(1e-3);
    expect(Math.abs(point.windNorthMS - windNorth)).toBeLessThan(1e-3);
    // Geometric from geopotential height: r0 H / (r0 - H) with r0 = 6356766 m (US Standard Atmosphere 1976, equation 19)
    const geometric = (6356766 * height) / (6356766 - height);
    expect(Math.abs(point.geometricHeightM - geometric)).toBeLessThan(0.15);
    expect(point.attribution.join('\n')).toMatch(attribution);
  });

  it('[CLI-21] prints the column of a place, lowest level first, with the attribution', () => {
    const { code, stdout } = ramrise('day', file, '--at', '41,-87');
    expect(code).toBe(0);
    const rows = stdout.split('\n').filter((line) => /^ *\d+ +\d+ /.test(line));
    expect(rows).toHaveLength(37);
    expect(rows[0]).toMatch(/^ +1000 /);
    expect(rows[36]).toMatch(/^ +1 /);
    // grid row 30 hPa, 41 N, 87 W: 215.2021 K is -57.9 degC; wind 7.2733 east, -0.4158 north is 273 deg at 14 kt
    expect(rows.find((row) => /^ +30 /.test(row))).toMatch(/ -57\.9 .* 273 +14$/);
    expect(stdout).toMatch(attribution);
  });

  it('[CLI-22] says what the file holds', () => {
    const { stdout } = ramrise('day', file);
    expect(stdout).toMatch(/^Times +1 +2020-02-23T16:00Z$/m);
    expect(stdout).toMatch(/^Levels +37 +1000 hPa to 1 hPa/m);
    expect(stdout).toMatch(/^Latitudes +97 +54 to 30 deg$/m);
    expect(stdout).toMatch(/^Longitudes +101 +-100 to -75 deg$/m);
    expect(stdout).toContain('temperature: t [K]');
    expect(stdout).toMatch(attribution);
    const holds = ramriseJson<{ times: string[]; pressuresPa: number[] }>('day', file);
    expect(holds.times).toEqual(['2020-02-23T16:00Z']);
    expect(holds.pressuresPa).toHaveLength(37);
  });

  it('[CLI-23] refuses a place, a height and a time that the file does not cover, all at once', () => {
    const at = ['--at', '5,-85', '--altitude', '170000 ft', '--time', '2020-02-23T17:00Z'];
    const { code, stdout, stderr } = ramrise('day', file, ...at, '--json');
    expect(code).toBe(1);
    const quantities = JSON.parse(stdout).error.faults.map((fault: { quantity: string }) => fault.quantity);
    expect(quantities).toEqual(['pressure altitude', 'position', 'time']);
    expect(stderr).toContain('it covers 2020-02-23T16:00Z, 30.00N 100.00W to 54.00N 075.00W, 1000 to 1 hPa');
  });

  it('[CLI-24] refuses what is no weather file, and a file that is not there', () => {
    expect(ramrise('day', 'package.json')).toMatchObject({ code: 1, stdout: '' });
    const missing = ramrise('day', 'nowhere.nc');
    expect(missing.code).toBe(1);
    expect(missing.stderr).toBe('nowhere.nc: no such file\n');
  });
});

describe('ramrise air --weather', () => {
  it('[CLI-25] takes temperature and pressure from the day', () => {
    const altitude = `${isothermalAltitude(60)} m`;
    const speed = ['--speed', '2.9 Mach', '--altitude', altitude];
    const air = ramriseJson<Record<string, number>>(
      'air',
      ...speed,
      '--weather',
      file,
      '--at',
      '41.775,-86.572',
      '--time',
      '2020-02-23T16:00Z',
    );
    expect(Math.abs(air.temperatureK - 213.7018)).toBeLessThan(1e-3);
    expect(Math.abs(air.pressurePa / 6000 - 1)).toBeLessThan(1e-6);
    // TAS = M sqrt(1.4 R T)
    expect(
      Math.abs(air.trueAirspeedMS / (2.9 * Math.sqrt((1.4 * 8314.32 * 213.7018) / 28.9644)) - 1),
    ).toBeLessThan(3e-6);
  });

  it('[CLI-26] needs a position, and goes with no offset', () => {
    const speed = ['air', '--speed', '2.9 Mach', '--altitude', '60000 ft', '--weather', file];
    expect(ramrise(...speed).code).toBe(2);
    const both = ramrise(...speed, '--at', '45,-85', '--offset', '5 K');
    expect(both.code).toBe(2);
    expect(both.stderr).toContain('--offset');
  });
});

describe('ramrise day and air on soundings, days of MIL-STD-210A and gaps in time', () => {
  const igra = 'test/published/data/igra2-USM00070026-2010.txt';
  const hourly = 'test/published/data/era5-2022-10-13-hourly-39N40N-9W8W.nc';

  it('[CLI-70] lists the soundings that are whole and what was left out, with its line', () => {
    const { soundings, remarks } = ramriseJson<{
      readonly soundings: readonly { readonly time: string; readonly levels: number }[];
      readonly remarks: readonly string[];
    }>('day', igra);
    // Counts of sounding-samples.csv.
    expect(soundings.map(({ time, levels }) => [time, levels])).toEqual([
      ['2010-06-01T00:00Z', 158],
      ['2010-06-01T12:00Z', 157],
    ]);
    expect(remarks.join()).toContain('igra2-USM00070026-2010.txt:318: the sounding of 2010-06-02T00:00Z');
  });

  it('[CLI-71] gives the air of a sounding at a level of it, anywhere', () => {
    // Row of sounding-samples.csv: 100 hPa, 16 313 m geopotential, -43.2 degC, 252 deg at 7.2 m/s.
    const altitude = `${isothermalAltitude(100)} m`;
    const time = '2010-06-01T00:00Z';
    for (const at of [[], ['--at', '10,20']]) {
      const point = ramriseJson<Point>('day', igra, ...at, '--altitude', altitude, '--time', time);
      expect(Math.abs(point.temperatureK - (273.15 - 43.2))).toBeLessThan(1e-3);
      expect(Math.abs(Math.hypot(point.windEastMS, point.windNorthMS) - 7.2)).toBeLessThan(1e-3);
      expect(Math.abs(point.geometricHeightM - (6356766 * 16313) / (6356766 - 16313))).toBeLessThan(0.05);
      expect(point.attribution.join()).toContain('NOAA NCEI');
    }
  });

  it('[CLI-72] gives air data on a day of MIL-STD-210A, and takes one day at a time', () => {
    const air = ['air', '--altitude', '60000 ft', '--speed', '2.9 Mach', '--day', 'hot'];
    // Row of non-standard-days.csv: hot, 60 000 ft, 421.5 degR.
    expect(ramriseJson<{ readonly temperatureK: number }>(...air).temperatureK).toBeCloseTo(421.5 / 1.8, 6);
    const both = ramrise(...air, '--offset', '3 K');
    expect(both.code).toBe(2);
    expect(both.stderr).toContain('--day and --offset exclude each other');
  });

  it('[CLI-73] refuses a time within a night without data, and says so', () => {
    const at = ['--at', '39.5,-8.5', '--altitude', '60000 ft', '--time', '2022-10-13T22:00Z'];
    const { code, stderr } = ramrise('day', hourly, ...at);
    expect(code).toBe(1);
    expect(stderr).toContain('no data at time 2022-10-13T22:00Z');
    expect(stderr).toContain('without 2022-10-13T17:00Z to 2022-10-14T10:00Z');
    expect(stderr).toContain('gaps of more than 3 h');
  });
});
