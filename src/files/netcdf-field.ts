/**
 * Gridded weather in NetCDF of either kind, on pressure levels.
 *
 * What is looked for follows the CF conventions: variables by their standard_name, else by their usual short names; scale_factor,
 * add_offset, _FillValue and missing_value applied; units read, never assumed.
 */
import { basename } from 'pathe';
import type { GridField } from '../core/air/grid-field.ts';
import { showTime } from '../core/quantities/time.ts';
import {
  around,
  aroundTurn,
  type FieldRole,
  type Range,
  type WeatherDescription,
  type WeatherWindow,
} from './grid-file.ts';
import type { NetcdfFile, NetcdfVariable } from './netcdf.ts';
import { attributionOfGrid, type Origin } from './weather-attribution.ts';
import { type Axes, type AxisRole, readAxes } from './weather-axes.ts';
import { type Conversion, conversionOf, WeatherError } from './weather-variables.ts';

interface FieldNames {
  readonly standardNames: readonly string[];
  readonly names: readonly string[];
  /** Unit to which the values are brought. */
  readonly unit: string;
}

const fieldNames: Record<FieldRole, FieldNames> = {
  temperature: { standardNames: ['air_temperature'], names: ['t', 'ta', 'temperature'], unit: 'K' },
  geopotential: {
    standardNames: ['geopotential', 'geopotential_height'],
    names: ['z', 'zg', 'gh', 'geopotential'],
    unit: 'm2/s2',
  },
  windEast: { standardNames: ['eastward_wind'], names: ['u', 'ua'], unit: 'm/s' },
  windNorth: { standardNames: ['northward_wind'], names: ['v', 'va'], unit: 'm/s' },
};

/** The fields of a file, or the part of them that a window needs; of several members the one of a number. */
export function netcdfField(file: NetcdfFile, window?: WeatherWindow, member?: number): GridField {
  const { path } = file;
  const axes = readAxes(file, findField(file, 'temperature'));
  const ranges = rangesOf(axes, window, memberIndex(path, axes.members, member));
  const read = (role: FieldRole) => readField(findField(file, role), path, role, axes, ranges);
  return {
    title: titleOf(file, axes.timesS, member),
    attribution: attributionOfGrid(path, originOf(file, axes.timesS)),
    timesS: cut(axes.timesS, ranges.time),
    pressuresPa: cut(axes.pressuresPa, ranges.level),
    latitudesRad: cut(axes.latitudesRad, ranges.latitude),
    longitudesRad: cut(axes.longitudesRad, ranges.longitude),
    temperatureK: read('temperature'),
    geopotential: read('geopotential'),
    windEastMS: read('windEast'),
    windNorthMS: read('windNorth'),
  };
}

/** What a file holds, without reading its fields. */
export function describeNetcdf(file: NetcdfFile): WeatherDescription {
  const roles = Object.keys(fieldNames) as FieldRole[];
  const fields = roles.map((role) => [role, findField(file, role)] as const);
  const axes = readAxes(file, fields[0][1]);
  const degrees = (values: Float64Array) => Array.from(values, (value) => (value * 180) / Math.PI);
  return {
    file: basename(file.path),
    members: axes.members,
    timesS: Array.from(axes.timesS),
    pressuresPa: Array.from(axes.pressuresPa),
    latitudesDeg: degrees(axes.latitudesRad),
    longitudesDeg: degrees(axes.longitudesRad),
    variables: fields.map(([role, variable]) => ({
      role,
      name: variable.name,
      units: variable.text('units') ?? '',
    })),
    attribution: attributionOfGrid(file.path, originOf(file, axes.timesS)),
  };
}

/** Index of a member; without a number the only one there is, 0 where the file is no ensemble. */
function memberIndex(path: string, members: readonly number[], member: number | undefined): number {
  if (member === undefined && members.length < 2) return 0;
  const index = member === undefined ? -1 : members.indexOf(member);
  if (index >= 0) return index;
  if (members.length === 0) throw new WeatherError(path, null, 'is of no ensemble');
  const fault = member === undefined ? 'say which member' : `there is no member ${member}`;
  throw new WeatherError(path, null, `${fault}; it has ${members.join(', ')}`);
}

