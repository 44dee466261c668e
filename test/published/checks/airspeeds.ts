/** Conversions between pressure altitude, CAS, EAS, TAS and Mach on standard and offset days. */

import { totalTemperatureConstantCp } from '../../../src/core/air/airdata.ts';
import { airData, machFromSpeed } from '../../../src/core/air/airdata-record.ts';
import { newAir } from '../../../src/core/air/day.ts';
import { offsetDay } from '../../../src/core/air/offset-day.ts';
import { PublishedTable, type Row } from './csv.ts';
import { type CheckResult, printedTo, Tally } from './tally.ts';

const knot = 1852 / 3600;
const keys = {
  mach: 'mach',
  cas: 'calibratedAirspeedMS',
  eas: 'equivalentAirspeedMS',
  tas: 'trueAirspeedMS',
} as const;

function isGiven(text: string): text is keyof typeof keys {
  return text in keys;
}

function dataOf(row: Row) {
  const air = newAir();
  const altitude = row.need('pressureAltitude');
  offsetDay(row.si('temperatureOffset') ?? 0).sample(0, 0, altitude, 0, air);
  const given = row.text('given');
  if (!isGiven(given)) throw new Error(`given "${given}" is not a speed`);
  const number = row.raw('givenValue') ?? Number.NaN;
  const speed = given === 'mach' ? number : number * knot;
  return airData(altitude, air, machFromSpeed(keys[given], speed, air));
}

export function checkAirspeeds(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'airspeed');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const name = `${row.text('pressureAltitude')} ft, ${row.text('given')} ${row.text('givenValue')}`;
    const data = () => dataOf(row);
    tally.relative('pressure', row.si('pressure'), () => data().pressurePa, name);
    tally.relative('temperature', row.si('temperature'), () => data().temperatureK, name);
    tally.relative('mach', row.si('mach'), () => data().mach, name);
    tally.relative('cas', row.si('cas'), () => data().calibratedAirspeedMS, name);
    tally.relative('eas', row.si('eas'), () => data().equivalentAirspeedMS, name);
    tally.relative('tas', row.si('tas'), () => data().trueAirspeedMS, name);
    tally.relative('dynamicPressure', row.si('dynamicPressure'), () => data().dynamicPressurePa, name);
    tally.relative('impactPressure', row.si('impactPressure'), () => data().impactPressurePa, name);
    const constant = () => totalTemperatureConstantCp(data().mach, data().temperatureK);
    tally.relative('totalTemperatureConstantCp', row.si('totalTemperatureConstantCp'), constant, name);
  }
  const nine = printedTo(9);
  return tally.results(
    {
      pressure: nine,
      temperature: nine,
      mach: nine,
      cas: nine,
      eas: nine,
      tas: nine,
      dynamicPressure: nine,
      impactPressure: nine,
      totalTemperatureConstantCp: nine,
    },
    table,
  );
}
