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
  /** Between two times further apart than this, s, there is no data; `usualGapS` where nothing is said. */
  readonly maximumGapS?: number;
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

const shortGapS = 3 * 3600;
const longGapS = 6 * 3600;

/** The greatest gap between times over which a field is taken as linear: its usual step, at least 3 h and at most 6 h. */
export function usualGapS(timesS: Float64Array): number {
  const steps = stepsOf(Float64Array.from(timesS).sort()).sort();
  const usual = steps.length === 0 ? 0 : steps[steps.length >> 1];
  return Math.min(longGapS, Math.max(shortGapS, usual));
}

function stepsOf(rising: Float64Array): Float64Array {
  return rising.subarray(1).map((time, i) => time - rising[i]);
}

/** The gaps of a field that are greater than allowed, in words. */
function gapsInWords(timesS: Float64Array, maximumGapS: number): string {
  const rising = Float64Array.from(timesS).sort();
  const gaps = Array.from(stepsOf(rising), (step, i) =>
    step > maximumGapS ? [`${showTime(rising[i])} to ${showTime(rising[i + 1])}`] : [],
  ).flat();
  if (gaps.length === 0) return '';
  return ` without ${gaps.join(' and ')} (gaps of more than ${Number((maximumGapS / 3600).toFixed(2))} h)`;
}

/** The range of a field in words, with the gaps in time over which it is not taken as linear. */
export function coverage(field: GridAxes, maximumGapS = usualGapS(field.timesS)): string {
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
  const without = gapsInWords(timesS, maximumGapS);
  return `${times.map(showTime).join(' to ')}${without}, ${corner(Math.min)} to ${corner(Math.max)}, ${hPa[0]} to ${hPa[1]} hPa`;
}
