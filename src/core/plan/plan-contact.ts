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
