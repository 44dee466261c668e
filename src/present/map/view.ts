/**
 * The part of the Earth that a map shows, and where its places lie on the drawing.
 *
 * Oblique stereographic about the middle of what is to be seen: angles are true, so that turns as flown are arcs and a wind stands
 * at its true angle to the track, over the poles and the date line too. Lengths grow outwards by 1 / cos(c / 2)^2 at an angle c
 * from the middle: 3 % at 1200 nm (Snyder, Map Projections, USGS Professional Paper 1395, 1987, eq. 21-4). A sphere stands for the
 * ellipsoid: 0.2 % of a length.
 *
 * Lengths of the drawing are in any unit, y down; places are [longitude, latitude] in degrees.
 */
import { type GeoPermissibleObjects, type GeoProjection, geoPath, geoStereographic } from 'd3-geo';
import type { Line } from './outlines.ts';

export type LonLat = readonly [number, number];
export type Point = readonly [number, number];

export interface MapSize {
  readonly width: number;
  readonly height: number;
  /** Of the labels, in the unit of width and height. */
  readonly textSize: number;
}

export interface View {
  readonly size: MapSize;
  readonly centre: LonLat;
  /** Angle from the centre to the farthest corner of the frame, degrees. */
  readonly radiusDeg: number;
  /** Metres for a unit of the drawing in the middle of the map. */
  readonly metresPerUnit: number;
  place(at: LonLat): Point;
  /** The place at a point of the drawing. */
  at(point: Point): LonLat;
  inside(at: Point): boolean;
  /** Path of lines along great circles, cut at the frame; drawn once for the same lines. */
  lines(lines: readonly Line[]): string;
  /** Path of areas, whichever way their rings run, closed or not; the first ring of each is its outside. */
  areas(polygons: readonly (readonly Line[])[]): string;
  /** The middle of the part of some areas that lies in the frame; null where none does. */
  middle(polygons: readonly (readonly Line[])[]): Point | null;
}

const degree = Math.PI / 180;
/** Mean radius (2a + b) / 3 of WGS 84. */
const earthRadiusM = 6_371_008.8;
/** Part of the drawing left free on each side. */
const room = 0.09;
/** A map is drawn larger where its places fill less than this part of it, both ways. */
const leastFilled = 0.6;
/** A map shows at least this. */
const leastWidthM = 200_000;

/** A view that holds all of the places, with room around. */
export function viewOf(places: readonly LonLat[], size: MapSize): View {
  const { width, height } = size;
  const centre = middleOf(places);
  const projection = geoStereographic()
    .rotate([-centre[0], -centre[1]])
    .clipAngle(140)
    .precision(0.03 * size.textSize);
  const margin = room * Math.min(width, height);
  const box: [[number, number], [number, number]] = [
    [margin, margin],
    [width - margin, height - margin],
  ];
  projection.fitExtent(box, { type: 'MultiPoint', coordinates: places as [number, number][] });
  // tan(c / 2) is half of c in the middle.
  const greatestScale = (2 * earthRadiusM * width) / leastWidthM;
  if (!(projection.scale() < greatestScale)) {
    projection.scale(greatestScale).translate([width / 2, height / 2]);
  }
  projection.clipExtent([
    [0, 0],
    [width, height],
  ]);
  return viewThrough(projection, size, centre);
}

/** Whether a view still serves: it holds all of the places and is filled by them. */
export function serves(view: View, places: readonly LonLat[]): boolean {
  const { width, height } = view.size;
  const edge = 0.02 * Math.min(width, height);
  let [left, right, top, bottom] = [width, 0, height, 0];
  for (const place of places) {
    const [x, y] = view.place(place);
    [left, right] = [Math.min(left, x), Math.max(right, x)];
    [top, bottom] = [Math.min(top, y), Math.max(bottom, y)];
  }
  const inside = left >= edge && right <= width - edge && top >= edge && bottom <= height - edge;
  return inside && Math.max((right - left) / width, (bottom - top) / height) >= leastFilled;
}

