/** What the readers of sounding files share: the result, and the ranges outside which a value is no measurement. */
import type { Sounding, SoundingLevel } from '../core/air/sounding.ts';
import { Faults } from './faults.ts';

export interface SoundingFile {
  readonly file: string;
  /** Every sounding that is whole, in the order of the file. */
  readonly soundings: readonly Sounding[];
  /** What was left out or filled, each with its line. */
  readonly remarks: Faults;
  readonly attribution: readonly string[];
}

type Value = keyof SoundingLevel | 'windSpeedMS' | 'windFromDeg';

interface Range {
  readonly name: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
}

/** Wider than any record: what is outside is an error of the file. */
const ranges: Readonly<Record<Value, Range>> = {
  pressurePa: { name: 'pressure', unit: 'Pa', low: 1, high: 115_000 },
  heightM: { name: 'height', unit: 'm', low: -1000, high: 80_000 },
  temperatureK: { name: 'temperature', unit: 'K', low: 130, high: 340 },
  windEastMS: { name: 'wind to the east', unit: 'm/s', low: -250, high: 250 },
  windNorthMS: { name: 'wind to the north', unit: 'm/s', low: -250, high: 250 },
  windSpeedMS: { name: 'wind speed', unit: 'm/s', low: 0, high: 250 },
  windFromDeg: { name: 'wind direction', unit: 'deg', low: 0, high: 360 },
};

/** Why a value is no measurement; null where it may be one or is missing. */
export function implausible(key: Value, value: number): string | null {
  const { name, unit, low, high } = ranges[key];
  if (Number.isNaN(value) || (value >= low && value <= high)) return null;
  return `${name} ${Number(value.toPrecision(6))} ${unit} is outside ${low} to ${high} ${unit}`;
}

/** Components of a wind [m/s] given by where it comes from [deg]; a calm needs no direction. */
export function windTo(fromDeg: number, speedMS: number): { windEastMS: number; windNorthMS: number } {
  if (speedMS === 0) return { windEastMS: 0, windNorthMS: 0 };
  const from = (fromDeg * Math.PI) / 180;
  return { windEastMS: -speedMS * Math.sin(from), windNorthMS: -speedMS * Math.cos(from) };
}

/** The result of a reader, or `FileFaults` with all that is wrong where no sounding is whole. */
export function soundingFile(
  file: string,
  soundings: readonly Sounding[],
  remarks: Faults,
  attribution: readonly string[],
): SoundingFile {
  if (soundings.length > 0) return { file, soundings, remarks, attribution };
  const faults = new Faults();
  for (const { place, path, message } of remarks.doubts) faults.add(place, path, message);
  faults.add({ file, line: 0, column: 0 }, '', 'holds no sounding that is whole');
  faults.throwIfAny(file);
  throw new Error(`${file} holds no sounding`);
}
