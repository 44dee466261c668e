/**
 * A flight from any moment of a sortie to any place, after a failure: turn away going down, descend or climb to the height that
 * can be held, cruise, come down. Flown with the equations of every other flight.
 *
 * Left out: roll-in and roll-out of the turn, the pull to level (a few kilograms each), and the turn onto a refuelling track.
 */
import {
  equivalentAirspeed,
  pressureWhereCalibratedMeets,
  pressureWhereEquivalentMeets,
} from '../air/airdata.ts';
import { type Air, newAir } from '../air/day.ts';
import { pressureAltitudeOf, standardPressure } from '../air/standard.ts';
import type { FailureCase } from '../aircraft/failures.ts';
import { Line, type Place } from '../earth/line.ts';
import type { Flight } from '../flight/flight.ts';
import {
  calibratedOf,
  constantCalibratedAirspeed,
  constantEquivalentAirspeed,
  constantMach,
  type SpeedLaw,
} from '../flight/speed-law.ts';
import { copyState, type FlightState, newState } from '../flight/state.ts';
import type { TurningWay } from '../flight/turning.ts';
import { seaLevelDensity } from '../quantities/constants.ts';
import { Steps } from './reach-steps.ts';

/** What a flight goes to. */
export interface Goal extends Place {
  /** Where the flight ends: above a base, or the tanker's. */
  readonly pressureAltitudeM: number;
  /** Of the contact; null at a base. */
  readonly calibratedAirspeedMS: number | null;
  /** From there to the runway. */
  readonly approach: { readonly fuelKg: number; readonly timeS: number };
}

/** How it ended; fuel and time are NaN where the goal was not reached. */
export interface Arrival {
  readonly fuelKg: number;
  /** Seconds since 1970. */
  readonly timeS: number;
  readonly pressureAltitudeM: number;
  /** 'arrived', or what was missing: 'heights' that can be held, 'fuel', 'thrust', 'outside:...'. */
  readonly reason: string;
}

/** Smaller changes of course are no turn. */
const LEAST_TURN_RAD = 0.03;
const FULL_CIRCLE_RAD = 2 * Math.PI;
/** Heights nearer than this are the same. */
const SAME_M = 30;
/** Length of a descent as a multiple of its height, where none was flown before. */
const PER_HEIGHT = 10;
/** A way down is flown again where it ends farther from the goal; what is less is made good at the flow of the cruise. */
const NEAR_GOAL_M = 15_000;
/** A climb is broken off when so much of the way is gone. */
const CLIMB_PART = 0.35;
const SAME_MACH = 2e-3;
/** Parts of the bank that are tried in a level turn. */
const BANK_PARTS = [1, 0.6, 0.3];
const NEAR_MS = 0.5;
/** A goal nearer than this is below the aircraft. */
const OVERHEAD_M = 2000;
/** Between nodes of the line to a goal. */
const LINE_M = 200_000;
/** For courses to steer and what is near. */
const EARTH_M = 6_371_000;

export class ReachFlight {
  readonly flight: Flight;
  readonly failure: FailureCase;
  private readonly steps: Steps;
  private readonly state = newState();
  private readonly trial = newState();
  /** How long the last way down, or up, from a height to a goal's was. */
  private readonly lengthsM = new Map<string, number>();
  private readonly air: Air = newAir();
  private readonly speed = { trueAirspeedMS: 0.5, perLogPressure: 0.5, perLogTemperature: 0.5 };
  private lengthM = 0;

  constructor(flight: Flight, failure: FailureCase) {
    this.flight = flight;
    this.failure = failure;
    this.steps = new Steps(flight);
  }

  /** Goes down to the failure's height and speed, then on to the goal. `start` needs place, heading, speed, height, mass and time. */
  slow(start: Readonly<FlightState>, goal: Goal): Arrival {
    let reason = 'heights';
    for (const heightM of this.heightsFor(start, goal)) {
      copyState(start, this.state);
      reason = this.slowAt(heightM, goal);
      if (reason !== 'thrust') break;
    }
    return this.arrival(reason, goal);
  }

