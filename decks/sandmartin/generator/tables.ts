/** The tables of Sandmartin as CSV texts. */
import { standardPressure, standardTemperature } from '../../../src/core/air/standard.ts';
import * as airframe from './airframe.ts';
import { engine, settings } from './engine.ts';
import { approachSpeed, landingRoll, takeOff } from './field.ts';
import { bleedRatio, captureRatio, rampAngleDeg, recovery } from './inlet.ts';
import { inletError } from './inlet-error.ts';

const foot = 0.3048;

const title =
  '# Sandmartin, an invented aircraft: every number is notional. Written by decks/sandmartin/generate.ts.\n';

/** Mach numbers of all tables of the air: close together where drag and inlet change fast. */
const machs = [
  0, 0.2, 0.4, 0.55, 0.7, 0.8, 0.85, 0.9, 0.95, 1, 1.05, 1.1, 1.15, 1.2, 1.3, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2,
  2.1, 2.2, 2.3, 2.4, 2.5, 2.6, 2.7, 2.8, 2.9, 3, 3.1, 3.2,
];
const altitudesFt = Array.from({ length: 30 }, (_, index) => index * 3000);
const offsetsK = [-40, -20, -10, 0, 10, 20, 40];
const dragAltitudesFt = [0, 10000, 20000, 30000, 40000, 50000, 60000, 70000, 80000, 90000];
const cgPercents = [18, 20, 22, 24, 26, 28, 30, 32, 34, 36];

function csv(heading: string, header: string, rows: readonly string[]): string {
  return `${title}# ${heading}\n${header}\n${rows.join('\n')}\n`;
}

function propulsion(): string {
  const rows: string[] = [];
  let widest = 0;
  const results = machs.flatMap((mach) =>
    altitudesFt.flatMap((altitudeFt) =>
      offsetsK.flatMap((offsetK) =>
        settings.map((setting) => {
          const pressure = standardPressure(altitudeFt * foot);
          const result = engine(mach, pressure, standardTemperature(altitudeFt * foot) + offsetK, setting);
          widest = Math.max(widest, result.nozzleThroatM2);
          return { mach, altitudeFt, offsetK, setting, result };
        }),
      ),
    ),
  );
  for (const { mach, altitudeFt, offsetK, setting, result } of results) {
    const thrust = result.thrustN.toFixed(0).replace(/^-0$/, '0');
    const nozzle = ((100 * result.nozzleThroatM2) / widest).toFixed(0);
    rows.push(
      `${mach},${altitudeFt},${offsetK},${setting},${thrust},${fuelText(result.fuelFlowKgS)},${nozzle}`,
    );
  }
  return csv(
    'one engine, installed: net thrust less inlet drag, fuel flow, nozzle throat of its widest',
    'mach [1],pressureAltitude [ft],temperatureOffset [K],setting,thrust [N],fuelFlow [kg/s],nozzle [%]',
    rows,
  );
}

/** Four digits are 0.05 % at worst. */
function fuelText(fuelFlowKgS: number): string {
  return String(Number(fuelFlowKgS.toPrecision(4)));
}

function takeOffTable(): string {
  const rows: string[] = [];
  for (const mass of [40000, 46000, 52000, 58000, 64000, 70000, 78000]) {
    for (const altitudeFt of [0, 2000, 4000, 6000]) {
      for (const offset of offsetsK) {
        const run = takeOff(mass, altitudeFt * foot, offset);
        rows.push(
          `${mass},${altitudeFt},${offset},${run.groundRollM.toFixed(0)},${run.timeS.toFixed(2)},${run.fuelKg.toFixed(1)},${run.liftOffSpeedMS.toFixed(2)}`,
        );
      }
    }
  }
  return csv(
    'ground run in full afterburner, level dry runway, no wind',
    'mass [kg],pressureAltitude [ft],temperatureOffset [K],groundRoll [m],time [s],fuel [kg],liftOffSpeed [m/s TAS]',
    rows,
  );
}

const landingMasses = [36000, 42000, 48000, 54000, 60000];

function landingTable(): string {
  const rows: string[] = [];
  for (const mass of landingMasses) {
    for (const altitudeFt of [0, 2000, 4000, 6000]) {
      for (const offset of offsetsK) {
        rows.push(
          `${mass},${altitudeFt},${offset},${landingRoll(mass, altitudeFt * foot, offset).toFixed(0)}`,
        );
      }
    }
  }
  return csv(
    'ground run from touch-down at 0.95 of approach speed, brakes and parachute, no wind',
    'mass [kg],pressureAltitude [ft],temperatureOffset [K],groundRoll [m]',
    rows,
  );
}

