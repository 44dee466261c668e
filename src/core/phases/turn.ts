import type { Air } from '../air/day.ts';
import { newLinePoint } from '../earth/line.ts';
import { Arc } from '../flight/arc.ts';
import type { Flight } from '../flight/flight.ts';
import { Leg } from '../flight/leg.ts';
import type { SpeedLaw } from '../flight/speed-law.ts';
import { copyState, type FlightState, newState } from '../flight/state.ts';
import type { ProjectingTrack, Track } from '../flight/track.ts';
import type { PhaseEnd, Recorder, Stop, WatchedLimit } from './phase.ts';
import { fly } from './run.ts';

/** Errors of a trial from which one more correction leaves less than a metre and 1e-5 rad. */
const NEAR_M = 30;
const NEAR_RAD = 3e-4;
const MOST_ROUNDS = 8;
/** The estimate of a lead is good to this part of it. */
const ESTIMATE = 0.03;
/** Smaller changes of course are no turn. */
const LEAST_TURN_RAD = 2e-3;
/** Of the bank that the thrust allows at the start, so much is used: the air may be warmer further on. */
const THRUST_RESERVE = 0.998;

export interface TurnOptions {
  readonly law: SpeedLaw;
  readonly bankRad: number;
  /** Infinity steps. Default: the deck's. */
  readonly rollRadPerS?: number;
  /** Distance along `from` of the corner; default its end. */
  readonly cornerM?: number;
  /** Lead and roll-out of an earlier turn, kept instead of solved for; the roll-out then ends beside the track by what differs. */
  readonly held?: Readonly<TurnSolution> | undefined;
  /** The same of a turn that may be like this one: where its lead is as good as the estimate, they are looked for near it. */
  readonly near?: Readonly<TurnSolution> | undefined;
  readonly limits?: readonly WatchedLimit[];
  readonly recorder?: Recorder | undefined;
}

export interface TurnResult extends PhaseEnd {
  /** null where there was nothing to solve. */
  readonly solution: Readonly<TurnSolution> | null;
  /** Distance before the corner at which the roll-in begins. */
  readonly leadM: number;
  /** Distance along the next track at which the wings are level. */
  readonly rollOutM: number;
  /** How far to the right of the next track the wings become level; the state is put on the track. */
  readonly missM: number;
  /** The bank flown; below the one asked for where `bankLimitedBy` says so. */
  readonly bankRad: number;
  readonly bankLimitedBy: 'thrust' | 'course change' | null;
  /** Of the path through the air at full bank: V cos(gamma) / heading rate. */
  readonly radiusM: number;
  /** From roll-in to wings level. */
  readonly timeS: number;
  readonly fuelKg: number;
  /** Of heading, positive to the right. */
  readonly headingChangeRad: number;
}

/** What is known of a turn before it is flown. */
interface Shape {
  /** Bank with its sign, roll rate, change of course. */
  readonly bankRad: number;
  readonly limitedBy: TurnResult['bankLimitedBy'];
  readonly rollRadPerS: number;
  readonly courseChangeRad: number;
  /** Pull to the side per tangent of bank [m/s2]. */
  readonly gravityMS2: number;
  readonly speedMS: number;
  readonly leadM: number;
}

/** One turn as flown from a lead point. */
interface Flown {
  readonly end: PhaseEnd;
  readonly rightM: number;
  readonly alongM: number;
  /** Course over the ground less that of the track. */
  readonly courseErrorRad: number;
  readonly radiusM: number;
}

/**
 * Distance before the corner by which a cruise must stop so that the turn can begin, from the still-air circle, the
 * roll-in and the drift, 3 % and 500 m added: `turn` flies the rest straight on to the point that it solves for.
 */
export function turnLead(
  flight: Flight,
  state: Readonly<FlightState>,
  from: Track,
  to: ProjectingTrack,
  options: TurnOptions,
): number {
  const shape = shapeOf(flight, state, from, to, options);
  return shape === null || shape.bankRad === 0 ? 0 : 1.03 * shape.leadM + 500;
}

/**
 * Level turn from one track to the next: straight on to the solved lead point, bank built up, held, taken off, wings
 * level on the next track with the drift of the wind in it. Ends 'rolledOut', and `state.distanceM` then runs along `to`;
 * 'manoeuvre' where the corner is too near or the course is reversed; 'thrust' where the thrust does not allow any bank.
 */
