/** The sun's elevation and azimuth against an independent library and a published example. */
import { sunOver } from '../../../src/core/earth/sun.ts';
import { PublishedTable } from './csv.ts';
import { type CheckResult, Tally } from './tally.ts';

const degree = Math.PI / 180;

export function checkSun(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'sun');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const place = { latitudeRad: row.need('latitude'), longitudeRad: row.need('longitude') };
    const source = row.text('source');
    const sun = () => sunOver(place, Date.parse(row.text('time')) / 1000);
    const name = `${row.text('time')} at ${row.text('latitude')} ${row.text('longitude')}`;
    tally.absolute(
      `elevation, ${source}`,
      'deg',
      row.raw('elevation'),
      () => sun().elevationRad / degree,
      name,
    );
    // Towards the zenith azimuth loses its meaning: what counts is how far apart the two directions are.
    const azimuth = row.need('azimuth');
    const sideways = () => Math.sin(sun().azimuthRad - azimuth) * Math.cos(sun().elevationRad);
    tally.absolute(`sideways, ${source}`, 'deg', 0, () => sideways() / degree, name);
  }
  const almanac = {
    mean: 0.006,
    max: 0.015,
    reason: "0.01 deg of the almanac's formulas, UT1 within 0.9 s, parallax 0.0024 deg",
  };
  return tally.results(
    {
      'elevation, library': almanac,
      'sideways, library': almanac,
      'elevation, NREL': almanac,
      'sideways, NREL': almanac,
    },
    table,
  );
}
