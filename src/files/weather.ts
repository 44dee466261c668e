/**
 * Weather files: NetCDF-4 and GRIB 2 on pressure levels, as a `GridField` for `gridDay`. The first bytes tell which it is.
 *
 * What is looked for in NetCDF follows the CF conventions: variables by their standard_name, else by their usual short names; scale_factor,
 * add_offset, _FillValue and missing_value applied; units read, never assumed. The file may name its licence text in
 * a text file beside it (`NAME.attribution.txt`), whose lines are printed with all that is made from it.
 */
import { closeSync, existsSync, openSync, readSync } from 'node:fs';
import { basename } from 'node:path';
import type { Dataset, File } from 'h5wasm/node';
import type { GridField } from '../core/air/grid-field.ts';
import { showTime } from '../core/quantities/time.ts';
import { describeGribFile, readGribFile } from './grib-file.ts';
import {
  around,
  aroundTurn,
  type FieldRole,
  type Range,
  type WeatherDescription,
  type WeatherWindow,
} from './grid-file.ts';
import { attributionOfGrid, type Origin } from './weather-attribution.ts';
import { type Axes, readAxes } from './weather-axes.ts';
import { type Conversion, conversionOf, numbers, textAttribute, WeatherError } from './weather-variables.ts';

export type { WeatherDescription, WeatherWindow } from './grid-file.ts';
export { WeatherError } from './weather-variables.ts';

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

/**
 * Reads a weather file, or the part of it that a window needs; throws `WeatherError` naming file and variable or message.
 * `member` is needed where the file holds several members of an ensemble.
 */
export async function readWeather(path: string, window?: WeatherWindow, member?: number): Promise<GridField> {
  if (startOf(path).startsWith('GRIB')) return readGribFile(path, { window, member });
  if (member !== undefined) throw new WeatherError(path, null, 'is of no ensemble');
  return withFile(path, (file) => {
    const temperature = findField(file, path, 'temperature');
    const axes = readAxes(file, path, temperature);
    const ranges = window ? rangesOf(axes, window) : null;
    const read = (role: FieldRole) => readField(findField(file, path, role), path, role, axes, ranges);
    const [times, levels, latitudes, longitudes] = ranges ?? [null, null, null, null];
    return {
      title: titleOf(file, path, axes.timesS),
      attribution: attributionOfGrid(path, originOf(file, axes.timesS)),
      timesS: cut(axes.timesS, times),
      pressuresPa: cut(axes.pressuresPa, levels),
      latitudesRad: cut(axes.latitudesRad, latitudes),
      longitudesRad: cut(axes.longitudesRad, longitudes),
      temperatureK: read('temperature'),
      geopotential: read('geopotential'),
      windEastMS: read('windEast'),
      windNorthMS: read('windNorth'),
    };
  });
}

/** What a weather file holds, without reading its fields. */
export async function describeWeather(path: string): Promise<WeatherDescription> {
  if (startOf(path).startsWith('GRIB')) return describeGribFile(path);
  return withFile(path, (file) => {
    const roles = Object.keys(fieldNames) as FieldRole[];
    const fields = roles.map((role) => [role, findField(file, path, role)] as const);
    const axes = readAxes(file, path, fields[0][1]);
    const degrees = (values: Float64Array) => Array.from(values, (value) => (value * 180) / Math.PI);
    return {
      file: basename(path),
      members: [],
      timesS: Array.from(axes.timesS),
      pressuresPa: Array.from(axes.pressuresPa),
      latitudesDeg: degrees(axes.latitudesRad),
      longitudesDeg: degrees(axes.longitudesRad),
      variables: fields.map(([role, dataset]) => ({
        role,
        name: nameOf(dataset),
        units: textAttribute(dataset, 'units') ?? '',
      })),
      attribution: attributionOfGrid(path, originOf(file, axes.timesS)),
    };
  });
}

async function withFile<T>(path: string, use: (file: File) => T): Promise<T> {
  requireHdf5(path);
  const { default: h5wasm } = await import('h5wasm/node');
  await h5wasm.ready;
  const file = new h5wasm.File(path, 'r');
  try {
    return use(file);
  } finally {
    file.close();
  }
}

/** The first eight bytes of a file, which tell its format. */
function startOf(path: string): string {
  if (!existsSync(path)) throw new WeatherError(path, null, 'no such file');
  const start = Buffer.alloc(8);
  const descriptor = openSync(path, 'r');
  try {
    readSync(descriptor, start, 0, 8, 0);
  } finally {
    closeSync(descriptor);
  }
  return start.toString('latin1');
}

