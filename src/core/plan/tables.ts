/** The tables of a plan, taken from the log: the trace, the climbs, the fuel ladder. */
import type { Limit } from '../aircraft/aircraft.ts';
import type { Draft } from './draft.ts';
import { fuelAtEqualEnergy } from './energy.ts';
import { pressureAltitudeAt } from './ground.ts';
import { closenessOf, fileUnit, nextLimits } from './limits.ts';
import type { Log } from './log.ts';
import {
  type ClimbRow,
  type ClimbTable,
  type LadderRow,
  TRACE_COLUMNS,
  type Trace,
  type TraceColumn,
} from './plan.ts';
import { machGates } from './route-flight.ts';

const degrees = 180 / Math.PI;
/** The trace of a draft; times count from take-off. The fuel required is not known yet: NaN. */
export function traceOf(
  drafted: Draft,
  pads: Readonly<Record<string, number>>,
  limits: readonly Limit[],
): Trace {
  const { log, crew } = drafted;
  const takeOffS = crew.sortie.takeOff.timeS;
  const columns = Object.fromEntries(
    TRACE_COLUMNS.map((key) => [key, columnOf(log, key, takeOffS)]),
  ) as Record<TraceColumn, number[]>;
  const byLimit = (values: Record<string, number[]>): Record<string, number[]> =>
    Object.fromEntries(
      limits.map(({ key, quantity }) => [key, values[key].map((value) => value * fileUnit(quantity))]),
    );
  const closeness = closenessOf(limits, pads, log);
  return {
    columns,
    margins: byLimit(log.margins),
    bounds: byLimit(log.bounds),
    phase: log.phaseOf,
    closeness,
    next: nextLimits(closeness, log.nodes),
  };
}

/** Columns of the trace that are not a kept column under the same name. */
function columnOf(log: Log, key: TraceColumn, takeOffS: number): number[] {
  const { columns } = log;
  const inDegrees = (values: readonly number[]): number[] => values.map((value) => value * degrees);
  switch (key) {
    case 'timeS':
      return columns.timeS.map((time) => time - takeOffS);
    case 'distanceM':
      return log.distanceM;
    case 'latitudeDeg':
      return inDegrees(columns.latitudeRad);
    case 'longitudeDeg':
      return inDegrees(columns.longitudeRad);
    case 'courseDeg':
      return columns.courseRad.map((course) => (course * degrees + 360) % 360);
    case 'angleOfAttackDeg':
      return inDegrees(columns.angleOfAttackRad);
    case 'bankDeg':
      return inDegrees(columns.bankRad);
    case 'temperatureK':
      return columns.staticTemperatureK;
    case 'inletTemperatureK':
      return columns.indicatedInletTemperatureK;
    case 'windAlongMS':
      return columns.tailwindMS;
    case 'windAcrossMS':
      return columns.windFromLeftMS;
    case 'fuelRequiredKg':
      return new Array<number>(log.nodes).fill(Number.NaN);
    case 'fuelAtEqualEnergyKg':
      return columns.fuelKg.map((fuel, i) =>
        fuelAtEqualEnergy(fuel, columns.massKg[i], columns.energyHeightM[i]),
      );
    default:
      return columns[key];
  }
}

/** One table for each leg that climbs to a supersonic cruise: a row for each gate, and one where the cruise begins. */
export function climbsOf(drafted: Draft, requiredKg: readonly number[]): ClimbTable[] {
  const { log, crew } = drafted;
  const { columns } = log;
  const tables: ClimbTable[] = [];
  crew.sortie.legs.forEach((leg, index) => {
    if (!leg.fly.some((step) => step.kind === 'climb' && step.mach > 1)) return;
    const climb = climbNodes(log, index);
    if (climb.length < 2) return;
    const startS = columns.timeS[climb[0]];
    const row = (timeS: number): ClimbRow => ({
      mach: log.at(columns.mach, timeS),
      equivalentAirspeedMS: log.at(columns.equivalentAirspeedMS, timeS),
      pressureAltitudeM: log.at(columns.pressureAltitudeM, timeS),
      fuelKg: log.at(columns.fuelKg, timeS),
      fuelRequiredKg: log.at(requiredKg, timeS),
      timeS: timeS - crew.sortie.takeOff.timeS,
      sinceStartS: timeS - startS,
      distanceM: log.at(log.distanceM, timeS),
      inletTemperatureK: log.at(columns.indicatedInletTemperatureK, timeS),
    });
    const rows: ClimbRow[] = [];
    for (const mach of machGates) {
      const timeS = reached(log, climb, mach);
      if (timeS === null) break;
      rows.push({ ...row(timeS), mach });
    }
    const last = climb[climb.length - 1];
    if (kindOf(log, last) === 'cruise') rows.push(row(columns.timeS[last]));
    tables.push({ leg: index, name: leg.name, rows });
  });
  return tables;
}