const errorMachs = [0, 1.2, 1.3, 1.5, 1.7, 2, 2.2, 2.4, 2.6, 2.7, 2.8, 2.85, 2.9, 3, 3.1, 3.2];
const errorsDeg = [-3, -2, -1.5, -1, -0.5, 0, 0.5, 1, 1.5, 2, 3];
/** Thrust and flow are those of a cruise: at this dynamic pressure [Pa], about 400 KEAS, in minimum afterburner. */
const cruisePressurePa = 25_900;

/** What an inlet beside its schedule does to thrust and fuel flow, by the cycle with the recovery that is left. */
function inletErrorTable(): string {
  const rows = errorMachs.flatMap((mach) =>
    errorsDeg.map((errorDeg) => {
      const { recoveryRatio, dragIncrement, shockMarginDeg } = inletError(
        mach,
        errorDeg,
        airframe.airframe.wingAreaM2,
      );
      const pressure = mach < 1 ? standardPressure(24000 * foot) : cruisePressurePa / (0.7 * mach * mach);
      const run = (ratio: number) => engine(mach, pressure, 216.65, 'minimumAfterburner', ratio);
      const [usual, here] = [run(1), run(recoveryRatio)];
      const ratios = [here.thrustN / usual.thrustN, here.fuelFlowKgS / usual.fuelFlowKgS];
      return `${mach},${errorDeg},${ratios.map((ratio) => ratio.toFixed(4)).join(',')},${dragIncrement.toFixed(6)},${shockMarginDeg.toFixed(2)}`;
    }),
  );
  return csv(
    'every inlet beside its schedule: position less schedule, and what it does at a power; where the shock is expelled, only how far beyond',
    'mach [1],positionError [deg],thrustRatio [1],fuelFlowRatio [1],dragIncrement [1],shockMargin [deg]',
    rows,
  );
}

/** Every generated file of the deck: name and text. */
export function sandmartinTables(): ReadonlyMap<string, string> {
  const tables = new Map<string, string>();
  const liftRows = machs.map(
    (mach) => `${mach},${airframe.liftSlope(mach).toFixed(4)},${airframe.dragDueToLift(mach).toFixed(4)}`,
  );
  tables.set(
    'lift.csv',
    csv(
      'lift slope, and eta of CD = CD0 + eta CL alpha',
      'mach [1],liftSlope [1/rad],dragDueToLift [1]',
      liftRows,
    ),
  );

  const dragRows = machs.flatMap((mach) =>
    dragAltitudesFt.map(
      (altitudeFt) => `${mach},${altitudeFt},${airframe.zeroLiftDrag(mach, altitudeFt * foot).toFixed(6)}`,
    ),
  );
  tables.set(
    'drag.csv',
    csv('friction, wave and afterbody drag', 'mach [1],pressureAltitude [ft],zeroLiftDrag [1]', dragRows),
  );

  const trimRows = machs.flatMap((mach) =>
    cgPercents.map((percent) => `${mach},${percent},${airframe.trimFactor(mach, percent / 100).toFixed(5)}`),
  );
  tables.set(
    'trim.csv',
    csv('drag of trimming over CL^2', 'mach [1],centreOfGravity [%],trimFactor [1]', trimRows),
  );

  const inletRows = machs.map(
    (mach) =>
      `${mach},${recovery(mach).toFixed(4)},${rampAngleDeg(mach).toFixed(2)},${(100 * captureRatio(mach)).toFixed(1)},${(100 * bleedRatio(mach)).toFixed(2)}`,
  );
  tables.set(
    'inlet.csv',
    csv(
      'inlet: recovery, ramp, stream tube let in and bled',
      'mach [1],recovery [1],rampAngle [deg],captureRatio [%],bleedRatio [%]',
      inletRows,
    ),
  );

  tables.set('inlet-error.csv', inletErrorTable());
  tables.set('propulsion.csv', propulsion());
  tables.set('take-off.csv', takeOffTable());
  tables.set('landing-roll.csv', landingTable());
  const approachRows = landingMasses.map(
    (mass) => `${mass},${(approachSpeed(mass) / (1852 / 3600)).toFixed(1)}`,
  );
  tables.set(
    'approach-speed.csv',
    csv('approach at 10 degrees of incidence', 'mass [kg],approachSpeed [KEAS]', approachRows),
  );
  return tables;
}
