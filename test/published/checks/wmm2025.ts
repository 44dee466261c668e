/** The World Magnetic Model of 2025 to 2030. */
import { magneticField } from '../../../src/core/earth/magnetic.ts';
import { PublishedTable } from './csv.ts';
import { type CheckResult, Tally } from './tally.ts';

/** Seconds since 1970 of a year and its part. */
function timeOf(decimalYear: number): number {
  const year = Math.floor(decimalYear);
  const [start, end] = [Date.UTC(year), Date.UTC(year + 1)];
  return (start + (decimalYear - year) * (end - start)) / 1000;
}

const components = [
  ['X', 'northNT'],
  ['Y', 'eastNT'],
  ['Z', 'downNT'],
  ['H', 'horizontalNT'],
  ['F', 'totalNT'],
] as const;

const angles = [
  ['inclination', 'inclinationRad'],
  ['declination', 'declinationRad'],
] as const;

export function checkMagneticField(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'wmm2025');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const place = { latitudeRad: row.need('latitude'), longitudeRad: row.need('longitude') };
    const time = timeOf(Number(row.text('decimalYear')));
    const source = row.text('source');
    const name = `row ${row.number}: ${row.text('decimalYear')}, ${row.text('latitude')} ${row.text('longitude')}`;
    const field = () => magneticField(place, row.need('height'), time);
    for (const [column, key] of components) {
      tally.absolute(`field, ${source}`, 'nT', row.raw(column), () => field()[key], `${name}, ${column}`);
    }
    for (const [column, key] of angles) {
      const degrees = () => (field()[key] * 180) / Math.PI;
      tally.absolute(`${column}, ${source}`, 'deg', row.raw(column), degrees, name);
    }
  }
  const tenth = { mean: 0.03, max: 0.051, reason: 'printed to 0.1 nT' };
  const hundredth = { mean: 0.003, max: 0.0051, reason: 'printed to 0.01 deg' };
  const fine = { mean: 5e-5, max: 1e-4, reason: 'printed to 1e-4 deg' };
  return tally.results(
    {
      'field, official': tenth,
      'inclination, official': hundredth,
      'declination, official': hundredth,
      'field, computed': { mean: 0.005, max: 0.01, reason: 'printed to 0.01 nT' },
      'inclination, computed': fine,
      'declination, computed': fine,
    },
    table,
  );
}
