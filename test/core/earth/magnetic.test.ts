import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import {
  magneticCourse,
  magneticEdition,
  magneticField,
  NoMagneticModel,
} from '../../../src/core/earth/magnetic.ts';
import { readTime } from '../../../src/core/quantities/time.ts';

const degree = Math.PI / 180;
const place = (latitude: number, longitude: number) => ({
  latitudeRad: latitude * degree,
  longitudeRad: longitude * degree,
});

/** Test values of NOAA NCEI for the editions of 2020 and 2025, as the package geomagnetism ships them. */
const rows = readFileSync(createRequire(import.meta.url).resolve('geomagnetism/test/values.csv'), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(',').map(Number))
  .filter(([year]) => year >= 2020);

function timeOf(decimalYear: number): number {
  const year = Math.floor(decimalYear);
  const [start, end] = [Date.UTC(year), Date.UTC(year + 1)];
  return (start + (decimalYear - year) * (end - start)) / 1000;
}

describe('magnetic north', () => {
  it('[MAG-1] every published row of 2020 and 2025 to its last digit', () => {
    expect(rows.length).toBe(200);
    for (const [year, heightKm, latitude, longitude, north, east, down, , , inclination, east2] of rows) {
      const field = magneticField(place(latitude, longitude), heightKm * 1000, timeOf(year));
      expect(Math.abs(field.northNT - north)).toBeLessThan(0.051);
      expect(Math.abs(field.eastNT - east)).toBeLessThan(0.051);
      expect(Math.abs(field.downNT - down)).toBeLessThan(0.051);
      expect(Math.abs(field.inclinationRad / degree - inclination)).toBeLessThan(0.0051);
      expect(Math.abs(field.declinationRad / degree - east2)).toBeLessThan(0.0051);
    }
  });

  it('[MAG-2] holds to the last second of an edition and is refused after it, with the editions named', () => {
    expect(magneticEdition(readTime('2024-12-31T23:59Z'))).toBe('WMM2020');
    expect(magneticEdition(readTime('2025-01-01T00:00Z'))).toBe('WMM2025');
    const [before, last] = ['2029-12-30T23:59Z', '2029-12-31T23:59Z'].map(
      (text) => magneticField(place(40, -105), 0, readTime(text)).declinationRad,
    );
    expect(Math.abs(last - before) / degree).toBeLessThan(0.001);
    expect(() => magneticField(place(40, -105), 0, readTime('2030-01-01T00:00Z')).declinationRad).toThrow(
      'magnetic north: 2030-01-01T00:00Z is outside 2020-01-01 to 2030-01-01, the years of the World Magnetic Models at hand (WMM2020, WMM2025)',
    );
    expect(() => magneticEdition(readTime('2019-12-31T23:59Z'))).toThrow(/2019-12-31T23:59Z is outside/);
    expect(() => magneticEdition(Number.NaN)).toThrow(/NaN is outside/);
    expect(() => magneticEdition(Number.NaN)).toThrow(NoMagneticModel);
  });

  it('[MAG-3] refuses a height outside the model', () => {
    const time = readTime('2026-03-04T16:00Z');
    expect(() => magneticField(place(40, -105), 900_000, time).declinationRad).toThrow(
      'height 900000 m is outside -1000 to 850000 m of WMM2025',
    );
    expect(() => magneticField(place(40, -105), Number.NaN, time).declinationRad).toThrow(/NaN/);
  });

  it('[MAG-4] a magnetic course is the true course less the declination, within a full turn', () => {
    const time = readTime('2026-03-04T16:00Z');
    const here = place(64.8, -147.6);
    const east = magneticField(here, 24_384, time).declinationRad;
    expect(east).toBeGreaterThan(0.1);
    expect(magneticCourse(1, east)).toBeCloseTo(1 - east, 12);
    expect(magneticCourse(0, east)).toBeCloseTo(2 * Math.PI - east, 12);
    expect(magneticCourse(-1, east)).toBeCloseTo(2 * Math.PI - 1 - east, 12);
    expect(magneticCourse(6, -1)).toBeCloseTo(7 - 2 * Math.PI, 12);
  });

  it('[MAG-5] says where a compass is poor or useless', () => {
    const time = readTime('2026-01-01T00:00Z');
    // The model puts its north dip pole of 2025 at 85.8 N 139.3 E (from memory).
    expect(magneticField(place(85.8, 139.3), 0, time).compass).toBe('blackout');
    expect(magneticField(place(76, -100), 0, time).compass).toBe('caution');
    expect(magneticField(place(45, -85), 0, time).compass).toBe('good');
  });

  it('[MAG-6] does not depend on the order in which times are asked', () => {
    const [early, late] = [readTime('2025-02-01T00:00Z'), readTime('2028-02-01T00:00Z')];
    const first = magneticField(place(35, 139), 0, early).declinationRad;
    magneticField(place(35, 139), 0, late).declinationRad;
    expect(magneticField(place(35, 139), 0, early).declinationRad).toBe(first);
  });
});
