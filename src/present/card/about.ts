/** What a pack leaves open, and what it was made from. */
import type { Plan } from '../../core/plan/plan.ts';
import { identityLine, validityLine, weatherLine } from '../foot.ts';
import { sentences } from '../sentences.ts';
import { type Card, MOST_ROWS, part, split } from './card.ts';

/** What the plan leaves open, in words; a card holds nine of them. */
export function notComputedCards(plan: Plan): readonly Card[] {
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

export function aboutCard(plan: Plan): Card {
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
