/** The climb card: which speed now, and is the fuel as planned. */
import type { ClimbTable, Plan } from '../../core/plan/plan.ts';
import { phaseName } from '../names.ts';
import { hoursMinutes, minutesSeconds } from '../time.ts';
import { gaugesOf, read } from '../units.ts';
import { type Card, cell, MOST_ROWS, part, split } from './card.ts';

export function climbCards(plan: Plan): readonly Card[] {
  return plan.climbs.flatMap((climb) => cardsOf(plan, climb));
}

/** The speed law in words and when the climb begins. */
function schedule(plan: Plan, climb: ClimbTable): readonly string[] {
  const [first, second] = climb.rows;
  if (second === undefined) return [];
  const law = plan.phases.find(
    ({ kind, startS, endS }) => kind === 'climb' && second.timeS >= startS && second.timeS <= endS,
  );
  const starts = `Starts at ${hoursMinutes(first.timeS - first.sinceStartS)} from take-off.`;
  return law === undefined ? [starts] : [`${phaseName(plan, law.name)}. ${starts}`];
}

function cardsOf(plan: Plan, climb: ClimbTable): readonly Card[] {
  const gauges = gaugesOf(plan);
  const speed = gauges('equivalentAirspeedMS');
  const altitude = gauges('pressureAltitudeM');
  const fuel = gauges('fuelKg');
  const mach = gauges('mach');
  const pieces = split(climb.rows, MOST_ROWS);
  return pieces.map((rows, i) => ({
    title: `Climb: ${climb.name}${part(i, pieces.length)}`,
    question: 'Which speed now, and is the fuel as planned?',
    answer: schedule(plan, climb),
    table: {
      columns: [
        { name: 'Mach', unit: '', holds: 'figures' },
        { name: 'Speed', unit: speed.unit, holds: 'figures' },
        { name: 'Altitude', unit: altitude.unit, holds: 'figures' },
        { name: 'Fuel', unit: `${fuel.unit}, required below`, holds: 'figures' },
        { name: 'Time', unit: 'min:s from start', holds: 'figures' },
      ],
      rows: rows.map((row) => [
        cell(read(mach, row.mach)),
        cell(read(speed, row.equivalentAirspeedMS)),
        cell(read(altitude, row.pressureAltitudeM)),
        cell(read(fuel, row.fuelKg, 'available'), read(fuel, row.fuelRequiredKg, 'required')),
        cell(minutesSeconds(row.sinceStartS)),
      ]),
    },
    notes: [
      `Rounded: fuel on board down and required up to ${fuel.step} ${fuel.unit}; altitude to ${altitude.step} ${altitude.shortUnit}, speed to ${speed.step} ${speed.unit}.`,
    ],
  }));
}