  /** Keeps Mach and height until it is time to come down: of use to a whole aircraft in its cruise. */
  fast(start: Readonly<FlightState>, goal: Goal): Arrival {
    copyState(start, this.state);
    const law = constantMach(this.machOf(this.state));
    const reason = this.turnTo(goal, law, null, Number.NaN) ?? this.toGoal(law, goal, 'fast') ?? 'arrived';
    return this.arrival(reason, goal);
  }

  /**
   * Flies towards a far place until so much fuel is left that the rest of it, `goal.approach`, and a descent to the goal's height
   * remain; where that is.
   */
  asFarAs(
    start: Readonly<FlightState>,
    far: Goal,
    leastKg: number,
  ): (Place & { readonly reason: string }) | null {
    for (const heightM of this.heightsFor(start, far)) {
      copyState(start, this.state);
      const found = this.farAt(heightM, far, leastKg);
      if (found !== null) return found;
    }
    return null;
  }

  private farAt(heightM: number, far: Goal, leastKg: number): (Place & { readonly reason: string }) | null {
    const { state, trial, failure, steps } = this;
    const { zeroFuelMassKg } = this.flight.setup;
    const law = constantMach(failure.mach);
    if (this.toCruise(heightM, far) !== null) return null;
    copyState(state, trial);
    trial.massKg = zeroFuelMassKg + leastKg + 500;
    if (this.comeDown(trial, far.pressureAltitudeM) !== null) return null;
    const downKg = zeroFuelMassKg + leastKg + 500 - trial.massKg;
    const least = zeroFuelMassKg + leastKg + downKg;
    if (state.massKg < least || steps.balance(state, law) !== null) return null;
    const reason = steps.level(state, law, this.lengthM - 1000, least) ?? 'distance';
    if (reason === 'thrust') return null;
    if (reason === 'fuel') this.comeDown(state, far.pressureAltitudeM);
    return { latitudeRad: state.latitudeRad, longitudeRad: state.longitudeRad, reason };
  }

  private slowAt(heightM: number, goal: Goal): string {
    return (
      this.toCruise(heightM, goal) ??
      this.toGoal(constantMach(this.failure.mach), goal, `${heightM}`) ??
      'arrived'
    );
  }

  /** Turned towards the goal, at the height and Mach of the failure's cruise. */
  private toCruise(heightM: number, goal: Goal): string | null {
    const { state, failure } = this;
    const above = state.pressureAltitudeM > heightM + SAME_M;
    const law = above
      ? constantEquivalentAirspeed(this.equivalentOf(state))
      : constantMach(this.machOf(state));
    const turned = this.turnTo(goal, law, above ? this.idle(state) : null, heightM);
    if (turned !== null) return turned;
    if (state.pressureAltitudeM > heightM + SAME_M) {
      const cruiseMS = equivalentAirspeed(failure.mach, standardPressure(heightM));
      const speedMS = Math.max(failure.descentEquivalentAirspeedMS, cruiseMS);
      const stopped = this.comeDown(state, heightM, speedMS);
      if (stopped !== null) return stopped;
    } else if (state.pressureAltitudeM < heightM - SAME_M) {
      const stopped = this.climbTo(state, heightM, CLIMB_PART * this.lengthM);
      if (stopped !== null) return stopped;
    }
    const mach = this.machOf(state);
    if (Math.abs(mach - failure.mach) < SAME_MACH) return null;
    return this.speedTo(state, this.speedOn(constantMach(failure.mach), state), this.beyond());
  }

  /** Level, faster at full power or slower at idle, which is less below Mach 1. */
  private speedTo(state: FlightState, speedMS: number, farM: number): string | null {
    const { steps } = this;
    if (speedMS > state.trueAirspeedMS) return steps.change(state, this.most, speedMS, farM);
    const soundMS = this.airAt(state).speedOfSoundMS;
    if (state.trueAirspeedMS > soundMS) {
      const why = steps.change(state, this.idle(state), Math.max(speedMS, soundMS), farM);
      if (why !== null || speedMS >= soundMS || state.distanceM >= farM) return why;
    }
    return steps.change(state, 0, speedMS, farM);
  }

