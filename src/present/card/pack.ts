/** The pack of cards of a plan, in order of use: first why it cannot be flown where it cannot, last what the pack was made from. */
import type { Plan } from '../../core/plan/plan.ts';
import { identityLine, validityLine, weatherLine } from '../foot.ts';
import { failureSentences, sentences } from '../sentences.ts';
import { type Card, MOST_ROWS, part, split } from './card.ts';
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
  if (plan.failure === null) return [];
  return [
    {
      title: 'Cannot be flown',
      question: 'Why not, and what frees it?',
      answer: failureSentences(plan, plan.failure),
      table: null,
      notes: ['The other cards of this pack show the sortie as it stands, not as freed.'],
    },
  ];
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
