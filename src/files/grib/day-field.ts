/**
 * The day in a GRIB 2 file: temperature, geopotential height (or geopotential) and wind on pressure levels, as a
 * `GridField` from the ground up, from north to south and from west to east. Only the fields that are needed are decoded.
 */
import type { GridField } from '../../core/air/grid-field.ts';
import { standardGravity } from '../../core/quantities/constants.ts';
import { showTime } from '../../core/quantities/time.ts';
import { around, type FieldRole, type WeatherDescription, type WeatherWindow } from '../grid-file.ts';
import { type ByteSource, GribError } from './bytes.ts';
import { gridOf, gridText, type LatLonGrid, placeOf, samePoints } from './grid.ts';
import { findFields, type RawField } from './messages.ts';
import { type Parameter, type Product, parameterUnits, productOf, productText } from './product.ts';
import { valuesOf } from './values.ts';
import { columnsAround, longitudeOf } from './window.ts';

/** What is wanted of a file; all of it where nothing is said. */
export interface GribRequest {
  readonly window?: WeatherWindow;
  /** Member of the ensemble; needed where the file holds several. */
  readonly member?: number;
}

/** Where the fields come from, for the title and the attribution. */
export interface GribOrigin {
  /** Originating centre of common code table C-11, such as 7 for NCEP and 98 for ECMWF. */
  readonly centre: number;
  /** Start of the latest run, seconds since 1970. */
  readonly runS: number;
  /** The member that was read; null where the file is of no ensemble. */
  readonly member: number | null;
}

export type GribField = Omit<GridField, 'title' | 'attribution'> & GribOrigin;
export type GribDescription = Omit<WeatherDescription, 'file' | 'attribution'> & Omit<GribOrigin, 'member'>;

interface Entry {
  readonly field: RawField;
  readonly product: Product;
  readonly role: FieldRole;
}

const roleOf: Readonly<Record<Parameter, FieldRole>> = {
  t: 'temperature',
  gh: 'geopotential',
  z: 'geopotential',
  u: 'windEast',
  v: 'windNorth',
};
const roles: readonly FieldRole[] = ['temperature', 'geopotential', 'windEast', 'windNorth'];
const soughtAs: Readonly<Record<FieldRole, string>> = {
  temperature: 't',
  geopotential: 'gh or z',
  windEast: 'u',
  windNorth: 'v',
};
const degree = Math.PI / 180;

/** Reads the fields of a day, or the part that a window needs; throws `GribError` for what is faulty or missing. */
export async function readGrib(source: ByteSource, request: GribRequest = {}): Promise<GribField> {
  const all = entriesOf(source);
  const member = chooseMember(all, request.member);
  const entries = all.filter(({ product }) => product.member === member);
  const grid = commonGrid(entries);
  const { latitudesDeg, longitudesDeg } = grid;
  const { window } = request;
  const times = distinct(entries, (product) => product.validS);
  const timesS = window ? times.slice(...(around(times, window.fromS, window.toS) ?? [])) : times;
  const pressuresPa = distinct(entries, (product) => product.pressurePa).reverse();
  const latitudes = latitudesDeg.map((degrees) => degrees * degree);
  const rows = window ? (around(latitudes, window.southRad, window.northRad) ?? []) : [];
  const columns = columnsAround(longitudesDeg, window);
  const part = { rows: [rows[0] ?? 0, rows[1] ?? latitudes.length] as const, columns };
  const table = tableOf(entries, timesS, pressuresPa);
  return {
    ...originOf(entries, member),
    timesS,
    pressuresPa,
    latitudesRad: latitudes.slice(...part.rows),
    longitudesRad: Float64Array.from(columns, (column) => longitudeOf(longitudesDeg, column) * degree),
    temperatureK: await readRole(source, table.temperature, part),
    geopotential: await readRole(source, table.geopotential, part),
    windEastMS: await readRole(source, table.windEast, part),
    windNorthMS: await readRole(source, table.windNorth, part),
  };
}

/** What a file holds, without decoding its fields; throws `GribError`. */
export function describeGrib(source: ByteSource): GribDescription {
  const entries = entriesOf(source);
  const grid = commonGrid(entries);
  const { centre, runS } = originOf(entries, null);
  return {
    centre,
    runS,
    members: membersOf(entries),
    timesS: Array.from(distinct(entries, (product) => product.validS)),
    pressuresPa: Array.from(distinct(entries, (product) => product.pressurePa).reverse()),
    latitudesDeg: Array.from(grid.latitudesDeg),
    longitudesDeg: Array.from(grid.longitudesDeg),
    variables: roles.map((role) => {
      const name = (entries.find((entry) => entry.role === role) as Entry).product.parameter;
      return { role, name, units: parameterUnits[name] };
    }),
  };
}

/**
 * The fields that a day is made of. Averages count only where no field of the same quantity is of a moment, geopotential
 * only where there is no geopotential height.
 */
