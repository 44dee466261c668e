/** What a later take-off costs: the whole sortie moved in time and planned again. */
import type { Light } from '../earth/light.ts';
import { showTime } from '../quantities/time.ts';
import { refusedBy } from './contact-limits.ts';
import { crewEnds } from './crew-clock.ts';
import type { Draft, PlanRequest } from './draft.ts';
import { laterProgress } from './log.ts';
import { planning } from './make-plan.ts';
import { type LeastMargin, leastInHand, type Mark, outcomeOf } from './outcome.ts';
import type { CrewClock, Failure, Plan, PlanArea } from './plan.ts';
import type { Sortie } from './sortie.ts';
import { CannotPlan, type SortieFlown } from './sortie-flyer.ts';
import { tankerOwnOf } from './tanker-own.ts';

/** The sortie of one take-off. */
export interface SlipRow {
  /** After the take-off of the sortie file. */
  readonly slipS: number;
  readonly takeOff: string;
  /** Why it cannot be planned at all, such as weather that ends before the landing; everything else is then null or empty. */
  readonly cannot: string | null;
  readonly flyable: boolean | null;
  readonly failure: Failure | null;
  /** Those that the failure names. */
  readonly areas: readonly PlanArea[];
  /** Take-off, contacts and landing, as far as it was flown. */
  readonly places: readonly SlipPlace[];
  /** The contact or landing with the least fuel in hand. */
  readonly worst: (Mark & { readonly inHandKg: number }) | null;
  /** The limit that comes closest. */
  readonly nearest: LeastMargin | null;
  readonly landingFuelKg: number | null;
  /** How much later still before duty or oxygen ends, and which; negative where it has. null where nothing does. */
  readonly crew: CrewClock['slip'];
}

export interface SlipPlace extends Mark {
  /** null outside the years of the almanac. */
  readonly light: Light | null;
}

export interface Slip {
  readonly rows: readonly SlipRow[];
  /** Whether the air is the same at every time, so that only the light and the validity move. */
  readonly steady: boolean;
  /** Index of the row with the least fuel in hand; null where all rows have the same, or none has any. */
  readonly worst: number | null;
}

/** The same sortie a time later; the hours of areas and the weather stay where they are. */
export function slipped(sortie: Sortie, byS: number): Sortie {
  const { takeOff } = sortie;
  return {
    ...sortie,
    takeOff: {
      ...takeOff,
      timeS: takeOff.timeS + byS,
      fromS: takeOff.fromS + byS,
      toS: takeOff.toS + byS,
    },
  };
}

/** Whether a tanker refuses a contact so much later, its waiver over. */
export function isRefusedLater({ legs }: Sortie, { refuellings }: SortieFlown, byS: number): boolean {
  return refuellings.some(({ contactS }, leg) => {
    const { end } = legs[leg];
    return end.kind === 'contact' && refusedBy(end.tanker, contactS + byS) !== null;
  });
}

/** A flown sortie so much later, on a day that is the same at every time: the same flight. */
export function flownLater({ crew, log, flown }: Draft, byS: number): Draft {
  const legs = flown.legs.map((leg) => ({ ...leg, end: laterProgress(leg.end, byS) }));
  const refuellings = flown.refuellings.map((refuelling) => ({
    ...refuelling,
    contactS: refuelling.contactS + byS,
    disconnectS: refuelling.disconnectS + byS,
  }));
  const landingTimeS = flown.landingTimeS + byS;
  return {
    crew: { ...crew, sortie: slipped(crew.sortie, byS) },
    log: log.later(byS),
    flown: { ...flown, legs, refuellings, landingTimeS },
  };
}

/** What does not go with the flight and ends it all the same, as far as the sortie states it. */
export interface Besides {
  readonly limit: 'duty' | 'oxygen' | 'tankerFuel';
  /** The tanker. */
  readonly name: string;
  /** Of time, or of what its own fuel lasts; negative where it is used up. */
  readonly leftS: number;
}

/** The crew's duty and oxygen, and what each tanker can still wait and land at home with its reserve. */
export function besidesOf(drafted: Draft): Besides[] {
  const { sortie } = drafted.crew;
  const { landingTimeS } = drafted.flown;
  const crew = crewEnds(sortie, landingTimeS - sortie.takeOff.timeS);
  const tankers = tankerOwnOf(drafted).flatMap(({ tanker, canWaitS }): Besides[] =>
    canWaitS === null ? [] : [{ limit: 'tankerFuel', name: tanker, leftS: canWaitS }],
  );
  return [...crew.map(({ by, leftS }): Besides => ({ limit: by, name: '', leftS })), ...tankers];
}

/** Plans a sortie for each of some slips [s], rising. */
export function slipOf(request: PlanRequest, slipsS: readonly number[]): Slip {
  const rows = slipsS.map((slipS) => rowOf(request, slipS));
  return { rows, steady: request.day.steady, worst: worstOf(rows) };
}

/** Less than this between two rows is the arithmetic of times that are larger by the slip. */
const sameKg = 0.05;

function worstOf(rows: readonly SlipRow[]): number | null {
  const inHand = rows.flatMap(({ worst }, i) => (worst === null ? [] : [{ i, kg: worst.inHandKg }]));
  if (inHand.length === 0) return null;
  const least = inHand.reduce((a, b) => (b.kg < a.kg ? b : a));
  return inHand.every(({ kg }) => kg - least.kg < sameKg) ? null : least.i;
}

function rowOf(request: PlanRequest, slipS: number): SlipRow {
  const sortie = slipped(request.sortie, slipS);
  const takeOff = showTime(sortie.takeOff.timeS);
  const plan = planOrReason({ ...request, sortie });
  if (typeof plan === 'string') {
    const nothing = { flyable: null, failure: null, areas: [], places: [], worst: null, nearest: null };
    return { slipS, takeOff, cannot: plan, ...nothing, landingFuelKg: null, crew: null };
  }
  const outcome = outcomeOf(plan);
  const places = outcome.marks
    .filter(({ kind }) => kind === 'take-off' || kind === 'contact' || kind === 'landing')
    .map((mark) => ({ ...mark, light: lightAtEvent(plan, mark) }));
  return {
    slipS,
    takeOff,
    cannot: null,
    flyable: plan.flyable,
    failure: plan.failure,
    areas: plan.areas.filter(({ name }) => name === plan.failure?.name),
    places,
    worst: leastInHand(outcome),
    nearest: outcome.limits.at(0) ?? null,
    landingFuelKg: places.find(({ kind }) => kind === 'landing')?.fuelKg ?? null,
    crew: plan.crew?.slip ?? null,
  };
}

/** The plan without the search for what frees it, or why there is none. */
function planOrReason(request: PlanRequest): Plan | string {
  try {
    for (const stage of planning(request)) {
      if (stage !== null && !stage.pending.includes('the fuel required')) return stage.plan;
    }
    throw new Error('a plan has a stage with its fuel required');
  } catch (error) {
    if (error instanceof CannotPlan) return error.message;
    throw error;
  }
}

function lightAtEvent({ events }: Plan, { kind, name, timeS }: Mark): Light | null {
  return (
    events.find((event) => event.kind === kind && event.name === name && event.timeS === timeS)?.light ?? null
  );
}
