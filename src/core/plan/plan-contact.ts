/** Tankers in a plan: how one is joined, the contact, and what follows where no fuel comes. */
import type { CourseAt } from './plan-day.ts';

/** What the sortie asks of a refuelling. */
export interface RefuellingAsked {
  /** Of the refuelling track at the contact point. */
  readonly track: CourseAt;
  /** null where it asks for full tanks. */
  readonly askedKg: number | null;
}

export interface Refuelling {
  readonly tanker: string;
  readonly contactS: number;
  readonly disconnectS: number;
  readonly pressureAltitudeM: number;
  readonly calibratedAirspeedMS: number;
  readonly equivalentAirspeedMS: number;
  readonly trueAirspeedMS: number;
  readonly mach: number;
  readonly fuelOnContactKg: number;
  readonly takenKg: number;
  readonly burntKg: number;
  readonly rateKgS: number;
  readonly cgAtContact: number;
  readonly cgAtDisconnect: number;
  /** Why no more was taken: it was all that was asked for, the tanks are full, the tanker has no more, the thrust margin is gone. */
  readonly endedBy: 'asked' | 'full' | 'tanker' | 'thrust';
  /** Least (available - required) / required thrust in contact; available is one engine at its most and the others dry. */
  readonly leastThrustMargin: number;
  /** Power of each engine at disconnect, on the deck's ladder of settings. */
  readonly enginesAtDisconnect: readonly { readonly name: string; readonly power: number }[];
  /** The mass taken at which the first engine has to go into afterburner; null where none has to. */
  readonly afterburnerFromKg: number | null;
  /** Tanker's fuel for offload left. */
  readonly offloadLeftKg: number;
  /** Waivers without which the tanker would not allow this speed. */
  readonly waivers: readonly WaiverUsed[];
}

/** A limit of a tanker that another value stands for. */
export interface WaiverUsed {
  readonly of: 'maximumMach' | 'maximumCalibratedAirspeedMS';
  /** Without the waiver and with it: Mach or m/s. */
  readonly limit: number;
  readonly value: number;
  readonly by: string;
  readonly for: string;
  /** Seconds since 1970-01-01T00:00Z. */
  readonly untilS: number;
}

/** What the crews of receiver and tanker have to agree on. */
export interface Rendezvous {
  readonly tanker: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly pressureAltitudeM: number;
  readonly temperatureK: number;
  readonly temperatureOffsetK: number;
  readonly contact: FourSpeeds;
  /** At the same Mach and altitude. */
  readonly trueAirspeedOnStandardDayMS: number;
  /** The tanker's greatest Mach in the other languages. */
  readonly greatest: FourSpeeds;
  readonly groundSpeedMS: number;
  /** Of the refuelling track over the ellipsoid, from contact to disconnect. */
  readonly trackM: number;
  readonly massAtDisconnectKg: number;
}

/** One speed in four languages. */
export interface FourSpeeds {
  readonly calibratedAirspeedMS: number;
  readonly equivalentAirspeedMS: number;
  readonly mach: number;
  readonly trueAirspeedMS: number;
}

export interface Recovery {
  /** "No contact with Ewer Two". */
  readonly name: string;
  readonly leg: number;
  readonly base: string;
  /** Fuel required at the contact point to land there with the reserve. */
  readonly fuelRequiredKg: number;
  /** Fuel on landing when flown with the fuel on board at contact. */
  readonly fuelOnLandingKg: number;
  readonly distanceM: number;
  readonly timeS: number;
}

