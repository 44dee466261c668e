/** Sorties across 180 degrees and past the pole, against the same sortie elsewhere and against GeographicLib. */
import { readFileSync } from 'node:fs';
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { prepareArea } from '../../../src/core/earth/area.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { AreaPassage, Plan } from '../../../src/core/plan/plan.ts';
import { readAreas } from '../../../src/files/areas.ts';
import { Faults } from '../../../src/files/faults.ts';
import { trackGeoJson } from '../../../src/files/geojson.ts';
import { trackGpx } from '../../../src/files/gpx.ts';
import { partsAt180, trackOfPlan } from '../../../src/files/track.ts';
import { change, requestOf } from '../../support/demo.ts';

const wgs84 = geographiclib.Geodesic.WGS84;
type Position = readonly [latitudeDeg: number, longitudeDeg: number];
const apartM = (a: Position, b: Position): number => wgs84.Inverse(a[0], a[1], b[0], b[1]).s12 ?? Number.NaN;
const wrapped = (degrees: number): number => degrees - 360 * Math.round(degrees / 360);

/** A sortie's text on a standard day, every place moved east. */
function moved(text: string, east: number): string {
  return text
    .replace(/weather:\n( .*\n)+/, 'weather: { day: standard }\n')
    .replace(/areas: .*\n/, '')
    .replace(/(\d+\.\d+)N (\d+\.\d+)([EW])/g, (_all, north, degrees, side) => {
      const to = wrapped(Number(degrees) * (side === 'W' ? -1 : 1) + east);
      return `${north}N ${Math.abs(to).toFixed(2)}${to < 0 ? 'W' : 'E'}`;
    });
}

/** The areas of a GeoJSON text, moved east, each position within 180 degrees. */
function areasOf(text: string, east: number) {
  const content = JSON.parse(text);
  for (const { geometry } of content.features) {
    geometry.coordinates = geometry.coordinates.map((ring: number[][]) =>
      ring.map(([longitude, latitude]) => [Number(wrapped(longitude + east).toFixed(6)), latitude]),
    );
  }
  const areas = readAreas(JSON.stringify(content), 'areas.geojson', new Faults());
  if (!areas) throw new Error('the areas cannot be read');
  return areas.map(prepareArea);
}

function planOf(text: string, areas: ReturnType<typeof areasOf>): Plan {
  const request = requestOf(text);
  return makePlan({ ...request, sortie: { ...request.sortie, areas, corridorHalfWidthM: 9260 } });
}

/** Steps are chosen by differences in the last digits, and nodes with them: what is compared stands at the ends of phases. */
function expectSame(here: Plan, there: Plan, east: number): void {
  expect(there.phases.map(({ name }) => name)).toEqual(here.phases.map(({ name }) => name));
  here.phases.forEach((phase, i) => {
    const other = there.phases[i];
    expect(Math.abs(other.endS - phase.endS), phase.name).toBeLessThan(0.1);
    expect(Math.abs(other.fuelKg - phase.fuelKg), phase.name).toBeLessThan(1);
    expect(Math.abs(other.distanceM - phase.distanceM), phase.name).toBeLessThan(50);
    const [a, b] = [lastOf(here, i), lastOf(there, i)];
    if (a && b) expect(apartM([a[0], wrapped(a[1] + east)], b), phase.name).toBeLessThan(50);
  });
  here.limits.forEach((limit) => {
    const other = there.limits.find(({ key }) => key === limit.key);
    expect(Math.abs((other?.leastMargin ?? 0) - limit.leastMargin), limit.key).toBeLessThan(
      1e-3 * Math.abs(limit.bound),
    );
  });
  const passage = (at: AreaPassage | null) => at && [at.timeS, at.latitudeDeg, at.pressureAltitudeM];
  here.areas.forEach((area, i) => {
    const other = there.areas[i];
    expect(other.incursions.length, area.name).toBe(area.incursions.length);
    area.incursions.forEach((way, k) => {
      expect(Math.abs(other.incursions[k].depthM - way.depthM)).toBeLessThan(50);
      expect(Math.abs(other.incursions[k].entry.timeS - way.entry.timeS)).toBeLessThan(0.2);
    });
    expect(Math.abs((other.nearest?.distanceM ?? -1) - (area.nearest?.distanceM ?? -1))).toBeLessThan(50);
    passage(area.vertical)?.forEach((value, k) => {
      expect(Math.abs((passage(other.vertical)?.[k] ?? Number.NaN) - value)).toBeLessThan(1);
    });
  });
}

