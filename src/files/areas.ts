/**
 * Keep-out areas as GeoJSON (RFC 7946): a Feature or FeatureCollection of Polygon and MultiPolygon.
 *
 * `properties` have a `name`, and where the area does not hold always and at every height: `from` and `to`, both as times of day
 * in UTC ("06:00Z") or both as moments (2026-03-04T16:00Z), and `floor` and `ceiling`, pressure altitudes with their unit.
 */
import { z } from 'zod';
import type { Area, Hours, Ring } from '../core/earth/area.ts';
import { QuantityError } from '../core/quantities/errors.ts';
import { readTime } from '../core/quantities/time.ts';
import type { Faults } from './faults.ts';
import { type Path, quantityText, readYaml, type YamlFile } from './yaml.ts';

const degree = Math.PI / 180;
const known = ['name', 'from', 'to', 'floor', 'ceiling'];

/** GeoJSON of other programs writes null for what a feature does not have. */
const orNull = <T extends z.ZodType>(schema: T) => schema.nullish().transform((value) => value ?? null);

const position = z
  .array(z.number({ error: 'write a number of degrees' }), { error: 'write [longitude, latitude]' })
  .min(2, { error: 'write [longitude, latitude]' });
const rings = z.array(z.array(position, { error: 'a ring is a list of positions' })).min(1);

const geometry = z.discriminatedUnion(
  'type',
  [
    z.looseObject({ type: z.literal('Polygon'), coordinates: rings }),
    z.looseObject({ type: z.literal('MultiPolygon'), coordinates: z.array(rings).min(1) }),
  ],
  { error: 'an area is a Polygon or a MultiPolygon' },
);

const altitude = orNull(quantityText('pressureAltitudeM'));
const words = z.string({ error: 'write words here' }).min(1, { error: 'must not be empty' });

const feature = z.looseObject({
  type: z.literal('Feature', { error: 'must be Feature' }),
  properties: z.looseObject(
    { name: words, from: orNull(words), to: orNull(words), floor: altitude, ceiling: altitude },
    { error: 'an area has properties with its name' },
  ),
  geometry,
});
type Feature = z.output<typeof feature>;

const collection = z.looseObject({
  type: z.literal('FeatureCollection', { error: 'must be FeatureCollection or Feature' }),
  features: z.array(feature, { error: 'must be a list of features' }).min(1, { error: 'holds no area' }),
});

/** The areas of a text; null, with every fault collected, where it cannot be used. A property that means nothing is a doubt. */
export function readAreas(text: string, file: string, faults: Faults): Area[] | null {
  const before = faults.faults.length;
  let type: unknown;
  try {
    type = (JSON.parse(text) as { type?: unknown } | null)?.type;
  } catch (error) {
    faults.add({ file, line: 0, column: 0 }, '', `is not JSON: ${(error as Error).message}`);
    return null;
  }
  // JSON is YAML but for tabs; strings have none, so that every place stays what it was.
  const source = text.replaceAll('\t', ' ');
  const single = type === 'Feature';
  const read: YamlFile<{ features: Feature[] }> = single
    ? alone(readYaml(source, file, feature, faults))
    : readYaml(source, file, collection, faults);
  if (read.value === null) return null;
  const areas = read.value.features.map((one, i) =>
    new Reader(read.place, single ? [] : ['features', i], faults).area(one),
  );
  areas.forEach(({ name }, i) => {
    const path = single ? ['properties', 'name'] : ['features', i, 'properties', 'name'];
    const first = areas.findIndex((other) => other.name === name);
    if (first < i)
      faults.add(read.place(path), path.join('.'), `"${name}" is the name of area ${first + 1} too`);
  });
  return faults.faults.length > before ? null : areas;
}

function alone(read: YamlFile<Feature>): YamlFile<{ features: Feature[] }> {
  return { ...read, value: read.value && { features: [read.value] } };
}

/** One feature, its faults told by their path. */
class Reader {
  private readonly place: YamlFile<unknown>['place'];
  private readonly path: Path;
  private readonly faults: Faults;

  constructor(place: YamlFile<unknown>['place'], path: Path, faults: Faults) {
    this.place = place;
    this.path = path;
    this.faults = faults;
  }