export function turn(
  flight: Flight,
  state: FlightState,
  from: Track,
  to: ProjectingTrack,
  options: TurnOptions,
): TurnResult {
  const corner = options.cornerM ?? from.lengthM;
  const shape = shapeOf(flight, state, from, to, options);
  if (shape === null) return straightThrough(flight, state, from, to, options, corner);
  if (shape.bankRad === 0) return failed(shape, 'thrust', 'the thrust allows no bank');
  const solved = options.held ?? solve(flight, state, from, to, options, shape, corner);
  if (typeof solved === 'string') return failed(shape, 'manoeuvre', solved);
  const end = flyStraight(flight, state, from, options, corner - solved.leadM);
  if (end.reason !== 'distance') return { ...failed(shape, end.reason, end.text), leadM: solved.leadM };
  const start = newState();
  copyState(state, start);
  const flown = flyArc(flight, state, to, options, shape, solved, options);
  const level = flown.end.reason === 'rolledOut';
  if (level) {
    state.distanceM = flown.alongM;
    state.bankRad = 0;
  }
  return {
    ...flown.end,
    solution: solved,
    leadM: solved.leadM,
    rollOutM: flown.alongM,
    missM: flown.rightM,
    bankRad: Math.abs(shape.bankRad),
    bankLimitedBy: shape.limitedBy,
    radiusM: flown.radiusM,
    timeS: state.timeS - start.timeS,
    fuelKg: start.massKg - state.massKg,
    headingChangeRad: state.headingRad - start.headingRad,
  };
}

/** Bank, sign and first lead of the turn at the corner; null where the course hardly changes. */
function shapeOf(
  flight: Flight,
  state: Readonly<FlightState>,
  from: Track,
  to: ProjectingTrack,
  options: TurnOptions,
): Shape | null {
  const { forces, frame, setup } = flight;
  const corner = options.cornerM ?? from.lengthM;
  const point = newLinePoint();
  to.at(0, point);
  const { courseRad: next } = point;
  from.at(corner, point);
  const courseChangeRad = wrapped(next - point.courseRad);
  if (Math.abs(courseChangeRad) < LEAST_TURN_RAD) return null;
  flight.placeOnTrack(from, corner, state.pressureAltitudeM, state.timeS);
  flight.levelOnLaw(options.law, state.massKg);
  const gravityMS2 = -frame.normalPull;
  const speedMS = flight.speedMS;
  const rollRadPerS = options.rollRadPerS ?? setup.aircraft.rates.rollRadPerS;
  const required = forces.massKg * (flight.accelerationMS2 - frame.alongPull);
  forces.usePower(setup.aircraft.propulsion.maximum);
  const possible = forces.useAlongForce(required);
  const most = forces.liftN + forces.thrustN * Math.sin(forces.angleRad);
  const cosine = (state.massKg * gravityMS2) / most;
  const byThrust = possible && cosine < 1 ? THRUST_RESERVE * Math.acos(cosine) : 0;
  const bySize = bankOfCourseChange(Math.abs(courseChangeRad), (speedMS * rollRadPerS) / gravityMS2);
  let bank = options.bankRad;
  let limitedBy: Shape['limitedBy'] = null;
  if (bySize < bank) {
    bank = bySize;
    limitedBy = 'course change';
  }
  if (byThrust < bank) {
    bank = byThrust;
    limitedBy = 'thrust';
  }
  const way = Math.sign(courseChangeRad);
  const nextCourse = point.courseRad + courseChangeRad;
  const { air } = frame;
  const leadM = estimatedLead(air, speedMS, way * bank, gravityMS2, rollRadPerS, point.courseRad, nextCourse);
  return {
    bankRad: Math.sign(courseChangeRad) * bank,
    limitedBy,
    rollRadPerS,
    courseChangeRad,
    gravityMS2,
    speedMS,
    leadM,
  };
}

/**
 * Lead of the turn as a circle through the air, straight on while the bank builds up and comes off for as long as that lacks of
 * full bank, all of it drifting with the wind: the displacement D over the ground ends on the next track where
 * lead u1 . r2 = D . r2, with u1 along the first track and r2 to the right of the next.
 */
function estimatedLead(
  air: Air,
  speedMS: number,
  bankRad: number,
  gravityMS2: number,
  rollRadPerS: number,
  course1: number,
  course2: number,
): number {
  const rate = (gravityMS2 * Math.tan(bankRad)) / speedMS;
  const rolled = -Math.log(Math.cos(bankRad)) / (rollRadPerS * Math.tan(Math.abs(bankRad)));
  const straightS = Math.abs(bankRad) / rollRadPerS - rolled;
  const heading1 = course1 + crabOf(air, course1, speedMS);
  const heading2 = course2 + crabOf(air, course2, speedMS);
  const seconds = (heading2 - heading1) / rate + 2 * straightS;
  const radius = speedMS / rate;
  const straightM = speedMS * straightS;
  const sines = Math.sin(heading1) + Math.sin(heading2);
  const cosines = Math.cos(heading1) + Math.cos(heading2);
  const east =
    radius * (Math.cos(heading1) - Math.cos(heading2)) + straightM * sines + air.windEastMS * seconds;
  const north =
    radius * (Math.sin(heading2) - Math.sin(heading1)) + straightM * cosines + air.windNorthMS * seconds;
  const right = east * Math.cos(course2) - north * Math.sin(course2);
  return Math.max(0, -right / Math.sin(course2 - course1));
}

