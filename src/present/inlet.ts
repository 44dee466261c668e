/** What an inlet off its schedule costs, in words and as a table. */
import type { InletEdge, InletLeg, PlanInlet } from '../core/plan/plan.ts';
import { keyWords, lowerFirst } from './names.ts';
import type { Column, Table } from './table.ts';
import { figures, type Gauge, type Gauges, numeral, shown } from './units.ts';

/** Errors and margins are given to a tenth of a degree, margins down. */
const ANGLE_STEP = 0.1;
const PART_STEP = 0.1;

/** "+0.5", "−2": an error with its sign. */
export function signed(error: number, step = ANGLE_STEP): string {
  return `${error > 0 ? '+' : ''}${numeral(error, step)}`;
}

/** How far to one side the end of the leg stays in reach; towards the schedule. */
function edgeText({ errorDeg, by }: InletEdge, side: 'low' | 'high', to: string, gauge: Gauge): string {
  if (errorDeg === null) return `Too ${side}, ${to} stays in reach to the end of the deck's table.`;
  const inside = Math.trunc(errorDeg / ANGLE_STEP + (errorDeg > 0 ? 1e-9 : -1e-9)) * ANGLE_STEP;
  const at = `${signed(gauge.differenceFromSi(inside))}${gauge.shortUnit}`;
  if (by === 'expelled')
    return `Too ${side}, the shock is expelled beyond ${at}; to there ${to} stays in reach.`;
  const why = by === 'fuel' ? 'the fuel in hand is gone' : `it cannot be flown (${keyWords(by)})`;
  return `Too ${side}, ${to} is out of reach beyond ${at}: ${why}.`;
}

export function inletSentences(inlet: PlanInlet, leg: InletLeg, gauges: Gauges): string[] {
  const angle = gauges('angleDeg');
  const position =
    leg.positionDeg === null ? '' : `, ${lowerFirst(inlet.name)} at ${shown(angle, leg.positionDeg)}`;
  return [
    `${leg.name}: ${shown(gauges('mach'), leg.mach)} at the most${position}; ${shown(gauges('fuelKg'), leg.inHandKg, 'available')} in hand at ${leg.to}.`,
    edgeText(leg.low, 'low', leg.to, angle),
    edgeText(leg.high, 'high', leg.to, angle),
  ];
}

const number = (name: string, unit: string): Column => ({ name, unit, align: 'right' });

/** A part as per cent with its sign, a loss rounded away from 0. */
export function percent(part: number): string {
  const value = 100 * part;
  const steps = Math.sign(value) * Math.ceil(Math.abs(value) / PART_STEP - 1e-6);
  return steps === 0 ? '0' : signed(steps * PART_STEP, PART_STEP);
}

/** Fuel with more than planned rounded up; why it is not flown instead, where it is not. */
export function fuelOrWhy(fuel: Gauge, kg: number | null, stopped: string | null): string {
  return kg === null ? keyWords(stopped ?? 'not flown') : figures(fuel, fuel.fromSi(kg), 'required');
}

export function inletTable(inlet: PlanInlet, leg: InletLeg, gauges: Gauges): Table {
  const [fuel, angle] = ['fuelKg', 'angleDeg'].map(gauges);
  return {
    title: `${inlet.name} off its schedule to ${leg.to}`,
    columns: [
      number('error', angle.unit),
      number('thrust', '%'),
      number('drag', '%'),
      number('to expelling', angle.unit),
      number('more fuel', fuel.unit),
      number('one side alone', fuel.unit),
    ],
    rows: leg.rows.map((row) => [
      signed(angle.differenceFromSi(row.errorDeg)),
      percent(row.thrustChange),
      percent(row.dragChange),
      figures(angle, angle.differenceFromSi(row.shockMarginDeg), 'available', ANGLE_STEP),
      fuelOrWhy(fuel, row.fuelKg, row.stopped),
      fuelOrWhy(fuel, row.oneInletFuelKg, row.stopped),
    ]),
  };
}
