/** Level coordinated turns over a flat Earth with standard gravity. */
import { bankOfLoadFactor, bankOfRate, levelTurn } from '../../../src/core/flight/turn-kinematics.ts';
import { PublishedTable } from './csv.ts';
import { type CheckResult, printedTo, Tally } from './tally.ts';

const gravity = 9.80665;

export function checkTurns(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'turns');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const speed = row.need('trueAirspeed');
    const bank = row.need('bank');
    const name = `${speed} m/s at ${row.text('bank')} deg`;
    const turn = () => levelTurn(speed, bank, gravity);
    const rate = row.si('rate');
    const load = row.si('loadFactor');
    tally.relative('loadFactor', load, () => turn().loadFactor, name);
    tally.relative('radius', row.si('radius [m]'), () => turn().radiusM, name);
    tally.relative('radius in nm', row.si('radius [nmi]'), () => turn().radiusM, name);
    tally.relative('diameter', row.si('diameter'), () => 2 * turn().radiusM, name);
    tally.relative('rate', rate, () => turn().rateRadS, name);
    tally.relative('time180', row.si('time180'), () => Math.PI / turn().rateRadS, name);
    if (rate !== null)
      tally.absolute('bank of rate', 'rad', bank, () => bankOfRate(rate, speed, gravity), name);
    if (load !== null) tally.absolute('bank of load factor', 'rad', bank, () => bankOfLoadFactor(load), name);
  }
  const seven = printedTo(7);
  return tally.results(
    {
      loadFactor: printedTo(8),
      radius: printedTo(9),
      'radius in nm': seven,
      diameter: seven,
      rate: seven,
      time180: seven,
      'bank of rate': { mean: 2e-7, max: 1e-6, reason: 'inverse of a rate of 7 digits' },
      'bank of load factor': { mean: 2e-7, max: 1e-6, reason: 'inverse of a load factor of 8 digits' },
    },
    table,
  );
}
