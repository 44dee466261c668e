/** The pack of cards of a plan, in order of use: first why it cannot be flown where it cannot, last what the pack was made from. */
import type { Failure, Freed, Plan } from '../../core/plan/plan.ts';
import { quantities } from '../../core/quantities/quantities.ts';
import { identityLine, validityLine, weatherLine } from '../foot.ts';
import { upperFirst } from '../names.ts';
import { failureSentences, fuelInHand, sentences } from '../sentences.ts';
import { gaugesOf, margin, NOT_COMPUTED, read } from '../units.ts';
import { type Card, type CardTable, cell, MOST_ROWS, part, split, words } from './card.ts';
import { climbCards } from './climb.ts';
import { gridCards } from './grid.ts';
import { ladderCards } from './ladder.ts';
import { limitCards } from './limits.ts';

export function cardsOf(plan: Plan): readonly Card[] {
  return [
    ...failureCard(plan),
    ...climbCards(plan),
    ...gridCards(plan),
    ...ladderCards(plan),
    ...limitCards(plan),
    ...notComputedCards(plan),
    aboutCard(plan),
  ];
}

function failureCard(plan: Plan): readonly Card[] {
  const { failure } = plan;
  if (failure === null) return [];
  return [
    {
      title: 'Cannot be flown',
      question: 'Why not, and what frees it?',
      answer: failureSentences(plan, failure),
      table: failure.freedBy === null ? null : freedTable(plan, failure, failure.freedBy),
      notes: [
        ...(failure.freedBy === null ? [] : [`The change in the sortie's file: ${failure.freedBy.lever}.`]),
        'Every other card of this pack shows the sortie as it stands, not as freed.',
      ],
    },
  ];
}

/** The one change, and what it does to the limit that stops the sortie and to the fuel in hand. */
function freedTable(plan: Plan, failure: Failure, freed: Freed): CardTable {
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const lever = quantities.has(freed.quantity) ? gauges(freed.quantity) : null;
  const side = freed.to < freed.from ? 'available' : 'required';
  const figure = (value: number) => (lever === null ? String(value) : read(lever, value, side));
  const rows = [
    [words(upperFirst(freed.name), lever?.unit ?? ''), cell(figure(freed.from)), cell(figure(freed.to))],
  ];
  if (quantities.has(failure.quantity) && failure.excess !== null) {
    const limit = gauges(failure.quantity);
    rows.push([
      words(`${failure.name}, left to the limit`, limit.differenceUnit),
      cell(margin(limit, failure.pad - failure.excess).figure),
      cell(margin(limit, freed.marginAfter).figure),
    ]);
  }
  const now = fuelInHand(plan).at(-1);
  rows.push([
    words('Fuel in hand at the end', fuel.unit),
    cell(now?.difference.figure ?? NOT_COMPUTED),
    cell(margin(fuel, freed.fuelInHandKg).figure),
  ]);
  return {
    columns: [
      { name: 'What', unit: '', holds: 'words' },
      { name: 'As it stands', unit: '', holds: 'figures' },
      { name: 'Freed', unit: '', holds: 'figures' },
    ],
    rows,
  };
}

/** What the plan leaves open, in words; a card holds nine of them. */
function notComputedCards(plan: Plan): readonly Card[] {
  if (plan.notComputed.length === 0) return [];
  const pieces = split(plan.notComputed, MOST_ROWS);
  return pieces.map((texts, i) => ({
    title: `Not computed${part(i, pieces.length)}`,
    question: 'What does this pack not answer?',
    answer: texts.map((text) => `${text}.`),
    table: null,
    notes: [],
  }));
}

function aboutCard(plan: Plan): Card {
  return {
    title: 'About this pack',
    question: 'What was it made from?',
    answer: [identityLine(plan), ...sentences(plan), `${validityLine(plan)}.`, weatherLine(plan)],
    table: null,
    notes: [
      ...plan.weather.attribution,
      ...plan.inputs.map(({ role, name, sha256 }) => `${role}: ${name}, SHA-256 ${sha256.slice(0, 16)}`),
      `Written by ${plan.program}. Required figures are rounded up, available ones down, no margin across zero.`,
    ],
  };
}
