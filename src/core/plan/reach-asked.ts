/** What the flights of a reach ladder start from: the plan minute by minute, and where it can go. */
import type { PlanRequest } from './draft.ts';
import { fuelled } from './fuel-today.ts';
import type { Plan } from './plan.ts';
import { type Choice, choicesOf } from './reach-goals.ts';
import { Starts } from './reach-start.ts';

const minuteS = 60;

/** What the flights of a plan have in common. */
export interface ReachRequest {
  readonly request: PlanRequest;
  readonly plan: Plan;
  readonly starts: Starts;
  readonly choices: readonly Choice[];
  /** Every minute in the air. */
  readonly minutes: readonly number[];
}

/** What the flights from a plan need; null where there is nothing to fly. */
export function askedOf(request: PlanRequest, plan: Plan): ReachRequest | null {
  const { sortie, day } = request;
  const { timeS } = plan.trace.columns;
  if (request.aircraft.failures.length === 0 || timeS.length < 2) return null;
  const ground = plan.phases.filter(({ kind }) => kind === 'take-off').at(-1)?.endS ?? 0;
  const lastS = timeS[timeS.length - 1];
  const first = Math.floor(Math.max(ground, 0) / minuteS) + 1;
  const minutes = Array.from(
    { length: Math.max(Math.floor(lastS / minuteS) - first + 1, 0) },
    (_, i) => (first + i) * minuteS,
  );
  if (minutes.length < 2) return null;
  return {
    request: { ...request, aircraft: fuelled(request.aircraft, sortie.aircraft) },
    plan,
    starts: new Starts(plan, sortie.takeOff.timeS),
    choices: choicesOf(sortie, plan.refuellings, day),
    minutes,
  };
}
