/** Axes of a NetCDF file on pressure levels: member, time, level, latitude, longitude, found from the dimensions of a field. */
import { readTime } from '../core/quantities/time.ts';
import type { NetcdfFile, NetcdfVariable } from './netcdf.ts';
import { conversionOf, WeatherError } from './weather-variables.ts';

export type AxisRole = 'member' | 'time' | 'level' | 'latitude' | 'longitude';

export interface Axes {
  /** What each dimension of a field is, slowest first. */
  readonly roles: readonly AxisRole[];
  /** Lengths of the dimensions of a field. */
  readonly shape: readonly number[];
  /** Numbers of the members of an ensemble; none where the file has no such dimension. */
  readonly members: readonly number[];
  /** Seconds since 1970; one where the file has a time that is no dimension. */
  readonly timesS: Float64Array;
  readonly pressuresPa: Float64Array;
  readonly latitudesRad: Float64Array;
  readonly longitudesRad: Float64Array;
}

const axisNames: Record<AxisRole, { readonly standardName: string; readonly names: readonly string[] }> = {
  member: { standardName: 'realization', names: ['number', 'realization', 'member', 'ensemble'] },
  time: { standardName: 'time', names: ['time', 'valid_time'] },
  level: {
    standardName: 'air_pressure',
    names: ['pressure_level', 'level', 'plev', 'isobaricInhPa', 'isobaric', 'lev'],
  },
  latitude: { standardName: 'latitude', names: ['latitude', 'lat'] },
  longitude: { standardName: 'longitude', names: ['longitude', 'lon'] },
};

/** The dimensions that every field has, last and in this order; a member and a time may stand before them. */
const inner: readonly AxisRole[] = ['level', 'latitude', 'longitude'];

/** The axes of a field: member and time in any order, either or both left out, then level, latitude, longitude. */
export function readAxes(file: NetcdfFile, field: NetcdfVariable): Axes {
  const { path } = file;
  const variables = field.dimensions.map((name) => file.variables.find((variable) => variable.name === name));
  const found = variables.filter((variable) => variable !== undefined);
  if (found.length < variables.length) {
    throw new WeatherError(path, field.name, 'has a dimension without coordinates');
  }
  const roles = found.map(roleOf);
  const outer = roles.slice(0, -3);
  const known = outer.every((role, i) => (role === 'time' || role === 'member') && outer.indexOf(role) === i);
  if (!known || roles.slice(-3).join() !== inner.join()) {
    const names = field.dimensions.join(', ');
    throw new WeatherError(
      path,
      field.name,
      `has the dimensions ${names}; needed are time, level, latitude, longitude, and there may be a member`,
    );
  }
  const [level, latitude, longitude] = found.slice(-3);
  const member = found[roles.indexOf('member')];
  const pressure = conversionOf(level, path, 'Pa');
  return {
    roles: roles as AxisRole[],
    shape: field.shape,
    members: member ? Array.from(axisValues(member, path)) : [],
    timesS: readTimes(found[roles.indexOf('time')] ?? scalarTime(file), path),
    pressuresPa: axisValues(level, path).map((value) => value * pressure.factor + pressure.shift),
    latitudesRad: readAngles(latitude, path, 'degrees_north'),
    longitudesRad: readAngles(longitude, path, 'degrees_east'),
  };
}

function roleOf(variable: NetcdfVariable): AxisRole | null {
  const standardName = variable.text('standard_name');
  const roles = Object.keys(axisNames) as AxisRole[];
  const byStandard = roles.find((role) => axisNames[role].standardName === standardName);
  return byStandard ?? roles.find((role) => axisNames[role].names.includes(variable.name)) ?? null;
}

function scalarTime({ path, variables }: NetcdfFile): NetcdfVariable {
  const found = variables.find((variable) => roleOf(variable) === 'time');
  if (!found) throw new WeatherError(path, null, 'has no time');
  return found;
}

function axisValues(variable: NetcdfVariable, path: string): Float64Array {
  const values = variable.read();
  if (values === null) throw new WeatherError(path, variable.name, 'does not hold numbers');
  return Float64Array.from(values);
}

function readAngles(
  variable: NetcdfVariable,
  path: string,
  unit: 'degrees_north' | 'degrees_east',
): Float64Array {
  const written = variable.text('units') ?? '';
  // CF 4.1 and 4.2 allow these spellings.
  const side = unit.slice(8, 9).toUpperCase();
  const allowed = [
    unit,
    unit.replace('degrees', 'degree'),
    `degree_${side}`,
    `degrees_${side}`,
    `degree${side}`,
  ];
  if (!allowed.includes(written)) {
    throw new WeatherError(path, variable.name, `unit "${written}" where ${unit} is needed`);
  }
  return axisValues(variable, path).map((value) => (value * Math.PI) / 180);
}

const secondsOf: Readonly<Record<string, number>> = {
  second: 1,
  sec: 1,
  s: 1,
  minute: 60,
  min: 60,
  hour: 3600,
  h: 3600,
  day: 86400,
};
const calendars = ['standard', 'gregorian', 'proleptic_gregorian'];

/** Times as seconds since 1970 from "hours since 1900-01-01 00:00:00" and its like; UTC. */
function readTimes(variable: NetcdfVariable, path: string): Float64Array {
  const { name } = variable;
  const written = variable.text('units') ?? '';
  const calendar = variable.text('calendar') ?? 'standard';
  if (!calendars.includes(calendar)) throw new WeatherError(path, name, `calendar "${calendar}" is not read`);
  const match =
    /^(\w+?)s? since (\d{4}-\d{1,2}-\d{1,2})(?:[T ](\d{1,2}):(\d\d)(?::(\d\d)(?:\.0*)?)?)?(?: ?(?:Z|UTC|\+?00:?00))?$/.exec(
      written,
    );
  const seconds = match ? (secondsOf[match[1]] ?? secondsOf[`${match[1]}s`]) : undefined;
  if (!match || seconds === undefined) {
    throw new WeatherError(
      path,
      name,
      `unit "${written}" where "seconds since 1970-01-01" or its like is needed`,
    );
  }
  const date = match[2]
    .split('-')
    .map((part) => part.padStart(2, '0'))
    .join('-');
  const clock = `${(match[3] ?? '0').padStart(2, '0')}:${match[4] ?? '00'}:${match[5] ?? '00'}`;
  const start = readTime(`${date}T${clock}Z`);
  return axisValues(variable, path).map((value) => start + value * seconds);
}
