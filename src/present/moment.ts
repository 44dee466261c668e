/** One moment of a plan in words and numbers: what a cursor on the strip reads. */
import { bisectRight } from 'd3-array';
import type { LimitSummary, Plan, TraceColumn } from '../core/plan/plan.ts';
import { crewReadings } from './crew.ts';
import { phaseName } from './names.ts';
import { fuelDifference } from './sentences.ts';
import { clock, hoursMinutesSeconds } from './time.ts';
import { gaugesOf, margin, read, type Side, shown } from './units.ts';

export interface Reading {
  readonly name: string;
  /** The value with its unit and kind. */
  readonly text: string;
  /** What the name means, in a sentence. */
  readonly means: string;
}

export interface MomentRead {
  /** "1:02:10 after take-off, 16:32Z". */
  readonly when: string;
  readonly phase: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly courseDeg: number;
  readonly mach: number;
  readonly readings: readonly Reading[];
  /** Every limit with its margin, the closest first; the one that is next comes first. */
  readonly margins: readonly Reading[];
}

/** What is read of a flight, in order. */
const READ: readonly (readonly [column: TraceColumn, name: string, side: Side])[] = [
  ['pressureAltitudeM', 'Height', 'nearest'],
  ['mach', 'Mach', 'nearest'],
  ['equivalentAirspeedMS', 'Equivalent airspeed', 'nearest'],
  ['calibratedAirspeedMS', 'Calibrated airspeed', 'nearest'],
  ['trueAirspeedMS', 'True airspeed', 'nearest'],
  ['groundSpeedMS', 'Ground speed', 'nearest'],
  ['temperatureK', 'Static temperature', 'nearest'],
  ['temperatureOffsetK', 'Off standard', 'nearest'],
  ['inletTemperatureK', 'Inlet temperature', 'required'],
  ['fuelFlowKgS', 'Fuel flow', 'required'],
  ['loadFactor', 'Load factor', 'nearest'],
  ['bankDeg', 'Bank', 'nearest'],
  ['angleOfAttackDeg', 'Angle of attack', 'required'],
  ['cgFraction', 'Centre of gravity', 'nearest'],
  ['massKg', 'Mass', 'required'],
];

/** The moment at a time since take-off, linear between the nodes of the trace; before the first and after the last, theirs. */
export function momentAt(plan: Plan, timeS: number): MomentRead {
  const { columns } = plan.trace;
  const last = columns.timeS.length - 1;
  const after = Math.min(Math.max(bisectRight(columns.timeS, timeS), 1), last);
  const step = columns.timeS[after] - columns.timeS[after - 1];
  const part = step > 0 ? Math.min(Math.max((timeS - columns.timeS[after - 1]) / step, 0), 1) : 1;
  const node = part < 1 ? after - 1 : after;
  const of = (column: readonly (number | null)[]) => linear(column, after, part);
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const [onBoard, required] = [of(columns.fuelKg), of(columns.fuelRequiredKg)];
  const across = of(columns.windAcrossMS);
  return {
    when: `${hoursMinutesSeconds(timeS)} after take-off, ${clock(plan.takeOff, timeS)}`,
    phase: phaseName(plan, plan.phases[plan.trace.phase[node]].name),
    latitudeDeg: of(columns.latitudeDeg),
    longitudeDeg: turned(columns.longitudeDeg, after, part),
    courseDeg: columns.courseDeg[node],
    mach: of(columns.mach),
    readings: [
      {
        name: 'Fuel on board',
        text: shown(fuel, onBoard, 'available'),
        means: 'All fuel in the tanks, with what cannot be used; rounded down.',
      },
      {
        name: 'Fuel required',
        text: shown(fuel, required, 'required'),
        means:
          'The least with which the rest can be flown to the next contact, and from there the worst case that the sortie names; on the last leg, to the landing with its reserve. Rounded up.',
      },
      {
        name: 'In hand',
        text: fuelDifference(fuel, onBoard, required).text,
        means: 'Fuel on board less fuel required.',
      },
      ...READ.map(([column, name, side]) => ({
        name,
        text: shown(gauges(column), of(columns[column]), side),
        means: gauges(column).quantity.sentence,
      })),
      {
        name: 'Wind',
        means: 'The wind along the track, from behind or from ahead, and across it.',
        text: `${alongWords(plan, of(columns.windAlongMS))}, ${read(gauges('windSpeedMS'), Math.abs(across))}\u00a0kt from the ${across >= 0 ? 'left' : 'right'}`,
      },
      ...crewReadings(plan, timeS),
    ],
    margins: marginsAt(plan, node, of),
  };
}

function alongWords(plan: Plan, alongMS: number): string {
  return `${read(gaugesOf(plan)('windSpeedMS'), Math.abs(alongMS))}\u00a0kt ${alongMS >= 0 ? 'tail' : 'head'}`;
}

function marginsAt(
  plan: Plan,
  node: number,
  of: (column: readonly (number | null)[]) => number,
): readonly Reading[] {
  const next = plan.trace.next[node];
  const inOrder = [...plan.limits].sort((a, b) => Number(b.key === next) - Number(a.key === next));
  return inOrder.map(({ key, name, quantity, spread, side, source }) => ({
    name,
    means: meansOf(side, spread, source),
    text: margin(gaugesOf(plan)(quantity), of(plan.trace.margins[key]), spread).text,
  }));
}

function linear(column: readonly (number | null)[], after: number, part: number): number {
  const [a, b] = [column[after - 1], column[after]];
  if (part >= 1 || a === null || !Number.isFinite(a)) return b ?? Number.NaN;
  if (part <= 0 || b === null || !Number.isFinite(b)) return a;
  return a + part * (b - a);
}

/** As `linear` for angles that may pass 180 degrees. */
function turned(column: readonly number[], after: number, part: number): number {
  const step = column[after] - column[after - 1];
  const angle = column[after - 1] + part * (step - 360 * Math.round(step / 360));
  return angle - 360 * Math.round(angle / 360);
}

function meansOf(side: LimitSummary['side'], spread: number, source: string): string {
  const kept = `How far the flight stays ${side === 'upper' ? 'below' : 'above'} the limit; a minus is beyond it.`;
  const beach = spread > 0 ? ' ± is one standard deviation of the limit.' : '';
  return `${kept}${beach} The limit stands in ${source}.`;
}
