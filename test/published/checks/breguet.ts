/** Range and endurance of a jet by Breguet's formulas: test decks with constant L/D and specific fuel consumption, really cruised. */
import { HEIGHT } from '../../../src/core/air/day.ts';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import { flatEarth } from '../../../src/core/flight/earth-model.ts';
import {
  constantLiftCoefficient,
  constantTrueAirspeed,
  type SpeedLaw,
} from '../../../src/core/flight/speed-law.ts';
import { cruise } from '../../../src/core/phases/index.ts';
import { benchmarkAircraft, exactFlight, flatTrack, stateAt } from '../../support/benchmark.ts';
import { idealJet, type Jet } from '../../support/ideal-jet.ts';
import { PublishedTable, type Row } from './csv.ts';
import { type CheckResult, Tally } from './tally.ts';

const gravity = 9.80665;

/** The standard day whose isobars all lie at one height: a climb costs nothing, as in the formulas. */
const freeClimbs: typeof standardDay = {
  ...standardDay,
  sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air) {
    standardDay.sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air);
    air.geometricHeightM = 15_000;
    air.upward[HEIGHT] = 1e-9;
  },
};

interface Flown {
  readonly rangeM: number;
  readonly enduranceS: number;
}

function fly(row: Row, jet: Jet, heightM: number, law: SpeedLaw, altitude: 'hold' | 'constantLift'): Flown {
  const more = altitude === 'hold' ? {} : { day: freeClimbs };
  const flight = exactFlight(idealJet(jet), flatEarth(), more);
  const state = stateAt(heightM, 200, row.need('startWeight') / gravity);
  const fuelKg = row.need('endWeight') / gravity;
  const end = cruise(flight, state, flatTrack, { law, altitude, stops: [{ at: 'fuel', fuelKg }] });
  if (end.reason !== 'fuel') throw new Error(`ended by ${end.reason}: ${end.text}`);
  return { rangeM: state.distanceM, enduranceS: state.timeS };
}

/** Constant speed and lift coefficient in an isothermal layer, at the best L/D, which is the row's. */
function cruiseClimb(row: Row): Flown {
  const ratio = row.need('liftToDrag');
  const speed = row.need('speed');
  const heightM = 15_000;
  const liftCoefficient = 0.1;
  const drag = liftCoefficient / ratio / 2;
  const air = densityAt(heightM);
  const areaM2 = row.need('startWeight') / (0.5 * air * speed * speed * liftCoefficient);
  const inducedFactor = drag / (liftCoefficient * liftCoefficient);
  const jet = { areaM2, zeroLiftDrag: drag, inducedFactor, consumption: row.need('tsfc') };
  return fly(row, jet, heightM, constantTrueAirspeed(speed), 'constantLift');
}

/**
 * The example's jet at constant altitude: its polar follows from the two greatest ratios, L/D = 1/(2 sqrt(k CD0)) and CL^0.5/CD =
 * 0.75 / (3 k CD0^3)^0.25, and the range is flown at the lift coefficient of the second, the endurance at that of the first.
 */
function constantAltitude(row: Row, comments: readonly string[]): Flown {
  const number = (pattern: RegExp): number => {
    const found = pattern.exec([...comments, row.text('note')].join(' '));
    if (!found) throw new Error(`the file does not say ${pattern}`);
    return Number(found[1]);
  };
  const density = number(/rho ([\d.]+) kg/);
  const areaM2 = number(/S ([\d.]+) m2/);
  const rootRatio = number(/CL\^0\.5\/CD ([\d.]+)/);
  const product = 1 / (4 * row.need('liftToDrag') ** 2);
  const zeroLiftDrag = Math.sqrt(1 / (3 * product)) * (0.75 / rootRatio) ** 2;
  const inducedFactor = product / zeroLiftDrag;
  const jet = { areaM2, zeroLiftDrag, inducedFactor, consumption: row.need('tsfc') };
  const heightM = heightOfDensity(density);
  const forRange = constantLiftCoefficient(Math.sqrt(zeroLiftDrag / (3 * inducedFactor)), areaM2);
  const forTime = constantLiftCoefficient(Math.sqrt(zeroLiftDrag / inducedFactor), areaM2);
  const { rangeM } = fly(row, jet, heightM, forRange, 'hold');
  const { enduranceS } = fly(row, jet, heightM, forTime, 'hold');
  return { rangeM, enduranceS };
}

function densityAt(heightM: number): number {
  const flight = exactFlight(benchmarkAircraft(), flatEarth());
  flight.placeOnTrack(flatTrack, 0, stateAt(heightM, 0, 1).pressureAltitudeM, 0);
  return flight.frame.air.densityKgM3;
}

function heightOfDensity(density: number): number {
  let low = 0;
  let high = 20_000;
  for (let round = 0; round < 60; round++) {
    const middle = 0.5 * (low + high);
    if (densityAt(middle) > density) low = middle;
    else high = middle;
  }
  return low;
}

export function checkBreguet(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'breguet');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const name = `${row.text('case')} ${row.text('speed')}`.trim();
    row.text('note');
    const flown = (): Flown =>
      row.si('speed') === null ? constantAltitude(row, table.comments) : cruiseClimb(row);
    tally.relative('range', row.si('range'), () => flown().rangeM, name);
    tally.relative('endurance', row.si('endurance'), () => flown().enduranceS, name);
  }
  const reason = 'digits of the file (tsfc 1.4e-8 in the example), and 1e-9 of the integration';
  const tolerance = { mean: 1e-7, max: 3e-7, reason };
  return tally.results({ range: tolerance, endurance: tolerance }, table);
}
