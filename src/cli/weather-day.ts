/** The day of a weather file at one place and time, read no further than is needed. */

import type { Day } from '../core/air/day.ts';
import { gridDay } from '../core/air/grid-day.ts';
import { coverage, usualGapS } from '../core/air/grid-field.ts';
import { columnOf } from '../core/air/sounding.ts';
import { type Position, readPosition } from '../core/quantities/place.ts';
import { readTime } from '../core/quantities/time.ts';
import { dayOfSounding, isSoundingFile, readSoundings, soundingAt } from '../files/soundings.ts';
import { describeWeather, readWeather, type WeatherDescription } from '../files/weather.ts';
import { Refusal, WrongUsage } from './outcome.ts';

export interface DayHere {
  readonly day: Day;
  readonly place: Position;
  /** NaN for a sounding without a time. */
  readonly timeS: number;
  /** The levels of the file. */
  readonly pressuresPa: Float64Array;
  /** What the whole file covers; the day itself is only the part around the place. */
  readonly covers: string;
}

/**
 * Opens a file at the texts of --at and --time; without a time the file must have one only. Nothing is continued. A sounding is
 * chosen by its time and holds at every place; without --at it is read where it was taken.
 */
export async function openDay(
  file: string,
  at: string | undefined,
  time: string | undefined,
  member?: string,
): Promise<DayHere> {
  const timeS = time === undefined ? null : readTime(time, '--time');
  if (isSoundingFile(file)) return openSounding(file, at, timeS);
  if (at === undefined)
    throw new WrongUsage('a grid is read at a position: --weather needs --at, such as "45.5N 85.0W"');
  return openGrid(file, readPosition(at, '--at'), timeS, memberOf(member));
}

function openSounding(file: string, at: string | undefined, timeS: number | null): DayHere {
  const soundings = readSoundings(file);
  const sounding = soundingAt(soundings, timeS);
  const day = dayOfSounding(soundings, timeS, { top: 'refuse', bottom: 'refuse' });
  const taken = Number.isNaN(sounding.latitudeRad + sounding.longitudeRad)
    ? { latitudeRad: 0, longitudeRad: 0 }
    : sounding;
  const place = at === undefined ? taken : readPosition(at, '--at');
  const { pressuresPa } = columnOf(sounding);
  return { day, place, timeS: sounding.timeS, pressuresPa, covers: day.covers };
}

/** The number of a member; undefined where none is said. */
function memberOf(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  if (!/^\d+$/.test(text))
    throw new WrongUsage(`--member "${text}": write the number of a member, such as 3`);
  return Number(text);
}

async function openGrid(
  file: string,
  place: Position,
  wantedS: number | null,
  member: number | undefined,
): Promise<DayHere> {
  const holds = await describeWeather(file);
  const timesS = Float64Array.from(holds.timesS);
  const maximumGapS = usualGapS(timesS);
  const covers = coverage({
    timesS,
    pressuresPa: Float64Array.from(holds.pressuresPa),
    latitudesRad: Float64Array.from(holds.latitudesDeg, radians),
    longitudesRad: Float64Array.from(holds.longitudesDeg, radians),
  });
  const timeS = wantedS ?? onlyTime(holds, covers);
  const { latitudeRad, longitudeRad } = place;
  const window = {
    southRad: latitudeRad,
    northRad: latitudeRad,
    westRad: longitudeRad,
    eastRad: longitudeRad,
    fromS: timeS,
    toS: timeS,
  };
  const field = await readWeather(file, window, member);
  const day = gridDay(field, { time: 'refuse', top: 'refuse', bottom: 'refuse', maximumGapS });
  return { day, place, timeS, pressuresPa: field.pressuresPa, covers };
}

function onlyTime({ file, timesS }: WeatherDescription, covers: string): number {
  if (timesS.length === 1) return timesS[0];
  throw new Refusal(`${file} has ${timesS.length} times, and --time says which; it covers ${covers}`, [
    { quantity: 'time', value: null, covers },
  ]);
}

function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}
