/** What a plan comes to at the moments that a crew marks: time, fuel, fuel in hand, and how near the limits come. */
import { findAreas } from './areas.ts';
import { draftOf, type PlanRequest, requiredOf } from './draft.ts';
import { firstFault } from './failure.ts';
import { summariseLimits } from './limits.ts';
import type { LimitSummary, Plan, PlanEvent } from './plan.ts';

/** A moment of a sortie that two plans of it can both have. */
export interface Mark {
  /** The same in both plans: leg, kind, name, and its place among those of the same name. */
  readonly key: string;
  readonly kind: string;
  readonly name: string;
  /** Leg between contacts, from 0. */
  readonly leg: number;
  /** Since take-off. */
  readonly timeS: number;
  readonly fuelKg: number;
  /** On board less required; null where the leg was not flown to its end. */
  readonly inHandKg: number | null;
}

export type LeastMargin = Pick<LimitSummary, 'key' | 'name' | 'quantity' | 'leastMargin' | 'closeness'>;

export interface Outcome {
  readonly flyable: boolean;
  readonly marks: readonly Mark[];
  /** The closest first. */
  readonly limits: readonly LeastMargin[];
}

const marked = [
  'take-off',
  'contact',
  'disconnect',
  'gate',
  'cruise',
  'waypoint',
  'start-down',
  'slow-down',
  'level-off',
  'landing',
];

/** Of a plan, also of one that was read from a file. */
export function outcomeOf(plan: Pick<Plan, 'flyable' | 'events' | 'trace' | 'limits'>): Outcome {
  const { timeS, fuelKg, fuelRequiredKg } = plan.trace.columns;
  return {
    flyable: plan.flyable,
    marks: marksOf(plan.events, timeS, fuelKg, fuelRequiredKg),
    limits: plan.limits,
  };
}

/**
 * Of a request, without the grids, the rows and the search for what frees it: what is flown to split a difference.
 * Throws `CannotPlan`.
 */
export function flyOutcome(request: Pick<PlanRequest, 'sortie' | 'aircraft' | 'day'>): Outcome {
  const drafted = draftOf(request);
  const { requiredKg } = requiredOf(drafted);
  const { aircraft, sortie } = request;
  const { columns, events } = drafted.log;
  const { timeS: takeOffS } = sortie.takeOff;
  const limits = summariseLimits(aircraft.limits, sortie.pads, drafted.log, takeOffS);
  return {
    flyable: firstFault(drafted, { limits, requiredKg, findings: findAreas(drafted) }) === null,
    marks: marksOf(
      events.map((event) => ({ ...event, timeS: event.timeS - takeOffS })),
      columns.timeS.map((time) => time - takeOffS),
      columns.fuelKg,
      requiredKg,
    ),
    limits,
  };
}

/** The contact or landing with the least fuel in hand; null where there is none that was worked out. */
export function leastInHand({ marks }: Outcome): (Mark & { readonly inHandKg: number }) | null {
  let least: (Mark & { readonly inHandKg: number }) | null = null;
  for (const mark of marks) {
    const { kind, inHandKg } = mark;
    if ((kind !== 'contact' && kind !== 'landing') || inHandKg === null) continue;
    if (least === null || inHandKg < least.inHandKg) least = { ...mark, inHandKg };
  }
  return least;
}

type Timed = Pick<PlanEvent, 'kind' | 'name' | 'timeS' | 'fuelKg'>;

/** The marked events; `requiredKg` may be empty, then nothing is told of what is in hand. */
export function marksOf(
  events: readonly Timed[],
  timeS: readonly number[],
  fuelKg: readonly number[],
  requiredKg: readonly (number | null)[],
): Mark[] {
  let leg = 0;
  const seen = new Map<string, number>();
  return events
    .filter(({ kind }) => marked.includes(kind))
    .map(({ kind, name, timeS: at, fuelKg: onBoardKg }) => {
      // The name of a cruise is its Mach, which may be what changed.
      const plain = kind === 'cruise' ? `${leg} ${kind}` : `${leg} ${kind} ${name}`;
      const count = (seen.get(plain) ?? 0) + 1;
      seen.set(plain, count);
      const key = count === 1 ? plain : `${plain} ${count}`;
      const inHandKg = inHand(timeS, fuelKg, requiredKg, at, onBoardKg);
      const mark = { key, kind, name, leg, timeS: at, fuelKg: onBoardKg, inHandKg };
      if (kind === 'contact') leg++;
      return mark;
    });
}

/** Before the first node and after the last, what is burnt meanwhile counts on both sides. */
function inHand(
  times: readonly number[],
  fuelKg: readonly number[],
  requiredKg: readonly (number | null)[],
  timeS: number,
  onBoardKg: number,
): number | null {
  const last = times.length - 1;
  const of = (node: number): number | null => {
    const required = requiredKg[node] ?? Number.NaN;
    return Number.isNaN(required) ? null : fuelKg[node] - required;
  };
  if (last < 0) return null;
  if (timeS <= times[0]) return of(0);
  if (timeS >= times[last]) return of(last);
  const high = times.findIndex((time) => time >= timeS);
  const [before, after] = [requiredKg[high - 1] ?? Number.NaN, requiredKg[high] ?? Number.NaN];
  const part = (timeS - times[high - 1]) / (times[high] - times[high - 1]);
  const required = before + part * (after - before);
  return Number.isNaN(required) ? null : onBoardKg - required;
}
