/** Phases as they are shown: what follows each other under one name counts as one. */
import type { Plan, PlanPhase } from '../core/plan/plan.ts';
import { phaseName, upperFirst } from './names.ts';

/** One phase or several that follow each other in a leg. */
export interface Stretch {
  readonly kind: string;
  readonly name: string;
  readonly leg: number;
  readonly startS: number;
  readonly endS: number;
  readonly distanceM: number;
  /** Index of its last phase. */
  readonly last: number;
}

/** Neighbours that agree in their kind, or in their whole name, as one; several of a kind go by the kind. */
export function stretches(plan: Plan, alike: 'kind' | 'name'): readonly Stretch[] {
  const joined: Stretch[] = [];
  plan.phases.forEach((phase, last) => {
    const before = joined.at(-1);
    if (before !== undefined && before.leg === phase.leg && plan.phases[last - 1][alike] === phase[alike]) {
      const name = plan.phases[last - 1].name === phase.name ? before.name : upperFirst(phase.kind);
      const distanceM = before.distanceM + phase.distanceM;
      joined[joined.length - 1] = { ...before, name, endS: phase.endS, distanceM, last };
    } else {
      joined.push(alone(plan, phase, last));
    }
  });
  return joined;
}

function alone(plan: Plan, phase: PlanPhase, last: number): Stretch {
  const { kind, name, leg, startS, endS, distanceM } = phase;
  return { kind, name: phaseName(plan, name), leg, startS, endS, distanceM, last };
}

/** Leg that is flown at a time: the next begins with the contact that ends the one before. */
export function legAt(plan: Plan, timeS: number): number {
  return plan.refuellings.filter((refuelling) => refuelling.contactS < timeS - 1).length;
}
