/**
 * A flight from any moment of a sortie to any place, after a failure: turn away going down, descend or climb to the height that
 * can be held, cruise, come down. Flown with the equations of every other flight.
 *
 * Left out: roll-in and roll-out of the turn, the pull to level (a few kilograms each), and the turn onto a refuelling track.
 */
import { type Air, newAir } from '../air/day.ts';
import type { FailureCase } from '../aircraft/failures.ts';
import { inverse, Line, type Place } from '../earth/line.ts';
import type { Flight } from '../flight/flight.ts';
import {
  calibratedOf,
  constantCalibratedAirspeed,
  constantEquivalentAirspeed,
  constantMach,
  type SpeedLaw,
} from '../flight/speed-law.ts';
import { copyState, type FlightState, newState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import { Turning } from '../flight/turning.ts';
import { accelerate, climb, cruise } from '../phases/index.ts';
import type { PhaseEnd, Power, Stop } from '../phases/phase.ts';
import { fly } from '../phases/run.ts';
import { seaLevelDensity } from '../quantities/constants.ts';

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
  /** 'arrived', or what was missing: 'fuel', 'thrust', 'outside:...'. */
  readonly reason: string;
}

/** Smaller changes of course are no turn. */
const LEAST_TURN_RAD = 0.03;
/** A turn is over at the latest after a full circle. */
const FULL_CIRCLE_RAD = 2 * Math.PI;
/** Heights nearer than this are the same. */
const SAME_M = 30;
/** The descent begins this much early: level flight makes up for it. */
const EARLY_M = 1500;
/** A climb is broken off when so much of the way is gone. */
const CLIMB_PART = 0.35;
const SAME_MACH = 2e-3;
/** Parts of the bank that are tried in a level turn. */
const BANK_PARTS = [1, 0.6, 0.3];
const NEAR_MS = 0.5;
/** A goal nearer than this is below the aircraft. */
const OVERHEAD_M = 2000;

export class ReachFlight {
  readonly flight: Flight;
  readonly failure: FailureCase;
  private readonly state = newState();
  private readonly trial = newState();
  private readonly air: Air = newAir();
  private track!: Track;
  private lengthM = 0;

  constructor(flight: Flight, failure: FailureCase) {
    this.flight = flight;
    this.failure = failure;
  }

  /** Goes down to the failure's height and speed, then on to the goal. `start` needs place, heading, speed, height, mass and time. */
  slow(start: Readonly<FlightState>, goal: Goal): Arrival {
    let reason = 'thrust';
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
    const reason =
      this.turnTo(goal, law, null, Number.NaN) ?? this.cruiseTo(law, goal) ?? this.arrive(goal) ?? 'arrived';
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
    const { state, trial, failure } = this;
    const law = constantMach(failure.mach);
    if (this.toCruise(heightM, far) !== null) return null;
    copyState(state, trial);
    trial.massKg = this.flight.setup.zeroFuelMassKg + leastKg + 500;
    if (this.comeDown(trial, far.pressureAltitudeM) !== null) return null;
    const downKg = this.flight.setup.zeroFuelMassKg + leastKg + 500 - trial.massKg;
    const fuelKg = leastKg + downKg;
    if (state.massKg - this.flight.setup.zeroFuelMassKg < fuelKg) return null;
    const stops: Stop[] = [
      { at: 'fuel', fuelKg },
      { at: 'distance', distanceM: this.lengthM - 1000 },
    ];
    const end = cruise(this.flight, state, this.track, { law, altitude: 'hold', stops });
    if (end.reason === 'thrust') return null;
    if (end.stop === 0) this.comeDown(state, far.pressureAltitudeM);
    return {
      latitudeRad: state.latitudeRad,
      longitudeRad: state.longitudeRad,
      reason: end.stop === 0 ? 'fuel' : end.reason,
    };
  }

  private slowAt(heightM: number, goal: Goal): string {
    return (
      this.toCruise(heightM, goal) ??
      this.cruiseTo(constantMach(this.failure.mach), goal) ??
      this.arrive(goal) ??
      'arrived'
    );
  }

  /** Turned towards the goal, at the height and Mach of the failure's cruise. */
  private toCruise(heightM: number, goal: Goal): string | null {
    const { state, flight, failure } = this;
    const above = state.pressureAltitudeM > heightM + SAME_M;
    const law = above
      ? constantEquivalentAirspeed(this.equivalentOf(state))
      : constantMach(this.machOf(state));
    const turned = this.turnTo(goal, law, above ? this.idle(state) : null, heightM);
    if (turned !== null) return turned;
    if (state.pressureAltitudeM > heightM + SAME_M) {
      const stopped = this.comeDown(state, heightM);
      if (stopped !== null) return stopped;
    } else if (state.pressureAltitudeM < heightM - SAME_M) {
      const stopped = this.climbTo(state, heightM);
      if (stopped !== null) return stopped;
    }
    const mach = this.machOf(state);
    if (Math.abs(mach - failure.mach) < SAME_MACH) return null;
    const power: Power = mach < failure.mach ? 'full' : 'idle';
    const end = accelerate(flight, state, this.track, {
      power,
      stops: [{ at: 'mach', mach: failure.mach }, this.beyond()],
    });
    return end.stop >= 0 ? null : end.reason;
  }

