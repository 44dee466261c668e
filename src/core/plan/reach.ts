/**
 * Where the sortie can still go after a failure, at every minute in the air: each base and tanker with the fuel that arrives, flown
 * with the equations of every other flight, and when each choice opens and closes. Flights are made at a few minutes and between
 * them where fuel on arrival is no straight line of time.
 */
import type { FailureCase } from '../aircraft/failures.ts';
import type { FlightState } from '../flight/state.ts';
import type { PlanRequest } from './draft.ts';
import { toTheEnd } from './explain.ts';
import { flightAfter } from './failures.ts';
import type { Plan, Reach, ReachChoice, ReachLadder } from './plan.ts';
import { askedOf, type ReachRequest } from './reach-asked.ts';
import { halfFuelled, otherCases } from './reach-cases.ts';
import { type Arrival, ReachFlight } from './reach-flight.ts';
import type { Choice } from './reach-goals.ts';
import { bestOf, equalTimesOf, numberOrNull, openings } from './reach-times.ts';
import { unstartsOf } from './reach-unstart.ts';

/** Minutes between flights where no more are needed. */
const coarse = 2;
/** Of fuel on arrival, at least of two tonnes, that a straight line between two flights may be off. */
const within = 0.005;
const leastWholeKg = 2000;

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
    within,
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

const nowhere = { fuelKg: Number.NaN, timeS: Number.NaN };

/** What can be reached after one failure. */
class Ladder {
  private readonly asked: ReachRequest;
  private readonly failure: FailureCase;
  private readonly reach: ReachFlight;
  flights = 0;

  constructor(asked: ReachRequest, failure: FailureCase) {
    const { aircraft, day } = asked.request;
    this.asked = asked;
    this.failure = failure;
    this.reach = new ReachFlight(flightAfter(failure, aircraft, day), failure);
  }

  get evaluations(): number {
    return this.reach.flight.evaluations;
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
    const none = minutes.map(() => null);
    const without = { requiredKg: null, fuelKg: none, arrivalS: none, open: [] };
    if (joinable !== null && !this.failure.refuels) {
      return { ...without, never: 'cannot take fuel' };
    }
    const requiredKg = joinable === null ? request.sortie.landingReserveKg : this.requiredAt(choice);
    const arrivals = yield* this.arrivals(choice);
    const there = arrivals.map((arrival, i) =>
      joinable !== null && (minutes[i] > joinable.toS || !(arrival.timeS >= joinable.fromS)) ? null : arrival,
    );
    const fuelKg = there.map((arrival) => arrival && numberOrNull(arrival.fuelKg));
    const arrivalS = there.map((arrival) => arrival && numberOrNull(arrival.timeS));
    const open = openings(minutes, fuelKg, requiredKg);
    const never = fuelKg.every((kg) => kg === null) ? 'cannot be flown to' : null;
    return { requiredKg, fuelKg, arrivalS, open, never };
  }

  /** Fuel and time of arrival, since take-off, at every minute: flown, or between two flights that tell. */
  private *arrivals(choice: Choice): Generator<null, Pick<Arrival, 'fuelKg' | 'timeS'>[]> {
    const { minutes, request } = this.asked;
    const until = choice.joinable === null ? minutes.length - 1 : lastBefore(minutes, choice.joinable.toS);
    const all = minutes.map(() => ({ fuelKg: Number.NaN, timeS: Number.NaN }));
    if (until < 0) return all;
    const takeOffS = request.sortie.takeOff.timeS;
    const fly = (i: number): void => {
      const { fuelKg, timeS } = this.to(choice, minutes[i]);
      all[i] = { fuelKg, timeS: timeS - takeOffS };
    };
    const stack: [number, number][] = [];
    for (let i = 0; i < until; i += coarse) stack.push([i, Math.min(i + coarse, until)]);
    fly(0);
    for (const [, to] of stack) {
      fly(to);
      yield null;
    }
    for (let span = stack.pop(); span !== undefined; span = stack.pop()) {
      const [from, to] = span;
      if (to - from < 2) continue;
      const middle = (from + to) >> 1;
      fly(middle);
      yield null;
      if (isLine(all[from].fuelKg, all[middle].fuelKg, all[to].fuelKg, (middle - from) / (to - from))) {
        fillBetween(all, from, middle);
        fillBetween(all, middle, to);
      } else stack.push([from, middle], [middle, to]);
    }
    return all;
  }

  /** The whole aircraft may also keep its Mach and height: what arrives with more counts. */
  private to({ goal, joinable }: Choice, minuteS: number): Pick<Arrival, 'fuelKg' | 'timeS'> {
    const { starts, request } = this.asked;
    const start = starts.at(minuteS);
    if (start.massKg <= this.reach.flight.setup.zeroFuelMassKg) return nowhere;
    this.flights++;
    const slow = this.reach.slow(start, goal);
    if (this.failure.key !== 'none' || starts.machAt(minuteS) < 1) return slow;
    this.flights++;
    const fast = this.reach.fast(start, goal);
    const tooSoon = joinable !== null && fast.timeS - request.sortie.takeOff.timeS < joinable.fromS;
    if (tooSoon) return slow;
    return fast.fuelKg > slow.fuelKg || Number.isNaN(slow.fuelKg) ? fast : slow;
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
      if (burntKg > 0 && Number.isFinite(moreKg)) return moreKg / burntKg - 1;
    }
    return null;
  }
}

function isLine(from: number, middle: number, to: number, part: number): boolean {
  if ([from, middle, to].every(Number.isNaN)) return true;
  const line = from + part * (to - from);
  // With the middle flown too a bend is off by half of this at most, a curve by a quarter.
  return Math.abs(middle - line) <= within * Math.max(leastWholeKg, Math.abs(middle));
}

function fillBetween(all: { fuelKg: number; timeS: number }[], from: number, to: number): void {
  for (let i = from + 1; i < to; i++) {
    const part = (i - from) / (to - from);
    all[i] = {
      fuelKg: all[from].fuelKg + part * (all[to].fuelKg - all[from].fuelKg),
      timeS: all[from].timeS + part * (all[to].timeS - all[from].timeS),
    };
  }
}

function lastBefore(minutes: readonly number[], timeS: number): number {
  return minutes.findLastIndex((minute) => minute <= timeS);
}
