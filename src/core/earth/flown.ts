/**
 * A flown track as columns of equal length in time order, and the way between its nodes: the great circle through their
 * verticals, within 1 cm of the geodesic for 50 km.
 */
import { meridianRadius, primeVerticalRadius } from './ellipsoid.ts';
import type { Place } from './line.ts';

/** Columns of a flight; `timeS` since 1970. A recorded flight's columns fit as they are. */
export interface FlownTrack {
  readonly timeS: ArrayLike<number>;
  readonly latitudeRad: ArrayLike<number>;
  readonly longitudeRad: ArrayLike<number>;
  readonly pressureAltitudeM: ArrayLike<number>;
}

/** The vertical of a place: a unit vector towards (0 N 0 E, 0 N 90 E, the north pole). */
export type Vertical = readonly [x: number, y: number, z: number];

export function verticalOf({ latitudeRad, longitudeRad }: Place): Vertical {
  const level = Math.cos(latitudeRad);
  return [level * Math.cos(longitudeRad), level * Math.sin(longitudeRad), Math.sin(latitudeRad)];
}

/** The place of a vertical of any length but 0. */
export function placeOfVertical([x, y, z]: Vertical): Place {
  return { latitudeRad: Math.atan2(z, Math.sqrt(x * x + y * y)), longitudeRad: Math.atan2(y, x) };
}

export function dot(a: Vertical, b: Vertical): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

export function cross(a: Vertical, b: Vertical): Vertical {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** The angle [rad] between two verticals, exact for small ones too. */
export function angleBetween(a: Vertical, b: Vertical): number {
  const normal = cross(a, b);
  return Math.atan2(Math.sqrt(dot(normal, normal)), dot(a, b));
}

/**
 * The geodesic [m] between the places of two verticals: their angle times what the ellipsoid measures on that course half way,
 * sqrt(M^2 cos^2 + N^2 sin^2). The error is 8e-4 of it times the square of the angle [rad]: 2 cm in 100 km, 60 m in 1000 km.
 */
export function groundDistance(a: Vertical, b: Vertical): number {
  const [x, y, z] = [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
  const sinSquare = (z * z) / (x * x + y * y + z * z);
  const [dx, dy, dz] = [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
  const chordSquare = dx * dx + dy * dy + dz * dz;
  const level = chordSquare * (1 - sinSquare);
  const cosSquare = level > 0 ? Math.min(1, (dz * dz) / level) : 1;
  const square =
    cosSquare * meridianRadius(sinSquare) ** 2 + (1 - cosSquare) * primeVerticalRadius(sinSquare) ** 2;
  return 2 * Math.sqrt(square) * Math.asin(Math.min(1, 0.5 * Math.sqrt(chordSquare)));
}

/** The vertical at a part, 0 to 1, of the great circle from one to another less than half the Earth away. */
export function along(from: Vertical, to: Vertical, part: number): Vertical {
  const angle = angleBetween(from, to);
  if (angle < 1e-12) return from;
  const first = Math.sin((1 - part) * angle) / Math.sin(angle);
  const second = Math.sin(part * angle) / Math.sin(angle);
  return [
    first * from[0] + second * to[0],
    first * from[1] + second * to[1],
    first * from[2] + second * to[2],
  ];
}

/** The place at a part of the way from one place to another. */
export function between(from: Place, to: Place, part: number): Place {
  return placeOfVertical(along(verticalOf(from), verticalOf(to), part));
}

/** The place of a node of a track. */
export function placeOf(track: Pick<FlownTrack, 'latitudeRad' | 'longitudeRad'>, node: number): Place {
  return { latitudeRad: track.latitudeRad[node], longitudeRad: track.longitudeRad[node] };
}
