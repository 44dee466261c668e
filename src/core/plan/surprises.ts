/** Flies what a plan has for the case that something goes otherwise; it takes longer than the plan. */
import type { PlanRequest } from './draft.ts';
import { toTheEnd } from './explain.ts';
import { flyingInlets } from './inlet-flown.ts';
import { type Plan, type PlanSurprises, type Surprise, surprisesFor } from './plan.ts';
import { reaching } from './reach.ts';
import { ruling } from './rules.ts';
import { tankersInTrouble } from './tanker-cases.ts';

const flown: {
  readonly [Part in Surprise]: (request: PlanRequest, plan: Plan) => Generator<null, PlanSurprises[Part]>;
} = {
  rules: ruling,
  tankerMatrix: (request) => tankersInTrouble(request),
  reach: reaching,
  inlet: flyingInlets,
};

/** One part, with null between two flights, so that who waits can give up. */
export function* surprising(
  part: Surprise,
  request: PlanRequest,
  plan: Plan,
): Generator<null, Partial<PlanSurprises>> {
  return { [part]: yield* flown[part](request, plan) };
}

/** A plan with all of them. */
export function withSurprises(plan: Plan, request: PlanRequest): Plan {
  const parts = surprisesFor(plan).map((part) => toTheEnd(surprising(part, request, plan)));
  return Object.assign({}, plan, ...parts);
}