/** Whether the receiver can stay on as weight comes, from the contact to full tanks or to where the thrust margin ends. */
export interface ContactStudy {
  readonly tanker: string;
  /** By mass taken, rising. */
  readonly rows: readonly ContactRow[];
  /** Mass taken at which dry thrust, and at which any thrust ends; null where it lasts to full tanks. */
  readonly dryEndsKg: number | null;
  readonly marginEndsKg: number | null;
  /** From which on the dry engines stand at military power and the lit one follows; null where they do to the end. */
  readonly litFollowsKg: number | null;
  /** Bank of the tanker's turns, for which the rows give the margin. */
  readonly bankDeg: number;
  /** What would do without an afterburner; null where dry thrust lasts. */
  readonly descent: ContactDescent | null;
  /** null where none has to be lit, and where the deck or the sortie lacks what it takes. */
  readonly light: ContactLight | null;
}

export interface ContactRow {
  /** What stands here; null for a row between. */
  readonly mark:
    | 'contact'
    | 'dryEnds'
    | 'lit'
    | 'othersEnd'
    | 'litFollows'
    | 'disconnect'
    | 'marginEnds'
    | 'full'
    | null;
  readonly takenKg: number;
  readonly timeS: number;
  readonly massKg: number;
  readonly fuelKg: number;
  /** Thrust for level flight in the wash at the tanker's speed, and one standard deviation of it. */
  readonly requiredN: number;
  readonly requiredSpreadN: number;
  /** All engines at military power; one at its most with the others there. */
  readonly dryN: number;
  readonly availableN: number;
  /** (available - required)/required. */
  readonly margin: number;
  readonly marginSpread: number;
  /** Of each engine: place on the deck's ladder of settings, thrust. */
  readonly powers: readonly number[];
  readonly thrustN: readonly number[];
  /**
   * What is left to speed up and to slow down with, and on which engines: all of them dry, the dry ones, or the lit one, to slow
   * down with the dry ones too.
   */
  readonly free: 'all' | 'dry' | 'lit';
  readonly moreN: number;
  readonly lessN: number;
  /** Of unlike thrust, nose to the right positive, and the rudder that holds it; null where the deck has no rudder. */
  readonly yawNm: number;
  readonly rudderDeg: number | null;
  readonly rudderLimitDeg: number | null;
  /** Rate of pressure altitude at which dry thrust is enough at the same calibrated airspeed: 0 or less. */
  readonly descentMS: number;
  /** (available - required)/required in the tanker's turns. */
  readonly turnMargin: number;
  /** Level, and what holds it there. */
  readonly greatestBankDeg: number;
  readonly greatestBankBy: 'thrust' | 'stallWarning';
}

/** Going down with the tanker in the place of an afterburner. */
export interface ContactDescent {
  /** The fastest, at the end. */
  readonly rateMS: number;
  /** Pressure altitude lost from where dry thrust ends to the end. */
  readonly lostM: number;
  /** Part of the weight that thrust is spared for each m/s, at the end. */
  readonly partPerMS: number;
}

/** Lighting one afterburner while in contact. */
export interface ContactLight {
  readonly engine: string;
  /** Mass taken from which the dry engines stay above idle beside a lit one. */
  readonly earliestKg: number;
  /** And until which every case below stays inside the envelope; null where none does. */
  readonly latestKg: number | null;
  /** Of the thrust of one engine, from military power to its least in afterburner. */
  readonly stepN: number;
  /** Powers of the dry engines: as they stand, brought back first, brought back when it lit. */
  readonly beforePower: number;
  readonly firstPower: number;
  readonly afterPower: number;
  /** After which a light has failed and all engines go back to military power. */
  readonly failureSeenS: number;
  readonly foreLimitM: number;
  readonly aftLimitM: number;
  readonly closureLimitMS: number;
  readonly cases: readonly LightCase[];
  /** Largest part of a limit that one of them uses; null where the place is lost. */
  readonly use: number | null;
}

export interface LightCase {
  readonly name: 'soon' | 'expected' | 'late' | 'fails';
  /** Lag; null for a light that fails. */
  readonly afterS: number | null;
  /** Furthest from the middle, and fastest; null for a place that is lost. */
  readonly foreM: number | null;
  readonly aftM: number | null;
  readonly closureMS: number;
  readonly use: number | null;
}
