/**
 * The day: what the air is at a place, a pressure altitude and a moment.
 *
 * Conventions: SI, kelvin, radians; latitude geodetic WGS-84, longitude positive east, time in seconds since
 * 1970-01-01T00:00Z; winds say where the air goes to (east and north components); altitude is pressure altitude,
 * the geopotential height at which the standard atmosphere has the pressure in question.
 */

/** The fields of a day whose gradients are known, as indices into the gradient arrays of `Air`. */
export const TEMPERATURE = 0;
export const WIND_EAST = 1;
export const WIND_NORTH = 2;
export const HEIGHT = 3;

/** The air at one point, written in place by `Day.sample` so that a step makes no garbage. */
export interface Air {
  temperatureK: number;
  pressurePa: number;
  densityKgM3: number;
  /** V of Mach 1: sqrt(1.4 R T), R = 287.053072 J/(kg K). */
  speedOfSoundMS: number;
  /** Static temperature less that of the standard atmosphere at the same pressure altitude. */
  temperatureOffsetK: number;
  windEastMS: number;
  windNorthMS: number;
  /** Height above the ellipsoid or mean sea level; the day does not tell them apart (up to 100 m). */
  geometricHeightM: number;
  /** Change of TEMPERATURE, WIND_EAST, WIND_NORTH, HEIGHT per metre of pressure altitude. */
  readonly upward: Float64Array;
  /** The same per metre east, at constant pressure altitude. */
  readonly eastward: Float64Array;
  /** The same per metre north, at constant pressure altitude. */
  readonly northward: Float64Array;
  /** The same per second, at a fixed place. */
  readonly perSecond: Float64Array;
  /** 0 where the day has data; otherwise a sum of the OUTSIDE_ marks, and the values are those of the nearest edge. */
  outside: number;
}

export const OUTSIDE_BELOW = 1;
export const OUTSIDE_ABOVE = 2;
export const OUTSIDE_AREA = 4;
export const OUTSIDE_TIME = 8;
/** The data has a hole here; the values are those of the standard atmosphere. */
export const OUTSIDE_MISSING = 16;

/** Where a day is continued beyond its data by holding the temperature offset of its edge. */
export interface DayGap {
  readonly side: 'above' | 'below';
  /** Pressure altitude of the edge. */
  readonly edgeM: number;
  /** Standard deviation of the true offset from the one held, by the distance beyond the edge; the last holds further on. */
  readonly spreads: readonly { readonly beyondM: number; readonly spreadK: number }[];
}

export interface DayDescription {
  /** 'standard', 'offset', 'non-standard', 'sounding' or 'grid'. */
  readonly kind: string;
  /** One line for the foot of a card, such as "ISA +5 K" or "ERA5 2020-02-23 16:00Z, held". */
  readonly title: string;
  /** Texts that must be printed with anything made from this day. */
  readonly attribution: readonly string[];
  /** Rules by which the day is continued beyond its data, in words ("time: hold"). */
  readonly continuedBy: readonly string[];
  /** How far the held offset may be off, for each edge that is held; none where the day is not continued. */
  readonly gaps?: readonly DayGap[];
  /** False where the column is not hydrostatic and must not be climbed through. */
  readonly hydrostatic: boolean;
}

/** The one interface behind which every kind of day stands. */
export interface Day {
  readonly description: DayDescription;
  /** Pressure altitudes, from low to high, at which the gradients of a grid jump; empty where the day has no levels. */
  readonly levelsM: readonly number[];
  /** Whether time makes no difference. */
  readonly steady: boolean;
  /** Times, rising, between which a day with levels is linear; empty on a steady one. */
  readonly timesS: readonly number[];
  /** Writes the air at a point into `air`. Never throws: outside its data it marks `air.outside`. */
  sample(latitudeRad: number, longitudeRad: number, pressureAltitudeM: number, timeS: number, air: Air): void;
  /** The range in words for an error message: "16:00Z on 2020-02-23, 30N to 54N, 100W to 75W, up to 1 hPa". */
  readonly covers: string;
}

/** An empty `Air` to be filled by `Day.sample`. */
export function newAir(): Air {
  return {
    temperatureK: 0.5,
    pressurePa: 0.5,
    densityKgM3: 0.5,
    speedOfSoundMS: 0.5,
    temperatureOffsetK: 0.5,
    windEastMS: 0.5,
    windNorthMS: 0.5,
    geometricHeightM: 0.5,
    upward: new Float64Array(4),
    eastward: new Float64Array(4),
    northward: new Float64Array(4),
    perSecond: new Float64Array(4),
    outside: 0,
  };
}
