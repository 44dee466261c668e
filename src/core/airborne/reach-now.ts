/** What of a plan's reach is left with the fuel that readings tell of: the best end after each failure, and the next one to close. */
import type { Reach, ReachChoice } from '../plan/plan.ts';

export interface ReachNow {
  readonly name: string;
  /** null where none is in reach. */
  readonly best: { readonly end: string; readonly overKg: number } | null;
  /** Of the ends that are in reach the one that closes first, and after how long; null where none closes any more. */
  readonly next: { readonly end: string; readonly inS: number } | null;
}

/** At a moment of the plan, with so much more fuel than planned (negative: less), which is kept from there on. */
export function reachNow(
  { timeS, ends, ladders }: Reach,
  planTimeS: number,
  moreKg: number,
): readonly ReachNow[] {
  // The minute before holds: what is in reach is told too early, never too late.
  const now = Math.max(
    timeS.findLastIndex((minute) => minute <= planTimeS),
    0,
  );
  return ladders.map(({ name, choices }) => {
    const over = choices.map((choice) => overOf(choice, now, moreKg));
    const best = over.reduce<number | null>(
      (most, kg, end) => (kg >= 0 && (most === null || kg > over[most]) ? end : most),
      null,
    );
    const closing = choices.flatMap((choice, end) => {
      if (!(over[end] >= 0)) return [];
      const closed = timeS.findIndex((_, i) => i > now && !(overOf(choice, i, moreKg) >= 0));
      return closed < 0 ? [] : [{ end: ends[end].name, inS: timeS[closed - 1] - planTimeS }];
    });
    const next = closing.reduce<ReachNow['next']>(
      (first, each) => (first === null || each.inS < first.inS ? each : first),
      null,
    );
    return {
      name,
      best: best === null ? null : { end: ends[best].name, overKg: over[best] },
      next: next && { ...next, inS: Math.max(0, next.inS) },
    };
  });
}

function overOf({ fuelKg, requiredKg }: ReachChoice, i: number, moreKg: number): number {
  return (fuelKg[i] ?? Number.NaN) + moreKg - (requiredKg ?? Number.NaN);
}
