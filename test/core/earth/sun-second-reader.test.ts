/** The sun against astronomy-engine, an independent general-purpose library (VSOP87, IAU 2000B nutation). */
import { Body, Equator, Horizon, MakeTime, Observer, SearchRiseSet } from 'astronomy-engine';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lightAlong } from '../../../src/core/earth/light.ts';
import { sunAt, sunOver } from '../../../src/core/earth/sun.ts';
import { readTime } from '../../../src/core/quantities/time.ts';

const degree = Math.PI / 180;
const times = fc.double({
  min: readTime('1950-01-02T00:00Z'),
  max: readTime('2050-12-30T00:00Z'),
  noNaN: true,
});
const latitudes = fc.double({ min: -90, max: 90, noNaN: true });
const longitudes = fc.double({ min: -180, max: 180, noNaN: true });

describe('sun against a second reader', () => {
  it('[SUN-5] elevation and azimuth are within 0.02 deg from 1950 to 2050', () => {
    fc.assert(
      fc.property(times, latitudes, longitudes, (timeS, latitude, longitude) => {
        const time = MakeTime(new Date(timeS * 1000));
        const observer = new Observer(latitude, longitude, 0);
        const { ra, dec } = Equator(Body.Sun, time, observer, true, true);
        const theirs = Horizon(time, observer, ra, dec);
        const ours = sunOver({ latitudeRad: latitude * degree, longitudeRad: longitude * degree }, timeS);
        expect(Math.abs(ours.elevationRad / degree - theirs.altitude)).toBeLessThan(0.02);
        const turned = Math.sin(ours.azimuthRad - theirs.azimuth * degree) * Math.cos(ours.elevationRad);
        expect(Math.abs(turned) / degree).toBeLessThan(0.02);
      }),
      { numRuns: 2000 },
    );
  });

  it('[SUN-6] its distance is within 2e-4', () => {
    const time = readTime('2026-03-04T16:00Z');
    const theirs = Equator(Body.Sun, new Date(time * 1000), new Observer(0, 0, 0), true, true).dist;
    expect(Math.abs(sunAt(time).distanceAu / theirs - 1)).toBeLessThan(2e-4);
  });

  it.each([
    [45.5, -85, '2026-02-23'],
    [-33.9, 18.4, '2026-06-21'],
    [0, 120, '2027-03-20'],
    [64.8, -147.6, '2028-10-01'],
  ])('[LIGHT-1] sunrise and sunset at the sea, %s %s on %s, within 10 s', (latitude, longitude, day) => {
    const startS = readTime(`${day}T00:00Z`);
    const observer = new Observer(latitude, longitude, 0);
    const { changes } = lightAlong({
      timeS: [startS, startS + 86400],
      latitudeRad: [latitude * degree, latitude * degree],
      longitudeRad: [longitude * degree, longitude * degree],
      geometricHeightM: [0, 0],
    });
    for (const direction of [1, -1]) {
      const theirs = SearchRiseSet(Body.Sun, observer, direction, new Date(startS * 1000), 1);
      const name = direction > 0 ? 'to' : 'from';
      const ours = changes.find((change) => change[name] === 'day' && change.brighter === direction > 0);
      expect(Math.abs((ours?.timeS ?? 0) - (theirs?.date.getTime() ?? 0) / 1000)).toBeLessThan(10);
    }
  });
});
