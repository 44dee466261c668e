/** Where a descent begins, what it does to be late or heavy, and how its energy is lost: in sentences and rows. */
import type { Plan, StartDownTable } from '../core/plan/plan.ts';
import { heldSentences } from './descent.ts';
import { lowerFirst, phaseName } from './names.ts';
import type { Column, Table } from './table.ts';
import { clock, hoursMinutes, minutesSeconds } from './time.ts';
import { figures, type Gauge, gaugesOf, read, rounded, shown } from './units.ts';

/** Late by this. */
const LATE_S = 10;
const THOUSAND = 1000;

/** The point, what ten seconds are worth and how late is too late, what a heavier aircraft does. */
export function startDownSentences(plan: Plan, table: StartDownTable): readonly string[] {
  return [startSentence(plan, table), lateSentence(plan, table), ...heavierSentence(plan, table)];
}

/** How it is flown, what engines, inlets and cabin ask of it, and the worked line. */
export function startDownNotes(plan: Plan, table: StartDownTable): readonly string[] {
  return [flown(plan, table), ...heldSentences(plan, table.held), energyLine(plan, table)];
}

const number = (name: string, unit: string): Column => ({ name, unit, align: 'right' });

export function startDownRows(plan: Plan, table: StartDownTable): Table {
  const gauges = gaugesOf(plan);
  const [altitude, speed, distance, fuel] = [
    'pressureAltitudeM',
    'equivalentAirspeedMS',
    'distanceM',
    'fuelKg',
  ].map(gauges);
  return {
    title: `Down to ${table.to}`,
    columns: [
      number('from start down', 'min:s'),
      number('Mach', ''),
      number('speed', speed.unit),
      number('altitude', altitude.unit),
      number('to go', distance.shortUnit),
      number('fuel', fuel.unit),
      number('required', fuel.unit),
    ],
    rows: table.rows.map((row) => [
      minutesSeconds(row.timeS - table.timeS),
      read(gauges('mach'), row.mach),
      read(speed, row.equivalentAirspeedMS),
      read(altitude, row.pressureAltitudeM),
      read(distance, row.distanceToGoM, 'required'),
      read(fuel, row.fuelKg, 'available'),
      read(fuel, row.fuelRequiredKg, 'required'),
    ]),
  };
}

/** "269 nm to go, 446 nm beyond Birch: M 2.85, 71 700 ft, 1:38 (17:08Z)." */
function startSentence(plan: Plan, table: StartDownTable): string {
  const gauges = gaugesOf(plan);
  const distance = gauges('distanceM');
  const [start] = table.rows;
  const beyond =
    table.after === null
      ? ''
      : `, ${shown(distance, table.after.distanceM, 'available')} beyond ${table.after.name}`;
  const state = `${shown(gauges('mach'), start.mach)}, ${shown(gauges('pressureAltitudeM'), start.pressureAltitudeM)}`;
  return `${shown(distance, table.distanceToGoM, 'required')} to go${beyond}: ${state}, ${hoursMinutes(table.timeS)} (${clock(plan.takeOff, table.timeS)}).`;
}

/** What ten seconds are worth, and how late is too late. */
function lateSentence(plan: Plan, { groundSpeedMS, levelM }: StartDownTable): string {
  const gauge = gaugesOf(plan)('distanceM');
  const late = `${figures(gauge, gauge.fromSi(groundSpeedMS * LATE_S), 'nearest', gauge.step / 10)}\u00a0${gauge.shortUnit}`;
  const latest = `${shown(gauge, levelM, 'available')} or ${Math.floor(levelM / groundSpeedMS)} s later`;
  return `Each ${LATE_S} s late is ${late}; at the latest ${latest}, then no level stretch is left.`;
}

function heavierSentence(plan: Plan, { perKgM }: StartDownTable): readonly string[] {
  if (perKgM === null) return [];
  const gauges = gaugesOf(plan);
  const [distance, fuel] = ['distanceM', 'fuelKg'].map(gauges);
  const byM = (perKgM * THOUSAND) / fuel.differenceFromSi(1);
  const text = `${figures(distance, Math.abs(distance.fromSi(byM)), 'nearest', distance.step / 10)}\u00a0${distance.shortUnit}`;
  return [
    `Each ${figures(fuel, THOUSAND)} ${fuel.unit} heavier: ${text} ${perKgM < 0 ? 'earlier' : 'later'}.`,
  ];
}

/** How the descent is flown: its phases in order. */
function flown(plan: Plan, { leg, timeS, rows }: StartDownTable): string {
  const endS = rows[rows.length - 1].timeS;
  const names = plan.phases
    .filter((phase) => phase.leg === leg && phase.startS >= timeS - 1 && phase.endS <= endS + 1)
    .map((phase) => lowerFirst(phaseName(plan, phase.name)));
  const [first, ...rest] = names.filter((name, i) => name !== names[i - 1]);
  return `Flown: ${[first, ...rest].join(', then ')}.`;
}

/** Energy height to lose over the mean slope is the way through the air; worked with the figures as printed. */
function energyLine(plan: Plan, { energy }: StartDownTable): string {
  const gauges = gaugesOf(plan);
  const [height, distance] = ['energyHeightM', 'distanceM'].map(gauges);
  const printed = (gauge: Gauge, m: number) => rounded(gauge.fromSi(m), gauge.step, 'nearest');
  const slope = Number(energy.meanSlope.toFixed(4));
  const lost = printed(height, energy.fromM - energy.toM);
  const wind = printed(height, energy.fromWindM);
  const way = (((lost + wind) / slope) * distance.differenceFromSi(1)) / height.differenceFromSi(1);
  const given =
    wind === 0
      ? ''
      : `, ${shown(height, Math.abs(energy.fromWindM))} ${wind < 0 ? 'to' : 'from'} the change of wind`;
  return `Worked: ${read(height, energy.fromM)} \u2212 ${read(height, energy.toM)} = ${figures(height, lost)} ${height.shortUnit} of energy height${given}; over a mean (drag \u2212 thrust) / weight of ${slope} that is ${figures(distance, way)} ${distance.shortUnit} through the air. Flown: ${shown(distance, energy.airDistanceM)}, over the ground ${shown(distance, energy.distanceM)}.`;
}
