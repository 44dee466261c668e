/**
 * Soundings as CSV: a header names each column with its unit, "temperature [degC]", "temperature (degC)" or "temperature_C";
 * lines that begin with # are comments; a blank cell is not reported.
 *
 * Needed are pressure, temperature and the wind, by speed and direction or by its parts to the east and north. Time (ISO 8601;
 * UTC) and position may stand in each row: a new sounding begins where the time changes and the pressure rises.
 */
import { parse } from 'csv-parse/sync';
import type { Sounding, SoundingLevel } from '../core/air/sounding.ts';
import { readTime } from '../core/quantities/time.ts';
import { type Dimension, findUnit, unitsOf } from '../core/quantities/units.ts';
import { Faults } from './faults.ts';
import { implausible, type SoundingFile, soundingFile, windTo } from './sounding-file.ts';

type Role =
  | 'pressure'
  | 'height'
  | 'temperature'
  | 'windFrom'
  | 'windSpeed'
  | 'windEast'
  | 'windNorth'
  | 'time'
  | 'latitude'
  | 'longitude';

/** Names in small letters without spaces and signs. */
const roles: Readonly<Record<string, Role>> = {
  pressure: 'pressure',
  geopotentialheight: 'height',
  height: 'height',
  temperature: 'temperature',
  airtemperature: 'temperature',
  winddirection: 'windFrom',
  windfrom: 'windFrom',
  windspeed: 'windSpeed',
  windeast: 'windEast',
  eastwardwind: 'windEast',
  windnorth: 'windNorth',
  northwardwind: 'windNorth',
  time: 'time',
  latitude: 'latitude',
  longitude: 'longitude',
};

const dimensions: Readonly<Record<Role, Dimension | null>> = {
  pressure: 'pressure',
  height: 'length',
  temperature: 'temperature',
  windFrom: 'angle',
  windSpeed: 'speed',
  windEast: 'speed',
  windNorth: 'speed',
  time: null,
  latitude: null,
  longitude: null,
};

/** Spellings of units that such files have, beside those of the list. */
const spellings: Readonly<Record<string, string>> = {
  C: 'degC',
  degree: 'deg',
  degrees: 'deg',
  knot: 'kt',
  knots: 'kt',
};

const options = { comment: '#', comment_no_infix: true, info: true, bom: true, trim: true } as const;

/** A record as csv-parse gives it with `info`. */
interface CsvRecord {
  readonly record: string[];
  readonly info: { readonly lines: number };
}

interface Column {
  readonly index: number;
  readonly factor: number;
  readonly shift: number;
}

type Columns = Partial<Record<Role, Column>>;

interface Row {
  readonly line: number;
  readonly time: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly level: SoundingLevel;
}

/** Whether a text begins with the header of such a file. */
export function looksLikeSoundingCsv(start: string): boolean {
  const header = start.split('\n').find((line) => line.trim() !== '' && !line.startsWith('#')) ?? '';
  const found = header.split(',').map((cell) => nameAndUnit(cell).role);
  return found.includes('pressure') && found.includes('temperature');
}

/** Reads a file; throws `FileFaults` with every fault of header and cells. */
export function readSoundingCsv(text: string, file: string): SoundingFile {
  const faults = new Faults();
  const remarks = new Faults();
  const [header, ...body] = parse(text, options) as unknown as CsvRecord[];
  const columns = readHeader(header.record, file, header.info.lines, faults, remarks);
  faults.throwIfAny(file);
  const rows = body.map(({ record, info }) => readRow(record, columns, file, info.lines, faults));
  faults.throwIfAny(file);
  const station = file.replace(/^.*\//, '').replace(/\.[^.]*$/, '');
  const soundings = split(rows).map((part) => soundingOf(part, station, file, faults));
  faults.throwIfAny(file);
  return soundingFile(file, soundings, remarks, []);
}

function nameAndUnit(cell: string): { role: Role | null; name: string; unit: string | null } {
  const plain = (name: string) => roles[name.toLowerCase().replace(/[^a-z]/g, '')] ?? null;
  const trimmed = cell.trim();
  const match =
    /^(.*?)\s*\[([^\]]*)\]$/.exec(trimmed) ??
    /^(.*?)\s*\(([^)]*)\)$/.exec(trimmed) ??
    (plain(trimmed) === null ? /^(.*)_([^_]+)$/.exec(trimmed) : null);
  const [name, unit] = match ? [match[1], match[2]] : [trimmed, null];
  return { role: plain(name), name, unit };
}

