/** GRIB 2: values that a reference library decoded from the same files, field by field, and the day made of them. */
import { readFileSync } from 'node:fs';
import { newAir } from '../../../src/core/air/day.ts';
import { gridDay } from '../../../src/core/air/grid-day.ts';
import { geopotentialFromGeometric, pressureAltitudeOf } from '../../../src/core/air/standard.ts';
import { bytesOf } from '../../../src/files/grib/bytes.ts';
import { gridOf, placeOf } from '../../../src/files/grib/grid.ts';
import { findFields, type RawField } from '../../../src/files/grib/messages.ts';
import { productOf } from '../../../src/files/grib/product.ts';
import { valuesOf } from '../../../src/files/grib/values.ts';
import { readGribFile } from '../../../src/files/grib-file.ts';
import { PublishedTable, type Row } from './csv.ts';
import { weatherFile } from './grid-samples.ts';
import { type CheckResult, Tally, type Tolerance } from './tally.ts';

const degree = Math.PI / 180;

/** Data templates of section 5 by the names that the reference library has for them. */
const templates: Readonly<Record<string, number>> = {
  grid_simple: 0,
  grid_complex: 2,
  grid_complex_spatial_differencing: 3,
  grid_ieee: 4,
  grid_jpeg: 40,
  grid_png: 41,
  grid_ccsds: 42,
};

const decoded = { mean: 1e-5, max: 1e-5, reason: 'decoding is exact but for float32 values, packed as such' };

interface Decoded {
  readonly field: RawField;
  readonly values: Float64Array;
}

/** Compares every row with the field of its number; throws where packing, quantity or level are others. */
async function compareFields(table: PublishedTable, path: string, tally: Tally): Promise<void> {
  const source = bytesOf(readFileSync(path));
  const fields: Decoded[] = [];
  for (const field of findFields(source)) fields.push({ field, values: await valuesOf(source, field) });
  for (const row of table.rows) {
    const [kind, name] = [row.text('packingType'), row.text('shortName')];
    const latitude = row.text('latitude');
    const place = `field ${row.text('field')}, ${row.text('level')} hPa, ${latitude}, ${row.text('longitude')}`;
    tally.absolute(`${kind} ${name}`, 'its unit', row.si('value'), () => valueAt(fields, row), place);
  }
}

function valueAt(fields: readonly Decoded[], row: Row): number {
  const { field, values } = fields[row.need('field') - 1];
  const template = field.representation.unsigned(10, 2);
  const product = productOf(field);
  if (template !== templates[row.text('packingType')]) throw new Error(`data template 5.${template}`);
  if (product?.parameter !== row.text('shortName')) throw new Error(`is ${product?.parameter}`);
  if (product.pressurePa !== row.need('level')) throw new Error(`is at ${product.pressurePa} Pa`);
  if (row.text('latitude') === 'min') return values.reduce((least, value) => Math.min(least, value));
  if (row.text('latitude') === 'max') return values.reduce((most, value) => Math.max(most, value));
  const grid = gridOf(field.grid);
  const column = grid.longitudesDeg.indexOf(Number(row.text('longitude')));
  return values[placeOf(grid, grid.latitudesDeg.indexOf(Number(row.text('latitude'))), column)];
}

/** Compares the rows of one place with the day that is made of the whole file. */
async function compareDay(table: PublishedTable, path: string, tally: Tally): Promise<void> {
  const day = gridDay(await readGribFile(path, {}), { time: 'hold', top: 'refuse', bottom: 'refuse' });
  const air = newAir();
  const quantities: Readonly<Record<string, () => number>> = {
    t: () => air.temperatureK,
    u: () => air.windEastMS,
    v: () => air.windNorthMS,
    gh: () => geopotentialFromGeometric(air.geometricHeightM),
  };
  for (const row of table.rows) {
    const [latitude, longitude] = [Number(row.text('latitude')), Number(row.text('longitude'))];
    if (Number.isNaN(latitude)) continue;
    const name = row.text('shortName');
    const altitude = pressureAltitudeOf(row.need('level'));
    const sample = () => {
      day.sample(latitude * degree, longitude * degree, altitude, 0, air);
      if (air.outside !== 0) throw new Error(`outside: ${air.outside}`);
      return quantities[name]();
    };
    tally.absolute(
      `day ${name}`,
      'its unit',
      row.si('value'),
      sample,
      `${row.text('level')} hPa, ${latitude}, ${longitude}`,
    );
  }
}

const day = { mean: 5e-4, max: 2e-3, reason: 'as decoded; geopotential is held in float32' };
const quantities = ['t', 'u', 'v', 'gh'];

function tolerancesOf(packing: string): Readonly<Record<string, Tolerance>> {
  return Object.fromEntries(
    quantities.flatMap((name) => [
      [`${packing} ${name}`, decoded],
      [`day ${name}`, day],
    ]),
  );
}

async function checkDay(directory: string, name: string, packing: string): Promise<CheckResult[]> {
  const table = new PublishedTable(directory, name);
  const tally = new Tally(name);
  const path = weatherFile(directory, table);
  await compareFields(table, path, tally);
  await compareDay(table, path, tally);
  return tally.results(tolerancesOf(packing), table);
}

/** The forecast as its producer packed it: complex packing, first differences, both winds in one message. */
export function checkGfs(directory: string): Promise<CheckResult[]> {
  return checkDay(directory, 'grid-samples-gfs-2011', 'grid_complex_spatial_differencing');
}

export function checkGfsSimple(directory: string): Promise<CheckResult[]> {
  return checkDay(directory, 'grid-samples-gfs-2011-simple', 'grid_simple');
}

/** One field in seven packings. */
export async function checkGfsPackings(directory: string): Promise<CheckResult[]> {
  const table = new PublishedTable(directory, 'grid-samples-gfs-2011-packings');
  const tally = new Tally(table.name);
  await compareFields(table, weatherFile(directory, table), tally);
  return tally.results(
    Object.fromEntries(Object.keys(templates).map((kind) => [`${kind} t`, decoded])),
    table,
  );
}
