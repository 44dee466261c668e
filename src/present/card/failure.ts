/** The first card of a sortie that cannot be flown. */
import type { Failure, Freed, Plan } from '../../core/plan/plan.ts';
import { quantities } from '../../core/quantities/quantities.ts';
import { upperFirst } from '../names.ts';
import { failureSentences, fuelInHand } from '../sentences.ts';
import { gaugesOf, margin, NOT_COMPUTED, read } from '../units.ts';
import { type Card, type CardTable, cell, words } from './card.ts';

export function failureCards(plan: Plan): readonly Card[] {
  const { failure } = plan;
  if (failure === null) return [];
  return [
    {
      title: 'Cannot be flown',
      question: 'Why not, and what frees it?',
      answer: failureSentences(plan, failure),
      table: failure.freedBy === null ? null : freedTable(plan, failure, failure.freedBy),
      notes: [
        ...(failure.freedBy === null ? [] : [changeNote(failure.freedBy)]),
        'Every other card of this pack shows the sortie as it stands, not as freed.',
      ],
    },
  ];
}

/** Where in its file the sortie is to be changed. */
function changeNote({ lever, also }: Freed): string {
  return `The change in the sortie's file: ${[lever, ...also].join(', ')}.`;
}

/** The one change, and what it does to the limit that stops the sortie and to the fuel in hand. */
function freedTable(plan: Plan, failure: Failure, freed: Freed): CardTable {
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const lever = quantities.has(freed.quantity) ? gauges(freed.quantity) : null;
  const side = freed.to < freed.from ? 'available' : 'required';
  const figure = (value: number) => (lever === null ? String(value) : read(lever, value, side));
  const rows = [
    [
      words(`${upperFirst(freed.name)}${freed.place === null ? '' : ', moved by'}`, lever?.unit ?? ''),
      cell(figure(freed.from)),
      cell(figure(freed.to)),
    ],
  ];
  if (quantities.has(failure.quantity) && failure.excess !== null) {
    const limit = gauges(failure.quantity);
    rows.push([
      words(
        `${upperFirst(failure.name)}, ${failure.limit === 'area' ? 'clear by' : 'left to the limit'}`,
        limit.differenceUnit,
      ),
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
