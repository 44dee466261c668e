/** What the view of the balance asks of the planner's worker: the balance at a Mach, and the inlets off their schedule. */
import type { TankHeld } from '../../../core/aircraft/aircraft.ts';
import { type BalanceTable, balanceTable } from '../../../core/aircraft/balance-state.ts';
import type { PlanRequest } from '../../../core/plan/draft.ts';
import { fuelled } from '../../../core/plan/fuel-today.ts';
import { inletAsFlown } from '../../../core/plan/inlet-flown.ts';
import type { PlanInlet } from '../../../core/plan/plan.ts';
import { CannotPlan } from '../../../core/plan/sortie-flyer.ts';

export interface BalanceLook {
  readonly tanks: readonly TankHeld[];
  /** null where the deck has no tanks. */
  readonly table: BalanceTable | null;
}

const stepKg = 1000;

/** With the fuel of the day. */
export function lookAtBalance({ aircraft, sortie }: PlanRequest, mach: number): BalanceLook {
  const loaded = fuelled(aircraft, sortie.aircraft);
  const { tanks } = loaded.balance;
  return { tanks, table: tanks.length === 0 ? null : balanceTable(loaded, mach, stepKg) };
}

/** null where the deck has no table of it, or nothing can be flown. */
export function lookAtInlet(request: PlanRequest): PlanInlet | null {
  try {
    return inletAsFlown(request);
  } catch (error) {
    if (error instanceof CannotPlan) return null;
    throw error;
  }
}
