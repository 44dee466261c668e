/**
 * A deck as data: what its files say, read and in SI, not yet checked or compiled.
 *
 * Arms are metres aft of the deck's datum, of engines metres to the right of the centre line. A part that a deck does not
 * have is null; what depends on it is then not computed.
 */
import type { CheckRule, DeckIdentity, Dump, FuelGrade, Ground, LightUp, Pusher } from './aircraft.ts';
import type { Cabin, DescentRule } from './descent.ts';
import type { FailureCase, Unstart } from './failures.ts';

/** A place in a file; line and column count from 1, 0 stands for the file or line as a whole. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** Where the faults and doubts of a deck are told. */
export interface FaultSink {
  add(place: Place, path: string, message: string): void;
  doubt(place: Place, path: string, message: string): void;
}

/** Rows of numbers as a file has them. */
export interface DeckTable {
  readonly file: string;
  readonly rows: number;
  /** SI values by column name. */
  readonly numbers: ReadonlyMap<string, Float64Array>;
  readonly words: ReadonlyMap<string, readonly string[]>;
  /** Line of the file on which each row stands. */
  readonly lines: Int32Array;
}

export interface MassItem {
  readonly item: string;
  readonly massKg: number;
  readonly armM: number;
}

export interface Tank {
  readonly name: string;
  readonly capacityKg: number;
  readonly unusableKg: number;
  /** What may be filled, the room for expansion left; null where the deck does not say. */
  readonly volumeM3: number | null;
  readonly armM: number;
  /** Tanks are emptied from order 1 up and filled the other way round; tanks of one order together. */
  readonly order: number;
}

/** A transfer as the deck writes it: tanks by name. */
export interface TransferData {
  readonly from: string;
  readonly to: string;
  readonly massKg: number;
  readonly beginsMach: number;
  readonly endsMach: number;
  readonly rateKgS: number | null;
}

export interface Wing {
  readonly areaM2: number;
  /** Mean chord and the arm of its leading edge: what a CG in per cent is reckoned on. */
  readonly meanChordM: number | null;
  readonly leadingEdgeArmM: number | null;
}

export interface AerodynamicsData {
  /** mach; liftSlope, dragDueToLift, zeroLiftAngle (0 where there is none). */
  readonly lift: DeckTable;
  /** mach and, if Reynolds number matters, an altitude; zeroLiftDrag. */
  readonly drag: DeckTable;
  /** mach, centreOfGravity; trimFactor, what is added to CD over CL^2. */
  readonly trim: DeckTable | null;
  /** mach; warningAngle, pushAngle. */
  readonly stall: DeckTable | null;
  readonly wash: { readonly increment: number; readonly spread: number } | null;
}

export interface SettingData {
  readonly name: string;
  /** Whether the engine runs anywhere between this setting and the next. */
  readonly continuousAbove: boolean;
}

export interface PropulsionData {
  /** mach, an altitude, temperatureOffset (optional), setting; thrust, fuelFlow and scheduled positions. */
  readonly table: DeckTable;
  readonly settings: readonly SettingData[];
  readonly military: string;
  readonly minimumAfterburner: string | null;
  readonly descent: string;
  readonly lightUp: LightUp | null;
  readonly engines: readonly { readonly name: string; readonly armM: number }[];
}

/** A column of the table of propulsion (of an engine) or of the inlet (of a side) that says where a part stands. */
export interface ScheduleData {
  readonly key: string;
  readonly name: string;
  readonly of: 'engine' | 'side';
  readonly column: string;
  readonly quantity: string;
  /** Mach at which it begins to move; null where the column says it. */
  readonly startMach: number | null;
}

/** A number, or a column of a table over what the bound depends on. */
export type BoundData = number | { readonly table: DeckTable; readonly column: string };

export interface LimitData {
  readonly key: string;
  readonly name: string;
  /** What is bounded, one of `boundedQuantities`. */
  readonly of: string;
  readonly side: 'upper' | 'lower';
  readonly bound: BoundData;
  /** Bound while rolling, where it differs. */
  readonly rolling: BoundData | null;
  readonly spread: number;
}

/** A point of flight that the deck's maker states: level, unaccelerated, at the power named. */
export interface DesignPoint {
  readonly name: string;
  readonly mach: number;
  readonly pressureAltitudeM: number;
  readonly temperatureOffsetK: number;
  readonly massKg: number;
  /** Setting of each engine, by name; thrust at them is the most there is. */
  readonly settings: readonly string[];
  readonly inWash: boolean;
  /** (greatest thrust at the settings - drag)/weight as stated, and how far off it may be. */
  readonly excess: number;
  readonly within: number;
}

/** A failure as the deck writes it: engines and setting as they are where it does not say. */
export interface FailureData extends Omit<FailureCase, 'enginesLeft' | 'greatestPower'> {
  readonly enginesLeft: number | null;
  readonly greatestPower: string | null;
}

export interface Deck {
  /** The deck's main file. */
  readonly file: string;
  readonly identity: DeckIdentity;
  readonly crew: number | null;
  readonly supersededBy: string | null;
  readonly wing: Wing;
  readonly masses: readonly MassItem[];
  readonly tanks: readonly Tank[];
  readonly transfers: readonly TransferData[];
  readonly dump: Dump | null;
  readonly failures: readonly FailureData[];
  readonly unstart: Unstart | null;
  readonly descentRules: readonly DescentRule<string>[];
  readonly cabin: Cabin | null;
  readonly fuel: FuelGrade | null;
  readonly aerodynamics: AerodynamicsData;
  readonly propulsion: PropulsionData;
  /** mach; recovery, scheduled positions. */
  readonly inlet: DeckTable | null;
  /** mach, positionError; thrustRatio, fuelFlowRatio, dragIncrement, shockMargin; `schedule` is the key of one of a side. */
  readonly inletError: { readonly schedule: string; readonly table: DeckTable } | null;
  /** mach; momentSlope, limit; moments are on wing area and span. */
  readonly rudder: { readonly table: DeckTable; readonly spanM: number } | null;
  readonly schedules: readonly ScheduleData[];
  readonly checks: readonly CheckRule[];
  readonly limits: readonly LimitData[];
  readonly rates: {
    readonly onsetPerS: number;
    readonly rollRadPerS: number;
    readonly angleOfAttackLagS: number;
    readonly warningLeadS: number;
  };
  readonly pusher: Pusher | null;
  readonly gauges: {
    readonly inletTemperatureRecovery: number;
    readonly inletTemperatureLagS: number;
    readonly units: Readonly<Record<string, string>>;
  };
  /** mass, pressureAltitude, temperatureOffset; groundRoll, time, fuel, liftOffSpeed. */
  readonly takeOff: DeckTable | null;
  readonly ground: Ground | null;
  readonly landing: {
    readonly approach: DeckTable;
    readonly groundRoll: DeckTable;
    readonly maximumMassKg: number | null;
  } | null;
  readonly designPoints: readonly DesignPoint[];
  readonly references: readonly string[];
  /** Where a path of the main file stands. */
  place(path: readonly PropertyKey[]): Place;
}
