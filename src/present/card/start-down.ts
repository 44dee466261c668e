/** The start-down card: where the descent begins, what it does to be late, and the gates on the way down. */
import type { Plan, StartDownTable } from '../../core/plan/plan.ts';
import { heldSentences } from '../descent.ts';
import { lowerFirst, phaseName } from '../names.ts';
import { clock, hoursMinutes, minutesSeconds } from '../time.ts';
import { figures, type Gauge, gaugesOf, read, rounded, shown } from '../units.ts';
import { type Card, cell, MOST_ROWS, part, split } from './card.ts';

/** Late by this. */
const LATE_S = 10;
const THOUSAND = 1000;

export function startDownCards(plan: Plan, leg: number): readonly Card[] {
  return plan.startDowns.filter((table) => table.leg === leg).flatMap((table) => cardsOf(plan, table));
}

function cardsOf(plan: Plan, table: StartDownTable): readonly Card[] {
  const gauges = gaugesOf(plan);
  const [mach, altitude, distance, fuel] = ['mach', 'pressureAltitudeM', 'distanceM', 'fuelKg'].map(gauges);
  const pieces = split(table.rows, MOST_ROWS);
  return pieces.map((rows, i) => ({
    title: `Start down to ${table.to}${part(i, pieces.length)}`,
    question: 'Where do I start down, and am I on the way?',
    answer: [startSentence(plan, table), lateSentence(plan, table), ...heavierSentence(plan, table)],
    table: {
      columns: [
        { name: 'Mach', unit: `${gauges('equivalentAirspeedMS').unit} below`, holds: 'figures' },
        { name: 'Altitude', unit: altitude.unit, holds: 'figures' },
        { name: 'To go', unit: distance.shortUnit, holds: 'figures' },
        { name: 'Fuel', unit: `${fuel.unit}, required below`, holds: 'figures' },
        { name: 'Time', unit: 'min:s from start down', holds: 'figures' },
      ],
      rows: rows.map((row) => [
        cell(read(mach, row.mach), read(gauges('equivalentAirspeedMS'), row.equivalentAirspeedMS)),
        cell(read(altitude, row.pressureAltitudeM)),
        cell(read(distance, row.distanceToGoM, 'required')),
        cell(read(fuel, row.fuelKg, 'available'), read(fuel, row.fuelRequiredKg, 'required')),
        cell(minutesSeconds(row.timeS - table.timeS)),
      ]),
    },
    notes: [
      flown(plan, table),
      ...heldSentences(plan, table.held),
      energyLine(plan, table),
      `To go is rounded up; fuel on board down and required up to ${fuel.step} ${fuel.unit}.`,
    ],
  }));
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
