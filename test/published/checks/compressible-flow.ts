/** NACA Report 1135: isentropic flow, normal shock and Rayleigh's pitot formula, gamma 7/5. */
import { impactRatio, machFromImpactRatio } from '../../../src/core/air/airdata.ts';
import {
  areaRatio,
  densityRatio,
  machAngle,
  normalShock,
  prandtlMeyer,
  pressureRatio,
  temperatureRatio,
} from '../../../src/core/air/compressible.ts';
import { PublishedTable } from './csv.ts';
import { type CheckResult, printedTo, Tally } from './tally.ts';

export function checkCompressibleFlow(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'naca-1135');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const mach = row.need('mach');
    const name = `M ${mach}`;
    const ratios: Record<string, () => number> = {
      'p/pt': () => pressureRatio(mach),
      'rho/rhot': () => densityRatio(mach),
      'T/Tt': () => temperatureRatio(mach),
      'q/pt': () => 0.7 * mach * mach * pressureRatio(mach),
      'A/A*': () => areaRatio(mach),
      M2: () => normalShock(mach).machBehind,
      'p2/p1': () => normalShock(mach).pressure,
      'rho2/rho1': () => normalShock(mach).density,
      'T2/T1': () => normalShock(mach).temperature,
      'pt2/pt1': () => normalShock(mach).totalPressure,
      'p1/pPitot': () => 1 / (impactRatio(mach) + 1),
    };
    for (const [quantity, compute] of Object.entries(ratios)) {
      tally.relative(quantity, row.si(quantity), compute, name);
    }
    tally.absolute('prandtlMeyer', 'rad', row.si('prandtlMeyer'), () => prandtlMeyer(mach), name);
    tally.absolute('machAngle', 'rad', row.si('machAngle'), () => machAngle(mach), name);
    const pitot = row.si('p1/pPitot');
    if (pitot !== null)
      tally.absolute('Mach of pitot', 'Mach', mach, () => machFromImpactRatio(1 / pitot - 1), name);
  }
  const nine = printedTo(9);
  const angle = { mean: 2e-9, max: 1e-8, reason: 'the file prints 9 digits of degrees' };
  return tally.results(
    {
      'p/pt': nine,
      'rho/rhot': nine,
      'T/Tt': nine,
      'q/pt': nine,
      'A/A*': nine,
      M2: nine,
      'p2/p1': nine,
      'rho2/rho1': nine,
      'T2/T1': nine,
      'pt2/pt1': nine,
      'p1/pPitot': nine,
      prandtlMeyer: angle,
      machAngle: angle,
      'Mach of pitot': {
        mean: 5e-9,
        max: 3e-8,
        reason: 'inverse of a ratio of 9 digits, steepest at low Mach',
      },
    },
    table,
  );
}
