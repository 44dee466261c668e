import type { Flight } from '../flight/flight.ts';
import { copyState, type FlightState, newState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import { secant } from '../numerics/roots.ts';
import { standardGravity } from '../quantities/constants.ts';
import { Manoeuvre } from './manoeuvre.ts';
import { type PhaseEnd, type Power, powerOf, type Recorder, type Stop, type WatchedLimit } from './phase.ts';

/** However fine the tolerance of the flight, a search ends at this: the event times of a long day carry no more. */
const FINEST_M = 1e-5;
const FINEST_RAD = 1e-9;

export interface PushoverOptions {
  readonly power: Power;
  readonly pushLoadFactor: number;
  readonly pathAngleRad: number;
  readonly pullLoadFactor: number;
  readonly bottomPressureAltitudeM: number;
  /** 'instant': load factor steps; 'onset': ramps in, steps out; 'onsetRelease': ramps in and out. */
  readonly rule: 'instant' | 'onset' | 'onsetRelease';
  /** Build-up of load factor [1/s]; default: the deck's. */
  readonly onsetPerS?: number;
  /** Lag of angle of attack behind what the load factor asks for [s]; default 0. */
  readonly angleOfAttackLagS?: number;
  /** Times and altitude of an earlier pushover, kept instead of solved for; bottom and path angles are then met nearly. */
  readonly held?: Readonly<PushoverSolution> | undefined;
  /** The same of one like this, near which they are looked for. */
  readonly near?: Readonly<PushoverSolution> | undefined;
  readonly limits?: readonly WatchedLimit[];
  readonly recorder?: Recorder | undefined;
}

/** What a pushover was solved to: how long each load factor is kept before its release (NaN without), and where the pull begins. */
export interface PushoverSolution {
  readonly pushS: number;
  readonly pullS: number;
  readonly pullStartPressureAltitudeM: number;
}

export interface PushoverPart {
  readonly timeS: number;
  readonly distanceM: number;
  readonly fuelKg: number;
  readonly endPressureAltitudeM: number;
  readonly endMach: number;
}

export interface PushoverResult extends PhaseEnd {
  /** null where it could not be flown. */
  readonly solution: PushoverSolution | null;
  readonly pullStartPressureAltitudeM: number;
  readonly push: PushoverPart;
  readonly hold: PushoverPart;
  readonly pull: PushoverPart;
}

/**
 * From level flight at a power: push at a load factor to a path angle, hold it, pull at a load factor to level at the
 * bottom. The start of the pull is solved for; with 'onsetRelease' so are the starts of both releases, which end with the
 * path angle reached and steady. Ends 'bottom'; 'manoeuvre' where the numbers given cannot be flown, and then the state is untouched.
 */
export function pushover(
  flight: Flight,
  state: FlightState,
  track: Track,
  options: PushoverOptions,
): PushoverResult {
  return new Pushover(flight, track, options).fly(state);
}

/** Thrown inside, to leave a solution that has become impossible with the end of the part that failed. */
class CannotFly extends Error {
  readonly end: PhaseEnd;
  constructor(end: PhaseEnd) {
    super(end.text);
    this.end = end;
  }
}

const NOTHING: PushoverPart = {
  timeS: 0,
  distanceM: 0,
  fuelKg: 0,
  endPressureAltitudeM: Number.NaN,
  endMach: Number.NaN,
};

/** The bottom and the path angles are met to so many tolerances of the integration, where that is coarser than the finest. */
const COARSE = 10;

const MOST_ROUNDS = 20;
/** No load factor is kept longer. */
const MOST_S = 600;

class Pushover {
  private readonly flight: Flight;
  private readonly options: PushoverOptions;
  private readonly onsetPerS: number;
  /** How near to the bottom, and to the path angle at the end of a release, is near enough. */
  private readonly toM: number;
  private readonly toRad: number;
  private readonly quiet: Manoeuvre;
  private readonly loud: Manoeuvre;
  /** How long the load factor is kept before the release, as last found. */
  private pushS = Number.NaN;
  private pullS = Number.NaN;
  private readonly trial = newState();
  private readonly afterPush = newState();

  constructor(flight: Flight, track: Track, options: PushoverOptions) {
    this.flight = flight;
    this.options = options;
    this.toM = Math.max(FINEST_M, COARSE * flight.setup.tolerance.altitudeM);
    this.toRad = Math.max(FINEST_RAD, 5 * COARSE * flight.setup.tolerance.angleRad);
    const instant = options.rule === 'instant';
    this.onsetPerS = instant
      ? Number.POSITIVE_INFINITY
      : (options.onsetPerS ?? flight.setup.aircraft.rates.onsetPerS);
    const power = powerOf(flight.setup.aircraft.propulsion, options.power);
    const lag = options.angleOfAttackLagS ?? 0;
    this.quiet = new Manoeuvre(flight, track, power, lag, { limits: [], recorder: undefined });
    this.loud = new Manoeuvre(flight, track, power, lag, options);
  }

  fly(state: FlightState): PushoverResult {
    const start = newState();
    copyState(state, start);
    try {
      const pullStart = this.take(this.options.held) ?? this.solve(state);
      const push = this.record(state, () => this.bend(this.loud, state, this.pushGoal, this.pushS));
      const hold = this.record(state, () => this.hold(this.loud, state, pullStart));
      const pull = this.record(state, () => this.bend(this.loud, state, this.pullGoal, this.pullS));
      state.pressureAltitudeM = this.options.bottomPressureAltitudeM;
      state.pathAngleRad = 0;
      const end = { reason: 'bottom', stop: -1, text: 'level at the bottom' };
      const solution = { pushS: this.pushS, pullS: this.pullS, pullStartPressureAltitudeM: pullStart };
      return { ...end, solution, pullStartPressureAltitudeM: pullStart, push, hold, pull };
    } catch (error) {
      if (!(error instanceof CannotFly)) throw error;
      if (error.end.reason === 'manoeuvre') copyState(start, state);
      const parts = { push: NOTHING, hold: NOTHING, pull: NOTHING };
      return { ...error.end, solution: null, pullStartPressureAltitudeM: Number.NaN, ...parts };
    }
  }

  /** An earlier solution, kept; the altitude of its pull, or null where there is none. */
  private take(held: Readonly<PushoverSolution> | undefined): number | null {
    if (!held) return null;
    this.pushS = held.pushS;
    this.pullS = held.pullS;
    return held.pullStartPressureAltitudeM;
  }

  private get pushGoal(): Goal {
    return { loadFactor: this.options.pushLoadFactor, pathAngleRad: this.options.pathAngleRad };
  }

  private get pullGoal(): Goal {
    return { loadFactor: this.options.pullLoadFactor, pathAngleRad: 0 };
  }

  /** Finds where the pull starts, and the durations before the releases. */
  private solve(state: FlightState): number {
    const { trial, afterPush, options, quiet } = this;
    const nearM = this.take(options.near);
    copyState(state, afterPush);
    this.quiet.begin();
    this.pushS = this.bendFor(afterPush, this.pushGoal);
    const bottom = options.bottomPressureAltitudeM;
    const room = afterPush.pressureAltitudeM - bottom;
    if (!(room > 0)) {
      const by = (-room).toFixed(0);
      throw cannot(`the path angle is reached ${by} m below the bottom`);
    }
    const missed = (height: number): number => {
      copyState(afterPush, trial);
      this.hold(quiet, trial, bottom + height);
      this.pullS = this.bendFor(trial, this.pullGoal);
      return trial.pressureAltitudeM - bottom;
    };
    // The height at the end moves nearly one to one with that of the start.
    let height = Math.min(nearM === null ? this.pullHeight(afterPush) : nearM - bottom, 0.95 * room);
    let miss = missed(height);
    let slope = 1;
    for (let round = 0; Math.abs(miss) > this.toM; round++) {
      const next = Math.min(Math.max(height - miss / slope, 0), room);
      if (round === MOST_ROUNDS || next === height) {
        throw cannot(`no start of the pull found between the push and the bottom: ${miss.toFixed(1)} m off`);
      }
      const missNext = missed(next);
      slope = Math.min(Math.max((missNext - miss) / (next - height), 0.3), 3);
      height = next;
      miss = missNext;
    }
    return bottom + height;
  }

  /** Height of an arc of constant load factor, V^2 (1 - cos gamma) / (g (n - cos gamma)), and of its build-up. */
  private pullHeight(at: FlightState): number {
    const cos = Math.cos(this.options.pathAngleRad);
    const speed = 1.1 * at.trueAirspeedMS;
    const pull = this.options.pullLoadFactor - cos;
    const sink = -speed * Math.sin(this.options.pathAngleRad);
    return (speed * speed * (1 - cos)) / (standardGravity * pull) + (0.5 * sink * pull) / this.onsetPerS;
  }

  /**
   * Bends the path of a state to the goal; how long the load factor had to be kept so that its release ends at the path angle, NaN where
   * it is not released. Negative: the build-up itself is cut short by so much, and the load factor given is not reached.
   */
  private bendFor(from: FlightState, goal: Goal): number {
    if (this.options.rule !== 'onsetRelease') {
      this.bend(this.quiet, from, goal, Number.NaN);
      return Number.NaN;
    }
    const at = newState();
    const missed = (seconds: number): number => {
      copyState(from, at);
      this.quiet.begin();
      this.bend(this.quiet, at, goal, seconds);
      return at.pathAngleRad - goal.pathAngleRad;
    };
    const last = goal.loadFactor < 1 ? this.pushS : this.pullS;
    const turn = Math.abs(goal.pathAngleRad - from.pathAngleRad);
    const rate = (standardGravity * (goal.loadFactor - 1)) / from.trueAirspeedMS;
    const guess = Number.isNaN(last)
      ? Math.max(0.1, turn / Math.abs(rate) - Math.abs(goal.loadFactor - 1) / this.onsetPerS)
      : last;
    const trimmed = this.quiet.trimmedLoadFactor(from);
    const rampS = Math.abs(goal.loadFactor - trimmed) / this.onsetPerS;
    const first = missed(guess);
    const second = Math.min(Math.max(guess - first / rate, -rampS), MOST_S);
    const again = (seconds: number): number => (seconds === guess ? first : missed(seconds));
    const root = secant(again, guess, second, this.toRad, -rampS, MOST_S);
    if (!root.found) throw cannot(`no start of the release found: ${root.reason}`);
    // The search ends with the flight that it found.
    copyState(at, from);
    return root.x;
  }

  /** Build-up, load factor, and release after `seconds` (or, where that is NaN, none: until the path angle is reached). */
  private bend(how: Manoeuvre, state: FlightState, goal: Goal, seconds: number): void {
    const { loadFactor, pathAngleRad } = goal;
    const reached: Stop = {
      at: 'state',
      name: 'path',
      value: (at) => at.pathAngleRad - pathAngleRad,
    };
    const release = !Number.isNaN(seconds);
    const trimmed = how.trimmedLoadFactor(state);
    const way = Math.sign(loadFactor - trimmed);
    const fullS = Math.abs(loadFactor - trimmed) / this.onsetPerS;
    const rampS = release ? Math.max(0, fullS + Math.min(0, seconds)) : fullS;
    const peak = rampS < fullS ? trimmed + way * this.onsetPerS * rampS : loadFactor;
    if (this.onsetPerS < Number.POSITIVE_INFINITY) {
      const end = how.ramp(state, trimmed, way * this.onsetPerS, rampS, release ? [] : [reached]);
      if (end.reason === 'path') return;
      expect(end, 'time');
    }
    if (!release) {
      expect(how.keep(state, loadFactor, Number.POSITIVE_INFINITY, [reached]), 'path');
      return;
    }
    expect(how.keep(state, peak, Math.max(0, seconds), []), 'time');
    const steady: Stop = {
      at: 'state',
      name: 'steady',
      balanced: true,
      value: () => this.flight.pathRateRadS,
    };
    expect(how.ramp(state, peak, -way * this.onsetPerS, 60, [steady]), 'steady');
  }

  private hold(how: Manoeuvre, state: FlightState, toM: number): void {
    if (Math.abs(state.pressureAltitudeM - toM) < 1e-6) return;
    expect(how.straight(state, [{ at: 'altitude', pressureAltitudeM: toM }]), 'altitude');
  }

  private record(state: FlightState, part: () => void): PushoverPart {
    const { timeS, distanceM, massKg } = state;
    part();
    return {
      timeS: state.timeS - timeS,
      distanceM: state.distanceM - distanceM,
      fuelKg: massKg - state.massKg,
      endPressureAltitudeM: state.pressureAltitudeM,
      endMach: this.flight.forces.mach,
    };
  }
}

interface Goal {
  readonly loadFactor: number;
  readonly pathAngleRad: number;
}

function cannot(text: string): CannotFly {
  return new CannotFly({ reason: 'manoeuvre', stop: -1, text: `the pushover cannot be flown: ${text}` });
}

function expect(end: PhaseEnd, reason: string): void {
  if (end.reason !== reason) throw new CannotFly(end);
}
