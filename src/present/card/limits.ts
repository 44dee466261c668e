/** The limits card: which limit is next, and how near it comes. */
import type { LimitSummary, Plan } from '../../core/plan/plan.ts';
import { phaseName } from '../names.ts';
import { heldWeatherSentences, limitMargin, padWords, sentences } from '../sentences.ts';
import { hoursMinutes } from '../time.ts';
import { gaugesOf, shown } from '../units.ts';
import { type Card, type Cell, cell, MOST_ROWS, part, split, words } from './card.ts';

export function limitCards(plan: Plan): readonly Card[] {
  if (plan.limits.length === 0) return [];
  const pieces = split(plan.limits, MOST_ROWS);
  return pieces.map((limits, i) => ({
    title: `Limits in order${part(i, pieces.length)}`,
    question: 'Which limit is next?',
    answer: sentences(plan).slice(-1),
    table: {
      columns: [
        { name: 'Limit', unit: 'and its value there', holds: 'words' },
        { name: 'Least margin', unit: '± standard deviation', holds: 'figures' },
        { name: 'Time', unit: 'h:min from take-off', holds: 'figures' },
        { name: 'Phase', unit: 'and the pad kept', holds: 'words' },
      ],
      rows: limits.map((limit) => limitRow(plan, limit)),
    },
    notes: [
      ...heldWeatherSentences(plan, limits),
      'The closest first, by the part of the limit that is left. Margins are rounded down, their spreads up, none across zero; a minus is beyond the limit. A limit without ± has no stated spread.',
    ],
  }));
}

function limitRow(plan: Plan, limit: LimitSummary): readonly Cell[] {
  const gauge = gaugesOf(plan)(limit.quantity);
  const { figure, spread, unit } = limitMargin(plan, limit);
  const whole = spread === null ? figure : `${figure}\u00a0${spread}`;
  const pad = padWords(plan, limit);
  return [
    words(limit.name, `${limit.side === 'upper' ? 'at most' : 'at least'} ${shown(gauge, limit.bound)}`),
    // A degree sign alone behind a large figure would be lost.
    unit === '°' ? cell(`${whole}°`) : cell(whole, '', unit === limit.name ? '' : unit),
    cell(hoursMinutes(limit.timeS)),
    words(phaseName(plan, limit.phase), pad),
  ];
}
