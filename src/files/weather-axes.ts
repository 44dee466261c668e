/** Axes of a NetCDF-4 file on pressure levels: time, level, latitude, longitude, found from the dimensions of a field. */
import type { Dataset, File } from 'h5wasm/node';
import { readTime } from '../core/quantities/time.ts';
import { conversionOf, numbers, textAttribute, WeatherError } from './weather-variables.ts';

export interface Axes {
  /** Seconds since 1970; one where the file has a time that is no dimension. */
  readonly timesS: Float64Array;
  readonly pressuresPa: Float64Array;
  readonly latitudesRad: Float64Array;
  readonly longitudesRad: Float64Array;
  /** Lengths of the dimensions of a field. */
  readonly shape: readonly number[];
}

type AxisRole = 'time' | 'level' | 'latitude' | 'longitude';

const axisNames: Record<AxisRole, { readonly standardName: string; readonly names: readonly string[] }> = {
  time: { standardName: 'time', names: ['time', 'valid_time'] },
  level: {
    standardName: 'air_pressure',
    names: ['pressure_level', 'level', 'plev', 'isobaricInhPa', 'isobaric', 'lev'],
  },
  latitude: { standardName: 'latitude', names: ['latitude', 'lat'] },
  longitude: { standardName: 'longitude', names: ['longitude', 'lon'] },
};

/** The axes of a field; its dimensions must be time (or none), level, latitude, longitude in this order. */
export function readAxes(file: File, path: string, field: Dataset): Axes {
  const name = field.path.replace(/^\//, '');
  const shape = field.shape ?? [];
  const scales = shape.map((_, i) => field.get_attached_scales(i)[0] ?? '');
  const datasets = scales.map((scale) => (scale === '' ? null : (file.get(scale) as Dataset)));
  if (datasets.includes(null)) throw new WeatherError(path, name, 'has a dimension without coordinates');
  const roles = (datasets as Dataset[]).map(roleOf);
  const expected = shape.length === 4 ? 'time,level,latitude,longitude' : 'level,latitude,longitude';
  if (roles.join(',') !== expected) {
    const found = scales.map((scale) => scale.replace(/^\//, '')).join(', ');
    throw new WeatherError(
      path,
      name,
      `has the dimensions ${found}; needed are time, level, latitude, longitude`,
    );
  }
  const [level, latitude, longitude] = (datasets as Dataset[]).slice(-3);
  const time = shape.length === 4 ? (datasets[0] as Dataset) : scalarTime(file, path);
  const pressure = conversionOf(level, path, 'Pa');
  return {
    timesS: readTimes(time, path),
    pressuresPa: axisValues(level, path).map((value) => value * pressure.factor + pressure.shift),
    latitudesRad: readAngles(latitude, path, 'degrees_north'),
    longitudesRad: readAngles(longitude, path, 'degrees_east'),
    shape,
  };
}

function roleOf(dataset: Dataset): AxisRole | null {
  const standardName = textAttribute(dataset, 'standard_name');
  const name = dataset.path.replace(/^\//, '');
  const roles = Object.keys(axisNames) as AxisRole[];
  const byStandard = roles.find((role) => axisNames[role].standardName === standardName);
  return byStandard ?? roles.find((role) => axisNames[role].names.includes(name)) ?? null;
}

function scalarTime(file: File, path: string): Dataset {
  for (const name of file.keys()) {
    const entity = file.get(name);
    if (entity !== null && 'shape' in entity && roleOf(entity as Dataset) === 'time')
      return entity as Dataset;
  }
  throw new WeatherError(path, null, 'has no time');
}

function axisValues(dataset: Dataset, path: string): Float64Array {
  const values = numbers(dataset.value);
  if (values === null) throw new WeatherError(path, dataset.path.replace(/^\//, ''), 'does not hold numbers');
  return Float64Array.from(values);
}

function readAngles(dataset: Dataset, path: string, unit: 'degrees_north' | 'degrees_east'): Float64Array {
  const written = textAttribute(dataset, 'units') ?? '';
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
    throw new WeatherError(
      path,
      dataset.path.replace(/^\//, ''),
      `unit "${written}" where ${unit} is needed`,
    );
  }
  return axisValues(dataset, path).map((value) => (value * Math.PI) / 180);
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
function readTimes(dataset: Dataset, path: string): Float64Array {
  const name = dataset.path.replace(/^\//, '');
  const written = textAttribute(dataset, 'units') ?? '';
  const calendar = textAttribute(dataset, 'calendar') ?? 'standard';
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
  return axisValues(dataset, path).map((value) => start + value * seconds);
}
