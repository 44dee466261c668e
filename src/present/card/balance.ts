/** The balance card of a contact: where the fuel goes, and where the centre of gravity stands as it comes. */
import type { ContactBalance, Plan } from '../../core/plan/plan.ts';
import { dumpSentences, pumpSentences } from '../balance.ts';
import { upperFirst } from '../names.ts';
import { minutesSeconds } from '../time.ts';
import { type Gauge, gaugesOf, margin, NOT_COMPUTED, read, shown } from '../units.ts';
import { type Card, type Cell, cell, MOST_ROWS, part, split, words } from './card.ts';

export function balanceCards(plan: Plan, index: number): readonly Card[] {
  const contact = plan.balance?.contacts[index];
  if (contact === undefined || contact.rows.length === 0) return [];
  const gauges = gaugesOf(plan);
  const [fuel, cg] = ['fuelKg', 'cgFraction'].map(gauges);
  const pieces = split(contact.rows, MOST_ROWS);
  return pieces.map((rows, i) => ({
    title: `${contact.tanker}: balance${part(i, pieces.length)}`,
    question: 'Where does the fuel go, and does the balance stay inside?',
    answer: answerOf(plan, contact),
    table: {
      columns: [
        { name: 'Fills', unit: 'from here on', holds: 'words' },
        { name: 'Boom', unit: 'min:s, left below', holds: 'figures' },
        { name: 'Fuel', unit: fuel.unit, holds: 'figures' },
        { name: 'CG', unit: `${cg.unit}, limits below`, holds: 'figures' },
        { name: 'Room', unit: `${cg.unit} to the nearer`, holds: 'figures' },
      ],
      rows: rows.map((row): readonly Cell[] => [
        row.fills.length === 0 ? words('Disconnect') : words(upperFirst(row.fills.join(', '))),
        cell(minutesSeconds(row.onBoomS), minutesSeconds(row.leftS)),
        cell(read(fuel, row.fuelKg, 'available')),
        cell(read(cg, row.cgFraction), limitsOf(cg, row)),
        cell(row.marginFraction === null ? NOT_COMPUTED : margin(cg, row.marginFraction).figure),
      ]),
    },
    notes: [
      `Time left is what is still to come over the rate of the tanker. Tanks not named are full, or stay as they are.`,
      ...pumpSentences(plan),
      ...dumpSentences(plan).filter((text) => text.startsWith(`After ${contact.tanker}:`)),
      'Limits are those at the Mach of the contact, rounded to the inside; room is rounded down.',
    ],
  }));
}

function limitsOf(cg: Gauge, { forwardLimit, aftLimit }: ContactBalance['rows'][number]): string {
  if (forwardLimit === null || aftLimit === null) return '';
  return `${read(cg, forwardLimit, 'required')}\u2013${read(cg, aftLimit, 'available')}`;
}

function answerOf(plan: Plan, { tanker, leastMarginFraction }: ContactBalance): string[] {
  const cg = gaugesOf(plan)('cgFraction');
  const others = plan.tankers
    .filter((account) => account.tanker === tanker)
    .flatMap(({ fuels }) => fuels.filter(({ burnable }) => !burnable))
    .map(({ grade, beforeKg }) => `${shown(gaugesOf(plan)('fuelKg'), beforeKg)} of ${grade}`);
  const refused = others.length === 0 ? [] : [`Not for this aircraft: ${others.join(', ')} of the tanker.`];
  if (leastMarginFraction === null) return ['No limits of the centre of gravity are known.', ...refused];
  const least = margin(cg, leastMarginFraction).text;
  return [
    leastMarginFraction < 0
      ? `It does not: the centre of gravity is beyond a limit by up to ${least.replace('−', '')}.`
      : `It does: at least ${least} are left to either limit.`,
    ...refused,
  ];
}
