/** What a plan answers: limits in order, why it cannot be flown, checks, places and areas. */
import type { CheckMomentKind } from '../aircraft/aircraft.ts';

/** Why the sortie cannot be flown. */
export interface Failure {
  /** Key of the limit, or 'thrust', 'fuel', 'fuelRequired', 'route', 'manoeuvre', 'tankerMach', 'tankerSpeed', 'area', 'runway', 'tyreSpeed'. */
  readonly limit: string;
  /** Name of it in words; that of the area where the route enters one. */
  readonly name: string;
  /** What the flight itself says where it stopped: "thrust 182 kN is 6 kN less than drag at Mach 1.08"; null where it went on. */
  readonly text: string | null;
  /** Seconds since take-off, and where. */
  readonly timeS: number;
  readonly phase: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  /** How far beyond at the worst, in the quantity's SI unit (positive is beyond); null where there is no measure. */
  readonly excess: number | null;
  readonly quantity: string;
  /** Part of the excess that is the sortie's own pad. */
  readonly pad: number;
  readonly freedBy: Freed | null;
}

export interface Freed {
  /** What in the sortie changes: path of the key in its file, such as "legs.1.fly.2.cruise.mach". */
  readonly lever: string;
  /** Paths of other keys that hold the same value and change with it. */
  readonly also: readonly string[];
  /** The same in words: "cruise Mach of the north loop". */
  readonly name: string;
  readonly quantity: string;
  readonly from: number;
  readonly to: number;
  /** Where the change moves a place to, as it is to be typed: whole hundredths of a degree; null where it moves none. */
  readonly place: { readonly latitudeDeg: number; readonly longitudeDeg: number } | null;
  /** Margin that the re-run keeps at the same limit, in its SI unit; from the side of an area, beyond the half width; null: no measure. */
  readonly marginAfter: number | null;
  /** Fuel at the last contact or landing of the re-run less that required there. */
  readonly fuelInHandKg: number;
}

/** What should read what at one moment of a climb, today. */
export interface CheckMoment {
  readonly leg: number;
  readonly kind: CheckMomentKind;
  /** Since take-off. */
  readonly timeS: number;
  readonly mach: number;
  readonly pressureAltitudeM: number;
  readonly temperatureOffsetK: number;
  /** On the deck's ladder of settings. */
  readonly engines: readonly { readonly name: string; readonly power: number }[];
  readonly readings: readonly CheckReading[];
  /** The crew's own steps before and after the readings. */
  readonly stepsBefore: readonly string[];
  readonly stepsAfter: readonly string[];
}

export interface CheckReading {
  /** 'fuelFlow', 'centreOfGravity', 'fuel', 'inletTemperature', 'staticTemperature' or the key of a schedule of the deck. */
  readonly of: string;
  readonly name: string;
  /** The engine's name, or 'left' and 'right' of an inlet; null for what the aircraft has one of. */
  readonly side: string | null;
  readonly quantity: string;
  /** null where `reason` says why. */
  readonly expected: number | null;
  /** On the standard day at the same Mach, pressure altitude and power; null for what the day has no part in. */
  readonly standard: number | null;
  /** To each side; null where neither deck nor sortie states one. */
  readonly tolerance: number | null;
  /** What to do beyond it. */
  readonly action: string | null;
  readonly reason: string | null;
}

export interface LimitSummary {
  readonly key: string;
  readonly name: string;
  readonly quantity: string;
  readonly side: 'upper' | 'lower';
  /** Least margin over the sortie, signed, with its place. */
  readonly leastMargin: number;
  /** One standard deviation there: of the limit as the deck states it, and of weather held beyond its data. */
  readonly spread: number;
  /** The part of it that is held weather; 0 within the data. */
  readonly weatherSpread: number;
  /** Margin kept by the sortie's pad; 0 where none. */
  readonly pad: number;
  readonly timeS: number;
  readonly phase: string;
  readonly value: number;
  readonly bound: number;
  /** Least margin less its pad, on the one scale by which limits of different quantities are put in order. */
  readonly closeness: number;
  /** The margin that counts as one in closeness, in the unit of the margin. */
  readonly countsAsOne: number;
  readonly source: string;
}

export interface PlanPlace {
  readonly kind: 'base' | 'tanker' | 'waypoint';
  readonly name: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  /** True course of the refuelling track from a tanker's contact point; null for other places. */
  readonly courseDeg: number | null;
}

export interface PlanArea {
  readonly name: string;
  /** When it holds: times of day such as "22:00Z", or moments, ISO 8601; null: always. */
  readonly hours: { readonly kind: 'daily' | 'once'; readonly from: string; readonly to: string } | null;
  /** null: from the surface, without an upper end. */
  readonly floorPressureAltitudeM: number | null;
  readonly ceilingPressureAltitudeM: number | null;
  /** The track counts as so wide to each side. */
  readonly corridorHalfWidthM: number;
  /** Each polygon: its outer ring, then its holes, of [longitude, latitude], not closed, running on across 180 degrees. */
  readonly polygonsDeg: readonly (readonly (readonly (readonly number[])[])[])[];
  readonly incursions: readonly AreaIncursion[];
  /** Least distance to its side [m] while it holds, 0 inside; null where it never holds at the hour and height flown. */
  readonly nearest: (AreaPassage & { readonly distanceM: number }) | null;
  /** Least height above its ceiling or below its floor while over or under it in its hours; null where it never is. */
  readonly vertical: (AreaPassage & { readonly clearanceM: number; readonly side: 'over' | 'under' }) | null;
}

/** A moment of the track at or near an area. */
export interface AreaPassage {
  /** Since take-off. */
  readonly timeS: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly pressureAltitudeM: number;
  readonly phase: string;
}

export interface AreaIncursion {
  readonly entry: AreaPassage;
  readonly exit: AreaPassage;
  readonly deepest: AreaPassage;
  /** From the deepest point to the nearest side, with the half width, and the true course of that way out. */
  readonly depthM: number;
  readonly outCourseDeg: number;
}
