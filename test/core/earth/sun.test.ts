import { describe, expect, it } from 'vitest';
import { sunAt, sunOver } from '../../../src/core/earth/sun.ts';
import { readTime } from '../../../src/core/quantities/time.ts';

const degree = Math.PI / 180;

/** Degrees, minutes and seconds of an almanac as degrees. */
function sexagesimal(text: string): number {
  const [degrees, minutes, seconds] = text.split(' ').map((part) => Math.abs(Number(part)));
  return (text.startsWith('-') ? -1 : 1) * (degrees + minutes / 60 + seconds / 3600);
}

/**
 * Declination and Greenwich hour angle of the sun at 0 h UT: a solar ephemeris of 1999 for surveyors, from the public pages
 * cadastral.com/1999jan.htm and 1999aug.htm.
 */
const ephemeris = [
  ['1999-01-01', '-23 03 09.3', '179 12 41.8'],
  ['1999-01-10', '-22 03 06.8', '178 12 36.2'],
  ['1999-01-20', '-20 15 41.2', '177 18 33.2'],
  ['1999-08-01', '18 10 51.9', '178 24 39.3'],
  ['1999-08-10', '15 45 19.3', '178 37 58.7'],
  ['1999-08-19', '12 59 19.5', '179 02 48.5'],
];

describe('sun', () => {
  it.each(ephemeris)(
    '[SUN-1] %s is within 0.01 deg of a published ephemeris',
    (day, declination, hourAngle) => {
      const sun = sunAt(readTime(`${day}T00:00Z`));
      expect(Math.abs(sun.declinationRad / degree - sexagesimal(declination))).toBeLessThan(0.01);
      // The hour angle is counted to the west.
      expect(Math.abs(-sun.subsolarLongitudeRad / degree - sexagesimal(hourAngle))).toBeLessThan(0.015);
    },
  );

  it('[SUN-2] stands overhead where its subsolar point is, and on the horizon a quarter of the Earth away', () => {
    const time = readTime('2026-05-20T17:30Z');
    const { declinationRad, subsolarLongitudeRad } = sunAt(time);
    const under = { latitudeRad: declinationRad, longitudeRad: subsolarLongitudeRad };
    expect(sunOver(under, time).elevationRad / degree).toBeCloseTo(90, 5);
    const west = { latitudeRad: 0, longitudeRad: subsolarLongitudeRad - Math.PI / 2 };
    expect(sunOver(west, time).elevationRad).toBeCloseTo(0, 12);
    // From the west it is seen rising, north of east by the declination.
    expect(sunOver(west, time).azimuthRad).toBeCloseTo(Math.PI / 2 - declinationRad, 12);
  });

  it('[SUN-3] circles at its declination over the pole', () => {
    for (let hour = 0; hour < 24; hour += 5) {
      const time = readTime('2026-06-21T00:00Z') + hour * 3600;
      const seen = sunOver({ latitudeRad: Math.PI / 2, longitudeRad: 1 }, time);
      expect(seen.elevationRad).toBeCloseTo(sunAt(time).declinationRad, 12);
    }
  });

  it('[SUN-4] refuses a time outside the years of the formulas', () => {
    expect(() => sunAt(readTime('2051-01-01T00:00Z'))).toThrow(/the almanac's formulas for the sun/);
    expect(() => sunAt(readTime('1949-12-31T23:59Z'))).toThrow(/outside/);
    expect(() => sunAt(Number.NaN)).toThrow(/NaN/);
    expect(sunAt(readTime('2050-12-31T23:59Z')).declinationRad / degree).toBeCloseTo(-23, 0);
  });
});