  area({ properties, geometry }: Feature): Area {
    for (const key of Object.keys(properties)) {
      if (known.includes(key)) continue;
      const path = [...this.path, 'properties', key];
      const message = `means nothing here; an area has ${known.join(', ')}`;
      this.faults.doubt(this.place(path), path.map(String).join('.'), message);
    }
    const { floor, ceiling } = properties;
    if (floor !== null && ceiling !== null && !(floor < ceiling)) {
      this.fault(['properties', 'ceiling'], 'the ceiling is not above the floor');
    }
    const polygons =
      geometry.type === 'Polygon'
        ? [this.polygon(geometry.coordinates, [])]
        : geometry.coordinates.map((polygon, i) => this.polygon(polygon, [i]));
    return {
      name: properties.name,
      polygons,
      hours: this.hours(properties),
      floorM: floor,
      ceilingM: ceiling,
    };
  }

  private fault(path: Path, message: string): void {
    const full = [...this.path, ...path];
    this.faults.add(this.place(full), full.map(String).join('.'), message);
  }

  private polygon(coordinates: readonly (readonly number[][])[], path: Path): Ring[] {
    return coordinates.map((ring, i) => this.ring(ring, ['geometry', 'coordinates', ...path, i]));
  }

  /** The corners of a ring; each side takes the shorter way round, so that 179 to -179 crosses the date line. */
  private ring(positions: readonly number[][], path: Path): Ring {
    const first = positions[0];
    const last = positions[positions.length - 1];
    if (positions.length < 4 || first[0] !== last[0] || first[1] !== last[1]) {
      this.fault(path, 'a ring has four positions or more and ends where it begins');
      return [];
    }
    positions.forEach(([longitude, latitude], i) => {
      if (!(Math.abs(latitude) <= 90))
        this.fault([...path, i, 1], `latitude ${latitude} is outside -90 to 90 deg`);
      if (!(Math.abs(longitude) <= 360))
        this.fault([...path, i, 0], `longitude ${longitude} is outside -360 to 360 deg`);
    });
    const corners = [{ latitudeRad: first[1] * degree, longitudeRad: first[0] * degree }];
    let east = first[0];
    for (let i = 1; i < positions.length; i++) {
      const [[from, south], [to, north]] = [positions[i - 1], positions[i]];
      const atPole = Math.abs(south) === 90 && south === north;
      const change = to - from;
      if (!atPole && (Math.abs(change) === 180 || Math.abs(change) >= 360)) {
        this.fault(
          [...path, i],
          `a side over ${Math.abs(change)} deg of longitude may go either way: put a corner between`,
        );
      }
      east += atPole ? change : change - 360 * Math.round(change / 360);
      if (i < positions.length - 1)
        corners.push({ latitudeRad: north * degree, longitudeRad: east * degree });
    }
    if (Math.abs(east - first[0]) > 1e-9) {
      this.fault(path, 'goes round a pole: cut it along a meridian, as RFC 7946, 3.1.9 asks');
    } else if (Math.abs(twiceArea(corners)) < 1e-13) this.fault(path, 'encloses nothing');
    return corners;
  }

  private hours({ from, to }: Feature['properties']): Hours | null {
    if (from === null && to === null) return null;
    if (from === null || to === null) {
      this.fault(['properties', from === null ? 'from' : 'to'], '"from" and "to" go together');
      return null;
    }
    const ends = [this.moment('from', from), this.moment('to', to)];
    const [start, end] = ends;
    if (start === null || end === null) return null;
    if (start.daily !== end.daily) this.fault(['properties', 'to'], 'write two times of day or two moments');
    else if (start.daily ? start.s === end.s : !(start.s < end.s)) {
      this.fault(['properties', 'to'], start.daily ? 'is the same as "from"' : 'is not after "from"');
    }
    return { kind: start.daily ? 'daily' : 'once', fromS: start.s, toS: end.s };
  }

  private moment(key: string, text: string): { daily: boolean; s: number } | null {
    const clock = /^([01]\d|2[0-3]):([0-5]\d)Z$/.exec(text);
    if (clock) return { daily: true, s: Number(clock[1]) * 3600 + Number(clock[2]) * 60 };
    try {
      return { daily: false, s: readTime(text, key) };
    } catch (error) {
      if (!(error instanceof QuantityError)) throw error;
      this.fault(['properties', key], `${error.message} or a time of day such as 06:00Z`);
      return null;
    }
  }
}

/** Twice the area [rad2] of a ring on the map of latitude and longitude, with the sign of its turn. */
function twiceArea(ring: Ring): number {
  return ring.reduce((sum, a, i) => {
    const b = ring[(i + 1) % ring.length];
    return (
      sum +
      (a.longitudeRad - ring[0].longitudeRad) * b.latitudeRad -
      (b.longitudeRad - ring[0].longitudeRad) * a.latitudeRad
    );
  }, 0);
}
