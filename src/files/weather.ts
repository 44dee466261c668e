/**
 * Weather files on pressure levels, NetCDF-4, NetCDF classic and GRIB 2, as a `GridField` for `gridDay`; the first bytes tell
 * which it is. A file may name its licence text in a text file beside it (`NAME.attribution.txt`), whose lines are printed with
 * all that is made from it.
 */
import type { GridField } from '../core/air/grid-field.ts';
import { openFile } from './disk.ts';
import { describeGribFile, readGribFile } from './grib-file.ts';
import type { WeatherDescription, WeatherWindow } from './grid-file.ts';
import type { NetcdfFile } from './netcdf.ts';
import { openNetcdfClassic } from './netcdf-classic.ts';
import { describeNetcdf, netcdfField } from './netcdf-field.ts';
import { openNetcdfHdf5 } from './netcdf-hdf5.ts';
import { WeatherError } from './weather-variables.ts';

export type { WeatherDescription, WeatherWindow } from './grid-file.ts';
export { WeatherError } from './weather-variables.ts';

/**
 * Reads a weather file, or the part of it that a window needs; throws `WeatherError` naming file and variable or message.
 * `member` is needed where the file holds several members of an ensemble.
 */
export async function readWeather(path: string, window?: WeatherWindow, member?: number): Promise<GridField> {
  const kind = kindOf(path);
  if (kind === 'grib') return readGribFile(path, { window, member });
  return withNetcdf(path, kind, (file) => netcdfField(file, window, member));
}

/** What a weather file holds, without reading its fields. */
export async function describeWeather(path: string): Promise<WeatherDescription> {
  const kind = kindOf(path);
  return kind === 'grib' ? describeGribFile(path) : withNetcdf(path, kind, describeNetcdf);
}

type Kind = 'grib' | 'hdf5' | 'classic';

async function withNetcdf<T>(
  path: string,
  kind: 'hdf5' | 'classic',
  use: (file: NetcdfFile) => T,
): Promise<T> {
  const file = await (kind === 'hdf5' ? openNetcdfHdf5(path) : openNetcdfClassic(path));
  try {
    return use(file);
  } finally {
    file.close();
  }
}

/** The format of a file, by its first eight bytes. */
function kindOf(path: string): Kind {
  const file = openFile(path);
  if (file === null) throw new WeatherError(path, null, 'no such file');
  let start: string;
  try {
    start = String.fromCharCode(...file.read(0, 8));
  } finally {
    file.close();
  }
  if (start.startsWith('GRIB')) return 'grib';
  if (start.startsWith('HDF', 1)) return 'hdf5';
  // Versions 1 and 2: classic and 64-bit offset.
  if (start.startsWith('CDF\u0001') || start.startsWith('CDF\u0002')) return 'classic';
  const found = start.startsWith('CDF') ? `NetCDF of version ${start.charCodeAt(3)}` : 'no weather file';
  throw new WeatherError(path, null, `is ${found}; NetCDF-4, NetCDF classic and GRIB 2 are read`);
}
