/**
 * Where the sun stands, by the low-precision formulas of the Astronomical Almanac (page C24 of 1996; C5 of later
 * years): 0.01 degrees from 1950 to 2050, refused outside. Time is UTC taken for UT1 (0.9 s apart at most, 0.004 degrees).
 *
 * Elevation is that of the sun's centre above the plane normal to the ellipsoid's vertical, without refraction and
 * parallax (9"); azimuth is clockwise from true north.
 */
import { OutsideRange } from '../quantities/errors.ts';
import { showTime } from '../quantities/time.ts';
import type { Place } from './line.ts';

const degree = Math.PI / 180;
const daySeconds = 86400;
/** 2000-01-01T12:00Z. */
const j2000S = 946728000;
/** 1950-01-01T00:00Z and 2051-01-01T00:00Z. */
const firstS = -631152000;
const lastS = 2556144000;

/** The sun seen from the Earth's centre. */
export interface Sun {
  readonly declinationRad: number;
  /** Longitude, east positive in (-pi, pi], of the place that has it overhead. */
  readonly subsolarLongitudeRad: number;
  readonly distanceAu: number;
}

/** The sun at a moment, seconds since 1970. */
export function sunAt(timeS: number): Sun {
  if (!(timeS >= firstS && timeS < lastS)) {
    const year = Number.isNaN(timeS) ? timeS : Number.parseInt(showTime(timeS), 10);
    throw new OutsideRange('year', year, '1', 1950, 2050, "the almanac's formulas for the sun");
  }
  const days = (timeS - j2000S) / daySeconds;
  const meanLongitude = 280.461 + 0.9856474 * days;
  const anomaly = (357.528 + 0.9856003 * days) * degree;
  const longitude = (meanLongitude + 1.915 * Math.sin(anomaly) + 0.02 * Math.sin(2 * anomaly)) * degree;
  const obliquity = (23.439 - 0.0000004 * days) * degree;
  const rightAscension = Math.atan2(Math.cos(obliquity) * Math.sin(longitude), Math.cos(longitude));
  // Greenwich mean sidereal time, IAU 1982, linear part.
  const sidereal = (280.46061837 + 360.98564736629 * days) * degree;
  return {
    declinationRad: Math.asin(Math.sin(obliquity) * Math.sin(longitude)),
    subsolarLongitudeRad: within(rightAscension - sidereal),
    distanceAu: 1.00014 - 0.01671 * Math.cos(anomaly) - 0.00014 * Math.cos(2 * anomaly),
  };
}

/** An angle within (-pi, pi]. */
function within(angle: number): number {
  return angle - 2 * Math.PI * Math.ceil((angle - Math.PI) / (2 * Math.PI));
}

export interface SunInSky {
  readonly elevationRad: number;
  /** Within [0, 2 pi). */
  readonly azimuthRad: number;
}

/** The sun over a place at a moment, seconds since 1970. */
export function sunOver(place: Place, timeS: number): SunInSky {
  const { declinationRad, subsolarLongitudeRad } = sunAt(timeS);
  const hourAngle = place.longitudeRad - subsolarLongitudeRad;
  const sinLatitude = Math.sin(place.latitudeRad);
  const cosLatitude = Math.cos(place.latitudeRad);
  const sinSun = Math.sin(declinationRad);
  const cosSun = Math.cos(declinationRad);
  const up = sinLatitude * sinSun + cosLatitude * cosSun * Math.cos(hourAngle);
  const east = -cosSun * Math.sin(hourAngle);
  const north = cosLatitude * sinSun - sinLatitude * cosSun * Math.cos(hourAngle);
  const azimuth = Math.atan2(east, north);
  return {
    elevationRad: Math.atan2(up, Math.sqrt(east * east + north * north)),
    azimuthRad: azimuth < 0 ? azimuth + 2 * Math.PI : azimuth,
  };
}
