/** `ramrise day`: the air of a weather file, at a point, as a column, or what the file holds. */
import type { Air, Day } from '../core/air/day.ts';
import { pressureAltitudeOf } from '../core/air/standard.ts';
import { type Position, showPosition } from '../core/quantities/place.ts';
import { showTime } from '../core/quantities/time.ts';
import { readQuantity, show } from '../core/quantities/values.ts';
import { isSoundingFile } from '../files/soundings.ts';
import { describeWeather } from '../files/weather.ts';
import { type Column, tableText } from '../present/table.ts';
import { gridRows, roundedDeg, windFrom } from '../present/weather-file.ts';
import { airOf } from './air-of-day.ts';
import { WrongUsage } from './outcome.ts';
import { describeSoundings } from './soundings.ts';
import { columns, say, sayJson, sheet } from './text.ts';
import { type DayHere, openDay } from './weather-day.ts';

export interface DayOptions {
  readonly at?: string;
  readonly altitude?: string;
  readonly time?: string;
  readonly member?: string;
  readonly json?: boolean;
}

export async function day(file: string, options: DayOptions): Promise<void> {
  const json = options.json === true;
  const soundings = isSoundingFile(file);
  const chosen = options.at !== undefined || (soundings && (options.altitude ?? options.time) !== undefined);
  if (!chosen) {
    if ((options.altitude ?? options.time ?? options.member) !== undefined) {
      throw new WrongUsage(
        '--altitude, --time and --member need --at, the position at which the file is read',
      );
    }
    return soundings ? describeSoundings(file, json) : describe(file, json);
  }
  const altitudeM =
    options.altitude === undefined ? null : readQuantity(options.altitude, 'pressureAltitudeM');
  const here = await openDay(file, options.at, options.time, options.member);
  if (altitudeM === null) printColumn(here, json);
  else printPoint(here, altitudeM, json);
}

function printPoint({ day, place, timeS, covers }: DayHere, altitudeM: number, json: boolean): void {
  const air = airOf(day, place, altitudeM, timeS, covers);
  const { temperatureK, windEastMS, windNorthMS, geometricHeightM, temperatureOffsetK } = air;
  const attribution = day.description.attribution;
  if (json) {
    sayJson({ temperatureK, windEastMS, windNorthMS, geometricHeightM, attribution });
    return;
  }
  say(day.description.title);
  say(placeAndTime(place, timeS));
  printRules(day);
  const rows = sheet([
    ['pressureAltitudeM', altitudeM],
    ['temperatureK', temperatureK],
    ['temperatureOffsetK', temperatureOffsetK],
    ['windEastMS', windEastMS],
    ['windNorthMS', windNorthMS],
    ['geometricHeightM', geometricHeightM],
  ]);
  for (const row of rows) say(row);
  say(
    `Wind from ${windFrom(air.windEastMS, air.windNorthMS)} deg true at ${show('windSpeedMS', windSpeed(air))}`,
  );
  printAttribution(attribution);
}

function printColumn({ day, place, timeS, pressuresPa, covers }: DayHere, json: boolean): void {
  const levels = Array.from(pressuresPa, (pressure) => {
    // The way through the logarithm is the day's own, so that the outermost levels are not beyond it by a rounding.
    const pressureAltitudeM = pressureAltitudeOf(Math.exp(Math.log(pressure)));
    const air = airOf(day, place, pressureAltitudeM, timeS, covers);
    return { pressurePa: pressure, pressureAltitudeM, air };
  }).sort((a, b) => a.pressureAltitudeM - b.pressureAltitudeM);
  const attribution = day.description.attribution;
  if (json) {
    sayJson({
      latitudeDeg: degrees(place.latitudeRad),
      longitudeDeg: degrees(place.longitudeRad),
      time: Number.isNaN(timeS) ? null : showTime(timeS),
      levels: levels.map(({ pressurePa, pressureAltitudeM, air }) => ({
        pressurePa,
        pressureAltitudeM,
        temperatureK: air.temperatureK,
        temperatureOffsetK: air.temperatureOffsetK,
        windEastMS: air.windEastMS,
        windNorthMS: air.windNorthMS,
        geometricHeightM: air.geometricHeightM,
      })),
      attribution,
    });
    return;
  }
  say(day.description.title);
  say(placeAndTime(place, timeS));
  printRules(day);
  const rows = levels.map(({ pressurePa, pressureAltitudeM, air }) => [
    show('pressurePa', pressurePa, { bare: true, decimals: 0 }),
    show('pressureAltitudeM', pressureAltitudeM, { bare: true }),
    show('geometricHeightM', air.geometricHeightM, { bare: true }),
    show('temperatureK', air.temperatureK, { bare: true }),
    signed(show('temperatureOffsetK', air.temperatureOffsetK, { bare: true })),
    windFrom(air.windEastMS, air.windNorthMS),
    show('windSpeedMS', windSpeed(air), { bare: true }),
  ]);
  say(tableText({ title: '', columns: columnHeads, rows }));
  printAttribution(attribution);
}

/** Rules by which the day stands where it was not measured. */
function printRules({ description: { continuedBy } }: Day): void {
  if (continuedBy.length > 0) say(`Continued by ${continuedBy.join('; ')}`);
}

function placeAndTime(place: Position, timeS: number): string {
  return Number.isNaN(timeS) ? showPosition(place) : `${showPosition(place)}, ${showTime(timeS)}`;
}

const columnHeads: readonly Column[] = [
  { name: 'pressure', unit: 'hPa', align: 'right' },
  { name: 'pressure altitude', unit: 'ft', align: 'right' },
  { name: 'geometric height', unit: 'ft', align: 'right' },
  { name: 'temperature', unit: 'degC', align: 'right' },
  { name: 'ISA', unit: 'K', align: 'right' },
  { name: 'wind from', unit: 'deg true', align: 'right' },
  { name: 'wind', unit: 'kt', align: 'right' },
];

async function describe(file: string, json: boolean): Promise<void> {
  const holds = await describeWeather(file);
  const times = holds.timesS.map(showTime);
  const { pressuresPa, latitudesDeg, longitudesDeg, members, variables, attribution } = holds;
  if (json) {
    sayJson({
      file: holds.file,
      times,
      pressuresPa,
      latitudesDeg: latitudesDeg.map(roundedDeg),
      longitudesDeg: longitudesDeg.map(roundedDeg),
      members,
      variables,
      attribution,
    });
    return;
  }
  say(holds.file);
  for (const row of columns(gridRows(holds), (column) => column === 1)) say(row);
  printAttribution(attribution);
}

function printAttribution(attribution: readonly string[]): void {
  for (const text of attribution) say(`\n${text}`);
}

function windSpeed(air: Air): number {
  return Math.hypot(air.windEastMS, air.windNorthMS);
}

function signed(number: string): string {
  return number.startsWith('-') ? number : `+${number}`;
}

function degrees(radians: number): number {
  return (radians * 180) / Math.PI;
}
