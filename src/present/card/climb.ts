/** The climb card: which speed now, and is the fuel as planned. */
import type { ClimbRow, ClimbTable, Plan, Refuelling } from '../../core/plan/plan.ts';
import { lowerFirst, phaseName } from '../names.ts';
import { clock, hoursMinutes, minutesSeconds } from '../time.ts';
import { gaugesOf, read, shown } from '../units.ts';
import { type Card, cell, MOST_ROWS, part, split } from './card.ts';

export function climbCards(plan: Plan, leg: number): readonly Card[] {
  return plan.climbs.filter((climb) => climb.leg === leg).flatMap((climb) => cardsOf(plan, climb));
}

/** The speed law in words and when the climb begins. */
function schedule(plan: Plan, climb: ClimbTable): readonly string[] {
  const [first, second] = climb.rows;
  if (second === undefined) return [];
  const law = plan.phases.find(
    ({ kind, startS, endS }) => kind === 'climb' && within(second.timeS, startS, endS),
  );
  const start = first.timeS - first.sinceStartS;
  const tanker = disconnect(plan, climb)?.tanker;
  const name = tanker === undefined ? 'the start of the leg' : `disconnect from ${tanker}`;
  const from = `Time from ${name}, planned at ${hoursMinutes(start)} (${clock(plan.takeOff, start)}).`;
  return [
    ...(law === undefined ? [] : [`${phaseName(plan, law.name)}.`]),
    ...pushover(plan, climb.leg, start),
    from,
  ];
}

/** The refuelling whose end starts the clock of a climb; none where it counts from the start of the leg. */
function disconnect(plan: Plan, { rows: [first] }: ClimbTable): Refuelling | undefined {
  const startS = first.timeS - first.sinceStartS;
  return plan.refuellings.find(({ disconnectS }) => Math.abs(disconnectS - startS) < 1);
}

/** Where the pushover of a leg begins, and its lowest height with the Mach there. */
function pushover(plan: Plan, leg: number, startS: number): readonly string[] {
  const phase = plan.phases.find(({ kind, leg: of }) => kind === 'pushover' && of === leg);
  if (phase === undefined) return [];
  const { timeS, pressureAltitudeM, mach } = plan.trace.columns;
  const nodes = timeS.flatMap((t, i) => (within(t, phase.startS, phase.endS) ? [i] : []));
  if (nodes.length === 0) return [];
  const lowest = nodes.reduce((least, i) => (pressureAltitudeM[i] < pressureAltitudeM[least] ? i : least));
  const gauges = gaugesOf(plan);
  const at = (i: number) =>
    `${shown(gauges('pressureAltitudeM'), pressureAltitudeM[i])}, ${shown(gauges('mach'), mach[i])}`;
  return [`Pushover at ${minutesSeconds(phase.startS - startS)} from ${at(nodes[0])} to ${at(lowest)}.`];
}

function within(timeS: number, startS: number, endS: number): boolean {
  return timeS >= startS - 1e-6 && timeS <= endS + 1e-6;
}

/** Rows that are flown otherwise than by the climb, each with the letter of its note. */
function otherPhases(plan: Plan, rows: readonly ClimbRow[]): ReadonlyMap<ClimbRow, string> {
  const names = new Map<ClimbRow, string>();
  for (const row of rows) {
    const phase = plan.phases.find(({ startS, endS }) => within(row.timeS, startS, endS));
    if (phase !== undefined && phase.kind !== 'climb') names.set(row, phaseName(plan, phase.name));
  }
  return names;
}

function cardsOf(plan: Plan, climb: ClimbTable): readonly Card[] {
  const gauges = gaugesOf(plan);
  const speed = gauges('equivalentAirspeedMS');
  const altitude = gauges('pressureAltitudeM');
  const fuel = gauges('fuelKg');
  const mach = gauges('mach');
  const pieces = split(climb.rows, MOST_ROWS);
  const others = otherPhases(plan, climb.rows);
  const letters = new Map(
    [...new Set(others.values())].map((name, i) => [name, String.fromCharCode(97 + i)]),
  );
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
        {
          name: 'Time',
          unit: `min:s from ${disconnect(plan, climb) === undefined ? 'start' : 'disconnect'}`,
          holds: 'figures',
        },
      ],
      rows: rows.map((row) => [
        cell(read(mach, row.mach), '', letters.get(others.get(row) ?? '') ?? ''),
        cell(read(speed, row.equivalentAirspeedMS)),
        cell(read(altitude, row.pressureAltitudeM)),
        cell(read(fuel, row.fuelKg, 'available'), read(fuel, row.fuelRequiredKg, 'required')),
        cell(minutesSeconds(row.sinceStartS)),
      ]),
    },
    notes: [
      ...(letters.size === 0
        ? []
        : [`${[...letters].map(([name, letter]) => `${letter}  in the ${lowerFirst(name)}`).join('; ')}.`]),
      `Rounded: fuel on board down and required up to ${fuel.step} ${fuel.unit}; altitude to ${altitude.step} ${altitude.shortUnit}, speed to ${speed.step} ${speed.unit}.`,
    ],
  }));
}