/** Heading less course where the wind is held off. */
function crabOf(air: Air, courseRad: number, speedMS: number): number {
  return -Math.asin((air.windEastMS * Math.cos(courseRad) - air.windNorthMS * Math.sin(courseRad)) / speedMS);
}

/** Largest bank that building up and taking off leave room for: 2 ln(1/cos bank) / (V p / g) is 0.9 of the change. */
function bankOfCourseChange(changeRad: number, speedRollByGravity: number): number {
  return Math.acos(Math.exp(-0.45 * changeRad * speedRollByGravity));
}

/** What a turn was solved to; given back as `held` it is flown again as it was decided. */
export interface TurnSolution {
  leadM: number;
  /** Change of heading while the bank is taken off. */
  rollOutRad: number;
  /** Where along the next track the wings become level. */
  alongM: number;
}

/** Lead and roll-out by repeated flight of the arc, each error carried over to the next: the errors are nearly linear. */
function solve(
  flight: Flight,
  state: FlightState,
  from: Track,
  to: ProjectingTrack,
  options: TurnOptions,
  shape: Shape,
  corner: number,
): TurnSolution | string {
  const trial = newState();
  const rollIn = Math.abs(shape.bankRad) / shape.rollRadPerS;
  const { near } = options;
  const solution: TurnSolution =
    near && Math.abs(near.leadM - shape.leadM) < ESTIMATE * shape.leadM
      ? { ...near }
      : {
          leadM: shape.leadM,
          rollOutRad:
            (-Math.log(Math.cos(shape.bankRad)) * rollIn * shape.gravityMS2) /
            (Math.abs(shape.bankRad) * shape.speedMS),
          alongM: shape.leadM,
        };
  const sine = Math.sin(shape.courseChangeRad);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const room = corner - state.distanceM;
    if (!(solution.leadM <= room)) {
      const needs = (solution.leadM / 1000).toFixed(1);
      return `the turn begins ${needs} km before the corner, which is ${(room / 1000).toFixed(1)} km ahead`;
    }
    copyState(state, trial);
    moveTo(flight, trial, from, options, corner - solution.leadM);
    const flown = flyArc(flight, trial, to, options, shape, solution, { limits: [], recorder: undefined });
    if (flown.end.reason !== 'rolledOut') return flown.end.text;
    solution.alongM = flown.alongM;
    solution.rollOutRad += Math.sign(shape.courseChangeRad) * flown.courseErrorRad;
    solution.leadM -= flown.rightM / sine;
    if (Math.abs(flown.rightM) < NEAR_M && Math.abs(flown.courseErrorRad) < NEAR_RAD) return solution;
  }
  return `the lead was not found in ${MOST_ROUNDS} turns`;
}

/** Moves a trial state along the track as straight flight would, near enough for the solution. */
function moveTo(
  flight: Flight,
  state: FlightState,
  from: Track,
  options: TurnOptions,
  distanceM: number,
): void {
  flight.placeOnTrack(from, state.distanceM, state.pressureAltitudeM, state.timeS);
  flight.levelOnLaw(options.law, state.massKg);
  const seconds = (distanceM - state.distanceM) / flight.frame.distanceRate;
  state.timeS += seconds;
  state.massKg -= seconds * (flight.forces.fuelFlowKgS + flight.forces.leakKgS);
  state.distanceM = distanceM;
  flight.placeOnTrack(from, distanceM, state.pressureAltitudeM, state.timeS);
  flight.levelOnLaw(options.law, state.massKg);
  const { frame } = flight;
  state.latitudeRad = frame.point.latitudeRad;
  state.longitudeRad = frame.point.longitudeRad;
  state.headingRad = Math.atan2(frame.sinHeading, frame.cosHeading);
}

function flyStraight(
  flight: Flight,
  state: FlightState,
  from: Track,
  options: TurnOptions,
  distanceM: number,
): PhaseEnd {
  const leg = new Leg(flight, from, state, {}, 30, (at) => flight.levelOnLaw(options.law, at.massKg));
  const { limits, recorder } = options;
  return fly(flight, leg, state, { stops: [{ at: 'distance', distanceM }], limits: limits ?? [], recorder });
}

interface Watch {
  readonly limits?: readonly WatchedLimit[];
  readonly recorder?: Recorder | undefined;
}

