/** What the view of the weather asks of the planner's worker: what the file holds, and the air above a place. */
import { resolve } from 'pathe';
import { type Day, newAir, OUTSIDE_AREA } from '../../../core/air/day.ts';
import { type AirColumn, airColumn } from '../../../core/plan/air-column.ts';
import { type Position, showPosition } from '../../../core/quantities/place.ts';
import { showTime } from '../../../core/quantities/time.ts';
import { Faults, faultText } from '../../../files/faults.ts';
import { asSaid, type ReadDay, readDay } from '../../../files/plan-request.ts';
import type { ReadSortie } from '../../../files/sortie.ts';
import { isSoundingFile, readSoundings } from '../../../files/soundings.ts';
import { describeWeather } from '../../../files/weather.ts';
import { columnSummary, gridRows, soundingRows } from '../../../present/weather-file.ts';

/** Where and when the column stands. */
export interface ColumnAt {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  /** Seconds since take-off. */
  readonly timeS: number;
  /** Height flown there; null where the flight is elsewhere. */
  readonly flownM: number | null;
  readonly topM: number;
}

export interface WeatherLook {
  readonly title: string;
  /** null on a day without a file. */
  readonly file: WeatherHeld | null;
  readonly continuedBy: readonly string[];
  readonly attribution: readonly string[];
  /** "39.60N 080.20W at 2026-02-23T17:00Z". */
  readonly where: string;
  readonly column: AirColumn;
  readonly flownM: number | null;
  /** Why the column is empty; empty where it is not. */
  readonly refused: string;
}

/** What a weather file holds. */
export interface WeatherHeld {
  readonly file: string;
  readonly rows: readonly (readonly string[])[];
  readonly remarks: readonly string[];
}

/** `weather` is the day of the sortie as it was read for its route; a place beyond that is read again. */
export async function lookAtWeather(
  read: ReadSortie,
  weather: ReadDay,
  folder: string,
  at: ColumnAt,
  held: Map<string, WeatherHeld>,
): Promise<WeatherLook> {
  const place = { latitudeRad: radians(at.latitudeDeg), longitudeRad: radians(at.longitudeDeg) };
  const timeS = read.file.takeOff.time + at.timeS;
  const faults = new Faults();
  const day = asSaid((await dayAt(read, weather, folder, place, timeS, faults)) ?? weather.day, read);
  const column = airColumn(day, place, timeS, at.topM, at.flownM === null ? [] : [at.flownM]);
  const { title, continuedBy, attribution } = day.description;
  const where = `${showPosition(place, 2)} at ${showTime(timeS)}`;
  const empty = column.basis.every((basis) => basis === 'none');
  const refused = [
    ...faults.faults.map(faultText),
    ...(empty ? [`There is no weather at ${where}; what was read covers ${day.covers}.`] : []),
  ];
  const file = await heldBy(read, folder, held);
  return {
    title,
    file,
    continuedBy,
    attribution,
    where,
    column,
    flownM: at.flownM,
    refused: refused.join(' '),
  };
}

/** The day, read around another place where that is beyond what was read; null where it cannot be. */
async function dayAt(
  read: ReadSortie,
  { day }: ReadDay,
  folder: string,
  place: Position,
  timeS: number,
  faults: Faults,
): Promise<Day | null> {
  const air = newAir();
  day.sample(place.latitudeRad, place.longitudeRad, 0, timeS, air);
  if ((air.outside & OUTSIDE_AREA) === 0) return day;
  const { latitudeRad, longitudeRad } = place;
  const window = {
    southRad: latitudeRad,
    northRad: latitudeRad,
    westRad: longitudeRad,
    eastRad: longitudeRad,
    fromS: timeS,
    toS: timeS,
  };
  return (await readDay(read, folder, window, faults))?.day ?? null;
}

async function heldBy(
  { file: { weather } }: ReadSortie,
  folder: string,
  held: Map<string, WeatherHeld>,
): Promise<WeatherHeld | null> {
  if (!('file' in weather)) return null;
  const path = resolve(folder, weather.file);
  const known = held.get(path) ?? { ...(await describe(path)), file: weather.file };
  held.set(path, known);
  return known;
}

async function describe(path: string): Promise<Pick<WeatherHeld, 'rows' | 'remarks'>> {
  if (!isSoundingFile(path)) return { rows: gridRows(await describeWeather(path)), remarks: [] };
  const { soundings, remarks } = readSoundings(path);
  return {
    rows: soundingRows(soundings),
    remarks: [
      ...remarks.list.map(faultText),
      ...soundings.flatMap((sounding) => columnSummary(sounding).remarks),
    ],
  };
}

function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}
