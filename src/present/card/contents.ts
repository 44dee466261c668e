/** The contents: which card answers what, for each leg and for the whole sortie. */
import type { Plan } from '../../core/plan/plan.ts';
import { upperFirst } from '../names.ts';
import {
  BLANK,
  type Card,
  type CardColumn,
  cell,
  MOST_COLUMNS,
  MOST_ROWS,
  part,
  split,
  words,
} from './card.ts';

/** A card of the pack with its kind; `leg` is null where it serves the whole sortie. */
export interface Packed {
  readonly kind: string;
  readonly leg: number | null;
  readonly card: Card;
}

/** Contents of the cards that follow them, of which the first is number `before` + the contents' own count + 1. */
export function contentsCards(plan: Plan, pack: readonly Packed[], before: number): readonly Card[] {
  const tables = tablesOf(pack);
  const first = before + tables.length + 1;
  return tables.map(({ columns, kinds, legs }, i) => ({
    title: `Contents${part(i, tables.length)}`,
    question: 'Which card answers what?',
    answer: legs[0] === null ? [] : [`${upperFirst(legs.map((leg) => legWords(plan, leg)).join(', '))}.`],
    table: {
      columns,
      rows: kinds.map((kind) => [
        words(kind, pack.find((packed) => packed.kind === kind)?.card.question),
        ...legs.map((leg) => {
          const numbers = numbersOf(pack, kind, leg).map((index) => first + index);
          return numbers.length === 0 ? BLANK : cell(span(numbers));
        }),
      ]),
    },
    notes: [
      'Numbers are those of the tabs on the edge and of the foot. The cards lie in the order in which they are used; the last proves the print.',
    ],
  }));
}

interface ContentsTable {
  readonly columns: readonly CardColumn[];
  readonly kinds: readonly string[];
  readonly legs: readonly (number | null)[];
}

/** Kinds that go by legs, with a column for each leg, then those of the whole sortie. */
function tablesOf(pack: readonly Packed[]): readonly ContentsTable[] {
  const name: CardColumn = { name: 'Card', unit: 'and its question', holds: 'words' };
  const legs = [...new Set(pack.flatMap(({ leg }) => (leg === null ? [] : [leg])))].sort((a, b) => a - b);
  const byLeg = split(legs, MOST_COLUMNS - 1).flatMap((some) =>
    split(kindsInOrder(pack, legs), MOST_ROWS).map((kinds) => ({
      columns: [
        name,
        ...some.map((leg): CardColumn => ({ name: `Leg ${leg + 1}`, unit: '', holds: 'figures' })),
      ],
      kinds,
      legs: some,
    })),
  );
  const whole = split(kindsInOrder(pack, [null]), MOST_ROWS).map((kinds) => ({
    columns: [name, { name: 'Number', unit: 'whole sortie', holds: 'figures' } satisfies CardColumn],
    kinds,
    legs: [null],
  }));
  return [...byLeg, ...whole];
}

/** "leg 1 to Ewer One". */
function legWords(plan: Plan, leg: number | null): string {
  if (leg === null) return '';
  const landing = plan.events.findLast(({ kind }) => kind === 'landing')?.name;
  const end = plan.refuellings.at(leg)?.tanker ?? landing;
  return `leg ${leg + 1}${end === undefined ? '' : ` to ${end}`}`;
}

/** Kinds of cards of some legs in order of use, which the leg with most kinds shows best. */
function kindsInOrder(pack: readonly Packed[], legs: readonly (number | null)[]): readonly string[] {
  const kindsOf = (leg: number | null) => [
    ...new Set(pack.filter((packed) => packed.leg === leg).map(({ kind }) => kind)),
  ];
  const fullest = [...legs].sort((a, b) => kindsOf(b).length - kindsOf(a).length);
  return [...new Set(fullest.flatMap(kindsOf))];
}

function numbersOf(pack: readonly Packed[], kind: string, leg: number | null): readonly number[] {
  return pack.flatMap((packed, index) => (packed.kind === kind && packed.leg === leg ? [index] : []));
}

/** "12", or "12–14"; numbers of a kind and leg follow each other. */
function span(numbers: readonly number[]): string {
  const [first, last] = [numbers[0], numbers[numbers.length - 1]];
  return first === last ? String(first) : `${first}–${last}`;
}
