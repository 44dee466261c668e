/**
 * Ways through the drag rise to one reference state, a Mach on the speed law of the climb: level, or by a pushover. Every way
 * ends at the same speed and height, so that their fuels compare at equal energy.
 */
import type { Flight } from '../flight/flight.ts';
import type { SpeedLaw } from '../flight/speed-law.ts';
import { constantMach } from '../flight/speed-law.ts';
import { copyState, type FlightState, newState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import { accelerate, climb, climbToLevel, type PushoverSolution, pushover } from '../phases/index.ts';
import type { PhaseEnd, Power, Recorder, Stop, WatchedLimit } from '../phases/phase.ts';

/** Where all ways end. */
export interface Reference {
  /** The climb's speed law, and the stop that a level acceleration to its speed has. */
  readonly law: SpeedLaw;
  readonly atLaw: Stop;
  readonly mach: number;
  readonly power: Power;
}

export interface AccelerationQuestion {
  readonly flight: Flight;
  readonly track: Track;
  /** Level, at the height and speed from which all ways start. */
  readonly from: Readonly<FlightState>;
  /** Of the push and what comes before it. */
  readonly power: Power;
  readonly reference: Reference;
  readonly pushLoadFactor: number;
  readonly pullLoadFactor: number;
  readonly limits: readonly WatchedLimit[];
}

/** What a pushover is varied in. */
export interface PushoverShape {
  /** Reached level before the push; less than that of the start: pushed at once. */
  readonly mach: number;
  /** Negative. */
  readonly pathAngleRad: number;
  readonly bottomPressureAltitudeM: number;
}

/** A way as it was flown from the start to the reference state. */
export interface PathFlown {
  /** NaN where it was refused, as time and distance are. */
  readonly fuelKg: number;
  readonly timeS: number;
  readonly distanceM: number;
  /** What refused it; null where it was flown to the end. */
  readonly refused: PhaseEnd | null;
}

export interface LevelFlown extends PathFlown {
  readonly pressureAltitudeM: number;
}

export interface PushoverFlown extends PathFlown {
  readonly shape: PushoverShape;
  readonly solution: PushoverSolution | null;
  /** At the beginning of the pull, and level at the bottom; NaN where it did not come to that. */
  readonly pullMach: number;
  readonly bottomMach: number;
}

/** Load factors with which a level acceleration's height is captured, as a sortie's level-offs usually are. */
const CAPTURE = { up: 0.9, down: 1.1 };
/** A height this near is the present one. */
const SAME_M = 1;
/** A speed this near is the climb's: what is given away or gained so is less than 0.1 kg. */
const SAME_MS = 0.01;

/** At the start's Mach to a height, at the climb's power up and at idle down, there level to the climb's speed, then the climb. */
export function levelPath(question: AccelerationQuestion, pressureAltitudeM: number): LevelFlown {
  const { from } = question;
  const state = copied(from);
  const refused =
    changeHeight(question, state, pressureAltitudeM) ?? toReference(question, state, question.limits);
  return { ...spent(from, state, refused), pressureAltitudeM };
}

/** Level to the Mach of the push, the pushover, level on to the climb's speed, then the climb. */
export function pushoverPath(
  question: AccelerationQuestion,
  shape: PushoverShape,
  recorder?: Recorder,
): PushoverFlown {
  const { flight, track, power, limits, from } = question;
  const state = copied(from);
  const none = { shape, solution: null, pullMach: Number.NaN, bottomMach: Number.NaN };
  const stopped = (end: PhaseEnd) => ({ ...spent(from, state, end), ...none });
  flight.placeOnTrack(track, state.distanceM, state.pressureAltitudeM, state.timeS);
  if (state.trueAirspeedMS < shape.mach * flight.frame.air.speedOfSoundMS) {
    const stops: Stop[] = [{ at: 'mach', mach: shape.mach }];
    const before = accelerate(flight, state, track, { power, limits, recorder, stops });
    if (before.stop !== 0) return stopped(before);
  }
  const end = pushover(flight, state, track, {
    power,
    pushLoadFactor: question.pushLoadFactor,
    pullLoadFactor: question.pullLoadFactor,
    pathAngleRad: shape.pathAngleRad,
    bottomPressureAltitudeM: shape.bottomPressureAltitudeM,
    rule: 'onsetRelease',
    limits,
    recorder,
  });
  if (end.reason !== 'bottom') return stopped(end);
  const refused = toReference(question, state, limits, recorder);
  const { solution } = end;
  return {
    ...spent(from, state, refused),
    ...{ shape, solution, pullMach: end.hold.endMach, bottomMach: end.pull.endMach },
  };
}

/** Level to the speed of the climb (at idle where that is slower) and on it to the reference Mach; what refused it, or null. */
export function toReference(
  { flight, track, reference }: Pick<AccelerationQuestion, 'flight' | 'track' | 'reference'>,
  state: FlightState,
  limits: readonly WatchedLimit[],
  recorder?: Recorder,
): PhaseEnd | null {
  const { law, atLaw, mach, power } = reference;
  flight.placeOnTrack(track, state.distanceM, state.pressureAltitudeM, state.timeS);
  const slow = flight.speedOf(law, state.massKg) - state.trueAirspeedMS;
  if (Math.abs(slow) > SAME_MS) {
    const way = slow > 0 ? power : 'idle';
    const level = accelerate(flight, state, track, { power: way, limits, recorder, stops: [atLaw] });
    if (level.stop !== 0) return level;
  }
  const up = climb(flight, state, track, { law, power, limits, recorder, stops: [{ at: 'mach', mach }] });
  return up.stop === 0 ? null : up;
}

function changeHeight(
  { flight, track, reference, limits, from }: AccelerationQuestion,
  state: FlightState,
  pressureAltitudeM: number,
): PhaseEnd | null {
  const away = pressureAltitudeM - state.pressureAltitudeM;
  if (Math.abs(away) < SAME_M) return null;
  flight.placeOnTrack(track, from.distanceM, from.pressureAltitudeM, from.timeS);
  const law = constantMach(from.trueAirspeedMS / flight.frame.air.speedOfSoundMS);
  const end = climbToLevel(
    flight,
    state,
    track,
    { law, power: away > 0 ? reference.power : 'idle', limits, stops: [] },
    {
      pressureAltitudeM,
      loadFactor: away > 0 ? CAPTURE.up : CAPTURE.down,
      onsetPerS: flight.setup.aircraft.rates.onsetPerS,
    },
  );
  return end.reason === 'level' ? null : end;
}

function copied(from: Readonly<FlightState>): FlightState {
  const state = newState();
  copyState(from, state);
  return state;
}

function spent(from: Readonly<FlightState>, to: Readonly<FlightState>, refused: PhaseEnd | null): PathFlown {
  if (refused !== null) return { fuelKg: Number.NaN, timeS: Number.NaN, distanceM: Number.NaN, refused };
  return {
    fuelKg: from.massKg - to.massKg,
    timeS: to.timeS - from.timeS,
    distanceM: to.distanceM - from.distanceM,
    refused,
  };
}
