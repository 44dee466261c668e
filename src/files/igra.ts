/**
 * Soundings in the data format of the Integrated Global Radiosonde Archive, version 2 (igra2-data-format.txt, NOAA NCEI): a header
 * line that begins with #, then as many level lines as it promises, all in fixed columns.
 *
 * Pressures are Pa, heights geopotential metres, temperatures tenths of a degree Celsius, winds whole degrees and tenths of m/s;
 * -9999 is missing, -8888 removed by quality control. A sounding with fewer levels than promised is reported, not delivered.
 */
import type { Sounding, SoundingLevel } from '../core/air/sounding.ts';
import { readTime, showTime } from '../core/quantities/time.ts';
import { Faults } from './faults.ts';
import { implausible, type SoundingFile, soundingFile, windTo } from './sounding-file.ts';

const citation =
  'Durre, Yin, Vose, Applequist, Arnfield (2016), Integrated Global Radiosonde Archive version 2, NOAA NCEI, DOI 10.7289/V5X63K0Q';

/** Columns [from, to] of a level, counted from 1. */
const levelColumns = {
  pressure: [10, 15],
  height: [17, 21],
  temperature: [23, 27],
  windFrom: [41, 45],
  windSpeed: [47, 51],
} as const;

/** Whether a text begins as this format does. */
export function looksLikeIgra(start: string): boolean {
  return /^#[A-Z0-9]{11} \d{4} \d\d \d\d \d\d /.test(start);
}

interface Header {
  readonly station: string;
  readonly timeS: number;
  readonly latitudeRad: number;
  readonly longitudeRad: number;
  readonly promised: number;
}

/** Reads a file; what is whole is delivered, all else is a remark with its line. Throws `FileFaults` where nothing is whole. */
export function readIgra(text: string, file: string): SoundingFile {
  const remarks = new Faults();
  const soundings: Sounding[] = [];
  const lines = text.split('\n').map((line) => line.replace(/\r$/, ''));
  while (lines.at(-1) === '') lines.pop();
  for (let index = 0; index < lines.length; ) {
    const remark = (line: number, message: string) =>
      remarks.doubt({ file, line: line + 1, column: 0 }, '', message);
    const header = readHeader(lines[index]);
    const start = index;
    index++;
    while (index < lines.length && !lines[index].startsWith('#')) index++;
    if (typeof header === 'string') {
      remark(start, header);
      continue;
    }
    const body = lines.slice(start + 1, index);
    if (body.length !== header.promised) {
      const ends = index === lines.length ? '; the file ends there' : '';
      remark(
        start,
        `the sounding of ${showTime(header.timeS)} promises ${header.promised} levels and has ${body.length}${ends}: left out`,
      );
      continue;
    }
    const levels = body.map((line, i) => readLevel(line, (message) => remark(start + 1 + i, message)));
    const { promised: _, ...head } = header;
    soundings.push({ ...head, levels });
  }
  return soundingFile(file, soundings, remarks, [citation]);
}

/** The header of a sounding, or what is wrong with it. */
function readHeader(line: string): Header | string {
  const match = /^#(\S{11}) (\d{4}) (\d\d) (\d\d) (\d\d) (\d{4})/.exec(line);
  if (!match) return `"${line.slice(0, 40)}" is no header of a sounding`;
  const [, station, year, month, day, hour, release] = match;
  const number = (from: number, to: number) => Number(line.slice(from - 1, to).trim() || 'nothing');
  const promised = number(33, 36);
  const latitude = number(56, 62) / 1e4;
  const longitude = number(64, 71) / 1e4;
  if (!Number.isInteger(promised) || Number.isNaN(latitude + longitude)) {
    return `the header of ${station} lacks its number of levels or its position`;
  }
  const clock = hour === '99' ? release : `${hour}00`;
  try {
    const timeS = readTime(`${year}-${month}-${day}T${clock.slice(0, 2)}:${clock.slice(2)}Z`);
    const radians = Math.PI / 180;
    return { station, timeS, latitudeRad: latitude * radians, longitudeRad: longitude * radians, promised };
  } catch (error) {
    return (error as Error).message;
  }
}

/** One level; a value that is no number or out of range is missing, with a remark. */
function readLevel(line: string, remark: (message: string) => void): SoundingLevel {
  const field = (name: keyof typeof levelColumns) => {
    const [from, to] = levelColumns[name];
    const text = line.slice(from - 1, to).trim();
    if (!/^-?\d+$/.test(text)) {
      remark(`${name} "${text}" is not a number`);
      return Number.NaN;
    }
    return text === '-9999' || text === '-8888' ? Number.NaN : Number(text);
  };
  const checked = (key: Parameters<typeof implausible>[0], value: number) => {
    const fault = implausible(key, value);
    if (fault !== null) remark(`${fault}: left out`);
    return fault === null ? value : Number.NaN;
  };
  const fromDeg = checked('windFromDeg', field('windFrom'));
  const speedMS = checked('windSpeedMS', field('windSpeed') / 10);
  return {
    pressurePa: checked('pressurePa', field('pressure')),
    heightM: checked('heightM', field('height')),
    temperatureK: checked('temperatureK', field('temperature') / 10 + 273.15),
    ...windTo(fromDeg, speedMS),
  };
}
