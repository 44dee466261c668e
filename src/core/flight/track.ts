/** A way over the ellipsoid, parametrised by the distance along it. A prepared geodesic line is one; so is a parallel. */
export interface Track {
  readonly lengthM: number;
  /** Place and course (clockwise from true north) at a distance from the start; valid some way beyond both ends. */
  at(distanceM: number, out: TrackPoint): void;
}

export interface TrackPoint {
  latitudeRad: number;
  longitudeRad: number;
  courseRad: number;
}

/** A track onto which a place can be projected; a turn rolls out on one. */
export interface ProjectingTrack extends Track {
  /** Distance along the track of the foot of the perpendicular from a place, and the offset to the right of it. */
  crossTrack(latitudeRad: number, longitudeRad: number): { readonly alongM: number; readonly rightM: number };
}
