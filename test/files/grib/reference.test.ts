/**
 * GRIB 2 against a reference library: messages of every packing that is read, and six ways to scan. The values in
 * `packings.csv` and the places in `scans.csv` are those that ecCodes 2.28 gives for `packings.grib2`.
 */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { bytesOf } from '../../../src/files/grib/bytes.ts';
import { gridOf, placeOf } from '../../../src/files/grib/grid.ts';
import { findFields } from '../../../src/files/grib/messages.ts';
import { valuesOf } from '../../../src/files/grib/values.ts';

const here = dirname(fileURLToPath(import.meta.url));
const source = bytesOf(readFileSync(join(here, 'packings.grib2')));
const fields = findFields(source);

function rows(name: string): string[][] {
  const text = readFileSync(join(here, name), 'utf8');
  return (parse(text, { comment: '#', comment_no_infix: true }) as string[][]).slice(1);
}

const numbers = (text: string) => text.split(' ').map((cell) => (cell === '-' ? Number.NaN : Number(cell)));
const packings = rows('packings.csv');

describe('the values of a GRIB 2 message', () => {
  it('[GRIB-1] every message of the file is compared', () => {
    expect(packings).toHaveLength(fields.length);
  });

  it.each(packings)('[GRIB-1] message %s, %s, decodes as the reference does', async (number, _, expected) => {
    const values = await valuesOf(source, fields[Number(number) - 1]);
    const wanted = numbers(expected);
    expect(values).toHaveLength(wanted.length);
    // The table has ten digits.
    const wrong = wanted.filter((value, i) =>
      Number.isNaN(value) ? !Number.isNaN(values[i]) : !(Math.abs(values[i] - value) < 1e-6),
    );
    expect(wrong).toEqual([]);
  });

  it.each(rows('scans.csv'))(
    '[GRIB-2] %s puts every value where the reference does',
    async (name, lat, lon, val) => {
      const field = fields[packings.findIndex((row) => row[1] === name)];
      const grid = gridOf(field.grid);
      const values = await valuesOf(source, field);
      const [latitudes, longitudes, wanted] = [lat, lon, val].map(numbers);
      expect(wanted).toHaveLength(grid.latitudesDeg.length * grid.longitudesDeg.length);
      const wrong = wanted.filter((value, i) => {
        const [row, column] = [
          grid.latitudesDeg.indexOf(latitudes[i]),
          grid.longitudesDeg.indexOf(longitudes[i]),
        ];
        return !(Math.abs(values[placeOf(grid, row, column)] - value) < 1e-6);
      });
      expect(wrong).toEqual([]);
    },
  );
});
