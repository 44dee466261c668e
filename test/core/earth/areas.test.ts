import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Area, contains, prepareArea } from '../../../src/core/earth/area.ts';
import { testAreas, testIncursions } from '../../../src/core/earth/areas.ts';
import { between, type FlownTrack } from '../../../src/core/earth/flown.ts';
import { inverse, type Place } from '../../../src/core/earth/line.ts';
import { readTime } from '../../../src/core/quantities/time.ts';

const degree = Math.PI / 180;
const foot = 0.3048;
/** Metres of a degree along the equator of WGS 84. */
const equatorDegreeM = 6_378_137 * degree;

function place([latitude, longitude]: readonly number[]): Place {
  return { latitudeRad: latitude * degree, longitudeRad: longitude * degree };
}

/** An area of one polygon: rings of latitude and longitude in degrees. */
function area(rings: readonly (readonly (readonly number[])[])[], more: Partial<Area> = {}): Area {
  const polygons = [rings.map((ring) => ring.map(place))];
  return { name: 'Marten', polygons, hours: null, floorM: null, ceilingM: null, ...more };
}

function box(south: number, north: number, west: number, east: number): number[][] {
  return [
    [south, west],
    [south, east],
    [north, east],
    [north, west],
  ];
}

/** Nodes of latitude, longitude [deg] and, if not 20 km, altitude [m]; an hour from one to the next. */
function track(nodes: readonly (readonly number[])[], start = '2026-03-04T12:00Z'): FlownTrack {
  return {
    timeS: nodes.map((_, i) => readTime(start) + 3600 * i),
    latitudeRad: nodes.map(([latitude]) => latitude * degree),
    longitudeRad: nodes.map(([, longitude]) => longitude * degree),
    pressureAltitudeM: nodes.map(([, , altitude]) => altitude ?? 20_000),
  };
}

function find(flown: FlownTrack, of: Area, halfWidthM = 0) {
  const prepared = [prepareArea(of)];
  const [found] = testAreas(flown, prepared, halfWidthM);
  expect(testIncursions(flown, prepared, halfWidthM)[0].incursions).toEqual(found.incursions);
  return found;
}

function metres(from: readonly number[], to: readonly number[]): number {
  return inverse(place(from), place(to)).distanceM;
}

/** Least distance [m] from a place to a great circle, by thirds. */
function nearestOn(from: Place, to: Place, at: Place): number {
  const apart = (part: number) => inverse(between(from, to, part), at).distanceM;
  let [low, high] = [0, 1];
  for (let third = 0; third < 40; third++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (apart(a) < apart(b)) high = b;
    else low = a;
  }
  return Math.min(apart(0), apart(1), apart(low));
}

/** Hours since the first node. */
function hours(flown: FlownTrack, timeS: number): number {
  return (timeS - flown.timeS[0]) / 3600;
}

const equator = track([0, 5, 10, 15, 20, 25, 30].map((longitude) => [0, longitude]));

