/** Density of aviation kerosene against temperature: ASTM D1250 table 54B. */
import {
  density15Of,
  expansionAt15,
  fuelDensity,
  volumeCorrection,
} from '../../../src/core/aircraft/fuel.ts';
import { PublishedTable } from './csv.ts';
import { type CheckResult, printedTo, Tally } from './tally.ts';

export function checkFuelDensity(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'fuel-density');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const density15 = row.need('density15');
    const temperature = Number(row.text('temperature')) + 273.15;
    const density = row.si('density');
    const name = `${density15} kg/m3 at ${row.text('temperature')} degC, ${row.text('group')}`;
    tally.relative('alpha15', row.raw('alpha15'), () => expansionAt15(density15), name);
    tally.relative('vcf', row.si('vcf'), () => volumeCorrection(density15, temperature), name);
    tally.relative('density', density, () => fuelDensity(density15, temperature), name);
    if (density !== null) {
      tally.absolute('density15, back', 'kg/m3', density15, () => density15Of(density, temperature), name);
    }
  }
  return tally.results(
    {
      alpha15: printedTo(8),
      vcf: printedTo(8),
      density: printedTo(8),
      'density15, back': { mean: 1e-5, max: 1e-5, reason: 'the file prints 1e-5 kg/m3' },
    },
    table,
  );
}
