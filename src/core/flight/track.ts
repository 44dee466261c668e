import type { LinePoint, Offset, Place } from '../earth/line.ts';

/** A way over the ellipsoid, parametrised by the distance along it. A prepared geodesic `Line` is one; so is a parallel. */
export interface Track {
  readonly lengthM: number;
  /** Place and course at a distance from the start; valid up to 399 km beyond both ends. */
  at(distanceM: number, out: LinePoint): void;
}

/** A track onto which a place can be projected; a turn rolls out on one. */
export interface ProjectingTrack extends Track {
  offset(place: Place): Offset;
}

/** How far beyond its ends a track may be read. */
export const TRACK_MARGIN_M = 399_000;
