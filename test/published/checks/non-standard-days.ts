/** The four days of MIL-STD-210A: temperature and offset against altitude, and the second copy of the temperatures. */
import { newAir } from '../../../src/core/air/day.ts';
import { nonStandardDay, nonStandardDays } from '../../../src/core/air/mil-std-210a.ts';
import { PublishedTable } from './csv.ts';
import { type CheckResult, Tally } from './tally.ts';

export function checkNonStandardDays(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'non-standard-days');
  const tally = new Tally(table.name);
  const air = newAir();
  for (const row of table.rows) {
    const name = nonStandardDays.find((candidate) => candidate === row.text('day'));
    const altitude = row.need('geopotentialAltitude');
    const place = `${row.text('day')} day, ${row.text('geopotentialAltitude')} ft`;
    const sample = () => {
      if (!name) throw new Error('there is no such day');
      nonStandardDay(name).sample(0, 0, altitude, 0, air);
      if (air.outside !== 0) throw new Error(`outside: ${air.outside}`);
      return air;
    };
    const kelvin = row.si('temperature [K]');
    tally.absolute('temperature', 'K', kelvin, () => sample().temperatureK, place);
    const degR = row.raw('temperature [degR]');
    tally.absolute('temperature [degR]', 'degR', degR, () => sample().temperatureK * 1.8, place);
    tally.absolute('offset', 'K', row.si('offset'), () => sample().temperatureOffsetK, place);
    const degF = row.raw('temperatureSecondCopy');
    const apart = row.raw('agreement');
    if (degF !== null && apart !== null) {
      const fahrenheit = () => sample().temperatureK * 1.8 - 459.67 + apart;
      tally.absolute('second copy', 'degF', degF, fahrenheit, place);
    }
  }
  const digits = { mean: 5e-5, max: 6e-5, reason: 'the file prints 4 decimals' };
  return tally.results(
    {
      temperature: digits,
      'temperature [degR]': { mean: 1e-9, max: 1e-9, reason: 'the same decimals' },
      offset: { mean: 3e-5, max: 6e-5, reason: 'the file prints 6 digits' },
      'second copy': { mean: 2e-3, max: 6e-3, reason: 'the difference is printed with 2 decimals' },
    },
    table,
  );
}
