/** The start-down card: where the descent begins, what it does to be late, and the gates on the way down. */
import type { Plan, StartDownTable } from '../../core/plan/plan.ts';
import { startDownNotes, startDownSentences } from '../start-down.ts';
import { minutesSeconds } from '../time.ts';
import { gaugesOf, read } from '../units.ts';
import { type Card, cell, MOST_ROWS, part, split } from './card.ts';

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
    answer: startDownSentences(plan, table),
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
      ...startDownNotes(plan, table),
      `To go is rounded up; fuel on board down and required up to ${fuel.step} ${fuel.unit}.`,
    ],
  }));
}
