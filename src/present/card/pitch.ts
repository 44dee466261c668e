/** The pitch card: which attitude to hold, and when to change it. */
import type { PitchRow, PitchTable, Plan } from '../../core/plan/plan.ts';
import { minutesSeconds } from '../time.ts';
import { figures, gaugesOf, read, shown } from '../units.ts';
import { type Card, type Cell, cell, MOST_ROWS, part, split } from './card.ts';

/** An attitude is read to a tenth of a degree. */
const FINE_DEG = 0.1;

export function pitchCards(plan: Plan, leg: number): readonly Card[] {
  return plan.pitches.filter((pitch) => pitch.leg === leg).flatMap((pitch) => cardsOf(plan, pitch));
}

function cardsOf(plan: Plan, pitch: PitchTable): readonly Card[] {
  const gauges = gaugesOf(plan);
  const [altitude, speed, mach] = ['pressureAltitudeM', 'equivalentAirspeedMS', 'mach'].map(gauges);
  const pieces = split(pitch.rows, MOST_ROWS);
  const last = pitch.rows[pitch.rows.length - 1];
  return pieces.map((rows, i) => ({
    title: `Pitch: ${pitch.name}${part(i, pieces.length)}`,
    question: 'Which pitch do I hold, and when do I change it?',
    answer: [`Change at each Mach from the schedule; the last is held to ${shown(mach, last.toMach)}.`],
    table: {
      columns: [
        { name: 'Mach', unit: 'time below', holds: 'figures' },
        { name: 'Pitch', unit: 'deg', holds: 'figures' },
        { name: 'Altitude', unit: altitude.unit, holds: 'figures' },
        { name: 'Speed drifts', unit: `${speed.unit}, slower / faster`, holds: 'figures' },
        { name: 'Height drifts', unit: altitude.shortUnit, holds: 'figures' },
      ],
      rows: rows.map((row) => rowOf(plan, row)),
    },
    notes: [
      `Pitch is path angle and angle of attack together, to a tenth of a degree. Each stretch is flown from the climb's schedule; it is made shorter until the speed drifts by no more than ${figures(speed, speed.fromSi(pitch.driftMS), 'nearest', 1)} ${speed.unit} off the schedule at the same Mach. Height: off that of the schedule at the same time.`,
      'Time is minutes and seconds from where the clock of the climb card starts.',
    ],
  }));
}

function rowOf(plan: Plan, row: PitchRow): readonly Cell[] {
  const gauges = gaugesOf(plan);
  const [altitude, speed, mach] = ['pressureAltitudeM', 'equivalentAirspeedMS', 'mach'].map(gauges);
  const off = (ms: number) => figures(speed, speed.fromSi(ms), ms < 0 ? 'available' : 'required', 1);
  return [
    cell(read(mach, row.fromMach), minutesSeconds(row.sinceStartS)),
    cell(figures(gauges('pathAngleDeg'), row.pitchDeg, 'nearest', FINE_DEG)),
    cell(read(altitude, row.fromPressureAltitudeM)),
    cell(`${off(row.slowestMS)} / ${off(row.fastestMS)}`),
    cell(
      figures(altitude, altitude.differenceFromSi(row.highM), row.highM < 0 ? 'available' : 'required', 10),
    ),
  ];
}
