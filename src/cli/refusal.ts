/** A sortie that cannot be asked, as a refusal of its input. */
import { CannotPlan } from '../core/plan/sortie-flyer.ts';
import { Refusal } from './outcome.ts';

export function planned<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof CannotPlan) throw new Refusal(error.message);
    throw error;
  }
}
