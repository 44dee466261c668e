/** What the view of the balance asks of the planner's worker: the balance at a Mach. */
import type { TankHeld } from '../../../core/aircraft/aircraft.ts';
import { type BalanceTable, balanceTable } from '../../../core/aircraft/balance-state.ts';
import type { PlanRequest } from '../../../core/plan/draft.ts';
import { fuelled } from '../../../core/plan/fuel-today.ts';

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
