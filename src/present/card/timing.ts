/** The card of time: seconds that speed and path give each way before each descent. */
import type { Plan } from '../../core/plan/plan.ts';
import { limitName, lowerFirst } from '../names.ts';
import { hoursMinutes } from '../time.ts';
import { perMinute, timingSentence } from '../timing.ts';
import { figures, gaugesOf, shown } from '../units.ts';
import { type Card, cell, MOST_ROWS, part, split, words } from './card.ts';

export function timingCards(plan: Plan): readonly Card[] {
  if (plan.timings.length === 0) return [];
  const gauges = gaugesOf(plan);
  const [mach, distance] = ['mach', 'distanceM'].map(gauges);
  const pieces = split(plan.timings, MOST_ROWS);
  return pieces.map((timings, i) => ({
    title: `On time${part(i, pieces.length)}`,
    question: 'How many seconds can I win or lose before I start down?',
    answer: timings.slice(0, 2).map(timingSentence),
    table: {
      columns: [
        { name: 'To', unit: 'straight stretch below', holds: 'words' },
        { name: 'Earlier', unit: 's, by Mach below', holds: 'figures' },
        { name: 'Later', unit: 's, by Mach below', holds: 'figures' },
        { name: 'Dogleg', unit: 's, each side below', holds: 'figures' },
        { name: 'From', unit: 'h:min, fuel below', holds: 'figures' },
      ],
      rows: timings.map((row) => [
        words(row.to, shown(distance, row.distanceM, 'available')),
        cell(`${Math.floor(row.earlierS)}`, `+${figures(mach, row.fasterMach, 'available')}`),
        cell(`${Math.floor(row.laterBySpeedS)}`, `\u2212${figures(mach, row.slowerMach)}`),
        cell(`${Math.floor(row.laterByPathS)}`, `${row.doglegDeg}°`),
        cell(hoursMinutes(row.fromS), perMinute(plan, row)),
      ]),
    },
    notes: [
      ...timings.flatMap(({ to, heldBy }) =>
        heldBy === null ? [] : [`To ${to}, ${lowerFirst(limitName(plan, heldBy))} holds the speed.`],
      ),
      'From wings level after the last turn to the start of the descent, as planned; later on less is left, in proportion. At most 0.1 of Mach each way; seconds are rounded down.',
    ],
  }));
}
