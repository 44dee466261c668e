/** Variables of a NetCDF file: units and packing. */
import { basename } from 'pathe';
import type { Dimension } from '../core/quantities/units.ts';
import { findUnit } from '../core/quantities/units.ts';
import { openFile, readText } from './disk.ts';
import type { NetcdfVariable } from './netcdf.ts';

/** A fault of a weather file: which file, which variable, what is wrong. */
export class WeatherError extends Error {
  readonly file: string;
  readonly variable: string | null;
  readonly reason: string;

  constructor(path: string, variable: string | null, reason: string) {
    const where = variable === null ? basename(path) : `${basename(path)}: variable ${variable}`;
    super(`${where}: ${reason}`);
    this.name = 'WeatherError';
    this.file = path;
    this.variable = variable;
    this.reason = reason;
  }
}

/** Units as CF files spell them, in the spelling of the list of units. */
const spellings: Readonly<Record<string, string>> = {
  'm s**-1': 'm/s',
  'm s-1': 'm/s',
  'm s^-1': 'm/s',
  'm**2 s**-2': 'm2/s2',
  'm2 s-2': 'm2/s2',
  'm^2 s^-2': 'm2/s2',
  'm^2/s^2': 'm2/s2',
  kelvin: 'K',
  degK: 'K',
  celsius: 'degC',
  degree_Celsius: 'degC',
  degrees_Celsius: 'degC',
  C: 'degC',
  millibar: 'hPa',
  pascal: 'Pa',
  pascals: 'Pa',
  gpm: 'm',
  meter: 'm',
  meters: 'm',
  metre: 'm',
  knots: 'kt',
};

const dimensionOf: Readonly<Record<string, Dimension>> = {
  K: 'temperature',
  'm/s': 'speed',
  'm2/s2': 'geopotential',
  Pa: 'pressure',
};

/** SI value = stored * factor + shift; stored values in `missing` are holes. */
export interface Conversion {
  readonly factor: number;
  readonly shift: number;
  readonly missing: readonly number[];
}

/** How the stored numbers of a variable become SI in the wanted unit; refuses a unit that does not measure it. */
export function conversionOf(variable: NetcdfVariable, path: string, wanted: string): Conversion {
  const { name } = variable;
  const written = variable.text('units');
  if (written === null) throw new WeatherError(path, name, 'has no units');
  const unit = siOf(written, wanted);
  if (unit === null)
    throw new WeatherError(path, name, `unit "${written}" where ${wanted} or its like is needed`);
  const scale = variable.number('scale_factor') ?? 1;
  const offset = variable.number('add_offset') ?? 0;
  const missing = ['_FillValue', 'missing_value']
    .map((attribute) => variable.number(attribute))
    .filter((value): value is number => value !== null);
  return { factor: scale * unit.factor, shift: offset * unit.factor + unit.shift, missing };
}

/** Factor and shift from a written unit to the wanted SI unit; geopotential may be given as height in metres. */
function siOf(written: string, wanted: string): { factor: number; shift: number } | null {
  const name = spellings[written.trim()] ?? written.trim();
  const unit = findUnit(name, dimensionOf[wanted]);
  if (unit) return { factor: unit.factor, shift: unit.shift ?? 0 };
  // Geopotential height over standard gravity, 9.80665 m/s2 (WMO).
  if (wanted === 'm2/s2' && name === 'm') return { factor: 9.80665, shift: 0 };
  return null;
}

/** Lines of the text file beside a weather file that must be printed with all that is made from it; none where there is none. */
export function attributionOf(path: string): string[] {
  const beside = `${path}.attribution.txt`;
  const file = openFile(beside);
  if (file === null) return [];
  file.close();
  return readText(beside)
    .split('\n')
    .filter((line) => line.trim() !== '');
}
