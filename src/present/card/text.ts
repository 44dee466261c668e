/** The pack as text, for a terminal, a reader of screens, or a test. */
import type { Plan } from '../../core/plan/plan.ts';
import type { Outlines } from '../map/outlines.ts';
import { plainSpaces } from '../units.ts';
import { type Card, type Foot, footOf } from './card.ts';
import { cardsOf } from './pack.ts';
import { wordsOf } from './words.ts';

export function cardsText(plan: Plan, outlines: Outlines | null = null): string {
  const cards = cardsOf(plan, outlines);
  const foot = footOf(plan, cards.length);
  return cards.map((card, i) => cardText(card, foot, i + 1, cards.length)).join('\n\n\n');
}

export function cardText(card: Card, foot: Foot, number: number, count: number): string {
  const parts = [
    wordsOf(card),
    ...(foot.warning === '' ? [] : [foot.warning]),
    `${foot.fingerprint} · ${foot.validity} · card ${number} of ${count}`,
    foot.weather,
    ...foot.attribution,
    foot.caution,
  ];
  return plainSpaces(parts.join('\n'));
}
