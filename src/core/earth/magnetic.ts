/**
 * The Earth's magnetic field by the World Magnetic Model of the date (NOAA NCEI and BGS), degree 12 with linear change,
 * evaluated by the package geomagnetism. Each edition holds for the five years from its epoch; the next one corrects it.
 *
 * Heights are above the WGS 84 ellipsoid, -1 to 850 km as the model's report allows. Declination is positive where
 * magnetic north lies east of true north. The report puts it within 0.4 degrees at low latitudes; local iron is not in it.
 */
import geomagnetism from 'geomagnetism';
import { OutsideRange } from '../quantities/errors.ts';
import { showTime } from '../quantities/time.ts';
import type { Place } from './line.ts';

const degree = Math.PI / 180;
/** First years of the editions that are at hand. */
const epochs = [2020, 2025];
const yearsOfEdition = 5;
const lowestM = -1000;
const highestM = 850_000;
/** Horizontal field [nT] below which the report calls a compass poor, and below which useless. */
const cautionNT = 6000;
const blackoutNT = 2000;

/** The model's zones round the magnetic poles, where a compass is poor ('caution') or useless ('blackout'). */
export type Compass = 'good' | 'caution' | 'blackout';

export interface MagneticField {
  readonly declinationRad: number;
  /** Positive downward. */
  readonly inclinationRad: number;
  readonly northNT: number;
  readonly eastNT: number;
  readonly downNT: number;
  readonly horizontalNT: number;
  readonly totalNT: number;
  readonly compass: Compass;
}

/** The time is outside the years of every edition. */
export class NoMagneticModel extends Error {
  readonly timeS: number;

  constructor(timeS: number) {
    const last = epochs[epochs.length - 1];
    super(
      `magnetic north: ${Number.isNaN(timeS) ? 'NaN' : showTime(timeS)} is outside ${epochs[0]}-01-01 to ${last + yearsOfEdition}-01-01, the years of the World Magnetic Models at hand (${epochs.map(nameOf).join(', ')})`,
    );
    this.name = 'NoMagneticModel';
    this.timeS = timeS;
  }
}

function nameOf(epoch: number): string {
  return `WMM${epoch}`;
}

function startOf(year: number): number {
  return Date.UTC(year) / 1000;
}

/** The edition that holds at a time, "WMM2025"; throws `NoMagneticModel`. */
export function magneticEdition(timeS: number): string {
  return nameOf(epochAt(timeS));
}

function epochAt(timeS: number): number {
  const epoch = epochs.find((first) => timeS >= startOf(first) && timeS < startOf(first + yearsOfEdition));
  if (epoch === undefined) throw new NoMagneticModel(timeS);
  return epoch;
}

/** A time as a year and its part gone, the model's measure of time. */
function decimalYear(timeS: number): number {
  const year = new Date(timeS * 1000).getUTCFullYear();
  return year + (timeS - startOf(year)) / (startOf(year + 1) - startOf(year));
}

/** Coefficients that the package has beside those that its types tell. */
interface Model extends geomagnetism.GeomagnetismModel {
  readonly main_field_coeff_h: number[];
  readonly secular_var_coeff_g: readonly number[];
}

/**
 * The package's model of an edition, moved to a time: coefficients at the epoch and their change for each year. Its own
 * dates run from an edition's release, so the epoch is asked for, which lies within them, and the rest done here.
 */
function modelAt(timeS: number): Model {
  const epoch = epochAt(timeS);
  const model = geomagnetism.model(new Date(startOf(epoch) * 1000)) as Model;
  const years = decimalYear(timeS) - epoch;
  const { main_field_coeff_g: g, main_field_coeff_h: h } = model;
  model.secular_var_coeff_g.forEach((change, i) => {
    g[i] += years * change;
  });
  model.secular_var_coeff_h.forEach((change, i) => {
    h[i] += years * change;
  });
  return model;
}

/**
 * The field of a time [s since 1970] as a function of place and height [m]; for many places at one time this is the quicker
 * way. Throws `NoMagneticModel`, the function `OutsideRange`.
 */
export function magneticFieldAt(timeS: number): (place: Place, heightM: number) => MagneticField {
  const model = modelAt(timeS);
  return ({ latitudeRad, longitudeRad }, heightM) => {
    if (!(heightM >= lowestM && heightM <= highestM)) {
      throw new OutsideRange('height', heightM, 'm', lowestM, highestM, magneticEdition(timeS));
    }
    const at = model.point([latitudeRad / degree, longitudeRad / degree, heightM / 1000]);
    return {
      declinationRad: at.decl * degree,
      inclinationRad: at.incl * degree,
      northNT: at.x,
      eastNT: at.y,
      downNT: at.z,
      horizontalNT: at.h,
      totalNT: at.f,
      compass: at.h < blackoutNT ? 'blackout' : at.h < cautionNT ? 'caution' : 'good',
    };
  };
}

/** The field at one place, height [m] and time [s since 1970]; throws `NoMagneticModel` and `OutsideRange`. About 50 us. */
export function magneticField(place: Place, heightM: number, timeS: number): MagneticField {
  return magneticFieldAt(timeS)(place, heightM);
}

/** The magnetic course [rad, 0 to 2 pi) of a true course: less the declination, both in radians. */
export function magneticCourse(courseRad: number, declinationRad: number): number {
  const course = courseRad - declinationRad;
  return course - 2 * Math.PI * Math.floor(course / (2 * Math.PI));
}