function findField({ path, variables }: NetcdfFile, role: FieldRole): NetcdfVariable {
  const wanted = fieldNames[role];
  const fields = variables.filter(({ shape }) => shape.length >= 3);
  for (const standardName of wanted.standardNames) {
    const found = fields.filter((field) => field.text('standard_name') === standardName);
    if (found.length > 1) {
      const names = found.map(({ name }) => name).join(' and ');
      throw new WeatherError(path, names, `two variables with standard_name ${standardName}`);
    }
    if (found.length === 1) return found[0];
  }
  const named = fields.find(({ name }) => wanted.names.includes(name));
  if (named) return named;
  const looked = [...wanted.standardNames.map((name) => `standard_name ${name}`), ...wanted.names].join(', ');
  throw new WeatherError(path, null, `no ${role} on pressure levels (looked for ${looked})`);
}

function readField(
  variable: NetcdfVariable,
  path: string,
  role: FieldRole,
  axes: Axes,
  ranges: Ranges,
): Float32Array {
  const { name, shape } = variable;
  if (shape.length !== axes.shape.length || shape.some((length, i) => length !== axes.shape[i])) {
    throw new WeatherError(
      path,
      name,
      `has the shape ${shape.join(' x ')}, temperature ${axes.shape.join(' x ')}`,
    );
  }
  const conversion = conversionOf(variable, path, fieldNames[role].unit);
  const stored = variable.read(axes.roles.map((axis) => ranges[axis]));
  if (stored === null) throw new WeatherError(path, name, 'does not hold numbers');
  return converted(stored, conversion);
}

/** Values brought to SI as float32; float32 data that need no change are handed on as they are. */
function converted(stored: ArrayLike<number>, { factor, shift, missing }: Conversion): Float32Array {
  const real = missing.filter((value) => !Number.isNaN(value));
  if (stored instanceof Float32Array && factor === 1 && shift === 0 && real.length === 0) return stored;
  const out = new Float32Array(stored.length);
  for (let i = 0; i < out.length; i++) {
    const value = stored[i];
    out[i] = real.includes(value) ? Number.NaN : value * factor + shift;
  }
  return out;
}

function cut(values: Float64Array, range: Range | null): Float64Array {
  return range ? values.slice(range[0], range[1]) : values;
}

/** Index ranges along each axis; null is all of it. */
type Ranges = Readonly<Record<AxisRole, Range | null>>;

/** The ranges that hold one member, a window and its neighbours; all levels. */
function rangesOf(axes: Axes, window: WeatherWindow | undefined, member: number): Ranges {
  const { timesS, latitudesRad, longitudesRad } = axes;
  return {
    member: [member, member + 1],
    time: window ? around(timesS, window.fromS, window.toS) : null,
    level: null,
    latitude: window ? around(latitudesRad, window.southRad, window.northRad) : null,
    longitude: window ? aroundTurn(longitudesRad, window.westRad, window.eastRad) : null,
  };
}

function titleOf(file: NetcdfFile, timesS: Float64Array, member: number | undefined): string {
  const title = file.text('title') ?? basename(file.path).replace(/\.[^.]*$/, '');
  const times = [timesS[0], timesS[timesS.length - 1]].map(showTime);
  const when = timesS.length === 1 ? times[0] : times.join(' to ');
  return member === undefined ? `${title}, ${when}` : `${title}, member ${member}, ${when}`;
}

/** What the global attributes say of where the data come from. */
function originOf(file: NetcdfFile, timesS: Float64Array): Origin {
  const texts = (names: string[]) =>
    names.map((name) => file.text(name)).filter((text): text is string => text !== null);
  return {
    producers: texts(['institution', 'GRIB_centre', 'GRIB_centreDescription']),
    history: texts(['title', 'source', 'history']),
    hasExpver: file.variables.some(({ name }) => name === 'expver'),
    firstS: timesS[0],
  };
}
