/** The phases of flight; each flies a state along a track until a stop, a limit, or what it needs is gone. */
import type { Flight } from '../flight/flight.ts';
import type { SpeedLaw } from '../flight/speed-law.ts';
import type { FlightState } from '../flight/state.ts';
import type { ProjectingTrack, Track } from '../flight/track.ts';
import type { EndReason, PhaseEnd, PhaseOptions, Power, Recorder, WatchedLimit } from './phase.ts';

export interface AccelerateOptions extends PhaseOptions {
  /** A power, or the change of true airspeed to be kept [m/s2] with thrust as required (never less than idle). */
  readonly power: Power | { readonly accelerationMS2: number };
}
/** Level at the state's pressure altitude; speeds up or slows down as power and drag have it. */
export declare function accelerate(flight: Flight, state: FlightState, track: Track, options: AccelerateOptions): PhaseEnd;

export interface ClimbOptions extends PhaseOptions {
  readonly law: SpeedLaw;
  readonly power: Power;
  /** 'quasi': path angle in balance at each instant (default); 'exact': path angle is a state, the law held by angle of attack. */
  readonly pathAngle?: 'quasi' | 'exact';
}
/** Climbs, descends or glides on a speed law at a power; true airspeed jumps to the law's at the start. */
export declare function climb(flight: Flight, state: FlightState, track: Track, options: ClimbOptions): PhaseEnd;

export interface LevelOffOptions {
  readonly pressureAltitudeM: number;
  /** Load factor of the push (below 1) out of a climb, or the pull (above 1) out of a descent. */
  readonly loadFactor: number;
  /** Build-up of load factor [1/s]; Infinity steps. */
  readonly onsetPerS: number;
}
export interface LevelOffResult extends PhaseEnd {
  /** Height before the target altitude at which the capture began [m]. */
  readonly leadM: number;
}
/** Climbs (or descends) as `climb` and captures the altitude: law held, thrust as required, lead solved so that the path is level exactly there. */
export declare function climbToLevel(
  flight: Flight, state: FlightState, track: Track, options: ClimbOptions, level: LevelOffOptions,
): LevelOffResult;

export interface CruiseOptions extends PhaseOptions {
  readonly law: SpeedLaw;
  /** 'hold' keeps the pressure altitude; a target is followed: Hp' = (target - Hp) / timeConstantS, within +-greatestRateMS. */
  readonly altitude:
    | 'hold'
    | {
        target(massKg: number, temperatureOffsetK: number, distanceM: number): number;
        /** Default 120 s. */
        readonly timeConstantS?: number;
        /** Default 5 m/s. */
        readonly greatestRateMS?: number;
      };
}
/** Speed law held, thrust as required. */
export declare function cruise(flight: Flight, state: FlightState, track: Track, options: CruiseOptions): PhaseEnd;

export interface TurnOptions {
  readonly law: SpeedLaw;
  readonly bankRad: number;
  /** Infinity steps. Default: the deck's. */
  readonly rollRadPerS?: number;
  /** Distance along `from` of the corner; default its end. */
  readonly cornerM?: number;
  readonly limits?: readonly WatchedLimit[];
  readonly recorder?: Recorder | undefined;
}
export interface TurnResult extends PhaseEnd {
  /** Distance before the corner at which the roll-in begins. */
  readonly leadM: number;
  /** Distance after the corner, along the next track, at which the wings are level. */
  readonly rollOutM: number;
  /** The bank flown; below the one asked for where `bankLimitedBy` says so. */
  readonly bankRad: number;
  readonly bankLimitedBy: 'thrust' | null;
  /** V^2 / (g' tan bank) through the air. */
  readonly radiusM: number;
  /** From roll-in to wings level. */
  readonly timeS: number;
  readonly fuelKg: number;
  readonly headingChangeRad: number;
}
/** Where the roll-in would begin if the state, moved to the corner, turned there: what a cruise before it has to stop short of. */
export declare function turnLead(
  flight: Flight, state: Readonly<FlightState>, from: Track, to: ProjectingTrack, options: TurnOptions,
): number;
/**
 * Level turn from one track to the next: straight on to the solved lead point, bank built up, held, taken off, wings
 * level on the next track with the drift of the wind in it. Afterwards `state.distanceM` runs along `to`.
 */
export declare function turn(
  flight: Flight, state: FlightState, from: Track, to: ProjectingTrack, options: TurnOptions,
): TurnResult;

export interface PushoverOptions {
  readonly power: Power;
  readonly pushLoadFactor: number;
  readonly pathAngleRad: number;
  readonly pullLoadFactor: number;
  readonly bottomPressureAltitudeM: number;
  /** 'instant': load factor steps; 'onset': ramps in, steps out; 'onsetRelease': ramps in and out. */
  readonly rule: 'instant' | 'onset' | 'onsetRelease';
  /** Default: the deck's. */
  readonly onsetPerS?: number;
  readonly limits?: readonly WatchedLimit[];
  readonly recorder?: Recorder | undefined;
}
export interface PushoverPart {
  readonly timeS: number;
  readonly distanceM: number;
  readonly fuelKg: number;
  readonly endPressureAltitudeM: number;
  readonly endMach: number;
}
export interface PushoverResult extends PhaseEnd {
  readonly pullStartPressureAltitudeM: number;
  readonly push: PushoverPart;
  readonly hold: PushoverPart;
  readonly pull: PushoverPart;
}
/** From level flight: push to a path angle, hold it, pull to level at the bottom; the start of the pull is solved for. */
export declare function pushover(flight: Flight, state: FlightState, track: Track, options: PushoverOptions): PushoverResult;

/** How the engines share the thrust: alike, or one in afterburner (at its minimum or more) and the others what is left. */
export type Sharing = 'alike' | 'oneAfterburner';
export interface RefuelOptions extends PhaseOptions {
  readonly calibratedAirspeedMS: number;
  readonly rateKgS: number;
  /** Mass to be taken. */
  readonly takeKg: number;
  readonly sharing: Sharing;
  /** Path angle of a descending contact [rad]; default 0. */
  readonly pathAngleRad?: number;
}
export interface RefuelResult extends PhaseEnd {
  readonly takenKg: number;
  readonly burntKg: number;
  readonly timeS: number;
  /** Least (available - required) / required thrust in contact. */
  readonly leastThrustMargin: number;
}
/** In contact behind a tanker: wash drag on, fuel in at the rate and out at what the engines burn. Ends 'taken', 'full', 'limit:..', 'thrust'. */
export declare function refuel(flight: Flight, state: FlightState, track: Track, options: RefuelOptions): RefuelResult;

export interface HoldOptions {
  readonly timeS: number;
  /** 'endurance': the speed of least fuel flow, as equivalent airspeed with the square root of mass. */
  readonly speed: SpeedLaw | 'endurance';
  readonly limits?: readonly WatchedLimit[];
  readonly recorder?: Recorder | undefined;
}
/** Goes round near a place, level, for a time: fuel and time pass, place and distance do not. */
export declare function hold(flight: Flight, state: FlightState, track: Track, options: HoldOptions): PhaseEnd;

export type { EndReason };