  /** The heights that can be held, in its wind the one with the most range for its fuel first. */
  private heightsFor(start: Readonly<FlightState>, goal: Goal): readonly number[] {
    const { initialCourseRad } = inverse(start, goal);
    return this.failure.pressureAltitudesM
      .map((heightM) => ({ heightM, kgPerM: this.kilogramsPerMetre(start, heightM, initialCourseRad) }))
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
    const { state, flight } = this;
    const ends = inverse(state, goal);
    if (ends.distanceM > OVERHEAD_M) {
      const change = wrapped(ends.initialCourseRad - this.courseOf(state));
      if (Math.abs(change) > LEAST_TURN_RAD) {
        const stopped = this.turn(goal, law, power, floorM, change);
        if (stopped !== null) return stopped;
      }
    }
    const place = ends.distanceM > OVERHEAD_M ? goal : this.ahead(state);
    const line = new Line(state, place);
    this.track = line;
    this.lengthM = line.lengthM;
    state.distanceM = 0;
    flight.placeOnTrack(line, 0, state.pressureAltitudeM, state.timeS);
    return null;
  }

  private turn(
    goal: Goal,
    law: SpeedLaw,
    power: number | null,
    floorM: number,
    changeRad: number,
  ): string | null {
    const { state, flight, failure } = this;
    const side = Math.sign(changeRad);
    const startRad = state.headingRad;
    const bankRad = side * failure.bankRad;
    const lacking = (at: Readonly<FlightState>): number => {
      const { point } = flight.frame;
      const course = Math.atan2(point.sinCourse, point.cosCourse);
      const left = side * (bearing(at, goal) - course);
      // Of all angles that lead there the one that the turn so far leaves: a long step must not pass the goal unseen.
      const expected = side * (changeRad - (at.headingRad - startRad));
      return expected + wrapped(left - expected);
    };
    const stops: Stop[] = [
      { at: 'state', name: 'towards', balanced: true, value: lacking },
      { at: 'state', name: 'circle', value: (at) => FULL_CIRCLE_RAD - side * (at.headingRad - startRad) },
    ];
    const down: Stop[] = power === null ? [] : [{ at: 'altitude', pressureAltitudeM: floorM }];
    let end: PhaseEnd = fly(flight, new Turning(flight, { law, bankRad, power }, state), state, {
      stops: [...stops, ...down],
    });
    if (end.reason === 'thrust' && power === null) {
      // Where the thrust does not carry the bank: the rest at full power and the speed there is, going down.
      const at = constantMach(Math.min(this.machOf(state), failure.mach));
      const most = flight.setup.aircraft.propulsion.maximum;
      end = fly(flight, new Turning(flight, { law: at, bankRad, power: most }, state), state, { stops });
    }
    for (const part of end.reason === 'altitude' ? BANK_PARTS : []) {
      // At the height of the cruise: the rest level, with as much bank as the thrust carries.
      const at = constantMach(Math.min(this.machOf(state), failure.mach));
      const way = { law: at, bankRad: part * bankRad, power: null };
      end = fly(flight, new Turning(flight, way, state), state, { stops });
      if (end.reason !== 'thrust') break;
    }
    return end.stop >= 0 ? null : end.reason;
  }

  /** Level, or down, to the descent's speed; then at it to a height, at idle below Mach 1. */
  private comeDown(state: FlightState, bottomM: number): string | null {
    const { flight, failure } = this;
    const speedMS = failure.descentEquivalentAirspeedMS;
    const law = constantEquivalentAirspeed(speedMS);
    const bottom: Stop = { at: 'altitude', pressureAltitudeM: bottomM };
    const met: Stop = { at: 'equivalentAirspeed', speedMS };
    const excess = this.equivalentOf(state) - speedMS;
    if (excess > NEAR_MS) {
      const end = accelerate(flight, state, this.track, { power: this.idle(state), stops: [met] });
      if (end.stop !== 0) return end.reason;
    } else if (excess < -NEAR_MS) {
      const end = climb(flight, state, this.track, {
        law: constantMach(this.machOf(state)),
        power: this.idle(state),
        stops: [met, bottom],
      });
      if (end.stop < 0) return end.reason;
      if (end.stop === 1) return null;
    }
    if (Math.abs(state.pressureAltitudeM - bottomM) < SAME_M) return null;
    const fast = this.machOf(state) > 1;
    const first = climb(flight, state, this.track, {
      law,
      power: this.idle(state),
      stops: fast ? [bottom, { at: 'mach', mach: 1 }] : [bottom],
    });
    if (first.stop !== 1) return first.stop === 0 ? null : first.reason;
    const end = climb(flight, state, this.track, { law, power: 0, stops: [bottom] });
    return end.stop === 0 ? null : end.reason;
  }