/** Where a phase of a plan ends; null where it has no node. */
function lastOf({ trace }: Plan, phase: number): Position | null {
  const node = trace.phase.lastIndexOf(phase);
  return node < 0 ? null : [trace.columns.latitudeDeg[node], trace.columns.longitudeDeg[node]];
}

/** Every part of a written track stays on one side of 180 degrees, and the parts hold every node. */
function expectWhole(plan: Plan, parts: number): void {
  const track = trackOfPlan(plan);
  const split = partsAt180(track.points);
  expect(split.length).toBe(parts);
  for (const part of split) {
    part.slice(1).forEach((point, i) => {
      expect(Math.abs(point.longitudeDeg - part[i].longitudeDeg)).toBeLessThanOrEqual(180);
    });
  }
  const { geometry } = JSON.parse(trackGeoJson(track)).features[0];
  expect(geometry.type).toBe(parts === 1 ? 'LineString' : 'MultiLineString');
  const gpx = trackGpx(track, 'Ramrise');
  expect(gpx.match(/<trkseg>/g)).toHaveLength(parts);
  const places = new Set(
    track.points.map(({ latitudeDeg, longitudeDeg }) => `${latitudeDeg},${longitudeDeg}`),
  );
  expect(gpx.match(/<trkpt /g)?.length).toBeGreaterThanOrEqual(places.size);
}

describe('a sortie and its areas over the date line', () => {
  const text = readFileSync('examples/long-loop-first-route.yaml', 'utf8');
  const geojson = readFileSync('examples/areas.geojson', 'utf8');
  // Gannet Range, 96.45 W to 94.9 W, comes to lie from 179.55 E to 178.9 W, the turn that cuts it too.
  const east = 276;
  const here = planOf(moved(text, 0), areasOf(geojson, 0));
  const there = planOf(moved(text, east), areasOf(geojson, east));

  it('[FAR-1] has the same numbers as at home, and cuts the same area as deep', () => {
    expect(here.areas[0].incursions).toHaveLength(1);
    expectSame(here, there, east);
  });

  it('[FAR-2] is freed by the same move of the same waypoint', () => {
    const [a, b] = [here.failure?.freedBy, there.failure?.freedBy];
    expect(b?.lever).toBe(a?.lever);
    expect(b?.to).toBe(a?.to);
    expect(wrapped((b?.place?.longitudeDeg ?? 0) - (a?.place?.longitudeDeg ?? 0) - east)).toBeCloseTo(0, 9);
  });

  it('[FAR-3] is written in parts that end at 180 degrees, its area in one piece', () => {
    const crossings = there.trace.columns.longitudeDeg.filter(
      (longitude, i, all) => i > 0 && Math.abs(longitude - all[i - 1]) > 180,
    ).length;
    expect(crossings).toBeGreaterThan(1);
    expectWhole(there, crossings + 1);
    expectWhole(here, 1);
    const longitudes = there.areas[0].polygonsDeg[0][0].map(([longitude]) => longitude);
    expect(Math.max(...longitudes) - Math.min(...longitudes)).toBeCloseTo(96.45 - 94.9, 6);
  });
});

