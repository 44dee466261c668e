/** The parts of a plan that are flown after it, for the case that something goes otherwise. */
import type { PlanInlet } from './plan-inlet.ts';
import type { Reach } from './plan-reach.ts';
import type { Rules } from './plan-rules.ts';
import type { TankerMatrix } from './plan-tankers.ts';

/** Each is null before it is flown, and where the sortie cannot be flown. */
export interface PlanSurprises {
  readonly rules: Rules | null;
  readonly tankerMatrix: TankerMatrix | null;
  /** Also null where the deck says nothing of failures. */
  readonly reach: Reach | null;
  /** Also null where the deck has no table of it; flown even where the sortie cannot be. */
  readonly inlet: PlanInlet | null;
}

export type Surprise = keyof PlanSurprises;

/** Which of them a plan is to have, in the order in which they are flown. */
export function surprisesFor({ flyable }: { readonly flyable: boolean }): readonly Surprise[] {
  return flyable ? ['rules', 'tankerMatrix', 'reach', 'inlet'] : ['inlet'];
}
