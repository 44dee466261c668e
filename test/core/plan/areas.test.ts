/** Areas in the plan: the track as flown, in the hours and at the heights of each. */
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { type Area, prepareArea } from '../../../src/core/earth/area.ts';
import { areasOf, findAreas } from '../../../src/core/plan/areas.ts';
import { crewOf, type Draft, draft } from '../../../src/core/plan/draft.ts';
import { placesOf } from '../../../src/core/plan/places.ts';
import type { PlanArea } from '../../../src/core/plan/plan.ts';
import { readTime } from '../../../src/core/quantities/time.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const degree = Math.PI / 180;
const wgs84 = geographiclib.Geodesic.WGS84;
const drafted = draft(crewOf(requestOf(longLoopText)));
const { columns } = drafted.log;
const takeOffS = readTime('2026-02-23T15:30Z');

/** The finding of one area on the flown track of the demonstration. */
function find(area: Partial<Area>, corridorHalfWidthM = 0): PlanArea {
  const whole: Area = { name: 'Marten', polygons: [], hours: null, floorM: null, ceilingM: null, ...area };
  const sortie = { ...drafted.crew.sortie, areas: [prepareArea(whole)], corridorHalfWidthM };
  const with1: Draft = { ...drafted, crew: { ...drafted.crew, sortie } };
  return areasOf(with1, findAreas(with1))[0];
}

/** A small square [deg] round a place. */
function square(latitudeDeg: number, longitudeDeg: number, half = 0.05): Area['polygons'] {
  const corners = [[-1, -1], [-1, 1], [1, 1], [1, -1]]; // biome-ignore format: a ring
  const ring = corners.map(([north, east]) => ({
    latitudeRad: (latitudeDeg + half * north) * degree,
    longitudeRad: (longitudeDeg + half * east) * degree,
  }));
  return [[ring]];
}

/** The node of a cruise on the way to the north. */
const cruising =
  drafted.log.phaseOf.findIndex(
    (phase, node) => drafted.log.phases[phase].kind === 'cruise' && columns.mach[node] > 2,
  ) + 1;
const under = square(columns.latitudeRad[cruising] / degree, columns.longitudeRad[cruising] / degree);

