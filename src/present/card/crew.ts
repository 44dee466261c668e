/** The crew clock: when to report, to breathe oxygen, what is left of duty and supply, the light where the crew looks outside. */
import type { Plan } from '../../core/plan/plan.ts';
import { crewMomentName, crewSentences, dutyWords, lightWords, oxygenWords } from '../crew.ts';
import { upperFirst } from '../names.ts';
import { clock, hoursMinutes } from '../time.ts';
import { BLANK, type Card, type Cell, cell, MOST_ROWS, part, split, words } from './card.ts';

export function crewCards(plan: Plan): readonly Card[] {
  if (plan.crew === null) return [];
  const pieces = split(plan.crew.moments, MOST_ROWS);
  const figure = (text: string): Cell => (text === '' ? BLANK : cell(text));
  return pieces.map((moments, i) => ({
    title: `Crew clock${part(i, pieces.length)}`,
    question: 'When do we breathe oxygen, and what of it and of duty is left?',
    answer: crewSentences(plan),
    table: {
      columns: [
        { name: 'Moment', unit: 'light, until a slip of', holds: 'words' },
        { name: 'UTC', unit: 'h:min', holds: 'figures' },
        { name: 'From', unit: 'take-off, h:min', holds: 'figures' },
        { name: 'Duty', unit: 'h:min', holds: 'figures' },
        { name: 'Oxygen', unit: 'h:min left', holds: 'figures' },
      ],
      rows: moments.map((moment) => [
        words(upperFirst(crewMomentName(plan, moment)), lightWords(moment)),
        cell(clock(plan.takeOff, moment.timeS).replace('Z', '')),
        cell(hoursMinutes(moment.timeS)),
        figure(dutyWords(moment)),
        figure(oxygenWords(moment)),
      ]),
    },
    notes: [
      'A later take-off leaves report and going on oxygen where they are; prebreathing counts back from take-off. Needed is rounded up, left down.',
    ],
  }));
}