/** Says what a file is that is neither GRIB nor HDF5. */
function requireHdf5(path: string): void {
  const start = startOf(path);
  if (start.startsWith('HDF', 1)) return;
  const kind = start.startsWith('CDF') ? 'NetCDF classic' : 'no weather file';
  throw new WeatherError(path, null, `is ${kind}; NetCDF-4 and GRIB 2 on pressure levels are read`);
}

function nameOf(dataset: Dataset): string {
  return dataset.path.replace(/^\//, '');
}

function findField(file: File, path: string, role: FieldRole): Dataset {
  const wanted = fieldNames[role];
  const datasets: Dataset[] = [];
  for (const name of file.keys()) {
    const entity = file.get(name);
    if (entity !== null && 'shape' in entity && (entity.shape?.length ?? 0) >= 3)
      datasets.push(entity as Dataset);
  }
  for (const standardName of wanted.standardNames) {
    const found = datasets.filter((dataset) => textAttribute(dataset, 'standard_name') === standardName);
    if (found.length > 1) {
      const names = found.map(nameOf).join(' and ');
      throw new WeatherError(path, names, `two variables with standard_name ${standardName}`);
    }
    if (found.length === 1) return found[0];
  }
  const named = datasets.find((dataset) => wanted.names.includes(nameOf(dataset)));
  if (named) return named;
  const looked = [...wanted.standardNames.map((name) => `standard_name ${name}`), ...wanted.names].join(', ');
  throw new WeatherError(path, null, `no ${role} on pressure levels (looked for ${looked})`);
}

function readField(
  dataset: Dataset,
  path: string,
  role: FieldRole,
  axes: Axes,
  ranges: readonly (Range | null)[] | null,
): Float32Array {
  const name = nameOf(dataset);
  const shape = dataset.shape ?? [];
  if (shape.length !== axes.shape.length || shape.some((length, i) => length !== axes.shape[i])) {
    throw new WeatherError(
      path,
      name,
      `has the shape ${shape.join(' x ')}, temperature ${axes.shape.join(' x ')}`,
    );
  }
  const conversion = conversionOf(dataset, path, fieldNames[role].unit);
  const slices = ranges?.slice(ranges.length - shape.length).map((range) => (range ? [...range] : []));
  const stored = slices ? dataset.slice(slices as [number, number][]) : dataset.value;
  return converted(stored, conversion, path, name);
}

/** Values brought to SI as float32; float32 data that need no change are handed on as they are. */
function converted(stored: unknown, conversion: Conversion, path: string, name: string): Float32Array {
  const { factor, shift, missing } = conversion;
  const real = missing.filter((value) => !Number.isNaN(value));
  if (stored instanceof Float32Array && factor === 1 && shift === 0 && real.length === 0) return stored;
  const values = numbers(stored);
  if (values === null) throw new WeatherError(path, name, 'does not hold numbers');
  const out = new Float32Array(values.length);
  for (let i = 0; i < out.length; i++) {
    const value = values[i];
    out[i] = real.includes(value) ? Number.NaN : value * factor + shift;
  }
  return out;
}

function cut(values: Float64Array, range: Range | null): Float64Array {
  return range ? values.slice(range[0], range[1]) : values;
}

/** Index ranges [from, to) along time, level, latitude, longitude that hold a window and its neighbours. */
function rangesOf(axes: Axes, window: WeatherWindow): (Range | null)[] {
  return [
    around(axes.timesS, window.fromS, window.toS),
    null,
    around(axes.latitudesRad, window.southRad, window.northRad),
    aroundTurn(axes.longitudesRad, window.westRad, window.eastRad),
  ];
}

function titleOf(file: File, path: string, timesS: Float64Array): string {
  const title = textAttribute(file, 'title') ?? basename(path).replace(/\.[^.]*$/, '');
  const first = showTime(timesS[0]);
  const last = showTime(timesS[timesS.length - 1]);
  return timesS.length === 1 ? `${title}, ${first}` : `${title}, ${first} to ${last}`;
}

/** What the global attributes say of where the data come from. */
function originOf(file: File, timesS: Float64Array): Origin {
  const texts = (names: string[]) =>
    names.map((name) => textAttribute(file, name)).filter((text): text is string => text !== null);
  return {
    producers: texts(['institution', 'GRIB_centre', 'GRIB_centreDescription']),
    history: texts(['title', 'source', 'history']),
    hasExpver: file.keys().includes('expver'),
    firstS: timesS[0],
  };
}