function entriesOf(source: ByteSource): Entry[] {
  const found: Entry[] = [];
  for (const field of findFields(source)) {
    const product = productOf(field);
    if (product !== null) found.push({ field, product, role: roleOf[product.parameter] });
  }
  return roles.flatMap((role) => {
    const ofRole = found.filter((entry) => entry.role === role);
    if (ofRole.length === 0)
      throw new GribError(0, `no ${role} on pressure levels (looked for ${soughtAs[role]})`);
    const ofMoment = ofRole.filter(({ product }) => !product.average);
    const kept = ofMoment.length > 0 ? ofMoment : ofRole;
    const heights = kept.filter(({ product }) => product.parameter === 'gh');
    return heights.length > 0 ? heights : kept;
  });
}

function membersOf(entries: readonly Entry[]): number[] {
  const members = new Set(entries.flatMap(({ product }) => product.member ?? []));
  return Array.from(members).sort((a, b) => a - b);
}

function chooseMember(entries: readonly Entry[], wanted: number | undefined): number | null {
  const members = membersOf(entries);
  const list = members.join(', ');
  if (wanted === undefined) {
    if (members.length > 1) throw new GribError(0, `holds the members ${list} of an ensemble; say which`);
    return members[0] ?? null;
  }
  if (members.includes(wanted)) return wanted;
  throw new GribError(
    0,
    members.length === 0 ? 'is of no ensemble' : `has no member ${wanted}, only ${list}`,
  );
}

function commonGrid(entries: readonly Entry[]): LatLonGrid {
  const [first] = entries;
  const grid = gridOf(first.field.grid);
  for (const { field } of entries) {
    const other = gridOf(field.grid);
    if (samePoints(grid, other)) continue;
    throw field.grid.fault(
      `has ${gridText(other)}, message ${first.field.messageNumber} has ${gridText(grid)}`,
    );
  }
  return grid;
}

function originOf(entries: readonly Entry[], member: number | null): GribOrigin {
  const runs = entries.map(({ product }) => product.runS);
  return {
    centre: entries[0].field.identification.unsigned(6, 2),
    runS: runs.reduce((latest, run) => Math.max(latest, run)),
    member,
  };
}

/** Values of the products, each once, ascending. */
function distinct(entries: readonly Entry[], of: (product: Product) => number): Float64Array {
  return Float64Array.from(new Set(entries.map(({ product }) => of(product)))).sort();
}

/** The entry of each time and level, time-major; throws where one is missing or held twice. */
function tableOf(
  entries: readonly Entry[],
  timesS: Float64Array,
  pressuresPa: Float64Array,
): Record<FieldRole, Entry[]> {
  const keyOf = (role: FieldRole, validS: number, pressurePa: number) => `${role} ${validS} ${pressurePa}`;
  const held = new Map<string, Entry>();
  for (const entry of entries) {
    const { product, role, field } = entry;
    const key = keyOf(role, product.validS, product.pressurePa);
    const before = held.get(key);
    if (before) {
      throw field.product.fault(
        `holds ${productText(product)} again, after message ${before.field.messageNumber}`,
      );
    }
    held.set(key, entry);
  }
  const missing: string[] = [];
  const table: Record<FieldRole, Entry[]> = {
    temperature: [],
    geopotential: [],
    windEast: [],
    windNorth: [],
  };
  for (const role of roles) {
    for (const validS of timesS) {
      for (const pressurePa of pressuresPa) {
        const entry = held.get(keyOf(role, validS, pressurePa));
        if (entry) table[role].push(entry);
        else missing.push(`${soughtAs[role]} at ${pressurePa / 100} hPa, ${showTime(validS)}`);
      }
    }
  }
  if (missing.length > 0) throw new GribError(0, `lacks ${listed(missing)}`);
  return table;
}

/** The first few of a list, and how many more there are. */
function listed(texts: readonly string[]): string {
  const shown = texts.slice(0, 4).join('; ');
  return texts.length > 4 ? `${shown}; and ${texts.length - 4} more` : shown;
}

/** Rows [from, to) from the north and columns from the west. */
interface Part {
  readonly rows: readonly [number, number];
  readonly columns: readonly number[];
}

async function readRole(source: ByteSource, entries: readonly Entry[], part: Part): Promise<Float32Array> {
  const [from, to] = part.rows;
  const out = new Float32Array(entries.length * (to - from) * part.columns.length);
  let next = 0;
  for (const { field, product } of entries) {
    const values = await valuesOf(source, field);
    const grid = gridOf(field.grid);
    const count = grid.longitudesDeg.length;
    const factor = product.parameter === 'gh' ? standardGravity : 1;
    for (let row = from; row < to; row++) {
      for (const column of part.columns) out[next++] = values[placeOf(grid, row, column % count)] * factor;
    }
  }
  return out;
}