/** The nodes of a leg from where it leaves a contact or the ground to the first of its cruise, or all where it has none. */
export function climbNodes(log: Log, leg: number): number[] {
  const nodes: number[] = [];
  for (let node = 0; node < log.nodes; node++) {
    const phase = log.phases[log.phaseOf[node]];
    if (phase?.leg !== leg || phase.kind === 'contact') continue;
    nodes.push(node);
    if (phase.kind === 'cruise') break;
  }
  return nodes;
}

/** The kind of the phase of a node. */
export function kindOf(log: Log, node: number): string {
  return log.phases[log.phaseOf[node]]?.kind ?? '';
}

/** When a Mach is first reached among some nodes, linear between them; null where it never is. */
export function reached(log: Log, nodes: readonly number[], mach: number): number | null {
  const { mach: machs, timeS } = log.columns;
  for (let k = 1; k < nodes.length; k++) {
    const [a, b] = [nodes[k - 1], nodes[k]];
    if (!(machs[a] < mach + 1e-9 && machs[b] >= mach - 1e-9)) continue;
    const rise = machs[b] - machs[a];
    const part = rise > 1e-12 ? Math.min(Math.max((mach - machs[a]) / rise, 0), 1) : 1;
    return timeS[a] + part * (timeS[b] - timeS[a]);
  }
  return null;
}

/** A row at every event that a crew marks and, between, one each `ladderEveryS`. */
export function ladderOf(drafted: Draft, requiredKg: readonly number[]): LadderRow[] {
  const { log, crew } = drafted;
  const { columns, distanceM } = log;
  if (log.nodes < 2) return [];
  const takeOffS = crew.sortie.takeOff.timeS;
  const lastS = columns.timeS[log.nodes - 1];
  const marks = new Map<number, string>();
  for (let timeS = takeOffS + crew.sortie.ladderEveryS; timeS < lastS; timeS += crew.sortie.ladderEveryS) {
    if (timeS > columns.timeS[0]) marks.set(timeS, '');
  }
  for (const event of log.events) {
    if (['contact', 'disconnect', 'start-down', 'slow-down', 'cruise', 'waypoint'].includes(event.kind)) {
      marks.set(
        event.timeS,
        event.kind === 'contact' || event.kind === 'disconnect' ? `${event.kind} ${event.name}` : event.name,
      );
    }
  }
  const rows = [...marks.entries()]
    .sort(([a], [b]) => a - b)
    .map(([timeS, name]) => {
      const value = (column: readonly number[]): number => log.at(column, timeS);
      const fuelKg = value(columns.fuelKg);
      const fuelRequiredKg = value(requiredKg);
      const distance = value(distanceM);
      return {
        timeS: timeS - takeOffS,
        name,
        distanceM: distance,
        distanceToGoM: log.endOfLegM(timeS) - distance,
        pressureAltitudeM: value(columns.pressureAltitudeM),
        mach: value(columns.mach),
        fuelKg,
        fuelRequiredKg,
        differenceKg: fuelKg - fuelRequiredKg,
      };
    });
  return [...rows, ...landingRow(drafted)];
}

/** On the runway after the approach, where the sortie comes to that. */
function landingRow({ log, crew, flown }: Draft): LadderRow[] {
  const { sortie, flight } = crew;
  const { end } = sortie.legs[sortie.legs.length - 1];
  const { landingTimeS, landingFuelKg } = flown;
  if (end.kind !== 'landing' || Number.isNaN(landingTimeS)) return [];
  const { base } = end;
  return [
    {
      timeS: landingTimeS - sortie.takeOff.timeS,
      name: `landing ${base.name}`,
      distanceM: log.travelledM,
      distanceToGoM: 0,
      pressureAltitudeM: pressureAltitudeAt(flight.setup.day, base, base.elevationM, landingTimeS),
      mach: 0,
      fuelKg: landingFuelKg,
      fuelRequiredKg: sortie.landingReserveKg,
      differenceKg: landingFuelKg - sortie.landingReserveKg,
    },
  ];
}
