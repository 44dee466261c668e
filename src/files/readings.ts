/**
 * Readings of a flight, a line at a time: CSV with units in its header, JSON with the SI unit in each key, or typed by hand.
 *
 *     time, fuel [kg], mach [Mach]            CSV; the time in UTC or as h:mm since take-off
 *     {"timeS": 3000, "fuelKg": 26900}        JSON; seconds since take-off, or "time" as in CSV
 *     0:50 fuel 26900 kg, mach 2.2            typed; at the end "confirmed", "corrected" or "withdrawn" where that is meant
 *     1:56 disconnect                         the tanker was left
 */
import { type Entry, MOST_READ, type ReadKey } from '../core/airborne/reading.ts';
import { QuantityError } from '../core/quantities/errors.ts';
import { quantity } from '../core/quantities/quantities.ts';
import { readTime } from '../core/quantities/time.ts';
import { findUnit, toSI } from '../core/quantities/units.ts';
import { columnUnit, readQuantity } from '../core/quantities/values.ts';

/** Name in CSV and by hand, key, quantity. */
const names: readonly (readonly [name: string, key: ReadKey, quantity: string])[] = [
  ['fuel', 'fuelKg', 'fuelKg'],
  ['used', 'fuelUsedKg', 'fuelKg'],
  ['flow', 'fuelFlowKgS', 'fuelFlowKgS'],
  ['flowLeft', 'fuelFlowLeftKgS', 'fuelFlowKgS'],
  ['flowRight', 'fuelFlowRightKgS', 'fuelFlowKgS'],
  ['inletTemperature', 'inletTemperatureK', 'inletTemperatureK'],
  ['mach', 'mach', 'mach'],
  ['altitude', 'pressureAltitudeM', 'pressureAltitudeM'],
  ['groundSpeed', 'groundSpeedMS', 'groundSpeedMS'],
  ['distance', 'distanceM', 'distanceM'],
];

const statuses = ['confirmed', 'corrected', 'withdrawn'] as const;

/** SI of one unit in which a value was typed, for the search of slips. */
export interface TypedUnit {
  readonly scale: number;
  readonly zero: number;
}

/** The entry where its value is one that its quantity may have, in SI. */
function allowed(entry: Entry): Entry {
  const { key, value } = entry;
  if (key === 'disconnect') return entry;
  const [low, high] = quantity(named(key)[2]).range ?? [-MOST_READ, MOST_READ];
  // Only a height may be below nothing.
  const least = Math.max(low, key === 'pressureAltitudeM' ? -MOST_READ : 0);
  const most = Math.min(high, MOST_READ);
  if (value >= least && value <= most) return entry;
  throw new QuantityError(key, String(value), `must be ${least} to ${most}`);
}

/** Reads lines of one source in their order; throws `QuantityError`, its text the line. */
export class ReadingLines {
  private readonly takeOffS: number;
  private header: readonly (Column | 'time')[] | null = null;

  /** `takeOffS` as flown, in seconds since 1970. */
  constructor(takeOffS: number) {
    this.takeOffS = takeOffS;
  }

  /** The readings of a line; none of an empty one, a comment or the header of a table. */
  read(line: string): Entry[] {
    const text = line.trim();
    if (text === '' || text.startsWith('#')) return [];
    if (text.startsWith('{')) return this.fromJson(text).map(allowed);
    const cells = text.split(',').map((cell) => cell.trim());
    if (cells[0] === 'time') {
      this.header = cells.map((cell, i) => (i === 0 ? 'time' : columnOf(cell)));
      return [];
    }
    const entries = this.header === null ? this.typed(text) : this.fromCells(cells, this.header, text);
    return entries.map(allowed);
  }

  private fromCells(cells: readonly string[], header: readonly (Column | 'time')[], line: string): Entry[] {
    if (cells.length > header.length) {
      throw new QuantityError('line', line, `has ${cells.length} values for ${header.length} columns`);
    }
    const timeS = this.time(cells[0]);
    return cells.flatMap((cell, i): Entry[] => {
      const column = header[i];
      if (column === 'time' || cell === '') return [];
      const number = Number(cell);
      if (Number.isNaN(number)) throw new QuantityError(column.name, cell, 'is not a number');
      return [{ timeS, key: column.key, value: number * column.factor + column.shift, status: 'read' }];
    });
  }

