/** The fuel ladder: is the fuel on board still as planned; the last column is written in by hand. */
import type { LadderRow, Plan } from '../../core/plan/plan.ts';
import { phaseName, upperFirst } from '../names.ts';
import { legAt } from '../phases.ts';
import { fuelDifference, fuelInHand, inHandWords, recoverySentences } from '../sentences.ts';
import { clock, hoursMinutes } from '../time.ts';
import { gaugesOf, read, shown } from '../units.ts';
import { BLANK, type Card, type Cell, cell, MOST_ROWS, part, split, words } from './card.ts';

/** The ladder of one leg, so that no card crosses a contact. */
export function ladderCards(plan: Plan, leg: number): readonly Card[] {
  const rows = plan.ladder.filter((row) => legAt(plan, row.timeS) === leg && hasPlace(plan, row));
  if (rows.length === 0) return [];
  const pieces = split(rows, MOST_ROWS);
  return pieces.map((piece, i) => ladderCard(plan, leg, piece, part(i, pieces.length)));
}

/** A row of the clock so near to a row of a place that it would ask the same question twice. */
const SAME_MOMENT_S = 180;

function hasPlace(plan: Plan, row: LadderRow): boolean {
  if (row.name !== '') return true;
  return !plan.ladder.some(
    (other) =>
      other.name !== '' &&
      legAt(plan, other.timeS) === legAt(plan, row.timeS) &&
      Math.abs(other.timeS - row.timeS) <= SAME_MOMENT_S,
  );
}

function ladderCard(plan: Plan, leg: number, rows: readonly LadderRow[], piece: string): Card {
  const fuel = gaugesOf(plan)('fuelKg');
  const unit = fuel.unit;
  return {
    title: `Fuel, leg ${leg + 1}${piece}`,
    question: 'Is the fuel on board still as planned?',
    answer: [...endOfLeg(plan, leg), ...recoverySentences(plan, leg)],
    table: {
      columns: [
        { name: 'Time', unit: 'h:min from take-off', holds: 'figures' },
        { name: 'Place', unit: 'and distance to go', holds: 'words' },
        { name: 'Planned', unit: `${unit}, in hand below`, holds: 'figures' },
        { name: 'Required', unit, holds: 'figures' },
        { name: 'Actual', unit, holds: 'pencil' },
      ],
      rows: rows.map((row) => ladderRow(plan, row)),
    },
    notes: [
      ...(rows.some((row) => inContact(plan, row))
        ? [
            'In contact, required is what the worst case without that tanker needs; from disconnect, what the next leg needs.',
          ]
        : []),
      `Rounded: planned down and required up to ${fuel.step} ${unit}. Times in Z hold for take-off at ${clock(plan.takeOff)}.`,
    ],
  };
}

function ladderRow(plan: Plan, row: LadderRow): readonly Cell[] {
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const toGo = shown(gauges('distanceM'), row.distanceToGoM, 'required');
  return [
    cell(hoursMinutes(row.timeS), clock(plan.takeOff, row.timeS)),
    words(placeName(plan, row), row.distanceToGoM > 0 ? `${toGo} to go` : ''),
    cell(read(fuel, row.fuelKg, 'available'), fuelDifference(fuel, row.fuelKg, row.fuelRequiredKg).figure),
    cell(read(fuel, row.fuelRequiredKg, 'required')),
    BLANK,
  ];
}

/** What the row stands at, or the phase flown then. */
function placeName(plan: Plan, row: LadderRow): string {
  if (row.name !== '')
    return upperFirst(phaseName(plan, row.name).replace(/^(contact|disconnect|landing) (?=[A-Z])/, joined));
  const phase = plan.phases.find(({ startS, endS }) => row.timeS >= startS && row.timeS <= endS);
  // The fall of a climb speed stands on the climb card; here the place counts.
  return phase === undefined ? '' : phaseName(plan, phase.name).split(' less ')[0];
}

const JOINED: Readonly<Record<string, string>> = {
  contact: 'contact with ',
  disconnect: 'disconnect from ',
  landing: 'landing at ',
};

function joined(_: string, kind: string): string {
  return JOINED[kind];
}

function inContact(plan: Plan, { timeS }: LadderRow): boolean {
  return plan.refuellings.some(
    ({ contactS, disconnectS }) => timeS >= contactS - 1 && timeS < disconnectS - 1,
  );
}

/** Fuel in hand where the leg ends. */
function endOfLeg(plan: Plan, leg: number): readonly string[] {
  const end = fuelInHand(plan).find(({ timeS }) => legAt(plan, timeS) === leg);
  return end === undefined
    ? []
    : [`${upperFirst(inHandWords(end))} at ${end.name}, ${hoursMinutes(end.timeS)}.`];
}
