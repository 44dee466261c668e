import type { LinePoint, Offset, Place } from '../../src/core/earth/line.ts';
import { FLAT_RADIUS_M } from '../../src/core/flight/frame.ts';
import type { ProjectingTrack } from '../../src/core/flight/track.ts';

/** A straight line on the flat Earth from a point (metres east and north) on a course. */
export function flatLine(eastM: number, northM: number, courseRad: number, lengthM: number): ProjectingTrack {
  const sinCourse = Math.sin(courseRad);
  const cosCourse = Math.cos(courseRad);
  return {
    lengthM,
    at(distanceM: number, out: LinePoint): void {
      out.latitudeRad = (northM + distanceM * cosCourse) / FLAT_RADIUS_M;
      out.longitudeRad = (eastM + distanceM * sinCourse) / FLAT_RADIUS_M;
      out.courseRad = courseRad;
      out.sinLatitude = Math.sin(out.latitudeRad);
      out.cosLatitude = Math.cos(out.latitudeRad);
      out.sinCourse = sinCourse;
      out.cosCourse = cosCourse;
    },
    offset(place: Place): Offset {
      const east = place.longitudeRad * FLAT_RADIUS_M - eastM;
      const north = place.latitudeRad * FLAT_RADIUS_M - northM;
      return {
        alongM: east * sinCourse + north * cosCourse,
        rightM: east * cosCourse - north * sinCourse,
      };
    },
  };
}
