/** Where a flight can still go, failure by failure and minute by minute. Times in seconds since take-off. */
import type { FailureKey } from '../aircraft/failures.ts';

/** A failure of the deck, or one of a tanker or of the base of landing, with nothing wrong with the aircraft. */
export type ReachCase = FailureKey | 'tankerAbsent' | 'tankerLate' | 'tankerHalf' | 'baseClosed';

export interface Reach {
  /** Fuel that has to be left on landing. */
  readonly reserveKg: number;
  /** One entry for each minute in the air: the moments of all columns. */
  readonly timeS: readonly number[];
  readonly ends: readonly ReachEnd[];
  readonly ladders: readonly ReachLadder[];
  readonly unstarts: readonly UnstartRow[];
  /** Derivative evaluations and flights that it took. */
  readonly evaluations: number;
  readonly flights: number;
  readonly notComputed: readonly string[];
}

export interface ReachEnd {
  readonly kind: 'base' | 'tanker';
  readonly name: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** One failure at every minute. */
export interface ReachLadder {
  readonly key: ReachCase;
  readonly name: string;
  /** What it rests on: of the deck, or how the case is made. */
  readonly source: string;
  /** One standard deviation of what is burnt on the way, as a part of it, by what the deck says of the drag; null: it says nothing. */
  readonly burnSpread: number | null;
  /** In the order of `ends`. */
  readonly choices: readonly ReachChoice[];
  /** Index into `ends` of the end with the most fuel above what is required there; null: none is in reach. */
  readonly best: readonly (number | null)[];
  /** Where it takes as long back to the last place as on to the next, leg by leg where both are there. */
  readonly equalTimes: readonly EqualTime[];
}

export interface ReachChoice {
  /** Fuel that has to arrive: on landing the reserve, at a tanker what then still reaches a base without it; null: none is enough. */
  readonly requiredKg: number | null;
  /** On landing, after the approach, or at the contact; less than 0: so much is missing; null: `none` says why. */
  readonly fuelKg: readonly (number | null)[];
  /** Of the arrival. */
  readonly arrivalS: readonly (number | null)[];
  /** When enough arrives: from and to; the end of the flight where it stays open. */
  readonly open: readonly { readonly fromS: number; readonly toS: number }[];
  /** Spans of minutes, both included, in which nothing arrives. */
  readonly none: readonly { readonly fromS: number; readonly toS: number; readonly why: WhyNone }[];
  /** Why it is never a choice: "cannot take fuel"; null where nothing speaks against it. */
  readonly never: string | null;
}

/**
 * Why nothing arrives: the tanker has gone or has not come yet, or is absent, the base is closed, the aircraft cannot take fuel;
 * none of the failure's heights can be held, thrust ends on the way or below the tanker, much more than there is would be burnt, or
 * the weather or the tables of the deck end before it.
 */
export type WhyNone =
  | 'gone'
  | 'notYet'
  | 'absent'
  | 'closed'
  | 'cannotRefuel'
  | 'heights'
  | 'thrust'
  | 'fuel'
  | 'weather'
  | 'data';

export interface EqualTime {
  readonly leg: number;
  readonly back: string;
  readonly on: string;
  readonly timeS: number;
}

/** An inlet lost at a moment of the flight. */
export interface UnstartRow {
  readonly timeS: number;
  readonly mach: number;
  readonly pressureAltitudeM: number;
  /** About the vertical at once, without rudder [N m], and the rudder that holds it; null: the deck has no rudder. */
  readonly yawNm: number;
  readonly rudderDeg: number | null;
  readonly rudderLimitDeg: number | null;
  /** Until the inlet runs again; null: not before the flight ends there. */
  readonly restart: {
    readonly afterS: number;
    readonly mach: number;
    readonly pressureAltitudeM: number;
    readonly machLost: number;
    readonly heightLostM: number;
    readonly fuelKg: number;
    readonly distanceM: number;
    /** What then arrives, in the order of `ends`; less than 0: so much is missing; null: out of reach. */
    readonly fuelOnArrivalKg: readonly (number | null)[];
  } | null;
}

/** What can be reached from one moment, for maps. */
export interface ReachArea {
  readonly key: ReachCase;
  readonly name: string;
  readonly timeS: number;
  /** A ring of [longitude, latitude], closed, counterclockwise; null where nothing is in reach. */
  readonly ringDeg: readonly (readonly [number, number])[] | null;
  /** What ends the way to each place of the ring; where that is not the fuel the area goes on. */
  readonly endsBy: readonly ('fuel' | 'weather' | 'data')[];
}
