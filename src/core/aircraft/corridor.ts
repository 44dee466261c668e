/** Where an aircraft may fly level: the margins of its limits over Mach and pressure altitude. */
import type { Aircraft } from './aircraft.ts';
import { levelFlight } from './level-flight.ts';

export interface Corridor {
  readonly mach: readonly number[];
  readonly pressureAltitudeM: readonly number[];
  /** The limits that end somewhere in this range. */
  readonly limits: readonly CorridorLimit[];
  /** Of each Mach at which any altitude is left. */
  readonly room: readonly CorridorRoom[];
}

export interface CorridorLimit {
  readonly key: string;
  readonly name: string;
  /** Signed margins, of each Mach the altitudes upward, in the limit's SI unit; NaN where a table ends. */
  readonly margins: readonly (readonly number[])[];
}

/** The range of pressure altitude at one Mach, and the name of what ends it; null where the altitudes looked at end it. */
export interface CorridorRoom {
  readonly mach: number;
  readonly lowestM: number;
  readonly lowestBy: string | null;
  readonly highestM: number;
  readonly highestBy: string | null;
}

const endOfTables = 'End of the tables';
const machStep = 0.025;
const altitudeStepM = 500;

/**
 * Level flight with so much fuel from Mach 0 and sea level up to `machTo` and `altitudeToM`, on a day of one temperature offset
 * [K]. Between the points of the grid a limit is straight, which moves it by less than 0.002 Mach or 20 m where its tables have no kink between.
 */
export function corridorOf(
  aircraft: Aircraft,
  fuelKg: number,
  temperatureOffsetK: number,
  machTo: number,
  altitudeToM: number,
): Corridor {
  const mach = steps(machTo, machStep);
  const pressureAltitudeM = steps(altitudeToM, altitudeStepM);
  const fly = levelFlight(aircraft, fuelKg, temperatureOffsetK);
  const margins = aircraft.limits.map(() => mach.map(() => [] as number[]));
  mach.forEach((m, i) => {
    for (const altitude of pressureAltitudeM) {
      const { limitInputs } = fly(m, altitude);
      aircraft.limits.forEach((limit, k) => {
        const over = limit.bound(limitInputs) - limit.value(limitInputs);
        margins[k][i].push(limit.side === 'upper' ? over : -over);
      });
    }
  });
  const limits = aircraft.limits
    .map(({ key, name }, k) => ({ key, name, margins: margins[k] }))
    .filter((limit) => limit.margins.some((column) => column.some((margin) => margin < 0)));
  const room = mach.flatMap((m, i) => roomAt(m, i, pressureAltitudeM, limits) ?? []);
  return { mach, pressureAltitudeM, limits, room };
}

function steps(to: number, step: number): number[] {
  const count = Math.ceil(to / step - 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => Math.min(to, Number((i * step).toFixed(6))));
}

function roomAt(
  mach: number,
  column: number,
  altitudes: readonly number[],
  limits: readonly CorridorLimit[],
): CorridorRoom | null {
  const inside = altitudes.map((_, row) => limits.every(({ margins }) => margins[column][row] >= 0));
  const first = inside.indexOf(true);
  const last = inside.lastIndexOf(true);
  if (first < 0) return null;
  const [lowestM, lowestBy] = endOf(column, first, first - 1, altitudes, limits);
  const [highestM, highestBy] = endOf(column, last, last + 1, altitudes, limits);
  return { mach, lowestM, lowestBy, highestM, highestBy };
}

/** Between a row inside and its neighbour outside: where the first limit on the way is met. */
function endOf(
  column: number,
  inside: number,
  outside: number,
  altitudes: readonly number[],
  limits: readonly CorridorLimit[],
): [number, string | null] {
  if (altitudes[outside] === undefined) return [altitudes[inside], null];
  let part = 1;
  let by: string | null = null;
  for (const { name, margins } of limits) {
    const [here, there] = [margins[column][inside], margins[column][outside]];
    if (there >= 0) continue;
    if (Number.isNaN(there)) return [altitudes[inside], endOfTables];
    const met = here / (here - there);
    if (by !== null && met >= part) continue;
    part = met;
    by = name;
  }
  return [altitudes[inside] + part * (altitudes[outside] - altitudes[inside]), by];
}
