/** Point masses over the rotating Earth, against up to six simulations of NASA: the project's forces and stepper in Cartesian axes. */
import { standardDay } from '../../../src/core/air/offset-day.ts';
import type { Aircraft } from '../../../src/core/aircraft/aircraft.ts';
import { ROTATING_EARTH } from '../../../src/core/flight/earth-model.ts';
import { EXACT } from '../../../src/core/flight/setup.ts';
import { Stepper } from '../../../src/core/numerics/stepper.ts';
import { benchmarkAircraft, windyDay } from '../../support/benchmark.ts';
import {
  axesAt,
  CartesianMotion,
  dot,
  oblateField,
  sum,
  toCartesian,
  toGeodetic,
} from '../../support/cartesian.ts';
import { PublishedTable, type Row } from './csv.ts';
import { type CheckResult, Tally } from './tally.ts';

const feet = 0.3048;
const degree = Math.PI / 180;
/** One slug, in the file's own units. */
const massKg = (0.45359237 * 9.80665) / feet;
const areaM2 = 0.1963495 * feet * feet;
const dragCoefficient = 0.1;

/** A sphere: no lift, constant drag. */
function sphere(withDrag: boolean): Aircraft {
  const base = benchmarkAircraft();
  return {
    ...base,
    aerodynamics: {
      ...base.aerodynamics,
      wingAreaM2: areaM2,
      at(_mach, _pressureAltitudeM, _geometricHeightM, _cgFraction, out) {
        out.liftSlope = 0;
        out.zeroLiftAngleRad = 0;
        out.zeroLiftDrag = withDrag ? dragCoefficient : 0;
        out.inducedFactor = 0;
        out.outside = 0;
      },
    },
  };
}

/** What lies beyond the simulations' own spread: their digits, the constants and tables that each of them chose. */
const margins: Readonly<Record<string, number>> = {
  altitude: 0.01 * feet,
  latitude: 1e-9 * degree,
  longitude: 2e-9 * degree,
  velocityNorth: 1e-4 * feet,
  velocityEast: 1e-4 * feet,
  velocityDown: 1e-3 * feet,
};

export function checkNesc(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'nesc-check-cases');
  const tally = new Tally(table.name);
  const names = new Set(table.rows.map((row) => row.text('case')));
  for (const name of names) {
    const rows = table.rows.filter((row) => row.text('case') === name);
    const flown = fly(name, rows);
    for (const [i, row] of rows.entries()) {
      row.text('simulations');
      for (const [quantity, margin] of Object.entries(margins)) {
        const spread = row.si(`${quantity}Spread`) ?? 0;
        const what = `case ${name} at ${row.text('time')} s`;
        tally.add(quantity, 'allowance', row.si(quantity), () => flown[i][quantity], spread + margin, what);
      }
    }
  }
  const own = {
    mean: 0.5,
    max: 1,
    reason: 'in parts of the spread of the simulations and a margin for their digits',
  };
  return tally.results(Object.fromEntries(Object.keys(margins).map((name) => [name, own])), table);
}

/** The state at the times of the rows; the first row is the start. */
function fly(name: string, rows: readonly Row[]): Record<string, number>[] {
  const wind = name === '07' ? 20 * feet : 0;
  const day = wind === 0 ? standardDay : windyDay(() => [0, 0], wind);
  const aircraft = sphere(name !== '01');
  const setup = { aircraft, day, earth: ROTATING_EARTH, tolerance: EXACT, zeroFuelMassKg: 0 };
  const motion = new CartesianMotion(
    setup,
    (forces) => {
      forces.usePower(0);
      forces.useAngle(0);
      return 0;
    },
    oblateField,
  );
  const [first] = rows;
  const start = {
    latitudeRad: first.need('latitude'),
    longitudeRad: first.need('longitude'),
    heightM: first.need('altitude'),
  };
  const [north, east, up] = axesAt(start.latitudeRad, start.longitudeRad);
  const velocity = sum(
    [first.need('velocityNorth'), north],
    [first.need('velocityEast'), east],
    [-first.need('velocityDown'), up],
  );
  const y = Float64Array.of(...toCartesian(start), ...velocity, massKg);
  const stepper = new Stepper(7);
  const control = { relative: 1e-12, absolute: [1e-6, 1e-6, 1e-6, 1e-8, 1e-8, 1e-8, 1e-8] };
  let t = first.need('time');
  return rows.map((row) => {
    const until = row.need('time');
    if (until > t) stepper.run(motion, t, y, until, control);
    t = until;
    return read(y);
  });
}

function read(y: Float64Array): Record<string, number> {
  const place = toGeodetic([y[0], y[1], y[2]]);
  const [north, east, up] = axesAt(place.latitudeRad, place.longitudeRad);
  return {
    altitude: place.heightM,
    latitude: place.latitudeRad,
    longitude: place.longitudeRad,
    velocityNorth: dot([y[3], y[4], y[5]], north),
    velocityEast: dot([y[3], y[4], y[5]], east),
    velocityDown: -dot([y[3], y[4], y[5]], up),
  };
}
