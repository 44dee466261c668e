/** What of a plan's reach is left with what readings tell of: the best end after each failure, and the next one to close. */
import type { Reach, ReachCase, ReachChoice } from '../plan/plan.ts';

/** The fuel of a flight beside that of its plan, from a moment of the plan on. */
export interface FuelBeside {
  readonly planTimeS: number;
  /** Planned on board at a moment of the plan [kg]. */
  plannedKg(timeS: number): number;
  /** On board less planned there [kg]. */
  moreKg(timeS: number): number;
  /** What a way to an end takes over what the plan has for it, by ladder and end of the reach. */
  burn(ladder: number, end: number): number;
  /** What was flown from here: fuel on arrival, null where it is out of reach; undefined where it was not flown. */
  flown?(
    ladder: number,
    end: number,
  ): { readonly fuelKg: number | null; readonly beyondData: boolean } | undefined;
}

export interface ReachNow {
  readonly key: ReachCase;
  readonly name: string;
  /** null where none is in reach. */
  readonly best: { readonly end: string; readonly overKg: number } | null;
  /** Of the ends that are in reach the one that closes first, and after how long; null where none closes any more. */
  readonly next: { readonly end: string; readonly inS: number } | null;
  /** An end could not be flown to inside the data: what is told of it is the plan's, with the burn of the worst other end. */
  readonly beyondData: boolean;
}

/** Fuel above what is required, at moments from now on; NaN where an end is not in reach of the plan. */
interface Over {
  readonly timeS: number;
  readonly overKg: number;
}

export function reachNow(reach: Reach, beside: FuelBeside): readonly ReachNow[] {
  return reach.ladders.map(({ key, name, choices }, ladder) => {
    const over = choices.map((choice, end) => oversOf(reach, beside, choice, ladder, end));
    const best = over.reduce<number | null>(
      (most, [{ overKg }], end) =>
        overKg >= 0 && (most === null || overKg > over[most][0].overKg) ? end : most,
      null,
    );
    const closing = over.flatMap((along, end) => {
      const closesS = closesAt(along);
      return closesS === null ? [] : [{ end: reach.ends[end].name, inS: closesS - beside.planTimeS }];
    });
    return {
      key,
      name,
      best: best === null ? null : { end: reach.ends[best].name, overKg: over[best][0].overKg },
      next: closing.reduce<ReachNow['next']>(
        (first, each) => (first === null || each.inS < first.inS ? each : first),
        null,
      ),
      beyondData: choices.some((_, end) => beside.flown?.(ladder, end)?.beyondData ?? false),
    };
  });
}

/** Of all choices that are open the one that closes first, after a failure or none. */
export function nextToClose(
  reach: readonly ReachNow[],
): { readonly after: string; readonly end: string; readonly inS: number } | null {
  return reach.reduce<ReturnType<typeof nextToClose>>(
    (first, { name, next }) =>
      next !== null && (first === null || next.inS < first.inS) ? { after: name, ...next } : first,
    null,
  );
}

function oversOf(
  { timeS, reserveKg }: Reach,
  beside: FuelBeside,
  { fuelKg, requiredKg }: ReachChoice,
  ladder: number,
  end: number,
): readonly [Over, ...Over[]] {
  const { planTimeS } = beside;
  const burn = beside.burn(ladder, end);
  // At a tanker what is required is burnt on the way from it to a base.
  const required =
    requiredKg === null ? Number.NaN : reserveKg + Math.max(1, burn) * Math.max(0, requiredKg - reserveKg);
  const overAt = (planned: number, arrives: number, at: number): number =>
    arrives + beside.moreKg(at) - (burn - 1) * Math.max(0, planned - arrives) - required;
  // The minute before holds: what is in reach is told too early, never too late.
  const minute = Math.max(
    timeS.findLastIndex((each) => each <= planTimeS),
    0,
  );
  const flown = beside.flown?.(ladder, end);
  const here =
    flown === undefined || flown.beyondData
      ? overAt(beside.plannedKg(timeS[minute]), fuelKg[minute] ?? Number.NaN, planTimeS)
      : (flown.fuelKg ?? Number.NaN) - required;
  const ahead = timeS.slice(minute + 1).map((at, i) => ({
    timeS: at,
    overKg: overAt(beside.plannedKg(at), fuelKg[minute + 1 + i] ?? Number.NaN, at),
  }));
  return [{ timeS: planTimeS, overKg: here }, ...ahead];
}

/** When what is open now is closed, on a straight line between two minutes; null where it is closed or stays open. */
function closesAt(along: readonly [Over, ...Over[]]): number | null {
  if (!(along[0].overKg >= 0)) return null;
  const closed = along.findIndex(({ overKg }) => !(overKg >= 0));
  if (closed < 0) return null;
  const [before, after] = [along[closed - 1], along[closed]];
  const part = before.overKg / (before.overKg - after.overKg);
  return Number.isNaN(part) ? before.timeS : before.timeS + part * (after.timeS - before.timeS);
}
