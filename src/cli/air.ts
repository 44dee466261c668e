/** `ramrise air`: every air-data quantity at an altitude and a speed. */
import { airData, machFromSpeed, type SpeedKey } from '../core/air/airdata-record.ts';
import type { Air, Day } from '../core/air/day.ts';
import { nonStandardDay, nonStandardDays } from '../core/air/mil-std-210a.ts';
import { offsetDay, standardDay } from '../core/air/offset-day.ts';
import { readOneOf, readQuantity, speedKeys } from '../core/quantities/values.ts';
import { airOf } from './air-of-day.ts';
import { WrongUsage } from './outcome.ts';
import { say, sayJson, sheet } from './text.ts';

export interface AirOptions {
  readonly altitude: string;
  readonly speed: string;
  readonly offset?: string;
  readonly day?: string;
  readonly weather?: string;
  readonly at?: string;
  readonly time?: string;
  readonly member?: string;
  readonly json?: boolean;
}

export async function air(options: AirOptions): Promise<void> {
  const speed = readOneOf(options.speed, 'speed', speedKeys);
  const altitudeM = readQuantity(options.altitude, 'pressureAltitudeM');
  const { day, at } = await airFor(options, altitudeM);
  const data = airData(altitudeM, at, machFromSpeed(speed.key as SpeedKey, speed.si, at));
  const attribution = day.description.attribution;
  if (options.json) {
    sayJson(attribution.length > 0 ? { ...data, attribution } : data);
    return;
  }
  say(day.description.title);
  for (const line of sheet(Object.entries(data))) say(line);
  for (const text of attribution) say(`\n${text}`);
}

async function airFor(options: AirOptions, altitudeM: number): Promise<{ day: Day; at: Air }> {
  const chosen = (['day', 'offset', 'weather'] as const).filter((key) => options[key] !== undefined);
  if (chosen.length > 1) {
    const names = chosen.map((key) => `--${key}`).join(' and ');
    throw new WrongUsage(`${names} exclude each other: each has its own temperature`);
  }
  if (options.weather !== undefined) {
    const { openDay } = await import('./weather-day.ts');
    const { day, place, timeS, covers } = await openDay(
      options.weather,
      options.at,
      options.time,
      options.member,
    );
    return { day, at: airOf(day, place, altitudeM, timeS, covers) };
  }
  if ((options.at ?? options.time ?? options.member) !== undefined) {
    throw new WrongUsage('--at, --time and --member go with --weather: any other day is the same everywhere');
  }
  const day = dayFor(options);
  return { day, at: airOf(day, { latitudeRad: 0, longitudeRad: 0 }, altitudeM, 0) };
}

function dayFor({ day, offset }: AirOptions): Day {
  if (offset !== undefined) return offsetDay(readQuantity(offset, 'temperatureOffsetK'));
  if (day === undefined || day === 'standard') return standardDay;
  const name = nonStandardDays.find((candidate) => candidate === day);
  if (!name) throw new WrongUsage(`--day "${day}": write standard, ${nonStandardDays.join(', ')}`);
  return nonStandardDay(name);
}
