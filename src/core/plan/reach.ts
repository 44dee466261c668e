/**
 * Where the sortie can still go after a failure, at every minute in the air: each base and tanker with the fuel that arrives, flown
 * with the balance of forces of every other flight, and when each choice opens and closes.
 */
import type { FailureCase } from '../aircraft/failures.ts';
import type { FlightState } from '../flight/state.ts';
import type { PlanRequest } from './draft.ts';
import { toTheEnd } from './explain.ts';
import { flightAfter } from './failures.ts';
import type { Plan, Reach, ReachChoice, ReachLadder, WhyNone } from './plan.ts';
import { askedOf, type ReachRequest } from './reach-asked.ts';
import { halfFuelled, otherCases } from './reach-cases.ts';
import { ReachFlight } from './reach-flight.ts';
import type { Choice } from './reach-goals.ts';
import { bestOf, equalTimesOf, openings, spansOf } from './reach-times.ts';
import { unstartsOf } from './reach-unstart.ts';

/** null where the deck says nothing of failures or nothing was flown. */
export function reachOf(request: PlanRequest, plan: Plan): Reach | null {
  return toTheEnd(reaching(request, plan));
}

/** The same, with null between two flights, so that who waits can give up. */
export function* reaching(request: PlanRequest, plan: Plan): Generator<null, Reach | null> {
  const asked = askedOf(request, plan);
  if (asked === null) return null;
  const { aircraft, sortie } = request;
  const { choices, minutes } = asked;
  const ladders: ReachLadder[] = [];
  let [evaluations, flights] = [0, 0];
  function* flown(ladder: Ladder): Generator<null, ReachLadder> {
    const made = yield* ladder.fly();
    evaluations += ladder.evaluations;
    flights += ladder.flights;
    return made;
  }
  for (const failure of aircraft.failures) ladders.push(yield* flown(new Ladder(asked, failure)));
  const whole = aircraft.failures.findIndex(({ key }) => key === 'none');
  if (whole >= 0) {
    const half = yield* flown(new Ladder(halfFuelled(asked), aircraft.failures[whole]));
    ladders.push(...otherCases(asked, ladders[whole], half));
  }
  const unstarts = yield* unstartsOf(asked);
  return {
    reserveKg: sortie.landingReserveKg,
    timeS: minutes,
    ends: choices.map(({ kind, name, latitudeDeg, longitudeDeg }) => ({
      kind,
      name,
      latitudeDeg,
      longitudeDeg,
    })),
    ladders,
    unstarts: unstarts.rows,
    evaluations: evaluations + unstarts.evaluations,
    flights: flights + unstarts.flights,
    notComputed: unstarts.missing,
  };
}

interface Arrived {
  readonly fuelKg: number;
  readonly arrivalS: number;
}

/** What can be reached after one failure. */
class Ladder {
  private readonly asked: ReachRequest;
  private readonly failure: FailureCase;
  private readonly reach: ReachFlight;
  private dearerEvaluations = 0;
  flights = 0;

  constructor(asked: ReachRequest, failure: FailureCase) {
    const { aircraft, day } = asked.request;
    this.asked = asked;
    this.failure = failure;
    this.reach = new ReachFlight(flightAfter(failure, aircraft, day), failure);
  }

  get evaluations(): number {
    return this.reach.flight.evaluations + this.dearerEvaluations;
  }

  *fly(): Generator<null, ReachLadder> {
    const { failure, asked } = this;
    const { minutes, choices } = asked;
    const made: ReachChoice[] = [];
    for (const choice of choices) made.push(yield* this.choice(choice));
    return {
      key: failure.key,
      name: failure.name,
      source: failure.source,
      burnSpread: this.burnSpread(),
      choices: made,
      best: minutes.map((_, i) => bestOf(made, i)),
      equalTimes: equalTimesOf(asked, made),
    };
  }

  private *choice(choice: Choice): Generator<null, ReachChoice> {
    const { minutes, request } = this.asked;
    const { joinable } = choice;
    const told = (
      requiredKg: number | null,
      found: readonly (WhyNone | Arrived)[],
      never: string | null,
    ): ReachChoice => {
      const fuelKg = found.map((at) => (typeof at === 'string' ? null : at.fuelKg));
      return {
        requiredKg,
        fuelKg,
        arrivalS: found.map((at) => (typeof at === 'string' ? null : at.arrivalS)),
        open: openings(minutes, fuelKg, requiredKg),
        none: spansOf(
          minutes,
          found.map((at) => (typeof at === 'string' ? at : null)),
        ),
        never: never ?? (fuelKg.every((kg) => kg === null) ? 'cannot be flown to' : null),
      };
    };
    if (joinable !== null && !this.failure.refuels) {
      return told(
        null,
        minutes.map(() => 'cannotRefuel'),
        'cannot take fuel',
      );
    }
    const requiredKg = joinable === null ? request.sortie.landingReserveKg : this.requiredAt(choice);
    const found: (WhyNone | Arrived)[] = [];
    for (const minute of minutes) {
      found.push(joinable !== null && minute > joinable.toS ? 'gone' : this.to(choice, minute));
      yield null;
    }
    return told(requiredKg, found, null);
  }

