/** Climbs, altitudes, turns, level-offs and descents of a plan, row by row. */
import type { Compass } from '../earth/magnetic.ts';
import type { PushoverSolution, TurnSolution } from '../phases/index.ts';
import type { DescentHeld } from './plan-descent.ts';

export interface ClimbTable {
  readonly leg: number;
  readonly name: string;
  readonly rows: readonly ClimbRow[];
}

export interface ClimbRow {
  readonly mach: number;
  readonly equivalentAirspeedMS: number;
  readonly pressureAltitudeM: number;
  readonly fuelKg: number;
  readonly fuelRequiredKg: number;
  /** Since take-off. */
  readonly timeS: number;
  /** Since the start of the climb, so that the card works when take-off slips. */
  readonly sinceStartS: number;
  readonly distanceM: number;
  readonly inletTemperatureK: number;
}

/** Best altitude for weight and temperature at one power: what the standard day would give stands small beside it. */
export interface AltitudeGrid {
  /** "Maximum afterburner", "Cruise: power as required". */
  readonly power: string;
  readonly mach: number;
  readonly massKg: readonly number[];
  /** Fuel at these masses. */
  readonly fuelKg: readonly number[];
  /** Temperature offsets from standard at the altitude. */
  readonly temperatureOffsetK: readonly number[];
  /** cells[i][j] for mass i, offset j. */
  readonly cells: readonly (readonly AltitudeCell[])[];
}

export interface AltitudeCell {
  /** null where something stops it. */
  readonly pressureAltitudeM: number | null;
  /** Key of the limit (or 'thrust') that leaves the cell blank or holds the altitude down; null where it is a free optimum. */
  readonly reason: string | null;
  /** Air distance for each kilogram there. */
  readonly specificRangeMKg: number | null;
  readonly inletTemperatureK: number | null;
}

export interface LadderRow {
  readonly timeS: number;
  /** What the row stands at: "W3", "M 1.5", "every 10 min". */
  readonly name: string;
  readonly distanceM: number;
  /** To the next contact or the landing. */
  readonly distanceToGoM: number;
  readonly pressureAltitudeM: number;
  readonly mach: number;
  readonly fuelKg: number;
  readonly fuelRequiredKg: number;
  readonly differenceKg: number;
}

/** A climb or descent that ended level, as it was noted in flight. */
export interface Capture {
  readonly leg: number;
  readonly timeS: number;
  readonly pressureAltitudeM: number;
  /** Height before the altitude at which the load factor begins to change. */
  readonly leadM: number;
  readonly loadFactor: number;
}

export interface LevelOff extends Capture {
  /** The phase that it ends, as it stands in `phases`. */
  readonly phase: string;
  /** Of pressure altitude, where the load factor begins to change; negative downward. */
  readonly climbRateMS: number;
  /** When the load factor begins to change, and from there to level. */
  readonly fromS: number;
  readonly machFrom: number;
  readonly mach: number;
  readonly equivalentAirspeedMS: number;
}

/** A turn as it was noted in flight. */
export interface Turn {
  readonly name: string;
  readonly leg: number;
  readonly startS: number;
  /** When the bank begins to build up. */
  readonly rollInS: number;
  readonly endS: number;
  readonly mach: number;
  readonly bankDeg: number;
  readonly radiusM: number;
  /** Before the waypoint, along the old track. */
  readonly leadM: number;
  readonly courseFromDeg: number;
  readonly courseToDeg: number;
  readonly fuelKg: number;
  /** Along the new track, where the wings are level. */
  readonly rollOutM: number;
  /** 'thrust' or 'course change' where the bank is less than the sortie asks for. */
  readonly bankLimitedBy: string | null;
}

/** The courses of a turn by magnetic north. */
export interface MagneticTurn {
  /** Where the turn begins and where it ends; null outside the years of the magnetic models. */
  readonly magneticFromDeg: number | null;
  readonly magneticToDeg: number | null;
  /** The worse of both places. */
  readonly compass: Compass | null;
}

export interface TurnFlown extends Turn, MagneticTurn {
  /** The lead as time, at the speed over the ellipsoid. */
  readonly leadS: number;
  readonly groundSpeedMS: number;
  readonly pressureAltitudeM: number;
  readonly loadFactor: number;
  /** From roll-in to wings level; negative where there is less afterwards. */
  readonly machChange: number;
  readonly pressureAltitudeChangeM: number;
}

/** Where to start down, what it does to be late, and the gates on the way down. */
export interface StartDownTable {
  readonly leg: number;
  /** Tanker or base at the end of it. */
  readonly to: string;
  readonly timeS: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  /** Over the ellipsoid to the contact or the end of the leg. */
  readonly distanceToGoM: number;
  /** The last turn before it and how far beyond its waypoint it lies along the track; null where the leg has none. */
  readonly after: { readonly name: string; readonly distanceM: number } | null;
  /** Over the ellipsoid. */
  readonly groundSpeedMS: number;
  /** How far the point moves on for an aircraft heavier by a kilogram; null where it was not worked out. */
  readonly perKgM: number | null;
  /** The level stretch before the contact or the approach: started down later by this, it is used up. */
  readonly levelM: number;
  readonly energy: EnergyLost;
  readonly held: DescentHeld;
  /** From the start to level, one each half Mach. */
  readonly rows: readonly StartDownRow[];
}

/** A descent as an exchange of energy height for distance. */
export interface EnergyLost {
  readonly fromM: number;
  readonly toM: number;
  /** What the change of the wind along the way gives; negative where the aircraft comes into more tailwind. */
  readonly fromWindM: number;
  /** Mean of (drag - thrust) / weight over the distance through the air. */
  readonly meanSlope: number;
  /** Flown, through the air and over the ellipsoid. */
  readonly airDistanceM: number;
  readonly distanceM: number;
}

export interface StartDownRow {
  readonly timeS: number;
  readonly mach: number;
  readonly equivalentAirspeedMS: number;
  readonly pressureAltitudeM: number;
  readonly distanceToGoM: number;
  readonly fuelKg: number;
  readonly fuelRequiredKg: number;
}

/** The start of a descent, worked out on the way to it. */
export interface StartDown {
  /** Along the leg's inbound track. */
  readonly distanceM: number;
  /** How it moves for an aircraft that is heavier than planned. */
  readonly perKgM: number;
  /** Where it was worked out, and the mass planned there and at the start of the descent. */
  readonly fromM: number;
  readonly massKg: number;
  readonly massThereKg: number;
}

/** What was decided in planning one leg, so that it can be flown again as decided. */
export interface LegDecisions {
  /** Where the descent or the slow-down to the contact begins; null where the leg has none. */
  startDown: StartDown | null;
  /** Each corner of the leg's route in order; null where there was nothing to turn. */
  readonly turns: (Readonly<TurnSolution> | null)[];
  pushover: PushoverSolution | null;
  /** Level-off altitude of the climbs to the best altitude, by their place among the leg's steps. */
  readonly climbToM: Record<string, number>;
  takenKg: number;
}
