import type { Flight } from '../flight/flight.ts';
import { Leg } from '../flight/leg.ts';
import { copyState, type FlightState, newState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import { brent } from '../numerics/roots.ts';
import { standardGravity } from '../quantities/constants.ts';
import { type ClimbOptions, climb } from './climb.ts';
import { type PhaseEnd, type PhaseOptions, powerOf, type Stop } from './phase.ts';
import { fly } from './run.ts';

/** The altitude is met to this, or to so many tolerances of the integration where that is coarser; what is missing is made good. */
const TOLERANCE_M = 1e-4;
const COARSE = 10;
/** Where the steps of the weather keep that from being met, the best of the rounds may miss by so many times as much. */
const ROUGH = 10;
const MOST_ROUNDS = 10;
/** A capture counts as begun when the height left is less than so many leads. */
const BEGUN = 2;

/** Added to the first estimate of a lead, which knows only the path angle at the altitude aimed at. */
const SLACK_M = 50;
/** A capture that begins within this of the present altitude begins at once. */
const HERE_M = 1e-3;
/** So much more than asked an altitude that is nearer than the lead is captured with. */
const MOST_HARDER = 0.3;
/** How near an altitude captured so is met. */
const HARDER_M = 0.5;
/** Change of load factor that the estimate of the lead reckons with at the least. */
const LEAST_PULL = 0.03;

export interface LevelOffOptions {
  readonly pressureAltitudeM: number;
  /** Load factor of the push (below 1) out of a climb, or the pull (above 1) out of a descent. */
  readonly loadFactor: number;
  /** Build-up of load factor [1/s]; Infinity steps. */
  readonly onsetPerS: number;
}

export interface LevelOffResult extends PhaseEnd {
  /** Height before the target altitude at which the capture began [m]; NaN where it did not. */
  readonly leadM: number;
  /** What was flown: as asked, or more where the altitude is nearer than the lead; NaN where no capture began. */
  readonly loadFactor: number;
}

const notCaptured = { leadM: Number.NaN, loadFactor: Number.NaN };

/**
 * Climbs (or descends) as `climb` and captures the altitude: the law held, thrust as required, load factor built up to the
 * one given and kept until the path is level, begun so that this is exactly at the altitude. An altitude that is nearer than
 * that is captured at once, with as much more load factor as it takes, up to 0.3. Ends 'level'; a stop of the climb that comes
 * before ends it there.
 */
export function climbToLevel(
  flight: Flight,
  state: FlightState,
  track: Track,
  options: ClimbOptions,
  level: LevelOffOptions,
): LevelOffResult {
  const goal = level.pressureAltitudeM;
  const way = goal > state.pressureAltitudeM ? 1 : -1;
  const guess = estimatedLead(flight, state, track, options, level);
  const before = state.pressureAltitudeM + way * 1;
  const near = goal - way * (2.5 * guess + SLACK_M);
  if ((near - before) * way > 0) {
    const end = climb(flight, state, track, withStop(options, near));
    if (end.stop !== options.stops.length) return { ...end, ...notCaptured };
  }
  const trial = newState();
  /** What is flown: the options, or those without the speeds that would be met while the altitude is captured. */
  let flown = options;
  const tolerance = Math.max(TOLERANCE_M, COARSE * flight.setup.tolerance.altitudeM);
  const most = Math.abs(goal - state.pressureAltitudeM);
  let lead = Math.min(guess, most);
  let best = { lead, miss: Number.POSITIVE_INFINITY };
  let earlier = best;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    copyState(state, trial);
    const quiet = { ...flown, limits: [], gates: [], recorder: undefined };
    const end = climbAndCapture(flight, trial, track, quiet, level, goal - way * lead);
    if (end.reason !== 'level' && end.stop >= 0) {
      const left = Math.abs(goal - trial.pressureAltitudeM);
      const byPlace = flown.stops.filter(({ at }) => at === 'distance' || at === 'time');
      // A speed that comes when the capture is about to begin waits until it is complete; other stops end the climb.
      if (left > BEGUN * lead || byPlace.includes(flown.stops[end.stop])) {
        return { ...climb(flight, state, track, options), ...notCaptured };
      }
      flown = { ...options, stops: byPlace };
      continue;
    }
    if (end.reason !== 'level') return { ...end, ...notCaptured };
    const here = { lead, miss: way * (trial.pressureAltitudeM - goal) };
    const allowed = round + 1 < MOST_ROUNDS ? tolerance : ROUGH * tolerance;
    if (Math.abs(here.miss) < Math.abs(best.miss)) best = here;
    if (Math.abs(here.miss) <= allowed) return finish(flight, state, track, flown, level, trial, lead, end);
    // The altitude of the end moves with that of the begin, nearly one to one.
    const slope = (here.miss - earlier.miss) / (here.lead - earlier.lead);
    const next = lead - here.miss / (slope < -0.3 && slope > -3 ? slope : -1);
    earlier = here;
    if (lead === most && here.miss > 0 && next > most) {
      const harder = harderLevel(flight, state, track, flown, level, trial);
      if (harder) return finish(flight, state, track, flown, harder, trial, most, end);
      break;
    }
    lead = round + 2 < MOST_ROUNDS ? Math.min(Math.max(next, 0), most) : best.lead;
  }
  const text = `no lead found for levelling at ${goal.toFixed(0)} m within ${most.toFixed(0)} m`;
  return { reason: 'manoeuvre', stop: -1, text, ...notCaptured };
}