  /** The whole aircraft may also keep the Mach and height of its cruise: what arrives with more counts. */
  private to({ goal, joinable }: Choice, minuteS: number): WhyNone | Arrived {
    const { starts, request, plan } = this.asked;
    const start = starts.at(minuteS);
    const takeOffS = request.sortie.takeOff.timeS;
    const soonestS = joinable?.fromS ?? 0;
    this.flights++;
    const slow = this.reach.slow(start, goal);
    let best = slow;
    if (this.failure.key === 'none' && starts.machAt(minuteS) > 1 && isCruising(plan, minuteS)) {
      this.flights++;
      const fast = this.reach.fast(start, goal);
      const inTime = fast.timeS - takeOffS >= soonestS;
      if (inTime && fast.reason === 'arrived' && !(fast.fuelKg <= slow.fuelKg)) best = fast;
    }
    const why = whyOf(best.reason);
    if (why !== null) return why;
    const arrivalS = best.timeS - takeOffS;
    return arrivalS < soonestS ? 'notYet' : { fuelKg: best.fuelKg, arrivalS };
  }

  /** Fuel at a tanker from which a base is still reached without it: of all bases the least; null where none is. */
  private requiredAt(choice: Choice): number | null {
    const { choices, request, starts } = this.asked;
    const { joinable, goal } = choice;
    const reserveKg = request.sortie.landingReserveKg;
    const start: FlightState = { ...starts.at(joinable?.toS ?? 0) };
    start.latitudeRad = goal.latitudeRad;
    start.longitudeRad = goal.longitudeRad;
    start.pressureAltitudeM = goal.pressureAltitudeM;
    const least = choices
      .filter(({ kind }) => kind === 'base')
      .map((base) => {
        // What is burnt hardly depends on how much is left: twice is enough.
        let fuelKg = reserveKg + 4000;
        for (let round = 0; round < 2; round++) {
          start.massKg = request.aircraft.balance.emptyMassKg + fuelKg;
          this.flights++;
          fuelKg += reserveKg - this.reach.slow(start, base.goal).fuelKg;
        }
        return fuelKg;
      })
      .filter(Number.isFinite);
    return least.length === 0 ? null : Math.min(...least);
  }

  /** By flying to one end from the middle of the sortie with more drag. */
  private burnSpread(): number | null {
    const { failure, asked } = this;
    if (!(failure.dragSpread > 0)) return null;
    const { aircraft, day } = asked.request;
    const dearer = { ...failure, dragIncrement: failure.dragIncrement + failure.dragSpread };
    const other = new ReachFlight(flightAfter(dearer, aircraft, day), dearer);
    const start = { ...asked.starts.at(asked.minutes[asked.minutes.length >> 1]) };
    const onBoardKg = start.massKg - aircraft.balance.emptyMassKg;
    for (const { goal, kind } of asked.choices) {
      if (kind !== 'base') continue;
      const burntKg = onBoardKg - this.reach.slow(start, goal).fuelKg;
      const moreKg = onBoardKg - other.slow(start, goal).fuelKg;
      this.flights += 2;
      this.dearerEvaluations = other.flight.evaluations;
      if (burntKg > 0 && Number.isFinite(moreKg)) return moreKg / burntKg - 1;
    }
    return null;
  }
}

/** What ended a flight, as why there is none. */
function whyOf(reason: string): WhyNone | null {
  switch (reason) {
    case 'arrived':
      return null;
    case 'fuel':
    case 'heights':
      return reason;
    case 'outside:day':
      return 'weather';
    case 'outside:aerodynamics':
    case 'outside:propulsion':
      return 'data';
    default:
      return 'thrust';
  }
}

function isCruising({ phases }: Plan, timeS: number): boolean {
  return phases.some(
    ({ kind, startS, endS }) => (kind === 'cruise' || kind === 'turn') && startS <= timeS && timeS <= endS,
  );
}
