/** A stage of a plan as it goes from the worker to the page: what is the same object as in the stage before stays behind. */
import type { Stage } from '../core/plan/make-plan.ts';
import type { Plan, Trace } from '../core/plan/plan.ts';

export interface Changes extends Pick<Stage, 'pending'> {
  readonly parts: Partial<Plan>;
  /** Columns of the trace, where nothing else of it changed. */
  readonly columns: Partial<Trace['columns']> | null;
}

/** `before` is the plan of the stage before, null for the first. */
export function changesFrom(before: Plan | null, { plan, pending }: Stage): Changes {
  if (before === null) return { parts: plan, columns: null, pending };
  const parts: Partial<Plan> = changed(before, plan);
  const { columns, ...rest } = plan.trace;
  if (parts.trace === undefined || Object.keys(changed(before.trace, rest)).length > 0) {
    return { parts, columns: null, pending };
  }
  const { trace: _, ...others } = parts;
  return { parts: others, columns: changed(before.trace.columns, columns), pending };
}

/** The stage again; `before` as it was made of the changes before. */
export function withChanges(before: Plan | null, { parts, columns, pending }: Changes): Stage {
  const plan = { ...before, ...parts } as Plan;
  if (columns === null) return { plan, pending };
  const { trace } = plan;
  return { plan: { ...plan, trace: { ...trace, columns: { ...trace.columns, ...columns } } }, pending };
}

function changed<T extends object>(before: T, after: Partial<T>): Partial<T> {
  const found = Object.entries(after).filter(([key, value]) => !Object.is(before[key as keyof T], value));
  return Object.fromEntries(found) as Partial<T>;
}
