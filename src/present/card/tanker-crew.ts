/** A card to hand to a tanker's crew: where to be, when to turn, what to give, how to get home. */
import type { Plan, TankerOrder } from '../../core/plan/plan.ts';
import { magneticNotes } from '../course.ts';
import { orderLines, orderSentences } from '../tanker-orders.ts';
import { type Card, words } from './card.ts';

export function tankerCrewCards(plan: Plan, leg: number): readonly Card[] {
  return plan.tankerOrders.filter((order) => order.leg === leg).map((order) => cardOf(plan, order));
}

function cardOf(plan: Plan, order: TankerOrder): Card {
  return {
    title: `For the crew of ${order.tanker}`,
    question: 'Where do we have to be, when do we turn, what do we give?',
    answer: orderSentences(plan, order),
    table: {
      columns: [
        { name: 'What', unit: '', holds: 'words' },
        { name: 'As planned', unit: '', holds: 'words' },
      ],
      rows: orderLines(plan, order).map(([what, value, more]) => [words(what), words(value, more)]),
    },
    notes: [
      'The turn is half a circle in still air or in a wind that moves both alike, bank at once; it ends on the track as the receiver arrives, both at the speed of the contact (common practice).',
      ...magneticNotes(plan, [{ name: order.tanker, compass: order.track.compass }]),
    ],
  };
}
