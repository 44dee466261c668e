/** Numbers of height that crews carry: pressure and the body, the horizon and daylight, warm fuel. */
import { pressureAltitudeOf, standardPressure } from '../../../src/core/air/standard.ts';
import { volumeCorrection } from '../../../src/core/aircraft/fuel.ts';
import { geometricDip } from '../../../src/core/earth/horizon.ts';
import { PublishedTable } from './csv.ts';
import { type CheckResult, Tally } from './tally.ts';

const foot = 0.3048;
const degree = Math.PI / 180;

/** The sky turns by 15 degrees an hour; at equinox the sun sinks at the cosine of the latitude. */
const daylightMin = (latitudeDeg: number): number =>
  (geometricDip(80_000 * foot) / degree / 15 / Math.cos(latitudeDeg * degree)) * 60;

const computed: Readonly<Record<string, (at: number) => number>> = {
  'pressure at 80 000 ft [kPa]': (feet) => standardPressure(feet * foot) / 1000,
  'water at 37 C boils at [ft]': (kPa) => pressureAltitudeOf(kPa * 1000) / foot,
  'dip of the horizon [deg]': (feet) => geometricDip(feet * foot) / degree,
  'longer daylight by the dip [min]': daylightMin,
  'fuel lost per litre in +60 K [%]': (density) => 100 * (1 - volumeCorrection(density, 288.15 + 60)),
};

/** Each error in parts of how far the number may be off, as it is carried. */
export function checkBodyAndSky(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'body-and-sky');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const quantity = row.text('quantity');
    const within = row.need('within');
    const compute = () => computed[quantity](row.need('at')) / within;
    tally.absolute(quantity, 'of allowed', row.need('value') / within, compute, `row ${row.number}`);
  }
  const rounded = { mean: 1, max: 1, reason: 'the number is carried so far rounded' };
  const quantities = new Set(table.rows.map((row) => row.text('quantity')));
  return tally.results(Object.fromEntries([...quantities].map((quantity) => [quantity, rounded])), table);
}