/** Roll-in, full bank until the roll-out would end on the course, roll-out. */
function flyArc(
  flight: Flight,
  state: FlightState,
  to: ProjectingTrack,
  options: TurnOptions,
  shape: Shape,
  solution: TurnSolution,
  watch: Watch,
): Flown {
  const { law } = options;
  const { bankRad, rollRadPerS } = shape;
  const rollS = Math.abs(bankRad) / rollRadPerS;
  const rate = Math.sign(bankRad) * rollRadPerS;
  const piece = (startRad: number, rateRadS: number, stop: Stop): PhaseEnd =>
    fly(flight, new Arc(flight, law, state, { startRad, rateRadS }), state, { ...watch, stops: [stop] });
  const nowhere = { rightM: Number.NaN, alongM: Number.NaN, courseErrorRad: Number.NaN, radiusM: Number.NaN };
  if (rollS > 0) {
    const end = piece(0, rate, { at: 'time', timeS: state.timeS + rollS });
    if (end.reason !== 'time') return { ...nowhere, end };
  }
  const wanted = new WantedHeading(flight, to, solution, state.headingRad, Math.sign(bankRad));
  const end = piece(bankRad, 0, {
    at: 'state',
    name: 'rollOut',
    balanced: true,
    value: (at) => wanted.lacking(at.headingRad),
  });
  if (end.reason !== 'rollOut') return { ...nowhere, end };
  const radiusM = Math.abs((flight.speedMS * flight.frame.cosPath) / flight.headingRateRadS);
  if (rollS > 0) {
    const out = piece(bankRad, -rate, { at: 'time', timeS: state.timeS + rollS });
    if (out.reason !== 'time') return { ...nowhere, end: out };
  }
  const { point } = flight.frame;
  const course = Math.atan2(point.sinCourse, point.cosCourse);
  const place = to.offset(state);
  to.at(place.alongM, point);
  const courseErrorRad = wrapped(course - point.courseRad);
  const rolledOut = { reason: 'rolledOut', stop: -1, text: 'wings level on the next track' };
  return { end: rolledOut, rightM: place.rightM, alongM: place.alongM, courseErrorRad, radiusM };
}

/** How far the heading is from where the bank must be taken off; the wind is that of the place now. */
class WantedHeading {
  private readonly flight: Flight;
  private readonly way: number;
  private readonly rollOutRad: number;
  private readonly startRad: number;
  private readonly courseRad: number;
  private readonly sinCourse: number;
  private readonly cosCourse: number;

  constructor(flight: Flight, to: Track, solution: TurnSolution, startRad: number, way: number) {
    const point = newLinePoint();
    to.at(solution.alongM, point);
    this.flight = flight;
    this.way = way;
    this.rollOutRad = solution.rollOutRad;
    this.startRad = startRad;
    this.courseRad = point.courseRad;
    this.sinCourse = point.sinCourse;
    this.cosCourse = point.cosCourse;
  }

  /** Negative until the roll-out has to begin. */
  lacking(headingRad: number): number {
    const { air, cosPath } = this.flight.frame;
    const cross = air.windEastMS * this.cosCourse - air.windNorthMS * this.sinCourse;
    const crab = -Math.asin(cross / (this.flight.speedMS * cosPath));
    let change = this.way * (this.courseRad + crab - this.startRad);
    change -= 2 * Math.PI * Math.floor((change + 0.3) / (2 * Math.PI));
    return this.way * (headingRad - this.startRad) + this.rollOutRad - change;
  }
}

/** A corner without a turn: the tracks meet and go on alike. */
function straightThrough(
  flight: Flight,
  state: FlightState,
  from: Track,
  to: ProjectingTrack,
  options: TurnOptions,
  corner: number,
): TurnResult {
  const end = flyStraight(flight, state, from, options, corner);
  const place = to.offset(state);
  const arrived = end.reason === 'distance';
  if (arrived) state.distanceM = place.alongM;
  return {
    ...(arrived ? { reason: 'rolledOut', stop: -1, text: 'the course does not change' } : end),
    solution: null,
    leadM: 0,
    rollOutM: place.alongM,
    missM: place.rightM,
    bankRad: 0,
    bankLimitedBy: 'course change',
    radiusM: Number.POSITIVE_INFINITY,
    timeS: 0,
    fuelKg: 0,
    headingChangeRad: 0,
  };
}

function failed(shape: Shape, reason: string, text: string): TurnResult {
  return {
    reason,
    stop: -1,
    text,
    solution: null,
    leadM: shape.leadM,
    rollOutM: Number.NaN,
    missM: Number.NaN,
    bankRad: Math.abs(shape.bankRad),
    bankLimitedBy: shape.limitedBy,
    radiusM: Number.NaN,
    timeS: 0,
    fuelKg: 0,
    headingChangeRad: 0,
  };
}

function wrapped(angleRad: number): number {
  return angleRad - 2 * Math.PI * Math.round(angleRad / (2 * Math.PI));
}