  /** The heights that can be held, in its wind the one with the most range for its fuel first. */
  private heightsFor(start: Readonly<FlightState>, goal: Goal): readonly number[] {
    const courseRad = bearing(start, goal);
    return this.failure.pressureAltitudesM
      .map((heightM) => ({ heightM, kgPerM: this.kilogramsPerMetre(start, heightM, courseRad) }))
      .filter(({ kgPerM }) => kgPerM < Number.POSITIVE_INFINITY)
      .sort((a, b) => a.kgPerM - b.kgPerM)
      .map(({ heightM }) => heightM);
  }

  /** Level with a little bank above the place of a state, at the failure's Mach; infinite where that cannot be kept. */
  private kilogramsPerMetre(start: Readonly<FlightState>, heightM: number, courseRad: number): number {
    const { flight, failure } = this;
    flight.placeAt(start.latitudeRad, start.longitudeRad, heightM, start.timeS);
    flight.turnOnLaw(constantMach(failure.mach), start.massKg, start.headingRad, 0.15);
    const warning = flight.setup.aircraft.aerodynamics.warningAngleRad(failure.mach);
    const stalled = warning !== null && flight.forces.angleRad > warning;
    const outside = flight.forces.outside !== 0 || flight.frame.outside !== 0;
    if (flight.short || stalled || outside) return Number.POSITIVE_INFINITY;
    const { windEastMS, windNorthMS } = flight.frame.air;
    const alongMS = windEastMS * Math.sin(courseRad) + windNorthMS * Math.cos(courseRad);
    return flight.forces.fuelFlowKgS / Math.max(flight.speedMS + alongMS, 1);
  }

  /** Turns the shorter way until the course leads to the goal; the line to it then is the track. */
  private turnTo(goal: Goal, law: SpeedLaw, power: number | null, floorM: number): string | null {
    const { state } = this;
    const overhead = isOverhead(state, goal);
    if (!overhead) {
      const change = wrapped(bearing(state, goal) - this.courseOf(state));
      if (Math.abs(change) > LEAST_TURN_RAD) {
        const stopped = this.turn(goal, law, power, floorM, change);
        if (stopped !== null) return stopped;
      }
    }
    const place = overhead ? this.ahead(state) : goal;
    const line = new Line(state, place, LINE_M);
    this.steps.track = line;
    this.lengthM = line.lengthM;
    state.distanceM = 0;
    return null;
  }

  private turn(
    goal: Goal,
    law: SpeedLaw,
    power: number | null,
    floorM: number,
    changeRad: number,
  ): string | null {
    const { state, failure, steps } = this;
    const side = Math.sign(changeRad);
    const startRad = state.headingRad;
    const bankRad = side * failure.bankRad;
    const { windEastMS, windNorthMS } = this.airAt(state);
    const { trueAirspeedMS } = state;
    const left = (at: Readonly<FlightState>): number => {
      const east = trueAirspeedMS * Math.sin(at.headingRad) + windEastMS;
      const north = trueAirspeedMS * Math.cos(at.headingRad) + windNorthMS;
      const missing = side * (bearing(at, goal) - Math.atan2(east, north));
      // Of all angles that lead there the one that the turn so far leaves: a long step must not pass the goal unseen.
      const expected = side * (changeRad - (at.headingRad - startRad));
      return expected + wrapped(missing - expected);
    };
    const turned = (way: TurningWay, toM = Number.NEGATIVE_INFINITY) => steps.turn(state, way, left, toM);
    let end = turned({ law, bankRad, power }, power === null ? Number.NEGATIVE_INFINITY : floorM);
    if (end === 'thrust' && power === null) {
      // Where the thrust does not carry the bank: the rest at full power and the speed there is, going down.
      const at = constantMach(Math.min(this.machOf(state), failure.mach));
      end = turned({ law: at, bankRad, power: this.most });
    }
    for (const part of end === 'altitude' ? BANK_PARTS : []) {
      // At the height of the cruise: the rest level, with as much bank as the thrust carries.
      const at = constantMach(Math.min(this.machOf(state), failure.mach));
      end = turned({ law: at, bankRad: part * bankRad, power: null });
      if (end !== 'thrust') break;
    }
    return end === 'towards' || end === 'circle' ? null : end;
  }