describe('areas of a plan', () => {
  it('[AREAS-1] a square round a node is entered before it and left after it, in seconds since take-off', () => {
    const { incursions, nearest, polygonsDeg } = find({ polygons: under });
    expect(incursions).toHaveLength(1);
    const [{ entry, exit, deepest, depthM, outCourseDeg }] = incursions;
    const timeS = columns.timeS[cruising] - takeOffS;
    expect(entry.timeS).toBeLessThan(timeS);
    expect(exit.timeS).toBeGreaterThan(timeS);
    // 0.1 degree of the meridian, 11.1 km, at about 840 m/s over the ground.
    expect(exit.timeS - entry.timeS).toBeGreaterThan(5);
    expect(exit.timeS - entry.timeS).toBeLessThan(20);
    expect(deepest.phase).toMatch(/^Cruise climb/);
    // 0.05 degrees of longitude there.
    const half =
      wgs84.Inverse(
        deepest.latitudeDeg,
        deepest.longitudeDeg,
        deepest.latitudeDeg,
        deepest.longitudeDeg + 0.05,
      ).s12 ?? 0;
    expect(depthM).toBeGreaterThan(0.85 * half);
    expect(depthM).toBeLessThan(1.01 * half);
    expect(outCourseDeg).toBeGreaterThanOrEqual(0);
    expect(outCourseDeg).toBeLessThan(360);
    expect(nearest?.distanceM).toBe(0);
    expect(polygonsDeg[0][0]).toHaveLength(4);
    expect(polygonsDeg[0][0][0][1]).toBeCloseTo(columns.latitudeRad[cruising] / degree - 0.05, 9);
  });

  it('[AREAS-2] over its ceiling it is cleared by the height above it', () => {
    const { incursions, vertical, ceilingPressureAltitudeM } = find({ polygons: under, ceilingM: 15_000 });
    expect(incursions).toEqual([]);
    expect(ceilingPressureAltitudeM).toBe(15_000);
    expect(vertical?.side).toBe('over');
    expect(
      Math.abs((vertical?.clearanceM ?? 0) - (columns.pressureAltitudeM[cruising] - 15_000)),
    ).toBeLessThan(20);
  });

  it('[AREAS-3] daily hours count in UTC: open while the flight is there, shut before and after', () => {
    const hour = ((columns.timeS[cruising] % 86_400) / 3600) | 0;
    const open = find({
      polygons: under,
      hours: { kind: 'daily', fromS: hour * 3600, toS: (hour + 1) * 3600 },
    });
    expect(open.incursions).toHaveLength(1);
    const two = (value: number) => String(value).padStart(2, '0');
    expect(open.hours).toEqual({ kind: 'daily', from: `${two(hour)}:00Z`, to: `${two(hour + 1)}:00Z` });
    const shut = find({ polygons: under, hours: { kind: 'daily', fromS: 2 * 3600, toS: 4 * 3600 } });
    expect([shut.incursions, shut.nearest, shut.vertical]).toEqual([[], null, null]);
    const once = find({ polygons: under, hours: { kind: 'once', fromS: takeOffS - 3600, toS: takeOffS } });
    expect(once.incursions).toEqual([]);
    expect(once.hours).toEqual({ kind: 'once', from: '2026-02-23T14:30Z', to: '2026-02-23T15:30Z' });
  });

  it('[AREAS-4] in a turn the arc is tested, not the chord between the nodes half a minute apart', () => {
    const node = columns.bankRad.findIndex(
      (bank, i) => bank > 0.5 && columns.mach[i] > 2 && columns.timeS[i + 1] - columns.timeS[i] > 25,
    );
    const at = (i: number) => [columns.latitudeRad[i] / degree, columns.longitudeRad[i] / degree] as const;
    const [from, to] = [at(node), at(node + 1)];
    const chord = wgs84.Inverse(from[0], from[1], to[0], to[1]);
    const { s12 = 0, azi1 = 0 } = chord;
    const turned = columns.courseRad[node + 1] - columns.courseRad[node];
    // Height of an arc over its chord: chord / 2 times tan of a quarter of its turn; to the left in a turn to the right.
    const bulge = (s12 / 2) * Math.tan(turned / 4);
    expect(bulge).toBeGreaterThan(400);
    const { lat2 = 0, lon2 = 0 } = wgs84.Direct(from[0], from[1], azi1, s12 / 2);
    const out = wgs84.Direct(lat2, lon2, azi1 - 90, bulge);
    const arc = find({ polygons: square(out.lat2 ?? 0, out.lon2 ?? 0, 0.0008) });
    expect(arc.incursions).toHaveLength(1);
    expect(find({ polygons: square(lat2, lon2, 0.0008) }).incursions).toEqual([]);
  });

  it('[AREAS-5] a sortie without areas has none, and looks for none', () => {
    const none = draft(crewOf(requestOf(change(longLoopText, [/areas: .*\n/, '']))));
    expect(findAreas(none)).toEqual([]);
  });
});

describe('places of a plan', () => {
  it('[PLACES-1] every base, tanker and waypoint once, in degrees, tankers with their course', () => {
    const places = placesOf(requestOf(longLoopText).sortie);
    expect(places.map(({ name }) => name)).toEqual([
      'Harrow Flat', 'Curlew Ridge', 'Otter Bluff', 'Ewer One', 'Ewer Two', 'Alder', 'Birch', 'Cedar', 'Damson',
    ]); // biome-ignore format: a list
    const two = places.find(({ name }) => name === 'Ewer Two');
    expect(two?.kind).toBe('tanker');
    expect(two?.latitudeDeg).toBeCloseTo(39.6, 9);
    expect(two?.longitudeDeg).toBeCloseTo(-80.2, 9);
    expect(two?.courseDeg).toBeCloseTo(215, 9);
    expect(places[0].courseDeg).toBe(null);
  });
});
