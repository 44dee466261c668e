/** What becomes of a sortie whose tankers do not come, come late or bring half, and what their crews have to know. */
import type { CourseAt } from './plan-day.ts';

export type TankerTrouble = 'absent' | 'half' | 'late';

/** One contact of the sortie with its trouble. */
export interface TankerFault {
  readonly leg: number;
  readonly tanker: string;
  readonly trouble: TankerTrouble;
}

export interface TankerCase {
  readonly faults: readonly TankerFault[];
  /** The sortie flown on with what comes; null where a tanker is absent. */
  readonly goesOn: TankerGoesOn | null;
  /** Turning away at each contact in trouble, with what is on board then; in the order of `faults`. */
  readonly recoveries: readonly TankerRecovery[];
  /** The contact in trouble with the least over the reserve; null where none is reached. */
  readonly binding: string | null;
  /** Whether the crew gets down with its reserve: by going on, or by turning away at the first contact that asks for it. */
  readonly safe: boolean;
  /** What each tanker that was met lands with over its own reserve; null where that is not known. */
  readonly tankers: readonly Pick<TankerOwn, 'tanker' | 'overReserveKg'>[];
  readonly account: FuelAccount;
}

export interface TankerGoesOn {
  readonly flyable: boolean;
  /** What stops it, in words; null where nothing does. */
  readonly failure: string | null;
  readonly phase: string | null;
  /** Least of fuel on board less required at the contacts and the landing; null where it is not flown to its end. */
  readonly leastInHandKg: number | null;
  readonly fuelOnLandingKg: number | null;
}

export interface TankerRecovery {
  readonly tanker: string;
  readonly base: string;
  /** Flown on the way: that of the sortie's worst case, or that of the contact where the aircraft is too heavy for it. */
  readonly pressureAltitudeM: number;
  /** Since take-off, when it is turned away: at the contact, after the wait, or with half the fuel in. */
  readonly timeS: number;
  readonly fuelKg: number;
  /** null where the way to the base cannot be flown. */
  readonly fuelOnLandingKg: number | null;
  readonly overReserveKg: number | null;
  /** To dump or to burn before landing; null where it is not flown or the deck states no greatest mass on landing. */
  readonly aboveLandingMassKg: number | null;
  /** Since take-off: waiting without more fuel, this is the last moment to turn away; null where it is past. */
  readonly decideByS: number | null;
}

/**
 * Every kilogram of receiver and tankers, as far as the case was flown: what was on board and for offload is what was burnt, what is
 * on board at the end and what the tankers keep.
 */
export interface FuelAccount {
  readonly atTakeOffKg: number;
  readonly forOffloadKg: number;
  readonly takenKg: number;
  readonly burntKg: number;
  readonly onBoardAtEndKg: number;
  readonly keptByTankersKg: number;
  /** For the tankers' own engines: of those that fly by the sortie, come, and gave fuel. */
  readonly ownKg: number;
  readonly ownBurntKg: number;
  readonly ownLeftKg: number;
}

export interface TankerMatrix {
  /** Every contact absent, half and late, in order; then, where asked for, every pair of contacts in every pair of troubles. */
  readonly cases: readonly TankerCase[];
  readonly lateS: number;
  readonly reserveKg: number;
  readonly evaluations: number;
}

/** A tanker's own fuel over what it has to do. Times since take-off of the receiver. */
export interface TankerOwn {
  readonly tanker: string;
  readonly onStationS: number;
  readonly firstContactS: number;
  /** At its last disconnect. */
  readonly leavesS: number;
  /** For its own engines, on station; and what of it is burnt there between contacts, and in contact. */
  readonly ownKg: number;
  readonly waitedKg: number;
  readonly contactKg: number;
  /** null where the weather does not reach. */
  readonly home: {
    readonly base: string;
    readonly distanceM: number;
    readonly durationS: number;
    readonly landsS: number;
    readonly burntKg: number;
  } | null;
  readonly onLandingKg: number | null;
  readonly reserveKg: number;
  readonly overReserveKg: number | null;
  /** How much later it can leave, the receiver late, and still land with its reserve. */
  readonly canWaitS: number | null;
}

/** What a tanker's crew has to know of one contact. */
export interface TankerOrder {
  readonly tanker: string;
  readonly leg: number;
  /** Of the contact, since take-off. */
  readonly timeS: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly pressureAltitudeM: number;
  readonly track: CourseAt;
  readonly calibratedAirspeedMS: number;
  readonly trueAirspeedMS: number;
  readonly maximumMach: number;
  /** To be given, in so many seconds, over so much of the track over the ellipsoid; and what is then left for others. */
  readonly givesKg: number;
  readonly durationS: number;
  readonly trackM: number;
  readonly leftKg: number;
  /** Coming the other way beside the receiver's track: how far beside, when and at which range the turn begins, at its bank. */
  readonly bankDeg: number;
  readonly offsetM: number;
  readonly turnS: number;
  readonly turnTimeS: number;
  readonly turnRangeM: number;
  readonly closureMS: number;
}