  /** Level, or down, to the descent's speed; then at it to a height, at idle below Mach 1. */
  private comeDown(
    state: FlightState,
    bottomM: number,
    speedMS = this.failure.descentEquivalentAirspeedMS,
  ): string | null {
    const { steps } = this;
    const excess = this.equivalentOf(state) - speedMS;
    const ever = Number.POSITIVE_INFINITY;
    if (excess > NEAR_MS) {
      const why = this.speedTo(state, (state.trueAirspeedMS * speedMS) / (speedMS + excess), ever);
      if (why !== null) return why;
    } else if (excess < -NEAR_MS) {
      const mach = this.machOf(state);
      const metM = Math.max(bottomM, pressureAltitudeOf(pressureWhereEquivalentMeets(speedMS, mach)));
      const why = steps.climb(state, constantMach(mach), this.idle(state), metM, ever);
      if (why !== null) return why;
    }
    if (state.pressureAltitudeM - bottomM < SAME_M) return null;
    const law = constantEquivalentAirspeed(speedMS);
    const slowM = Math.max(bottomM, pressureAltitudeOf(pressureWhereEquivalentMeets(speedMS, 1)));
    if (slowM < state.pressureAltitudeM) {
      const why = steps.climb(state, law, this.idle(state), slowM, ever);
      if (why !== null) return why;
    }
    return state.pressureAltitudeM > bottomM ? steps.climb(state, law, 0, bottomM, ever) : null;
  }

  /** At full power to the speed of the climb, then up at it until the Mach of the cruise; broken off at a distance. */
  private climbTo(state: FlightState, heightM: number, farM: number): string | null {
    const { failure, steps } = this;
    const { mach, climbCalibratedAirspeedMS: speedMS } = failure;
    if (this.machOf(state) < mach - SAME_MACH) {
      const meetM = pressureAltitudeOf(pressureWhereCalibratedMeets(speedMS, mach));
      const slower = speedMS - this.calibratedOf(state);
      if (slower > NEAR_MS) {
        const law =
          state.pressureAltitudeM < meetM ? constantCalibratedAirspeed(speedMS) : constantMach(mach);
        const why = steps.change(state, this.most, this.speedOn(law, state), this.beyond());
        if (why !== null) return why;
      }
      const topM = Math.min(heightM, meetM);
      if (state.pressureAltitudeM < topM) {
        const law = constantCalibratedAirspeed(speedMS);
        const why = steps.climb(state, law, this.most, topM, farM);
        if (why !== null) return why;
      }
    }
    if (heightM - state.pressureAltitudeM < SAME_M || state.distanceM >= farM) return null;
    return steps.climb(state, constantMach(mach), this.most, heightM, farM);
  }

  /**
   * Level on the law, then down, or up, to the goal, from so far before it as the last way down was long. What that ends short
   * of the goal or beyond it is a longer or a shorter cruise. `way` names the height that it goes down from.
   */
  private toGoal(law: SpeedLaw, goal: Goal, way: string): string | null {
    const { state, trial, lengthsM, lengthM, steps } = this;
    const key = `${way} ${goal.pressureAltitudeM} ${goal.calibratedAirspeedMS}`;
    const { distanceM: fromM } = state;
    if (fromM >= lengthM) return this.arrive(goal);
    const short = steps.balance(state, law);
    if (short !== null) return short;
    copyState(state, trial);
    let downM = lengthsM.get(key) ?? PER_HEIGHT * Math.abs(state.pressureAltitudeM - goal.pressureAltitudeM);
    for (let again = true; ; again = false) {
      if (fromM < lengthM - downM) {
        const why = steps.level(state, law, lengthM - downM);
        if (why !== null) return why;
      }
      const { kgPerM, secondsPerM } = steps;
      const downFromM = state.distanceM;
      const stopped = this.arrive(goal);
      if (stopped !== null) return stopped;
      downM = state.distanceM - downFromM;
      lengthsM.set(key, downM);
      const leftM = Math.max(lengthM - state.distanceM, fromM - downFromM);
      if (Math.abs(leftM) < NEAR_GOAL_M || !again) {
        state.massKg -= leftM * kgPerM;
        state.timeS += leftM * secondsPerM;
        return null;
      }
      copyState(trial, state);
    }
  }