function viewThrough(projection: GeoProjection, size: MapSize, centre: LonLat): View {
  const { width, height } = size;
  const scale = projection.scale();
  const [x0, y0] = projection.translate();
  const reach = Math.hypot(Math.max(x0, width - x0), Math.max(y0, height - y0));
  const radiusDeg = (2 * Math.atan(reach / scale)) / degree;
  const path = geoPath(projection).digits(size.textSize > 6 ? 1 : 2);
  const draw = (what: GeoPermissibleObjects): string => path(what) ?? '';
  const shape = (polygons: readonly (readonly Line[])[]): GeoPermissibleObjects => {
    const coordinates = polygons.map((rings) => rings.map((ring, i) => turned(closed(ring), i === 0)));
    return { type: 'MultiPolygon', coordinates };
  };
  const drawn = new WeakMap<readonly Line[], string>();
  return {
    size,
    centre,
    radiusDeg,
    metresPerUnit: (2 * earthRadiusM) / scale,
    place: (at) => projection([at[0], at[1]]) ?? [Number.NaN, Number.NaN],
    at: (point) => projection.invert?.([point[0], point[1]]) ?? centre,
    inside: ([x, y]) => x >= 0 && x <= width && y >= 0 && y <= height,
    lines: (lines) => {
      let path = drawn.get(lines);
      if (path === undefined) {
        const coordinates = lines.filter((line) => inBand(line, centre[1], radiusDeg)) as [
          number,
          number,
        ][][];
        path = draw({ type: 'MultiLineString', coordinates });
        drawn.set(lines, path);
      }
      return path;
    },
    areas: (polygons) => draw(shape(polygons)),
    middle: (polygons) => {
      const at = path.centroid(shape(polygons));
      return Number.isFinite(at[0]) && Number.isFinite(at[1]) ? at : null;
    },
  };
}

/** Whether some of a line lies as far north and south as the map: most of the world does not and need not be drawn. */
function inBand(line: Line, latitude: number, radiusDeg: number): boolean {
  return line.some((point) => Math.abs(point[1] - latitude) <= radiusDeg);
}

function closed(ring: Line): Line {
  const [first, last] = [ring[0], ring[ring.length - 1]];
  return first[0] === last[0] && first[1] === last[1] ? ring : [...ring, first];
}

/** An outside ring clockwise and a hole counter-clockwise, as d3 takes them: the reverse of RFC 7946. */
function turned(ring: Line, outside: boolean): [number, number][] {
  const points = ring as [number, number][];
  return isClockwise(ring) === outside ? points : [...points].reverse();
}

/** Whether the smaller side of a ring lies to its right. */
export function isClockwise(ring: Line): boolean {
  let sum = [0, 0, 0];
  for (let i = 1; i < ring.length; i++) sum = plus(sum, crossOf(vertical(ring[i - 1]), vertical(ring[i])));
  const middle = ring.map(vertical).reduce(plus, [0, 0, 0]);
  return sum[0] * middle[0] + sum[1] * middle[1] + sum[2] * middle[2] < 0;
}

/** The middle of the smallest cap around some places, nearly: a hundred steps towards the farthest (Badoiu and Clarkson 2003). */
function middleOf(places: readonly LonLat[]): LonLat {
  const all = places.map(vertical);
  let middle = all.reduce(plus, [0, 0, 0]);
  middle = unit(middle);
  for (let step = 1; step <= 100; step++) {
    let farthest = all[0];
    let least = 2;
    for (const one of all) {
      const cosine = one[0] * middle[0] + one[1] * middle[1] + one[2] * middle[2];
      if (cosine >= least) continue;
      least = cosine;
      farthest = one;
    }
    const part = 1 / (step + 1);
    middle = unit(middle.map((value, i) => value + part * (farthest[i] - value)));
  }
  const [x, y, z] = middle;
  return [Math.atan2(y, x) / degree, Math.asin(Math.max(-1, Math.min(1, z))) / degree];
}

function vertical([longitude, latitude]: LonLat): number[] {
  const level = Math.cos(latitude * degree);
  return [
    level * Math.cos(longitude * degree),
    level * Math.sin(longitude * degree),
    Math.sin(latitude * degree),
  ];
}

function plus(a: readonly number[], b: readonly number[]): number[] {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
}

function crossOf(a: readonly number[], b: readonly number[]): number[] {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** A vector as long as 1; one without a direction, as of places all around the Earth, points to 0 N 0 E. */
function unit(vector: readonly number[]): number[] {
  const length = Math.hypot(vector[0], vector[1], vector[2]);
  return length > 1e-9 ? vector.map((value) => value / length) : [1, 0, 0];
}