function readHeader(
  cells: readonly string[],
  file: string,
  line: number,
  faults: Faults,
  remarks: Faults,
): Columns {
  const place = { file, line, column: 0 };
  const columns: Columns = {};
  cells.forEach((cell, index) => {
    const { role, name, unit } = nameAndUnit(cell);
    if (role === null) {
      remarks.doubt(place, name, 'the column is not used');
      return;
    }
    if (columns[role]) faults.add(place, name, 'the column is there twice');
    const dimension = dimensions[role];
    if (dimension === null) {
      columns[role] = { index, factor: 1, shift: 0 };
      if (role === 'time') remarks.doubt(place, name, 'times are read as UTC');
      return;
    }
    const found = unit === null ? null : findUnit(spellings[unit] ?? unit, dimension);
    if (!found || unit === '') {
      const names = unitsOf(dimension).map((known) => known.name);
      const fault = unit === null ? 'the column names no unit' : `"${unit}" is no unit of it`;
      faults.add(place, name, `${fault}; it may be ${names.join(', ')}`);
      return;
    }
    // Directions stay in degrees.
    const factor = role === 'windFrom' ? found.factor * (180 / Math.PI) : found.factor;
    columns[role] = { index, factor, shift: found.shift ?? 0 };
  });
  const has = (...wanted: Role[]) => wanted.every((role) => columns[role]);
  for (const role of ['pressure', 'temperature'] as const) {
    if (!has(role)) faults.add(place, '', `there is no column "${role}"`);
  }
  if (!has('windFrom', 'windSpeed') && !has('windEast', 'windNorth')) {
    faults.add(
      place,
      '',
      'there is no wind: "wind direction" and "wind speed", or "wind east" and "wind north"',
    );
  }
  return columns;
}

function readRow(
  record: readonly string[],
  columns: Columns,
  file: string,
  line: number,
  faults: Faults,
): Row {
  const place = { file, line, column: 0 };
  const number = (role: Role) => {
    const column = columns[role];
    const cell = column ? record[column.index].trim() : '';
    if (!column || cell === '' || cell.toLowerCase() === 'nan') return Number.NaN;
    const value = Number(cell);
    if (!Number.isFinite(value)) faults.add(place, role, `"${cell}" is not a number`);
    return value * column.factor + column.shift;
  };
  const checked = (role: Role, key: Parameters<typeof implausible>[0]) => {
    const value = number(role);
    const fault = implausible(key, value);
    if (fault !== null) faults.add(place, role, fault);
    return value;
  };
  const wind = columns.windEast
    ? { windEastMS: checked('windEast', 'windEastMS'), windNorthMS: checked('windNorth', 'windNorthMS') }
    : windTo(checked('windFrom', 'windFromDeg'), checked('windSpeed', 'windSpeedMS'));
  return {
    line,
    time: columns.time ? record[columns.time.index].trim() : '',
    latitudeDeg: number('latitude'),
    longitudeDeg: number('longitude'),
    level: {
      pressurePa: checked('pressure', 'pressurePa'),
      heightM: checked('height', 'heightM'),
      temperatureK: checked('temperature', 'temperatureK'),
      ...wind,
    },
  };
}

/** Rows by sounding: a new one begins where the time changes and the pressure rises. */
function split(rows: readonly Row[]): Row[][] {
  const parts: Row[][] = [];
  let before: Row | null = null;
  for (const row of rows) {
    const begins =
      before === null || (row.time !== before.time && row.level.pressurePa > before.level.pressurePa);
    if (begins) parts.push([]);
    parts[parts.length - 1].push(row);
    before = row;
  }
  return parts;
}

function soundingOf(rows: readonly Row[], station: string, file: string, faults: Faults): Sounding {
  const [first] = rows;
  let timeS = Number.NaN;
  try {
    if (first.time !== '') timeS = readTime(first.time.endsWith('Z') ? first.time : `${first.time}Z`);
  } catch (error) {
    faults.add({ file, line: first.line, column: 0 }, 'time', (error as Error).message);
  }
  return {
    station,
    timeS,
    latitudeRad: (first.latitudeDeg * Math.PI) / 180,
    longitudeRad: (first.longitudeDeg * Math.PI) / 180,
    levels: rows.map((row) => row.level),
  };
}
