/** `ramrise plan --slip`: what a later take-off costs. */
import type { PlanRequest } from '../core/plan/draft.ts';
import type { Plan } from '../core/plan/plan.ts';
import { slipOf } from '../core/plan/slip.ts';
import { QuantityError } from '../core/quantities/errors.ts';
import { readQuantity } from '../core/quantities/values.ts';
import { slipChart } from '../present/chart/slip.ts';
import { slipTable, slipText } from '../present/slip.ts';
import { tableCsv } from '../present/table.ts';
import { PAPER } from '../present/theme.ts';
import type { NewFile } from './write.ts';

const NAME = 'slip';
const EXAMPLE = ['0..120min/10min'];
const MOST_ROWS = 200;

/** Seconds of "0..120min/10min": from, to and step, each with its unit, 0 also without. Throws `QuantityError`. */
export function readSlips(text: string): number[] {
  const refuse = (reason: string): Error => new QuantityError(NAME, text, reason, EXAMPLE);
  const match = /^([^./]+)\.\.([^/]+)\/([^/]+)$/.exec(text.trim());
  if (!match) throw refuse('is not a range with a step');
  const [from, to, step] = match
    .slice(1)
    .map((part) => (part.trim() === '0' ? 0 : readQuantity(part, 'durationS')));
  if (!(step > 0)) throw refuse('the step must be more than 0');
  if (!(to > from)) throw refuse('the end must be later than the beginning');
  const steps = Math.round((to - from) / step);
  if (Math.abs(from + steps * step - to) > 1e-6) throw refuse('the range is no whole number of steps');
  if (steps >= MOST_ROWS) throw refuse(`has ${steps + 1} take-offs; at most ${MOST_ROWS} are planned`);
  return Array.from({ length: steps + 1 }, (_, i) => from + i * step);
}

export interface SlipAnswer {
  readonly json: object;
  readonly text: string;
  readonly files: readonly NewFile[];
}

/** `made` is the plan of the sortie as its file has it. */
export function answerSlip(request: PlanRequest, made: Plan, slipsS: readonly number[]): SlipAnswer {
  const slip = slipOf(request, slipsS);
  return {
    json: slip,
    text: slipText(slip, made),
    files: [
      ['slip.csv', tableCsv(slipTable(slip, made))],
      ['slip.svg', slipChart(slip, made, { theme: PAPER })],
    ],
  };
}
