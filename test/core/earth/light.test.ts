import { describe, expect, it } from 'vitest';
import { between } from '../../../src/core/earth/flown.ts';
import { sunsetElevation } from '../../../src/core/earth/horizon.ts';
import { lightAlong, lightAt } from '../../../src/core/earth/light.ts';
import { sunOver } from '../../../src/core/earth/sun.ts';
import { readTime } from '../../../src/core/quantities/time.ts';

const degree = Math.PI / 180;
const height = 24_384;

/** A flight along a parallel at a constant ground speed; positive to the east. */
function alongParallel(latitude: number, from: string, hours: number, eastMS: number, everyS = 60) {
  const startS = readTime(from);
  const nodes = Math.round((hours * 3600) / everyS) + 1;
  const perSecond = eastMS / ((6_378_137 + height) * Math.cos(latitude * degree));
  const column = (value: (i: number) => number) => Float64Array.from({ length: nodes }, (_, i) => value(i));
  return {
    timeS: column((i) => startS + i * everyS),
    latitudeRad: column(() => latitude * degree),
    longitudeRad: column((i) => -1.4 + perSecond * i * everyS),
    geometricHeightM: column(() => height),
  };
}

describe('light', () => {
  it('[LIGHT-2] falls through every twilight, counted from the horizon that is seen', () => {
    const seen = [-0.8, -0.9, -5.9, -6.1, -11.9, -12.1, -17.9, -18.1].map((angle) =>
      lightAt(angle * degree, 0),
    );
    expect(seen).toEqual([
      'day',
      'civil twilight',
      'civil twilight',
      'nautical twilight',
      'nautical twilight',
      'astronomical twilight',
      'astronomical twilight',
      'night',
    ]);
    // 5 deg below the horizontal it is dusk at the sea, and day at 80 000 ft.
    expect(lightAt(-5 * degree, height)).toBe('day');
  });

  it('[LIGHT-3] over one place it is dark later by the dip, and each twilight follows the last', () => {
    const { start, changes } = lightAlong(alongParallel(0, '2026-03-20T22:00Z', 6, 0));
    expect(start).toBe('day');
    expect(changes.map(({ to }) => to)).toEqual([
      'civil twilight',
      'nautical twilight',
      'astronomical twilight',
      'night',
    ]);
    // At the equator at equinox the sun sinks 15 deg an hour.
    const hours = (changes[3].timeS - changes[1].timeS) / 3600;
    expect(hours * 15).toBeCloseTo(12, 1);
    for (const { timeS, ...place } of changes.slice(0, 1)) {
      expect(sunOver(place, timeS).elevationRad).toBeCloseTo(sunsetElevation(height), 7);
    }
  });

  it('[LIGHT-4] a flight to the west at Mach 3 brings the sun up again in the west', () => {
    // After sunset at 45 N: the Earth turns 328 m/s there, the aircraft flies 890.
    const { start, changes } = lightAlong(alongParallel(45, '2026-03-21T00:10Z', 2, -890));
    expect(start).toBe('civil twilight');
    expect(changes.map(({ to, brighter }) => [to, brighter])).toEqual([['day', true]]);
    const { timeS, ...place } = changes[0];
    expect(sunOver(place, timeS).azimuthRad / degree).toBeGreaterThan(250);
  });

  it('[LIGHT-5] does not depend on how the flight is cut into nodes', () => {
    const fine = lightAlong(alongParallel(0, '2026-03-20T22:00Z', 4, 250, 20));
    const coarse = lightAlong(alongParallel(0, '2026-03-20T22:00Z', 4, 250, 1200));
    expect(coarse.changes.length).toBe(fine.changes.length);
    fine.changes.forEach((change, i) => {
      expect(Math.abs(change.timeS - coarse.changes[i].timeS)).toBeLessThan(0.01);
    });
  });

  it('[LIGHT-6] the way between nodes goes over the pole and the date line', () => {
    const over = between(
      { latitudeRad: 1.5, longitudeRad: 0 },
      { latitudeRad: 1.5, longitudeRad: Math.PI },
      0.5,
    );
    expect(over.latitudeRad).toBeCloseTo(Math.PI / 2, 12);
    const across = between(
      { latitudeRad: 0, longitudeRad: 3.1 },
      { latitudeRad: 0, longitudeRad: -3.1 },
      0.5,
    );
    expect(Math.abs(across.longitudeRad)).toBeCloseTo(Math.PI, 12);
  });
});
