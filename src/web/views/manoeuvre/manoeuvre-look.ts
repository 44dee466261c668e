/** What the view of the manoeuvres asks of the planner's worker: one judged, and the table at the same height and speed. */
import type { PlanRequest } from '../../../core/plan/draft.ts';
import type { JudgedManoeuvre } from '../../../core/plan/manoeuvre-judge.ts';
import { answerManoeuvre, type ManoeuvreQuestion } from '../../../core/plan/manoeuvre-question.ts';
import type { ManoeuvreTable } from '../../../core/plan/plan.ts';
import { CannotPlan } from '../../../core/plan/sortie-flyer.ts';
import { OutsideRange } from '../../../core/quantities/errors.ts';

export interface ManoeuvreLook {
  readonly judged: JudgedManoeuvre | null;
  readonly table: ManoeuvreTable | null;
  /** The table from the fuel that was asked for on, for its envelope. */
  readonly ofFuel: ManoeuvreTable | null;
  /** Why there is no answer; empty where there is. */
  readonly refused: string;
}

export function lookAtManoeuvre(request: PlanRequest, question: ManoeuvreQuestion): ManoeuvreLook {
  try {
    const one = answerManoeuvre(request, question);
    const unasked = { ...question, bankRad: null, loadFactor: null };
    const ofFuel = answerManoeuvre(request, unasked);
    const all = answerManoeuvre(request, { ...unasked, fuelKg: null });
    return {
      judged: 'judged' in one ? one.judged : null,
      table: 'table' in all ? all.table : null,
      ofFuel: 'table' in ofFuel ? ofFuel.table : null,
      refused: '',
    };
  } catch (error) {
    if (!(error instanceof CannotPlan || error instanceof OutsideRange)) throw error;
    return { judged: null, table: null, ofFuel: null, refused: error.message };
  }
}