  /** Down, or up, to the goal's height and speed. */
  private arrive(goal: Goal): string | null {
    const { state } = this;
    const { pressureAltitudeM: heightM, calibratedAirspeedMS: speedMS } = goal;
    const above = state.pressureAltitudeM > heightM + SAME_M;
    const below = state.pressureAltitudeM < heightM - SAME_M;
    const ever = Number.POSITIVE_INFINITY;
    const moved = above ? this.comeDown(state, heightM) : below ? this.climbTo(state, heightM, ever) : null;
    if (moved !== null || speedMS === null) return moved;
    return this.speedTo(state, this.speedOn(constantCalibratedAirspeed(speedMS), state), ever);
  }

  private arrival(reason: string, { approach }: Goal): Arrival {
    const { state, flight } = this;
    const arrived = reason === 'arrived';
    const fuelKg = state.massKg - flight.setup.zeroFuelMassKg - approach.fuelKg;
    return {
      fuelKg: arrived ? fuelKg : Number.NaN,
      timeS: arrived ? state.timeS + approach.timeS : Number.NaN,
      pressureAltitudeM: state.pressureAltitudeM,
      reason,
    };
  }

  /** Ends a change of speed where the line does: a short way leaves no room for it. */
  private beyond(): number {
    return Math.max(this.lengthM, this.state.distanceM + 1);
  }

  private get most(): number {
    return this.flight.setup.aircraft.propulsion.maximum;
  }

  /** A place straight on, where the goal is below. */
  private ahead(state: Readonly<FlightState>): Place {
    const course = this.courseOf(state);
    const angle = OVERHEAD_M / EARTH_M;
    return {
      latitudeRad: state.latitudeRad + angle * Math.cos(course),
      longitudeRad: state.longitudeRad + (angle * Math.sin(course)) / Math.cos(state.latitudeRad),
    };
  }

  private idle(state: Readonly<FlightState>): number {
    return this.machOf(state) > 1 ? this.flight.setup.aircraft.propulsion.descent : 0;
  }

  private airAt({ latitudeRad, longitudeRad, pressureAltitudeM, timeS }: Readonly<FlightState>): Air {
    this.flight.setup.day.sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, this.air);
    return this.air;
  }

  /** The true airspeed of a law where a state is. */
  private speedOn(law: SpeedLaw, state: Readonly<FlightState>): number {
    law.at(this.airAt(state), this.speed, state.massKg);
    return this.speed.trueAirspeedMS;
  }

  private machOf(state: Readonly<FlightState>): number {
    return state.trueAirspeedMS / this.airAt(state).speedOfSoundMS;
  }

  private equivalentOf(state: Readonly<FlightState>): number {
    return state.trueAirspeedMS * Math.sqrt(this.airAt(state).densityKgM3 / seaLevelDensity);
  }

  private calibratedOf(state: Readonly<FlightState>): number {
    return calibratedOf(this.airAt(state), state.trueAirspeedMS);
  }

  /** Over the ground, level. */
  private courseOf(state: Readonly<FlightState>): number {
    const { windEastMS, windNorthMS } = this.airAt(state);
    const east = state.trueAirspeedMS * Math.sin(state.headingRad) + windEastMS;
    const north = state.trueAirspeedMS * Math.cos(state.headingRad) + windNorthMS;
    return Math.atan2(east, north);
  }
}

/** Course of the great circle from a place to another; for steering. */
function bearing(from: Place, to: Place): number {
  const east = to.longitudeRad - from.longitudeRad;
  const cosTo = Math.cos(to.latitudeRad);
  return Math.atan2(
    Math.sin(east) * cosTo,
    Math.cos(from.latitudeRad) * Math.sin(to.latitudeRad) -
      Math.sin(from.latitudeRad) * cosTo * Math.cos(east),
  );
}

function isOverhead(from: Place, to: Place): boolean {
  const north = to.latitudeRad - from.latitudeRad;
  const east = wrapped(to.longitudeRad - from.longitudeRad) * Math.cos(to.latitudeRad);
  return EARTH_M * Math.sqrt(north * north + east * east) < OVERHEAD_M;
}

function wrapped(angleRad: number): number {
  return angleRad - FULL_CIRCLE_RAD * Math.round(angleRad / FULL_CIRCLE_RAD);
}
