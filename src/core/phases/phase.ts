/**
 * What all phases share: where they stop, what they watch, how they say how they ended.
 *
 * A phase takes the state, flies it along a track and leaves it at its end, mutated in place.
 */
import type { Limit, Propulsion } from '../aircraft/aircraft.ts';
import type { Moment } from '../flight/moment.ts';
import type { FlightState } from '../flight/state.ts';

/** A condition that ends a phase, or is noted as a gate; met exactly. One that is met already ends the phase at once. */
export type Stop =
  | { readonly at: 'altitude'; readonly pressureAltitudeM: number }
  | { readonly at: 'mach'; readonly mach: number }
  | { readonly at: 'trueAirspeed'; readonly speedMS: number }
  | { readonly at: 'equivalentAirspeed'; readonly speedMS: number }
  | { readonly at: 'calibratedAirspeed'; readonly speedMS: number }
  | { readonly at: 'distance'; readonly distanceM: number }
  | { readonly at: 'time'; readonly timeS: number }
  /** Fuel on board, unusable included. */
  | { readonly at: 'fuel'; readonly fuelKg: number }
  /** Met where `value` changes sign: of what is integrated and, where `balanced`, what the flight holds for it. */
  | {
      readonly at: 'state';
      readonly name: string;
      readonly balanced?: boolean;
      value(state: Readonly<FlightState>): number;
    }
  /** The same for all that a moment tells; slower. */
  | { readonly at: 'custom'; readonly name: string; value(moment: Moment): number };

/**
 * 'altitude', 'mach' ...: the stop of that name; 'limit:KEY': that limit (with its pad) was met; 'thrust': speed or height
 * cannot be held; 'fuel': the tanks are down to what is unusable; 'outside:WHAT': a table or the day ends here.
 */
export type EndReason = string;

export interface PhaseEnd {
  readonly reason: EndReason;
  /** Index of the stop that was met; -1 where it was none of them. */
  readonly stop: number;
  /** The sentence for a person: what, where, with numbers. */
  readonly text: string;
}

/** A limit that ends the phase where its margin, less the pad, is used up. */
export interface WatchedLimit {
  readonly limit: Limit;
  /** In the SI unit of the limit's quantity; the phase ends this far inside the bound. */
  readonly pad: number;
}

/** Receives the moments of a phase. The record is used again for the next one: copy what is to be kept. */
export interface Recorder {
  /** The start, the end and, between them, a point at least each `everyS` seconds. */
  readonly everyS: number;
  /** Left out where only gates are of use. */
  moment?(at: Moment): void;
  /** A gate passed: index into the phase's `gates`. */
  gate?(index: number, at: Moment): void;
}

export interface PhaseOptions {
  readonly stops: readonly Stop[];
  readonly gates?: readonly Stop[];
  readonly limits?: readonly WatchedLimit[];
  readonly recorder?: Recorder | undefined;
}

/** A number on the ladder of the deck's settings, or one of its named places. */
export type Power = number | 'full' | 'military' | 'descent' | 'idle';

/** The power as a number on the ladder of the deck. */
export function powerOf(propulsion: Propulsion, power: Power): number {
  switch (power) {
    case 'full':
      return propulsion.maximum;
    case 'military':
      return propulsion.military;
    case 'descent':
      return propulsion.descent;
    case 'idle':
      return 0;
    default:
      return power;
  }
}
