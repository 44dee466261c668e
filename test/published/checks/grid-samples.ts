/** Gridded weather: values that reference libraries read from the same files, stored and interpolated. */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { newAir } from '../../../src/core/air/day.ts';
import { gridDay } from '../../../src/core/air/grid-day.ts';
import { geopotentialFromGeometric, pressureAltitudeOf } from '../../../src/core/air/standard.ts';
import { readTime } from '../../../src/core/quantities/time.ts';
import { readWeather } from '../../../src/files/weather.ts';
import { MissingFile, PublishedTable } from './csv.ts';
import { type CheckResult, Tally } from './tally.ts';

const here = dirname(fileURLToPath(import.meta.url));

/** The weather file that a table of samples names in its head, beside the table or among the examples. */
export function weatherFile(directory: string, table: PublishedTable): string {
  const name = /\S+\.(?:nc|grib2)\b/.exec(table.comments.join('\n'))?.[0] ?? '';
  const folders = [
    directory,
    join(directory, '..'),
    join(here, '../data'),
    join(here, '../../../examples/weather'),
  ];
  const found = folders.map((folder) => join(folder, name)).find((path) => existsSync(path));
  if (!found) throw new MissingFile(`the weather file ${name} of ${table.name}.csv was not found`);
  return found;
}

async function checkGrid(directory: string, name: string): Promise<CheckResult[]> {
  const table = new PublishedTable(directory, name);
  const tally = new Tally(table.name);
  const field = await readWeather(weatherFile(directory, table));
  // The table interpolates across the nights too, which the file of 2022 leaves out and a user is refused.
  const maximumGapS = Number.POSITIVE_INFINITY;
  const day = gridDay(field, { time: 'refuse', top: 'refuse', bottom: 'refuse', maximumGapS });
  const air = newAir();
  for (const row of table.rows) {
    const kind = row.text('kind');
    const place = `${row.text('pressure')} hPa at ${row.text('latitude')}, ${row.text('longitude')}`;
    const sample = () => {
      const altitude = pressureAltitudeOf(row.need('pressure'));
      day.sample(row.need('latitude'), row.need('longitude'), altitude, readTime(row.text('time')), air);
      // A pressure of the edge level may come back a rounding outside it.
      if (air.outside !== 0) throw new Error(`outside: ${air.outside}`);
      return air;
    };
    const height = () => geopotentialFromGeometric(sample().geometricHeightM);
    tally.absolute(`${kind} temperature`, 'K', row.si('temperature'), () => sample().temperatureK, place);
    tally.absolute(`${kind} windEast`, 'm/s', row.si('windEast'), () => sample().windEastMS, place);
    tally.absolute(`${kind} windNorth`, 'm/s', row.si('windNorth'), () => sample().windNorthMS, place);
    tally.absolute(`${kind} geopotential`, 'm2/s2', row.si('geopotential'), () => height() * 9.80665, place);
    tally.absolute(`${kind} height`, 'm', row.si('geopotentialHeight'), height, place);
  }
  const digits = { mean: 5e-5, max: 6e-5, reason: 'the file prints 4 decimals' };
  const height = {
    mean: 5e-4,
    max: 1e-3,
    reason: 'the file prints 3 decimals; height to geometric and back',
  };
  const metres = { mean: 7e-5, max: 1e-4, reason: 'the file prints 4 decimals' };
  const tolerances = Object.fromEntries(
    ['grid', 'interpolated'].flatMap((kind) => [
      [`${kind} temperature`, digits],
      [`${kind} windEast`, digits],
      [`${kind} windNorth`, digits],
      [`${kind} geopotential`, height],
      [`${kind} height`, metres],
    ]),
  );
  return tally.results(tolerances, table);
}

export function checkGrid2020(directory: string): Promise<CheckResult[]> {
  return checkGrid(directory, 'grid-samples-era5-2020');
}

/** The file with forty times: linear in time. */
export function checkGrid2022(directory: string): Promise<CheckResult[]> {
  return checkGrid(directory, 'grid-samples-era5-2022');
}

/** NetCDF classic: packed whole numbers, levels upwards in pressure, five times six hours apart. */
export function checkGridClassic(directory: string): Promise<CheckResult[]> {
  return checkGrid(directory, 'grid-samples-era5-netcdf3');
}