describe('keep-out areas', () => {
  it('[AREA-1] enters and leaves a box where its sides cross the equator, deepest between them', () => {
    const { incursions, nearest } = find(equator, area([box(-3, 4, 12, 18)]));
    expect(incursions.length).toBe(1);
    const [{ entry, exit, deepest, depthM, outCourseRad }] = incursions;
    expect(entry.longitudeRad / degree).toBeCloseTo(12, 9);
    expect(exit.longitudeRad / degree).toBeCloseTo(18, 9);
    expect(hours(equator, entry.timeS)).toBeCloseTo(12 / 5, 9);
    expect(hours(equator, exit.timeS)).toBeCloseTo(18 / 5, 9);
    expect([entry.node, exit.node]).toEqual([2, 3]);
    // The southern side is nearest, three degrees of the meridian away; so are, within 1 %, the eastern and western.
    expect(Math.abs(depthM - metres([0, 15], [-3, 15]))).toBeLessThan(1);
    expect(deepest.longitudeRad / degree).toBeGreaterThan(14.9);
    expect(deepest.longitudeRad / degree).toBeLessThan(15.1);
    expect(Math.abs(Math.abs(outCourseRad) - Math.PI)).toBeLessThan(2e-5);
    expect(nearest?.distanceM).toBe(0);
  });

  it('[AREA-2] clears a box by the meridian to its nearest side', () => {
    const { incursions, nearest, vertical } = find(equator, area([box(1, 4, 12, 18)]));
    expect(incursions).toEqual([]);
    expect(Math.abs((nearest?.distanceM ?? 0) - metres([0, 15], [1, 15]))).toBeLessThan(0.01);
    expect(vertical).toBe(null);
  });

  it('[AREA-3] clears a corner by the geodesic to it', () => {
    const { nearest } = find(
      equator,
      area([
        [
          [3, 17.3],
          [9, 12],
          [9, 22],
        ],
      ]),
    );
    expect(Math.abs((nearest?.distanceM ?? 0) - metres([0, 17.3], [3, 17.3]))).toBeLessThan(1);
    expect((nearest?.at.longitudeRad ?? 0) / degree).toBeCloseTo(17.3, 6);
    // Beyond the last node the nearest point is the node itself.
    const beyond = find(equator, area([box(-1, 1, 32, 33)])).nearest;
    expect(beyond?.at.node).toBe(6);
    expect(Math.abs((beyond?.distanceM ?? 0) - 2 * equatorDegreeM)).toBeLessThan(0.01);
  });

  it('[AREA-4] a corner that touches the track is reached, not entered', () => {
    const { incursions, nearest } = find(
      equator,
      area([
        [
          [0, 13],
          [4, 11],
          [4, 15],
        ],
      ]),
    );
    expect(incursions).toEqual([]);
    expect(nearest?.distanceM).toBeLessThan(0.001);
  });

  it('[AREA-5] a hole is not the area', () => {
    const { incursions } = find(equator, area([box(-3, 4, 11, 19), box(-1, 1, 14, 16)]));
    const ends = incursions.flatMap(({ entry, exit }) => [
      entry.longitudeRad / degree,
      exit.longitudeRad / degree,
    ]);
    expect(ends.map((end) => Number(end.toFixed(6)))).toEqual([11, 14, 16, 19]);
    expect(Math.abs(incursions[0].depthM - metres([0, 12.5], [0, 14]))).toBeLessThan(1);
  });

  it('[AREA-6] over the date line, whole or cut in two as RFC 7946 asks', () => {
    const flown = track([
      [0, 170],
      [0, 177],
      [0, -176],
      [0, -169],
    ]);
    const whole = find(flown, area([box(-3, 4, 175, 185)]));
    const cut = find(flown, {
      ...area([]),
      polygons: [[box(-3, 4, 175, 180).map(place)], [box(-3, 4, -180, -175).map(place)]],
    });
    for (const { incursions } of [whole, cut]) {
      expect(incursions.length).toBe(1);
      expect(incursions[0].entry.longitudeRad / degree).toBeCloseTo(175, 9);
      expect(incursions[0].exit.longitudeRad / degree).toBeCloseTo(-175, 9);
      // The cut is no side: the deepest point lies on it.
      expect(Math.abs(incursions[0].depthM - metres([0, 180], [-3, 180]))).toBeLessThan(1);
    }
  });

  it('[AREA-7] straight over the pole into a cap round it', () => {
    const flown = track([
      [70, 20],
      [80, 20],
      [88, -160],
      [70, -160],
    ]);
    const rim = [-180, -90, 0, 90, 180].map((longitude) => [82, longitude]);
    const cap = area([[...rim, ...[180, 90, 0, -90, -180].map((longitude) => [90, longitude])]]);
    const { incursions } = find(flown, cap);
    expect(incursions.length).toBe(1);
    const [{ entry, exit, deepest, depthM }] = incursions;
    expect(entry.latitudeRad / degree).toBeCloseTo(82, 5);
    expect(exit.latitudeRad / degree).toBeCloseTo(82, 5);
    expect(hours(flown, entry.timeS)).toBeCloseTo(1 + 2 / 12, 3);
    expect(deepest.latitudeRad / degree).toBeGreaterThan(89.99);
    expect(Math.abs(depthM - metres([82, 20], [90, 20]))).toBeLessThan(10);
    expect(contains(cap, place([90, 0]))).toBe(true);
  });

  it('[AREA-8] sides are straight in latitude and longitude, not geodesics', () => {
    // The geodesic from 60 N 0 to 60 N 40 goes up to 61.7 N; the side stays on the parallel.
    const wedge = area([
      [
        [60, 0],
        [60, 40],
        [50, 20],
      ],
    ]);
    const along61 = track([0, 10, 20, 30, 40].map((longitude) => [61, longitude]));
    const { incursions, nearest } = find(along61, wedge);
    expect(incursions).toEqual([]);
    // The nodes are the points nearest to the parallel: great circles between them bend to the pole.
    expect(Math.abs((nearest?.distanceM ?? 0) - metres([61, 10], [60, 10]))).toBeLessThan(1.5);
  });

  it('[AREA-9] holds between its floor and its ceiling only', () => {
    const between = { floorM: 40_000 * foot, ceilingM: 60_000 * foot };
    const climb = track([
      [0, 10, 30_000 * foot],
      [0, 20, 70_000 * foot],
    ]);
    const { incursions } = find(climb, area([box(-3, 4, 11, 19)], between));
    expect(incursions.length).toBe(1);
    expect(incursions[0].entry.pressureAltitudeM / foot).toBeCloseTo(40_000, 6);
    expect(incursions[0].exit.pressureAltitudeM / foot).toBeCloseTo(60_000, 6);
    expect(incursions[0].entry.longitudeRad / degree).toBeCloseTo(12.5, 6);
    const over = find(
      track([
        [0, 10, 75_000 * foot],
        [0, 20, 72_000 * foot],
      ]),
      area([box(-3, 4, 11, 19)], between),
    );
    expect(over.incursions).toEqual([]);
    expect(over.nearest).toBe(null);
    expect(over.vertical?.side).toBe('over');
    expect((over.vertical?.clearanceM ?? 0) / foot).toBeCloseTo(12_300, 6);
    expect((over.vertical?.at.longitudeRad ?? 0) / degree).toBeCloseTo(19, 9);
    const under = find(
      track([
        [0, 10, 20_000 * foot],
        [0, 20, 20_000 * foot],
      ]),
      area([box(-3, 4, 11, 19)], between),
    );
    expect(under.vertical?.side).toBe('under');
    expect((under.vertical?.clearanceM ?? 0) / foot).toBeCloseTo(20_000, 6);
  });

  it('[AREA-10] holds in its hours only, past midnight too, or once', () => {
    const hour = 3600;
    const night = { hours: { kind: 'daily', fromS: 22 * hour, toS: 6 * hour } } as const;
    const late = track(
      [
        [0, 10],
        [0, 15],
        [0, 20],
      ],
      '2026-03-04T21:30Z',
    );
    const [first] = find(late, area([box(-3, 4, 5, 25)], night)).incursions;
    expect(first.entry.timeS).toBeCloseTo(readTime('2026-03-04T22:00Z'), 3);
    expect(first.exit.timeS).toBe(readTime('2026-03-04T23:30Z'));
    const early = track(
      [
        [0, 10],
        [0, 15],
      ],
      '2026-03-04T05:30Z',
    );
    expect(find(early, area([box(-3, 4, 5, 25)], night)).incursions[0].exit.timeS).toBeCloseTo(
      readTime('2026-03-04T06:00Z'),
      3,
    );
    const noon = find(
      track([
        [0, 10],
        [0, 15],
      ]),
      area([box(-3, 4, 5, 25)], night),
    );
    expect([noon.incursions, noon.nearest, noon.vertical]).toEqual([[], null, null]);
    const once = {
      hours: { kind: 'once', fromS: readTime('2026-03-04T12:15Z'), toS: readTime('2026-03-04T12:45Z') },
    } as const;
    const [brief] = find(
      track([
        [0, 10],
        [0, 15],
      ]),
      area([box(-3, 4, 5, 25)], once),
    ).incursions;
    expect(brief.entry.timeS).toBeCloseTo(readTime('2026-03-04T12:15Z'), 3);
    expect(brief.exit.timeS).toBeCloseTo(readTime('2026-03-04T12:45Z'), 3);
  });

  it('[AREA-11] with a half width a corridor enters before its middle does', () => {
    const [{ entry, exit, depthM }] = find(equator, area([box(-3, 4, 12, 18)]), 50_000).incursions;
    expect(entry.longitudeRad / degree).toBeCloseTo(12 - 50_000 / equatorDegreeM, 6);
    expect(exit.longitudeRad / degree).toBeCloseTo(18 + 50_000 / equatorDegreeM, 6);
    expect(Math.abs(depthM - metres([0, 15], [-3, 15]) - 50_000)).toBeLessThan(1);
    const beside = area([box(1, 4, 12, 18)]);
    const clearM = metres([0, 15], [1, 15]);
    expect(find(equator, beside, clearM - 1).incursions).toEqual([]);
    const [graze] = find(equator, beside, clearM + 1).incursions;
    expect(graze.depthM).toBeCloseTo(1, 2);
    expect(Math.abs(Math.abs(graze.outCourseRad) - Math.PI)).toBeLessThan(2e-5);
    // The corridor rounds the corners of the box.
    const alongside =
      (Math.acos(Math.cos((clearM + 1) / 6.36e6) / Math.cos(clearM / 6.36e6)) / degree) * 1.01;
    expect(graze.entry.longitudeRad / degree).toBeGreaterThan(12 - alongside);
    expect(graze.entry.longitudeRad / degree).toBeLessThan(12);
  });

  it('[AREA-12] agrees with looking at every kilometre, wherever on the Earth', () => {
    const angle = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
    const corners = fc.array(fc.double({ min: 0.5, max: 4, noNaN: true }), { minLength: 3, maxLength: 7 });
    fc.assert(
      fc.property(
        angle(80),
        angle(180),
        corners,
        angle(6),
        angle(6),
        angle(6),
        angle(6),
        (lat, lon, radii, a, b, c, d) => {
          const star = radii.map((radius, i) => {
            const turn = (2 * Math.PI * i) / radii.length;
            return [lat + radius * Math.cos(turn), lon + radius * Math.sin(turn)];
          });
          const of = area([star]);
          const flown = track([
            [lat + a, lon + b],
            [lat + c, lon + d],
          ]);
          const [from, to] = [place([lat + a, lon + b]), place([lat + c, lon + d])];
          const { incursions, nearest } = find(flown, of);
          const looks = 1000;
          const seen = Array.from({ length: looks }, (_, i) =>
            contains(of, between(from, to, (i + 0.5) / looks)),
          );
          const through = incursions.reduce(
            (sum, { entry, exit }) => sum + (exit.timeS - entry.timeS) / 3600,
            0,
          );
          // Half a look at each end of an incursion, and one that is shorter than a look and not seen.
          const missed = (1 + incursions.length) / looks;
          expect(Math.abs(seen.filter(Boolean).length / looks - through)).toBeLessThan(missed);
          if (incursions.length > 0) return;
          // No corner and no point half way along a side is nearer than half of e^4, the square of 0.00669, and the 1 m of a side.
          star.forEach((corner, i) => {
            const next = star[(i + 1) % star.length];
            for (const at of [corner, [(corner[0] + next[0]) / 2, (corner[1] + next[1]) / 2]]) {
              const apartM = nearestOn(from, to, place(at));
              expect((nearest?.distanceM ?? 0) - apartM).toBeLessThan(1 + 2.3e-5 * apartM);
            }
          });
        },
      ),
      { numRuns: 60 },
    );
  });

  it('[AREA-13] refuses a ring of two corners and one that goes round a pole', () => {
    expect(() =>
      prepareArea(
        area([
          [
            [0, 0],
            [1, 1],
          ],
        ]),
      ),
    ).toThrow('corners of a ring 2 is outside 3 to Infinity of Marten');
    const round = [0, 90, 180, 270].map((longitude) => [80, longitude]);
    expect(() => prepareArea(area([round]))).toThrow(/longitude over which a ring closes .* of Marten/);
  });
});