/**
 * The load factor with which a capture that begins at once ends at the altitude, and in `trial` where it leads; null where
 * even the most is not enough.
 */
function harderLevel(
  flight: Flight,
  state: FlightState,
  track: Track,
  options: ClimbOptions,
  level: LevelOffOptions,
  trial: FlightState,
): LevelOffOptions | null {
  const goal = level.pressureAltitudeM;
  const way = Math.sign(goal - state.pressureAltitudeM);
  const quiet = { ...options, limits: [], gates: [], recorder: undefined };
  const miss = (loadFactor: number): number => {
    copyState(state, trial);
    const { reason } = climbAndCapture(
      flight,
      trial,
      track,
      quiet,
      { ...level, loadFactor },
      state.pressureAltitudeM,
    );
    return reason === 'level' ? way * (trial.pressureAltitudeM - goal) : Number.NaN;
  };
  // A part of a thousandth moves the altitude by less than is asked for.
  const { found, x } = brent(miss, level.loadFactor - way * MOST_HARDER, level.loadFactor, 1e-4);
  return found && Math.abs(miss(x)) <= HARDER_M ? { ...level, loadFactor: x } : null;
}

/** Takes the trial over, or flies it again where somebody looks on. */
function finish(
  flight: Flight,
  state: FlightState,
  track: Track,
  options: ClimbOptions,
  level: LevelOffOptions,
  trial: FlightState,
  leadM: number,
  trialEnd: PhaseEnd,
): LevelOffResult {
  const goal = level.pressureAltitudeM;
  const way = Math.sign(goal - state.pressureAltitudeM);
  const watched =
    (options.limits ?? []).length + (options.gates ?? []).length > 0 || options.recorder !== undefined;
  let end = trialEnd;
  if (watched) end = climbAndCapture(flight, state, track, options, level, goal - way * leadM);
  else copyState(trial, state);
  if (end.reason === 'level') {
    state.pressureAltitudeM = goal;
    state.pathAngleRad = 0;
  }
  return { ...end, leadM, loadFactor: level.loadFactor };
}

/** Lead of an arc of constant load factor, gamma V^2 / ((1-n) g) long, half of gamma steep, and of its build-up. */
function estimatedLead(
  flight: Flight,
  state: FlightState,
  track: Track,
  options: ClimbOptions,
  level: LevelOffOptions,
): number {
  const power = powerOf(flight.setup.aircraft.propulsion, options.power);
  flight.placeOnTrack(track, state.distanceM, level.pressureAltitudeM, state.timeS);
  flight.climbInBalance(options.law, state.massKg, power);
  const path = Math.abs(flight.frame.sinPath);
  const trimmed = flight.forces.liftN / (state.massKg * standardGravity);
  const pull = Math.max(Math.abs(trimmed - level.loadFactor), LEAST_PULL);
  const speed = flight.speedMS;
  const buildUp = level.onsetPerS === Number.POSITIVE_INFINITY ? 0 : (0.5 * pull) / level.onsetPerS;
  return speed * path * ((0.5 * speed * path) / (pull * standardGravity) + buildUp) + 1;
}

function withStop(options: ClimbOptions, pressureAltitudeM: number): ClimbOptions {
  const stop: Stop = { at: 'altitude', pressureAltitudeM };
  return { ...options, stops: [...options.stops, stop] };
}

function climbAndCapture(
  flight: Flight,
  state: FlightState,
  track: Track,
  options: ClimbOptions,
  level: LevelOffOptions,
  fromM: number,
): PhaseEnd {
  const way = Math.sign(level.pressureAltitudeM - state.pressureAltitudeM);
  if (way * (fromM - state.pressureAltitudeM) > HERE_M) {
    const start = climb(flight, state, track, withStop(options, fromM));
    if (start.stop !== options.stops.length) return start;
  } else {
    flight.placeOnTrack(track, state.distanceM, state.pressureAltitudeM, state.timeS);
    flight.climbInBalance(
      options.law,
      state.massKg,
      powerOf(flight.setup.aircraft.propulsion, options.power),
    );
    state.pathAngleRad = Math.asin(flight.frame.sinPath);
  }
  const trimmed = flight.forces.liftN / (state.massKg * standardGravity);
  const { loadFactor, onsetPerS } = level;
  const seconds = Math.abs(loadFactor - trimmed) / onsetPerS;
  if (seconds > 0) {
    const rate = Math.sign(loadFactor - trimmed) * onsetPerS;
    const end = bend(flight, state, track, options, (t) => trimmed + rate * t, seconds);
    if (end.reason !== 'time') return end;
  }
  return bend(flight, state, track, options, () => loadFactor, Number.POSITIVE_INFINITY);
}

/** Load factor as a function of time, for some seconds or until the path is level. */
function bend(
  flight: Flight,
  state: FlightState,
  track: Track,
  options: ClimbOptions,
  loadFactor: (t: number) => number,
  seconds: number,
): PhaseEnd {
  const level: Stop = { at: 'state', name: 'level', value: (at) => at.pathAngleRad };
  const stops: Stop[] = [level];
  if (seconds < Number.POSITIVE_INFINITY) stops.push({ at: 'time', timeS: state.timeS + seconds });
  const bendOptions: PhaseOptions = { ...options, stops };
  const leg = new Leg(flight, track, state, { altitude: true, path: true }, 2, (at, t) => {
    flight.bendOnLaw(options.law, at.massKg, at.pathRad, loadFactor(t));
  });
  return fly(flight, leg, state, bendOptions);
}
