/** What each chart shows as a table, for those who cannot see it and for programs. */
import type { Plan } from '../../core/plan/plan.ts';
import { phaseName } from '../names.ts';
import { fuelDifference } from '../sentences.ts';
import type { Column, Table } from '../table.ts';
import { clock, hoursMinutesSeconds } from '../time.ts';
import { gaugesOf, margin, NOT_COMPUTED, read } from '../units.ts';

/** Nodes of the trace for a table: those that begin a phase, the last, and between them one each `everyS`; all of them at 0. */
function tableNodes(plan: Plan, everyS: number): readonly number[] {
  const { timeS } = plan.trace.columns;
  const nodes: number[] = [];
  let next = Number.NEGATIVE_INFINITY;
  timeS.forEach((time, i) => {
    const begins = i === 0 || plan.trace.phase[i] !== plan.trace.phase[i - 1];
    if (!begins && time < next && i < timeS.length - 1) return;
    nodes.push(i);
    next = (Math.floor(time / Math.max(1, everyS)) + 1) * everyS;
  });
  return nodes;
}

export function profileTable(plan: Plan, everyS: number): Table {
  const gauges = gaugesOf(plan);
  const altitude = gauges('pressureAltitudeM');
  const mach = gauges('mach');
  const columns = plan.trace.columns;
  return onTime(plan, 'Height and Mach', everyS, [
    { name: 'height', unit: altitude.unit, text: (i) => read(altitude, columns.pressureAltitudeM[i]) },
    { name: 'Mach', unit: 'Mach', text: (i) => read(mach, columns.mach[i]) },
  ]);
}

export function fuelTable(plan: Plan, everyS: number): Table {
  const gauge = gaugesOf(plan)('fuelKg');
  const { fuelKg, fuelRequiredKg } = plan.trace.columns;
  return onTime(plan, 'Fuel', everyS, [
    { name: 'on board', unit: gauge.unit, text: (i) => read(gauge, fuelKg[i], 'available') },
    { name: 'required', unit: gauge.unit, text: (i) => read(gauge, fuelRequiredKg[i], 'required') },
    {
      name: 'in hand',
      unit: gauge.unit,
      text: (i) => fuelDifference(gauge, fuelKg[i], fuelRequiredKg[i]).figure,
    },
  ]);
}

export function marginsTable(plan: Plan, everyS: number): Table {
  const names = new Map(plan.limits.map((limit) => [limit.key, limit.name]));
  const limits = plan.limits.map((limit) => {
    const gauge = gaugesOf(plan)(limit.quantity);
    return {
      name: limit.name,
      unit: gauge.differenceUnit,
      text: (i: number) => margin(gauge, plan.trace.margins[limit.key][i]).figure,
    };
  });
  const next = { name: 'next', unit: '', text: (i: number) => names.get(plan.trace.next[i]) ?? '' };
  return onTime(plan, 'Margins', everyS, [next, ...limits]);
}

/** The centre of gravity as flown between its limits; "not computed" where the deck knows none. */
export function centreOfGravityTable(plan: Plan, everyS: number): Table {
  const gauges = gaugesOf(plan);
  const [mach, fuel, cg] = ['mach', 'fuelKg', 'cgFraction'].map(gauges);
  const { columns, bounds } = plan.trace;
  const limits = plan.limits
    .filter(({ quantity }) => quantity === 'cgFraction')
    .map(({ key, name, side }) => ({
      name,
      unit: cg.unit,
      text: (i: number) => read(cg, bounds[key][i], side === 'upper' ? 'available' : 'required'),
    }));
  return onTime(plan, 'Centre of gravity', everyS, [
    { name: 'Mach', unit: 'Mach', text: (i) => read(mach, columns.mach[i]) },
    { name: 'fuel on board', unit: fuel.unit, text: (i) => read(fuel, columns.fuelKg[i], 'available') },
    { name: 'centre of gravity', unit: cg.unit, text: (i) => read(cg, columns.cgFraction[i]) },
    ...limits,
  ]);
}

/** Margins less pads in what counts as close, down to a hundredth; 0 is the limit or its pad. */
export function oneScaleTable(plan: Plan, everyS: number): Table {
  const names = new Map(plan.limits.map((limit) => [limit.key, limit.name]));
  const limits = plan.limits.map(({ key, name }) => ({
    name,
    unit: '1',
    text: (i: number) => {
      const value = plan.trace.closeness[key][i];
      return Number.isFinite(value) ? (Math.floor(value * 100) / 100).toFixed(2) : NOT_COMPUTED;
    },
  }));
  const next = { name: 'next', unit: '', text: (i: number) => names.get(plan.trace.next[i]) ?? '' };
  return onTime(plan, 'Margins on one scale', everyS, [next, ...limits]);
}

interface Shown {
  readonly name: string;
  readonly unit: string;
  readonly text: (node: number) => string;
}

function onTime(plan: Plan, title: string, everyS: number, shown: readonly Shown[]): Table {
  const { timeS } = plan.trace.columns;
  const columns: readonly Column[] = [
    { name: 'since take-off', unit: 'h:min:s', align: 'right' },
    { name: 'time', unit: 'UTC', align: 'right' },
    { name: 'phase', unit: '', align: 'left' },
    ...shown.map(({ name, unit }): Column => ({ name, unit, align: unit === '' ? 'left' : 'right' })),
  ];
  const rows = tableNodes(plan, everyS).map((i) => [
    hoursMinutesSeconds(timeS[i]),
    clock(plan.takeOff, timeS[i]),
    phaseName(plan, plan.phases[plan.trace.phase[i]].name),
    ...shown.map(({ text }) => text(i)),
  ]);
  return { title, columns, rows };
}
