/** The card of tankers in trouble: what still can be done, with which reserve, and until when. */
import type { Plan, TankerCase } from '../../core/plan/plan.ts';
import { dumpWords, faultWords, tankerSentences } from '../tankers.ts';
import { clock, hoursMinutes } from '../time.ts';
import { gaugesOf, margin, NOT_COMPUTED } from '../units.ts';
import { type Card, type Cell, cell, MOST_ROWS, part, split, words } from './card.ts';

export function tankerCaseCards(plan: Plan): readonly Card[] {
  const { tankerMatrix } = plan;
  if (!tankerMatrix || tankerMatrix.cases.length === 0) return [];
  const { shortUnit } = gaugesOf(plan)('fuelKg');
  const pieces = split(tankerMatrix.cases, MOST_ROWS);
  return pieces.map((cases, i) => ({
    title: `Tankers in trouble${part(i, pieces.length)}`,
    question: 'The tanker is not there, late, or has half: what now, and until when?',
    answer: tankerSentences(tankerMatrix, gaugesOf(plan)),
    table: {
      columns: [
        { name: 'Case', unit: 'and where to turn', holds: 'words' },
        { name: 'Go on', unit: `${shortUnit} in hand`, holds: 'figures' },
        { name: 'Turn away', unit: `${shortUnit} over reserve`, holds: 'figures' },
        { name: 'Decide by', unit: 'h:min from take-off', holds: 'figures' },
      ],
      rows: cases.map((one) => rowOf(plan, one, tankerMatrix.lateS)),
    },
    notes: [
      'Go on: least fuel in hand at the contacts and the landing, the sortie planned again for the case. Turn away: to the base that the sortie names, at once, after the wait, or with half in. Decide by: the last minute of a wait there without more fuel. Dump: above the greatest mass on landing.',
      'Margins and times are rounded down.',
    ],
  }));
}

function rowOf(plan: Plan, { faults, goesOn, recoveries }: TankerCase, lateS: number): readonly Cell[] {
  const last = recoveries.at(-1);
  const dump = dumpWords(last, gaugesOf(plan));
  const decideByS = last?.decideByS ?? null;
  const wholeS = decideByS === null ? null : Math.floor(decideByS / 60) * 60;
  return [
    words(faults.map((fault) => faultWords(fault, lateS)).join(', '), last?.base ?? ''),
    goesOn === null
      ? words('no')
      : kilograms(plan, goesOn.leastInHandKg, goesOn.flyable ? '' : (goesOn.failure ?? '')),
    kilograms(plan, last?.overReserveKg ?? null, dump === '' ? '' : `dump ${dump}`),
    wholeS === null ? words('at once') : cell(hoursMinutes(wholeS), clock(plan.takeOff, wholeS)),
  ];
}

function kilograms(plan: Plan, kg: number | null, below: string): Cell {
  const { figure } = margin(gaugesOf(plan)('fuelKg'), kg);
  return figure === NOT_COMPUTED ? words(below === '' ? 'cannot be flown' : below) : cell(figure, below);
}
