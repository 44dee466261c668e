/**
 * A sortie as data: what its file says, checked and in SI.
 *
 * A sortie is a list of legs. A leg goes from where the last one ended, through waypoints, to a tanker or a base; what is
 * flown on the way is a list of steps; a tanker at the end is a contact, a base a landing.
 */

import type { CheckMomentKind, CheckRule, Pusher } from '../aircraft/aircraft.ts';
import type { PreparedArea } from '../earth/area.ts';

export interface Sortie {
  readonly title: string;
  readonly invented: boolean;
  readonly aircraft: {
    readonly tail: string;
    readonly fuelKg: number;
    /** Of all fuel, on board and in the tankers; null where the sortie does not say. */
    readonly fuelTemperatureK: number | null;
    /** As measured at that temperature; null where the deck's usual density stands. */
    readonly fuelDensityKgM3: number | null;
  };
  readonly weather: {
    /** Time of the analysis or start of the forecast run, ISO 8601; null on a standard or offset day. */
    readonly run: string | null;
    /** What the weather stands for, where it is not that of the sortie's date. */
    readonly standsFor: string | null;
  };
  readonly takeOff: {
    readonly base: Base;
    /** Seconds since 1970-01-01T00:00Z. */
    readonly timeS: number;
    readonly fromS: number;
    readonly toS: number;
    /** Wind at the runway as the sortie states it: where it comes from; null: that of the day. */
    readonly wind: { readonly fromRad: number; readonly speedMS: number } | null;
  };
  readonly bases: readonly Base[];
  readonly tankers: readonly Tanker[];
  /** What the track has to keep out of, and how wide it counts to each side. */
  readonly areas: readonly PreparedArea[];
  readonly corridorHalfWidthM: number;
  readonly legs: readonly Leg[];
  /** Fuel that must be left on landing. */
  readonly landingReserveKg: number;
  /** Fuel and time from the end of a descent to the runway. */
  readonly approach: { readonly fuelKg: number; readonly timeS: number };
  /** Pads below limits, by the limit's key, in its SI unit. */
  readonly pads: Readonly<Record<string, number>>;
  /** Tolerances and actions of checks; they go before those of the deck. */
  readonly checks: readonly CheckRule[];
  /** The crew's own steps, in the order of the file. */
  readonly checklist: readonly CheckStep[];
  readonly manoeuvres: ManoeuvreRules;
  /** null where the sortie says nothing of its crew. */
  readonly crew: CrewTimes | null;
  /** Time between rows of the fuel ladder. */
  readonly ladderEveryS: number;
  /** Rows and columns of the altitude grids. */
  readonly grid: { readonly fuelKg: readonly number[]; readonly temperatureOffsetK: readonly number[] };
}

/** What keeps the time of the crew; times in seconds since 1970. Each part is null where the sortie does not say. */
export interface CrewTimes {
  readonly duty: { readonly reportS: number; readonly mostS: number; readonly afterLandingS: number } | null;
  /** Before take-off: one time, or by the altitude of the cabin, rising. */
  readonly prebreathe: number | readonly { readonly aboveM: number; readonly timeS: number }[] | null;
  /** `fromS` null: as late as prebreathing allows, which without it is the take-off. */
  readonly oxygen: {
    readonly fromS: number | null;
    readonly lastsS: number;
    readonly reserveS: number;
  } | null;
}

/** A step of the crew's own checklist. */
export interface CheckStep {
  /** A moment, or a Mach that is passed in a climb. */
  readonly moment: Exclude<CheckMomentKind, 'gate'> | number;
  /** Before what is computed for the moment, or after it. */
  readonly place: 'before' | 'after';
  /** Index of the leg; null is each that has the moment. */
  readonly leg: number | null;
  readonly text: string;
}

/** What a crew asks of its manoeuvres, beside the limits of the deck. */
export interface ManoeuvreRules {
  /** At which speeds to warning and push are worked out; level flight stands beside them. */
  readonly loadFactors: readonly number[];
  readonly banksRad: readonly number[];
  /** What a pusher does, where the sortie says it in the place of the deck. */
  readonly push: Pusher | null;
  /** Height kept between the bottom of a recovery and the ground. */
  readonly clearanceM: number;
  /** Load factors that are not passed, whatever the structure takes, from a mass of fuel on. */
  readonly heldTo: readonly HeldTo[];
}

export interface HeldTo {
  readonly fromFuelKg: number;
  readonly loadFactor: number;
  /** Who says so: "common practice". */
  readonly source: string;
}

export interface Place {
  readonly name: string;
  readonly latitudeRad: number;
  readonly longitudeRad: number;
}

export interface Base extends Place {
  readonly elevationM: number;
  /** null where the sortie states none. */
  readonly runway: Runway | null;
}

/** A runway in the direction in which it is used. */
export interface Runway {
  readonly name: string;
  readonly courseRad: number;
  readonly lengthM: number;
  /** Rise over run, positive uphill. */
  readonly slopeFraction: number;
  readonly condition: 'dry' | 'wet';
}