  private typed(line: string): Entry[] {
    const [when, ...rest] = line.split(/\s+/);
    const words = rest.join(' ');
    const timeS = this.time(when);
    if (words === 'disconnect') return [{ timeS, key: 'disconnect', value: 0, status: 'read' }];
    const status = statuses.find((each) => words.endsWith(each));
    const values = status === undefined ? words : words.slice(0, -status.length).trim();
    if (values === '') throw new QuantityError('reading', line, 'has no value', ['0:50 fuel 26900 kg']);
    return values.split(/\s*,\s*/).map((value): Entry => {
      const [name, ...written] = value.split(' ');
      const [, key, of] = named(name);
      return { timeS, key, value: readQuantity(written.join(' '), of), status: status ?? 'read' };
    });
  }

  private fromJson(line: string): Entry[] {
    const { time, timeS, status = 'read', ...values } = parse(line);
    if (typeof status !== 'string' || !['read', ...statuses].includes(status)) {
      throw new QuantityError('status', String(status), 'is not known', statuses);
    }
    const at = typeof timeS === 'number' ? timeS : this.time(String(time));
    return Object.entries(values).map(([key, value]): Entry => {
      const isKey = key === 'disconnect' || names.some((name) => name[1] === key);
      if (!isKey)
        throw new QuantityError(
          'key',
          key,
          'is none of a reading',
          names.map((name) => name[1]),
        );
      if (typeof value !== 'number' || !Number.isFinite(value)) {
        throw new QuantityError(key, String(value), 'is not a number');
      }
      return { timeS: at, key: key as ReadKey, value, status: status as Entry['status'] };
    });
  }

  /** "1:34", "1:34:20" since take-off, or a moment in UTC. */
  private time(text: string): number {
    const match = /^(\d{1,2}):(\d\d)(?::(\d\d))?$/.exec(text);
    if (match === null) return readTime(text) - this.takeOffS;
    const [hours, minutes, seconds] = [match[1], match[2], match[3] ?? 0].map(Number);
    if (minutes > 59 || seconds > 59) throw new QuantityError('time', text, 'is not a time', ['1:34']);
    return hours * 3600 + minutes * 60 + seconds;
  }
}

interface Column {
  readonly name: string;
  readonly key: ReadKey;
  readonly factor: number;
  readonly shift: number;
}

function columnOf(cell: string): Column {
  const match = /^([A-Za-z]+)(?: \[([^\]]*)\])?$/.exec(cell);
  if (match === null)
    throw new QuantityError('column', cell, 'is not a name and a unit in brackets', ['fuel [kg]']);
  const [name, key, of] = named(match[1]);
  const unit = columnUnit(match[2] ?? '', of, name);
  return { name, key, factor: unit.factor, shift: unit.shift ?? 0 };
}

function named(name: string): (typeof names)[number] {
  const found = names.find((each) => each[0] === name || each[1] === name);
  if (!found)
    throw new QuantityError(
      'reading',
      name,
      'is not known',
      names.map((each) => each[0]),
    );
  return found;
}

function parse(line: string): Record<string, unknown> {
  try {
    return JSON.parse(line) as Record<string, unknown>;
  } catch (error) {
    throw new QuantityError('line', line, `is no JSON: ${(error as Error).message}`);
  }
}

/** The unit of the aircraft's own gauge for each reading: in it a slip of the hand is looked for. */
export function typedUnits(gauges: Readonly<Record<string, string>>): Partial<Record<ReadKey, TypedUnit>> {
  return Object.fromEntries(
    names.map(([, key, of]) => {
      const { displayUnit, dimension } = quantity(of);
      const unit = findUnit(gauges[of] ?? displayUnit, dimension);
      const zero = unit === null ? 0 : toSI(0, unit);
      return [key, { scale: unit === null ? 1 : toSI(1, unit) - zero, zero }];
    }),
  );
}

const format = 'ramrise-readings';
const version = 1;

/** First line of a log that is kept beside a plan. */
export function logHeader(fingerprint: string, takeOff: string): string {
  return `# ${format} ${version} of plan ${fingerprint}, take-off ${takeOff}\n`;
}

/** The plan that a log belongs to and its take-off, null where its first line does not say. */
export function readLogHeader(
  line: string,
): { readonly fingerprint: string; readonly takeOff: string } | null {
  const [, name, of, fingerprint, takeOff] =
    /^# (\S+) (\d+) of plan (\S+), take-off (\S+)$/.exec(line.trim()) ?? [];
  const isKnown = name === format && Number(of) === version;
  return isKnown ? { fingerprint, takeOff } : null;
}

/** An entry as a line of the log. */
export function logLine({ timeS, key, value, status }: Entry): string {
  return `${JSON.stringify({ timeS, [key]: value, ...(status === 'read' ? {} : { status }) })}\n`;
}
