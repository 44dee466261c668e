/**
 * A keep-out area: polygons on the ground with the heights and hours in which it holds.
 *
 * Sides are straight in latitude and longitude, as RFC 7946 section 3.1.1 says, not geodesics. Rings are closed without
 * repeating the first corner, their longitudes running on across 180 degrees. Inside is what an odd number of rings goes
 * round; the sides belong to it. Altitudes are pressure altitudes, because that is what the aircraft flies.
 */
import { OutsideRange } from '../quantities/errors.ts';
import { angleBetween, dot, type Vertical, verticalOf } from './flown.ts';
import type { Place } from './line.ts';
import { merged, partWithin, type Span } from './segment.ts';

/** Latitude and longitude of each corner in turn; longitudes differ by less than pi from corner to corner. */
export type Ring = readonly Place[];

/** When it holds: every day between two times of day (past midnight where the second is not later), or once. */
export type Hours =
  | { readonly kind: 'daily'; readonly fromS: number; readonly toS: number }
  | { readonly kind: 'once'; readonly fromS: number; readonly toS: number };

export interface Area {
  readonly name: string;
  /** Each polygon: its outer ring, then its holes. */
  readonly polygons: readonly (readonly Ring[])[];
  /** null: always. Daily times are seconds after 00:00 UTC, others since 1970. */
  readonly hours: Hours | null;
  /** Pressure altitudes [m]; null: from the surface, without an upper end. */
  readonly floorM: number | null;
  readonly ceilingM: number | null;
}

/** A piece of a side, short enough to be a great circle within 1 m. */
export interface Piece {
  readonly from: Vertical;
  readonly to: Vertical;
}

/** An area made ready for tests: its sides in pieces, and a cap of the Earth that holds them all. */
export interface PreparedArea {
  readonly area: Area;
  readonly pieces: readonly Piece[];
  readonly centre: Vertical;
  /** Angle [rad] from the centre to the farthest point of a side. */
  readonly reachRad: number;
  /** Length of the longest piece [rad]. */
  readonly longestRad: number;
}

/** Longest piece [rad]. */
const pieceRad = 0.01;
/** An eighth of the Earth's radius [1/m of arrow]: a side that turns by an angle leaves its great circle by this much. */
const arrow = 8e5;
const daySeconds = 86_400;
const almostPole = Math.PI / 2 - 1e-9;

/** Cuts the sides of an area into pieces; throws `OutsideRange` for a ring of less than three corners or round a pole. */
export function prepareArea(area: Area): PreparedArea {
  const rings = area.polygons.flat();
  for (const ring of rings) {
    if (ring.length < 3) {
      throw new OutsideRange('corners of a ring', ring.length, '1', 3, Number.POSITIVE_INFINITY, area.name);
    }
    const closing = Math.abs(ring[ring.length - 1].longitudeRad - ring[0].longitudeRad);
    if (!(closing < Math.PI)) {
      throw new OutsideRange('longitude over which a ring closes', closing, 'rad', 0, Math.PI, area.name);
    }
  }
  const pieces = withoutCuts(
    rings.flatMap((ring) => ring.flatMap((corner, i) => cut(corner, ring[(i + 1) % ring.length]))),
  );
  const sum: [number, number, number] = [0, 0, 0];
  for (const { from } of pieces) for (const axis of [0, 1, 2]) sum[axis] += from[axis];
  const length = Math.sqrt(dot(sum, sum));
  const centre: Vertical =
    length > 1e-6 * pieces.length ? [sum[0] / length, sum[1] / length, sum[2] / length] : [0, 0, 1];
  const reachRad =
    pieces.reduce((most, { from }) => Math.max(most, angleBetween(centre, from)), 0) + pieceRad;
  const longestRad = pieces.reduce((most, { from, to }) => Math.max(most, angleBetween(from, to)), 0);
  return { area, pieces, centre, reachRad, longestRad };
}

function cut(from: Place, to: Place): Piece[] {
  const north = to.latitudeRad - from.latitudeRad;
  const east = to.longitudeRad - from.longitudeRad;
  // How a straight line in latitude and longitude turns against the great circle: by east^2 / 2 and 2 north east at most.
  const turning = 0.5 * east * east + 2 * Math.abs(north * east);
  const longest = Math.max(Math.abs(north), Math.abs(east));
  const count = Math.max(1, Math.ceil(Math.sqrt(arrow * turning)), Math.ceil(longest / pieceRad));
  // Two sides share their corner to the last bit, so that no track slips between them.
  const at = (i: number) =>
    verticalOf(
      i === count
        ? to
        : {
            latitudeRad: from.latitudeRad + (north * i) / count,
            longitudeRad: from.longitudeRad + (east * i) / count,
          },
    );
  return Array.from({ length: count }, (_, i) => ({ from: at(i), to: at(i + 1) })).filter(
    (piece) => angleBetween(piece.from, piece.to) > 1e-12,
  );
}

/** Without the sides that two polygons share: the cut along 180 degrees that RFC 7946 section 3.1.9 asks for is no border. */
function withoutCuts(pieces: readonly Piece[]): Piece[] {
  const ends = ({ from, to }: Piece) =>
    [from, to]
      .map((end) => end.map((x) => Math.round(x * 1e9) + 0).join())
      .sort()
      .join();
  const seen = new Map<string, number>();
  for (const piece of pieces) seen.set(ends(piece), (seen.get(ends(piece)) ?? 0) + 1);
  return pieces.filter((piece) => seen.get(ends(piece)) === 1);
}

/** Whether a place lies in an area, whatever the height and the hour. On a side it may be either. */
export function contains(area: Area, place: Place): boolean {
  return area.polygons.some((rings) => {
    const crossings = rings.reduce((sum, ring) => sum + crossingsOf(ring, place), 0);
    return crossings % 2 === 1;
  });
}

/** How many sides of a ring lie to the east of a place. */
function crossingsOf(ring: Ring, place: Place): number {
  const latitude = Math.max(-almostPole, Math.min(almostPole, place.latitudeRad));
  const turn = 2 * Math.PI;
  const west = ring.reduce((least, corner) => Math.min(least, corner.longitudeRad), Number.POSITIVE_INFINITY);
  const longitude = place.longitudeRad - turn * Math.floor((place.longitudeRad - west) / turn);
  let count = 0;
  ring.forEach((a, i) => {
    const b = ring[(i + 1) % ring.length];
    if (a.latitudeRad > latitude === b.latitudeRad > latitude) return;
    const part = (latitude - a.latitudeRad) / (b.latitudeRad - a.latitudeRad);
    if (a.longitudeRad + part * (b.longitudeRad - a.longitudeRad) > longitude) count++;
  });
  return count;
}

/** The parts, 0 to 1, of the time from one moment to a later one in which an area holds. */
export function hoursWithin(hours: Hours | null, fromS: number, toS: number): Span[] {
  if (hours === null) return [[0, 1]];
  if (hours.kind === 'once')
    return [partWithin(fromS, toS, hours.fromS, hours.toS)].filter((span) => span !== null);
  const lengthS = hours.toS - hours.fromS + (hours.toS > hours.fromS ? 0 : daySeconds);
  const spans: Span[] = [];
  for (let day = Math.floor(fromS / daySeconds) - 1; day * daySeconds <= toS; day++) {
    const opensS = day * daySeconds + hours.fromS;
    const span = partWithin(fromS, toS, opensS, opensS + lengthS);
    if (span) spans.push(span);
  }
  return merged(spans);
}