  /** At full power to the speed of the climb, then up at it until the Mach of the cruise. */
  private climbTo(state: FlightState, heightM: number): string | null {
    const { flight, failure } = this;
    const speedMS = failure.climbCalibratedAirspeedMS;
    const far: Stop = { at: 'distance', distanceM: Math.max(CLIMB_PART * this.lengthM, state.distanceM + 1) };
    const top: Stop = { at: 'altitude', pressureAltitudeM: heightM };
    if (this.machOf(state) < failure.mach - SAME_MACH) {
      const slower = speedMS - this.calibratedOf(state);
      const stops: Stop[] = [
        { at: 'calibratedAirspeed', speedMS },
        { at: 'mach', mach: failure.mach },
        this.beyond(),
      ];
      if (slower > NEAR_MS) {
        const end = accelerate(flight, state, this.track, { power: 'full', stops });
        if (end.stop < 0) return end.reason;
      }
      if (this.machOf(state) < failure.mach - SAME_MACH) {
        const law = constantCalibratedAirspeed(speedMS);
        const end = climb(flight, state, this.track, {
          law,
          power: 'full',
          stops: [top, far, { at: 'mach', mach: failure.mach }],
        });
        if (end.stop !== 2) return end.stop < 0 ? end.reason : null;
      }
    }
    const law = constantMach(failure.mach);
    const end = climb(flight, state, this.track, { law, power: 'full', stops: [top, far] });
    return end.stop < 0 ? end.reason : null;
  }

  /** On the law, level, until the descent or climb to the goal has to begin; its length is flown on a copy first. */
  private cruiseTo(law: SpeedLaw, goal: Goal): string | null {
    const { flight, state, trial } = this;
    const leftM = this.lengthM - state.distanceM;
    if (leftM <= 0) return null;
    flight.placeOnTrack(this.track, state.distanceM, state.pressureAltitudeM, state.timeS);
    flight.levelOnLaw(law, state.massKg);
    if (flight.short) return 'thrust';
    copyState(state, trial);
    const flowPerM = flight.forces.fuelFlowKgS / flight.frame.distanceRate;
    const least = flight.setup.zeroFuelMassKg + flight.setup.aircraft.balance.unusableFuelKg + 1000;
    trial.massKg = Math.max(least, state.massKg - 0.8 * leftM * flowPerM);
    const higher = goal.pressureAltitudeM > state.pressureAltitudeM + SAME_M;
    const change = higher
      ? this.climbTo(trial, goal.pressureAltitudeM)
      : this.comeDown(trial, goal.pressureAltitudeM);
    if (change !== null) return change;
    const distanceM = this.lengthM - (trial.distanceM - state.distanceM) - EARLY_M;
    if (distanceM <= state.distanceM) return null;
    const end = cruise(flight, state, this.track, {
      law,
      altitude: 'hold',
      stops: [{ at: 'distance', distanceM }],
    });
    return end.stop === 0 ? null : end.reason;
  }

  /** Down, or up, to the goal's height and speed, and level over what is left of the way. */
  private arrive(goal: Goal): string | null {
    const { flight, state } = this;
    const { pressureAltitudeM: heightM, calibratedAirspeedMS: speedMS } = goal;
    const above = state.pressureAltitudeM > heightM + SAME_M;
    const below = state.pressureAltitudeM < heightM - SAME_M;
    const moved = above ? this.comeDown(state, heightM) : below ? this.climbTo(state, heightM) : null;
    if (moved !== null) return moved;
    if (speedMS !== null && Math.abs(state.pressureAltitudeM - heightM) > SAME_M) return 'thrust';
    if (speedMS !== null) {
      const faster = speedMS > this.calibratedOf(state);
      const end = accelerate(flight, state, this.track, {
        power: faster ? 'full' : 'idle',
        stops: [{ at: 'calibratedAirspeed', speedMS }],
      });
      if (end.stop < 0) return end.reason;
    }
    if (state.distanceM >= this.lengthM) return null;
    const end = cruise(flight, state, this.track, {
      law: speedMS === null ? constantMach(this.machOf(state)) : constantCalibratedAirspeed(speedMS),
      altitude: 'hold',
      stops: [{ at: 'distance', distanceM: this.lengthM }],
    });
    return end.stop === 0 ? null : end.reason;
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
  private beyond(): Stop {
    return { at: 'distance', distanceM: Math.max(this.lengthM, this.state.distanceM + 1) };
  }

  /** A place straight on, where the goal is below. */
  private ahead(state: Readonly<FlightState>): Place {
    const course = this.courseOf(state);
    const angle = OVERHEAD_M / 6_371_000;
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

function wrapped(angleRad: number): number {
  return angleRad - FULL_CIRCLE_RAD * Math.round(angleRad / FULL_CIRCLE_RAD);
}
