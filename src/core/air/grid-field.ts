/** The data of a gridded day, and the rules by which it is continued. */
import { equatorialRadius, flattening } from '../quantities/constants.ts';
import { showPosition } from '../quantities/place.ts';
import { showTime } from '../quantities/time.ts';

/**
 * Fields over time, pressure, latitude and longitude. Each axis runs one way, up or down; longitudes may pass 180 or 360
 * degrees once. Values stand time-major, longitude fastest; NaN is missing.
 */
export interface GridField {
  /** Such as "ERA5 2020-02-23T16:00Z". */
  readonly title: string;
  readonly attribution: readonly string[];
  /** Seconds since 1970. */
  readonly timesS: Float64Array;
  readonly pressuresPa: Float64Array;
  readonly latitudesRad: Float64Array;
  readonly longitudesRad: Float64Array;
  readonly temperatureK: Float32Array;
  /** m2/s2 */
  readonly geopotential: Float32Array;
  readonly windEastMS: Float32Array;
  readonly windNorthMS: Float32Array;
}

type GridAxes = Pick<GridField, 'timesS' | 'pressuresPa' | 'latitudesRad' | 'longitudesRad'>;

/** How a day is continued beyond its data: `refuse` marks `outside`, the others are stated in the description. */
export interface GridRules {
  /** `hold`: before the first and after the last time, the nearest holds. */
  readonly time: 'refuse' | 'hold';
  /** `holdOffset`: above the top level its offset from the standard temperature and its wind hold. */
  readonly top: 'refuse' | 'holdOffset';
  /** The same below the lowest level. */
  readonly bottom: 'refuse' | 'holdOffset';
}

const eccentricitySquare = flattening * (2 - flattening);

/** Metres of one radian of latitude: the meridian's radius of curvature on WGS 84. */
export function metresNorth(latitudeRad: number): number {
  const w = 1 - eccentricitySquare * Math.sin(latitudeRad) ** 2;
  return (equatorialRadius * (1 - eccentricitySquare)) / w ** 1.5;
}

/** Metres of one radian of longitude: the radius of the parallel on WGS 84. */
export function metresEast(latitudeRad: number): number {
  const w = 1 - eccentricitySquare * Math.sin(latitudeRad) ** 2;
  return (equatorialRadius * Math.cos(latitudeRad)) / Math.sqrt(w);
}

/** The range of a field in words. */
export function coverage(field: GridAxes): string {
  const { timesS, pressuresPa, latitudesRad, longitudesRad } = field;
  const times = timesS.length === 1 ? [timesS[0]] : [Math.min(...timesS), Math.max(...timesS)];
  const corner = (pick: (...values: number[]) => number) =>
    showPosition(
      {
        latitudeRad: pick(...latitudesRad),
        longitudeRad: longitudesRad[pick === Math.min ? 0 : longitudesRad.length - 1],
      },
      2,
    );
  const hPa = [Math.max(...pressuresPa) / 100, Math.min(...pressuresPa) / 100];
  return `${times.map(showTime).join(' to ')}, ${corner(Math.min)} to ${corner(Math.max)}, ${hPa[0]} to ${hPa[1]} hPa`;
}
