/** What can be reached after each failure, flown from where the flight is with what the readings tell of. */
import { Flight } from '../flight/flight.ts';
import type { PlanRequest } from '../plan/draft.ts';
import { flightAfter } from '../plan/failures.ts';
import type { ReachArea } from '../plan/plan.ts';
import { flyingAreas } from '../plan/reach-area.ts';
import { askedOf, type ReachRequest } from '../plan/reach-asked.ts';
import { ReachFlight } from '../plan/reach-flight.ts';
import { type Deviation, deviating } from './deviation.ts';
import { type FlyingOn, fasterIn, type Now } from './refly.ts';

/** Fuel on arrival at an end of the reach; null where it is out of reach. */
export interface FlownEnd {
  readonly fuelKg: number | null;
  readonly beyondData: boolean;
}

/** By the key of the failure, in the order of the ends of the plan's reach; with null between two flights. */
export type FlownReach = ReadonlyMap<string, readonly FlownEnd[]>;

export function* flyingReach(
  on: FlyingOn,
  now: Now,
  deviation: Deviation,
): Generator<null, { readonly ends: FlownReach; readonly flights: number; readonly evaluations: number }> {
  const ends = new Map<string, readonly FlownEnd[]>();
  let [flights, evaluations] = [0, 0];
  const asked = askedOf(on.request, on.plan);
  if (asked === null) return { ends, flights, evaluations };
  const placeS = on.placeTime(now.planTimeS, deviation.lagM);
  const massKg = asked.request.aircraft.balance.emptyMassKg + onBoard(on, now, deviation);
  const start = { ...asked.starts.at(placeS), massKg, timeS: now.takeOffS + now.timeS };
  const { timeS, temperatureK } = on.plan.trace.columns;
  start.trueAirspeedMS *= fasterIn(plannedAt(timeS, temperatureK, placeS), deviation);
  const fast = asked.starts.machAt(placeS) >= 1;
  for (const failure of asked.request.aircraft.failures) {
    const reach = reachAfter(asked, failure, deviation);
    const there: FlownEnd[] = [];
    for (const { goal, joinable } of asked.choices) {
      const gone = joinable !== null && (!failure.refuels || now.planTimeS > joinable.toS);
      if (gone) {
        there.push({ fuelKg: null, beyondData: false });
        continue;
      }
      const ways = [reach.slow(start, goal)];
      if (failure.key === 'none' && fast) ways.push(reach.fast(start, goal));
      flights += ways.length;
      // Who is there before the tanker is may still go slowly.
      const arrived = ways.filter(
        ({ timeS }) => joinable === null || !(timeS - asked.request.sortie.takeOff.timeS < joinable.fromS),
      );
      // What leaks on the way is taken off on arrival: that the aircraft is lighter for it is left out.
      const left = arrived.map(({ fuelKg, timeS }) => fuelKg - deviation.leakKgS * (timeS - start.timeS));
      const most = Math.max(-Infinity, ...left.filter((kg) => !Number.isNaN(kg)));
      const outside = ways.some(({ reason }) => reason.startsWith('outside:'));
      there.push({
        fuelKg: most === -Infinity ? null : most,
        beyondData: most === -Infinity && outside,
      });
      yield null;
    }
    evaluations += reach.flight.evaluations;
    ends.set(failure.key, there);
  }
  return { ends, flights, evaluations };
}

/** The rings of what is in reach, from where the flight is; with null between two flights. */
export function* areasNow(
  on: FlyingOn,
  now: Now,
  deviation: Deviation,
): Generator<null, readonly ReachArea[]> {
  const asked = askedOf(changed(on.request, deviation), on.plan);
  if (asked === null) return [];
  const { columns } = on.plan.trace;
  const placeS = on.placeTime(now.planTimeS, deviation.lagM);
  const missingKg = plannedAt(columns.timeS, columns.fuelKg, placeS) - onBoard(on, now, deviation);
  const work = flyingAreas({ ...asked, starts: asked.starts.lighter(() => missingKg) }, placeS);
  const areas = yield* work;
  return areas.map((area) => ({ ...area, timeS: now.planTimeS }));
}

function onBoard({ plan }: FlyingOn, { planTimeS }: Now, { fuelKg }: Deviation): number {
  const { columns } = plan.trace;
  return Math.max(0, plannedAt(columns.timeS, columns.fuelKg, planTimeS) + fuelKg);
}

/** A column of a trace at a moment, linear between nodes. */
export function plannedAt(times: readonly number[], column: readonly number[], timeS: number): number {
  const after = times.findIndex((each) => each > timeS);
  if (after === 0) return column[0];
  if (after < 0) return column[column.length - 1];
  const part = (timeS - times[after - 1]) / (times[after] - times[after - 1]);
  return column[after - 1] + part * (column[after] - column[after - 1]);
}

function reachAfter(
  { request }: ReachRequest,
  failure: PlanRequest['aircraft']['failures'][number],
  deviation: Deviation,
): ReachFlight {
  const { request: other, variation } = deviating(request, deviation);
  const { setup } = flightAfter(failure, other.aircraft, other.day);
  const after = setup.variation ?? {};
  return new ReachFlight(
    new Flight({
      ...setup,
      variation: {
        ...after,
        dragFactor: variation.dragFactor ?? 1,
        fuelFlowFactor: (after.fuelFlowFactor ?? 1) * (variation.fuelFlowFactor ?? 1),
        // A headwind found on the track is taken against every way, a tailwind helps none.
        headwindMS: Math.max(0, deviation.headwindMS),
      },
    }),
    failure,
  );
}

/** For flights that take a deck as it is: more drag is more fuel for the same thrust, as in level flight. */
function changed(request: PlanRequest, deviation: Deviation): PlanRequest {
  const { request: other } = deviating(request, deviation);
  const more = (1 + deviation.flow) * (1 + deviation.drag);
  const failures = other.aircraft.failures.map((failure) => ({
    ...failure,
    fuelFlowFactor: failure.fuelFlowFactor * more,
  }));
  return { ...request, day: other.day, aircraft: { ...other.aircraft, failures } };
}