export interface Tanker extends Place {
  /** Course of the refuelling track from the contact point. */
  readonly courseRad: number;
  /** Bank of the turns onto and off that track. */
  readonly bankRad: number;
  readonly pressureAltitudeM: number;
  readonly calibratedAirspeedMS: number;
  /** Of all grades together that the receiver may burn. */
  readonly offloadKg: number;
  readonly fuels: readonly TankerFuel[];
  /** What else the tanker carries; null where the sortie does not say. */
  readonly carries: TankerLoad;
  /** How it flies itself; null where the sortie does not say. */
  readonly flight: TankerFlight | null;
  readonly rateKgS: number;
  /** Greatest Mach that the tanker allows in contact. */
  readonly maximumMach: number;
  /** Greatest calibrated airspeed that it allows; null where the sortie does not say. */
  readonly maximumCalibratedAirspeedMS: number | null;
  readonly waivers: readonly Waiver[];
  /** null: what lighting an afterburner in contact does to the place behind the tanker is not judged. */
  readonly envelope: ContactEnvelope | null;
}

/** What a tanker does before, between and after its contacts. */
export interface TankerFlight {
  /** At the contact point from this time on, seconds since 1970. */
  readonly fromS: number;
  /** Of its own fuel there, waiting and in contact. */
  readonly burnKgS: number;
  /** The way home, at the height of the contact. */
  readonly base: Base;
  readonly trueAirspeedMS: number;
  readonly homeBurnKgS: number;
  /** Of its own fuel on landing. */
  readonly reserveKg: number;
}

/** Another value of one limit of a tanker: it moves no other. */
export interface Waiver {
  readonly of: 'maximumMach' | 'maximumCalibratedAirspeedMS';
  /** Mach or m/s. */
  readonly value: number;
  readonly by: string;
  readonly for: string;
  /** Seconds since 1970-01-01T00:00Z. */
  readonly untilS: number;
}

/** How far a receiver may be from the middle of the place of contact, and how fast it may move in it. */
export interface ContactEnvelope {
  readonly foreM: number;
  readonly aftM: number;
  readonly closureMS: number;
}

/** Fuel of one grade that a tanker has to give; kept apart from the others. */
export interface TankerFuel {
  /** null where neither sortie nor deck names it. */
  readonly grade: string | null;
  readonly offloadKg: number;
  /** Whether the receiver may burn it. */
  readonly burnable: boolean;
}

/** The tanker without what it has to give. */
export interface TankerLoad {
  readonly emptyMassKg: number | null;
  readonly payloadKg: number;
  /** For its own engines: never given. */
  readonly ownFuelKg: number | null;
  readonly maximumMassKg: number | null;
}

export interface Waypoint extends Place {
  readonly bankRad: number;
}

export interface Leg {
  readonly name: string;
  readonly through: readonly Waypoint[];
  readonly fly: readonly Step[];
  readonly end: Contact | Landing;
}

export interface Contact {
  readonly kind: 'contact';
  readonly tanker: Tanker;
  /** Fuel to take; 'full' is up to the capacity. */
  readonly takeKg: number | 'full';
  /** How long the receiver waits there for a tanker that is late; left out: not at all. */
  readonly waitS?: number;
  /** The case that fuel required at the contact must cover when no fuel comes. */
  readonly worstCase: Divert;
}

export interface Landing {
  readonly kind: 'landing';
  readonly base: Base;
}

/** Subsonic flight to a base at one Mach and altitude, at the power it needs. */
export interface Divert {
  readonly name: string;
  readonly base: Base;
  readonly mach: number;
  readonly pressureAltitudeM: number;
  readonly climbCalibratedAirspeedMS: number;
  readonly descentEquivalentAirspeedMS: number;
}

export type Step = ClimbStep | PushoverStep | CruiseStep | DescendStep;

/** A named setting of the deck, or a number on its ladder of settings. */
export type Power = number;

/** A climb at constant EAS (bled above a Mach), or at constant CAS, until `toM` or until `mach`; then at constant Mach. */
export interface ClimbStep {
  readonly kind: 'climb';
  readonly power: Power;
  readonly speed: { readonly kind: 'CAS' | 'EAS'; readonly valueMS: number };
  /** Above this Mach the EAS falls by `slopeMS` for each unit of Mach. */
  readonly bleed: { readonly breakMach: number; readonly slopeMS: number } | null;
  /** Mach at which the speed law gives way to constant Mach. */
  readonly mach: number;
  /** Level-off altitude; 'optimum' is the day's best for the cruise that follows. */
  readonly to: number | 'optimum';
  /** Load factor of the level-off. */
  readonly levelOffLoadFactor: number;
}

/** A level acceleration to `mach`, a push to `angleRad`, a pull to level at `bottomM`. */
export interface PushoverStep {
  readonly kind: 'pushover';
  readonly power: Power;
  readonly mach: number;
  readonly loadFactor: number;
  /** Negative. */
  readonly angleRad: number;
  readonly pullLoadFactor: number;
  readonly bottomM: number;
}

/** Level or climbing cruise at constant Mach until the descent has to start. */
export interface CruiseStep {
  readonly kind: 'cruise';
  readonly mach: number;
  readonly altitude: number | 'optimum';
}

/** Level deceleration at a power until the EAS is the descent's, then a descent at that EAS to the end of the leg. */
export interface DescendStep {
  readonly kind: 'descend';
  readonly power: Power;
  readonly equivalentAirspeedMS: number;
  /** Level flight at the end before contact or approach. */
  readonly levelM: number;
}