describe('a sortie past the pole', () => {
  const text = change(
    readFileSync('examples/long-loop.yaml', 'utf8'),
    [/33\.20N 93\.60W/, '72.00N 20.00E'],
    [/37\.45N 80\.90W/, '68.00N 128.00W'],
    [/36\.20N 89\.70W/, '76.00N 105.00W'],
    [/34\.60N 91\.60W/, '73.50N 24.00E'],
    ['course: 60 deg', 'course: 20 deg'],
    [/39\.60N 80\.20W/, '78.00N 110.00W'],
    ['course: 215 deg', 'course: 160 deg'],
    ['divert: Curlew Ridge', 'divert: Otter Bluff'],
    [/46\.80N 96\.00W/, '84.50N 40.00E'],
    [/50\.60N 86\.50W/, '84.00N 170.00W'],
    [/43\.60N 90\.40W/, '76.00N 150.00W'],
    [/40\.80N 97\.40W/, '70.00N 150.00W'],
    ['land: Harrow Flat', 'land: Curlew Ridge'],
  );
  // North of 89.3 degrees, cut along a meridian as RFC 7946, 3.1.9 asks.
  const rim = [-180, -90, 0, 90, 180].map((longitude) => [longitude, 89.3]);
  const ring = [...rim, [180, 90], [-180, 90], [-180, 89.3]];
  const cap = JSON.stringify({
    type: 'FeatureCollection',
    features: [
      {
        type: 'Feature',
        properties: { name: 'Polar cap' },
        geometry: { type: 'Polygon', coordinates: [ring] },
      },
    ],
  });
  const areas = readAreas(cap, 'cap.geojson', new Faults())?.map(prepareArea) ?? [];
  const here = planOf(moved(text, 0), areas);
  const { columns } = here.trace;
  const positions = columns.latitudeDeg.map((latitude, i): Position => [latitude, columns.longitudeDeg[i]]);

  it('[FAR-4] comes within 2 degrees of it and can be flown', () => {
    expect(Math.max(...columns.latitudeDeg)).toBeGreaterThan(88);
    expect(here.failure).toBe(null);
  });

  it('[FAR-5] has the same numbers at other longitudes', () => {
    for (const east of [147, -90]) expectSame(here, planOf(moved(text, east), areas), east);
  });

  it('[FAR-6] keeps to the geodesics of GeographicLib between its turns, and counts their length', () => {
    const ends = here.phases.map(({ kind }) => kind);
    let looked = 0;
    for (let node = 0; node + 1 < positions.length; node++) {
      const phase = here.trace.phase[node];
      if (ends[phase] !== 'cruise' || here.trace.phase[node + 1] !== phase) continue;
      looked++;
      const [from, to] = [positions[node], positions[node + 1]];
      const { s12 = 0, azi1 = 0 } = wgs84.Inverse(from[0], from[1], to[0], to[1]);
      expect(Math.abs(wrapped(azi1 - columns.courseDeg[node])), `course of node ${node}`).toBeLessThan(0.002);
      const counted = columns.distanceM[node + 1] - columns.distanceM[node];
      expect(Math.abs(counted - s12), `length after node ${node}`).toBeLessThan(2 + 2e-4 * s12);
    }
    expect(looked).toBeGreaterThan(10);
  });

  it('[FAR-7] clears a cap round the pole by the meridian to it', () => {
    const [{ incursions, nearest }] = here.areas;
    expect(incursions).toEqual([]);
    const rimM = apartM([89.3, 0], [90, 0]);
    const leastM = positions.slice(1).reduce((least, to, i) => {
      const [latitude, longitude] = positions[i];
      if (latitude < 85) return least;
      const { s12 = 0, azi1 = 0 } = wgs84.Inverse(latitude, longitude, to[0], to[1]);
      const along = Array.from({ length: 101 }, (_, part) => {
        const { lat2 = 0, lon2 = 0 } = wgs84.Direct(latitude, longitude, azi1, (s12 * part) / 100);
        return apartM([lat2, lon2], [90, 0]) - rimM;
      });
      return Math.min(least, ...along);
    }, Number.POSITIVE_INFINITY);
    expect(Math.abs((nearest?.distanceM ?? 0) - leastM)).toBeLessThan(5);
  });

  it('[FAR-8] is written without a jump', () => {
    const crossings = columns.longitudeDeg.filter(
      (east, i, all) => i > 0 && Math.abs(east - all[i - 1]) > 180,
    );
    expectWhole(here, crossings.length + 1);
  });
});
