/** The day of a weather file at one place and time, read no further than is needed. */

import type { Day } from '../core/air/day.ts';
import { gridDay } from '../core/air/grid-day.ts';
import { coverage } from '../core/air/grid-field.ts';
import { type Position, readPosition } from '../core/quantities/place.ts';
import { readTime } from '../core/quantities/time.ts';
import { describeWeather, readWeather, type WeatherDescription } from '../files/weather.ts';
import { Refusal } from './outcome.ts';

export interface DayHere {
  readonly day: Day;
  readonly place: Position;
  readonly timeS: number;
  /** The levels of the file. */
  readonly pressuresPa: Float64Array;
  /** What the whole file covers; the day itself is only the part around the place. */
  readonly covers: string;
}

/** Opens a file at the texts of --at and --time; without a time the file must have one only. Nothing is continued. */
export async function openDay(file: string, at: string, time: string | undefined): Promise<DayHere> {
  const place = readPosition(at, '--at');
  const holds = await describeWeather(file);
  const covers = coverage({
    timesS: Float64Array.from(holds.timesS),
    pressuresPa: Float64Array.from(holds.pressuresPa),
    latitudesRad: Float64Array.from(holds.latitudesDeg, radians),
    longitudesRad: Float64Array.from(holds.longitudesDeg, radians),
  });
  const timeS = time === undefined ? onlyTime(holds, covers) : readTime(time, '--time');
  const { latitudeRad, longitudeRad } = place;
  const field = await readWeather(file, {
    southRad: latitudeRad,
    northRad: latitudeRad,
    westRad: longitudeRad,
    eastRad: longitudeRad,
    fromS: timeS,
    toS: timeS,
  });
  const day = gridDay(field, { time: 'refuse', top: 'refuse', bottom: 'refuse' });
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
