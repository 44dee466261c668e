import { describe, expect, it } from 'vitest';
import type { Area } from '../../src/core/earth/area.ts';
import { readTime } from '../../src/core/quantities/time.ts';
import { readAreas } from '../../src/files/areas.ts';
import { Faults, faultText } from '../../src/files/faults.ts';

const degree = Math.PI / 180;
const foot = 0.3048;
const square = [[-90, 40], [-88, 40], [-88, 42], [-90, 42], [-90, 40]]; // biome-ignore format: a ring

function feature(properties: object, coordinates: unknown = [square], type = 'Polygon'): object {
  return { type: 'Feature', properties, geometry: { type, coordinates } };
}

function read(content: object | string): { areas: Area[] | null; told: string[]; doubts: string[] } {
  const faults = new Faults();
  const text = typeof content === 'string' ? content : JSON.stringify(content, null, '\t');
  const areas = readAreas(text, 'areas.geojson', faults);
  return { areas, told: faults.faults.map(faultText), doubts: faults.doubts.map(faultText) };
}

function longitudes(areas: Area[] | null): number[] {
  return (areas?.[0].polygons[0][0] ?? []).map(({ longitudeRad }) => longitudeRad / degree);
}

describe('areas as GeoJSON', () => {
  it('[AREAFILE-1] a collection with heights and hours, in SI and radians', () => {
    const daily = { name: 'Marten', from: '22:00Z', to: '06:30Z', floor: 'FL 450', ceiling: '70000 ft' };
    const once = { name: 'Otter', from: '2026-03-04T16:00Z', to: '2026-03-04T18:00Z', ceiling: null };
    const features = [
      feature(daily),
      feature(once, [[square], [square]], 'MultiPolygon'),
      feature({ name: 'Stoat' }),
    ];
    const { areas, told, doubts } = read({ type: 'FeatureCollection', features });
    expect([told, doubts]).toEqual([[], []]);
    const [marten, otter, stoat] = areas ?? [];
    expect(marten.hours).toEqual({ kind: 'daily', fromS: 22 * 3600, toS: 6.5 * 3600 });
    expect(marten.floorM).toBeCloseTo(45_000 * foot, 9);
    expect(marten.ceilingM).toBeCloseTo(70_000 * foot, 9);
    expect(marten.polygons[0][0].length).toBe(4);
    expect(marten.polygons[0][0][1].latitudeRad).toBeCloseTo(40 * degree, 12);
    expect(marten.polygons[0][0][1].longitudeRad).toBeCloseTo(-88 * degree, 12);
    expect(otter.hours).toEqual({
      kind: 'once',
      fromS: readTime('2026-03-04T16:00Z'),
      toS: readTime('2026-03-04T18:00Z'),
    });
    expect([otter.floorM, otter.ceilingM, otter.polygons.length]).toEqual([null, null, 2]);
    expect([stoat.hours, stoat.floorM, stoat.ceilingM]).toEqual([null, null, null]);
  });

  it('[AREAFILE-2] a feature alone, positions with heights, foreign members', () => {
    const high = square.map((position) => [...position, 1200]);
    const { areas, told } = read({ ...feature({ name: 'Marten' }, [high]), bbox: [-90, 40, -88, 42], id: 7 });
    expect(told).toEqual([]);
    expect(areas?.length).toBe(1);
  });

  it('[AREAFILE-3] longitudes run on over 180 degrees', () => {
    const over = [[178, 10], [-178, 10], [-178, 12], [178, 12], [178, 10]]; // biome-ignore format: a ring
    expect(longitudes(read(feature({ name: 'Marten' }, [over])).areas)).toEqual(
      [178, 182, 182, 178].map((east) => expect.closeTo(east, 9)),
    );
    const beyond = [[178, 10], [182, 10], [182, 12], [178, 12], [178, 10]]; // biome-ignore format: a ring
    expect(longitudes(read(feature({ name: 'Marten' }, [beyond])).areas)).toEqual(
      [178, 182, 182, 178].map((east) => expect.closeTo(east, 9)),
    );
  });

  it('[AREAFILE-4] a cap round the pole is cut as RFC 7946 asks; one that is not is refused', () => {
    const rim = [-180, -90, 0, 90, 180].map((east) => [east, 80]);
    const cap = [...rim, [180, 90], [-180, 90], [-180, 80]];
    expect(read(feature({ name: 'Cap' }, [cap])).told).toEqual([]);
    const round = [[-120, 80], [0, 80], [120, 80], [-120, 80]]; // biome-ignore format: a ring
    expect(read(feature({ name: 'Cap' }, [round])).told.join()).toMatch(
      /geometry\.coordinates\.0: goes round a pole: cut it along a meridian/,
    );
    const wide = [[-90, 10], [90, 10], [90, 12], [-90, 12], [-90, 10]]; // biome-ignore format: a ring
    expect(read(feature({ name: 'Wide' }, [wide])).told.join()).toMatch(
      /a side over 180 deg of longitude may go either way/,
    );
  });

  it('[AREAFILE-5] tells all faults at once, each with its line and path', () => {
    const features = [
      feature({ name: 'Marten', from: '22:00Z', floor: '60000 ft', ceiling: '50000 ft' }),
      feature({ name: 'Marten', from: '22:00Z', to: '2026-03-04T16:00Z' }, [square.slice(0, 4)]),
      feature({ name: 'Otter', from: 'noon', to: '06:00Z' }, [[...square.slice(0, 2), [-88, 92], [-90, 40]]]),
      feature({ name: 'Stoat', from: '06:00Z', to: '06:00Z' }, [
        [
          [1, 2],
          [3, 4],
          [5, 6],
          [1, 2],
        ],
      ]),
    ];
    const { areas, told } = read({ type: 'FeatureCollection', features });
    expect(areas).toBe(null);
    const messages = told.map((text) => text.replace(/^areas\.geojson:\d+:\d+: /, ''));
    expect(messages.sort()).toEqual([
      'features.0.properties.ceiling: the ceiling is not above the floor',
      'features.0.properties.to: "from" and "to" go together',
      'features.1.geometry.coordinates.0: a ring has four positions or more and ends where it begins',
      'features.1.properties.name: "Marten" is the name of area 1 too',
      'features.1.properties.to: write two times of day or two moments',
      'features.2.geometry.coordinates.0.2.1: latitude 92 is outside -90 to 90 deg',
      'features.2.properties.from: from "noon": is not a date and time; write 2026-02-23T16:00Z or a time of day such as 06:00Z',
      'features.3.geometry.coordinates.0: encloses nothing',
      'features.3.properties.to: is the same as "from"',
    ]);
    const lines = JSON.stringify({ type: 'FeatureCollection', features }, null, '\t').split('\n');
    const latitude = lines.findIndex((line) => line.includes('92')) + 1;
    expect(told.some((text) => text.startsWith(`areas.geojson:${latitude}:`))).toBe(true);
  });

  it('[AREAFILE-6] tells what does not fit the form', () => {
    expect(read('{ "type": ').told.join()).toMatch(/areas\.geojson: is not JSON: /);
    expect(read({ type: 'FeatureCollection', features: [] }).told.join()).toMatch(/features: holds no area/);
    expect(read({ type: 'Topology' }).told.join()).toMatch(/type: must be FeatureCollection or Feature/);
    expect(read(feature({}, [square])).told.join()).toMatch(/properties\.name: is missing/);
    expect(read(feature({ name: 'Marten' }, [1, 2], 'Point')).told.join()).toMatch(
      /a Polygon or a MultiPolygon/,
    );
    expect(read(feature({ name: 'Marten', floor: '45000' })).told.join()).toMatch(
      /properties\.floor: .*has no unit/,
    );
    expect(read(feature({ name: 'Marten', floor: '45000 ft geometric' })).told.join()).toMatch(
      /is a geometric height/,
    );
  });

  it('[AREAFILE-7] doubts a property that it does not know, since it may be one that is misspelt', () => {
    const { areas, told, doubts } = read(feature({ name: 'Marten', ceilling: '50000 ft' }));
    expect([areas?.length, told]).toEqual([1, []]);
    expect(doubts.join()).toMatch(
      /properties\.ceilling: means nothing here; an area has name, from, to, floor, ceiling/,
    );
  });
});
