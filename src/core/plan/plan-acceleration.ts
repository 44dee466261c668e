/** What a plan tells of the way through the drag rise: its pushovers and the pitch of its climbs. */

export interface PushoverTable {
  readonly leg: number;
  /** Of the leg. */
  readonly name: string;
  /** When the push begins. */
  readonly timeS: number;
  readonly durationS: number;
  readonly fuelKg: number;
  readonly push: PushoverPoint;
  readonly pull: PushoverPoint;
  readonly bottom: PushoverPoint;
  readonly pushLoadFactor: number;
  readonly pathAngleDeg: number;
  readonly pullLoadFactor: number;
  /** Of load factor, building up. */
  readonly onsetPerS: number;
  /**
   * Equivalent airspeed at which the pull has to begin at any height, so that no greatest airspeed (with its pad) is passed before
   * the path is level; null without such a limit.
   */
  readonly latestPullMS: number | null;
  /** Least equivalent airspeed at which the pull keeps every limit of angle of attack where it begins; null without such a limit. */
  readonly slowestPullMS: number | null;
  readonly instead: LevelInstead;
}

export interface PushoverPoint {
  readonly pressureAltitudeM: number;
  readonly mach: number;
  readonly equivalentAirspeedMS: number;
}

/** The same aircraft from the same state to a Mach on the climb's schedule: as flown, and level at the height of the push. */
export interface LevelInstead {
  readonly mach: number;
  readonly pressureAltitudeM: number;
  /** null where the Mach is not reached. */
  readonly fuelKg: number | null;
  readonly levelFuelKg: number | null;
  /** Why there is no fuel level; null where there is. */
  readonly levelRefused: string | null;
}

/** The pitch to hold in each stretch of a supersonic climb. */
export interface PitchTable {
  readonly leg: number;
  readonly name: string;
  /** A stretch is made shorter until the speed drifts by no more than this. */
  readonly driftMS: number;
  readonly rows: readonly PitchRow[];
}

/** From the climb's schedule at one Mach, the pitch held to another. */
export interface PitchRow {
  readonly fromMach: number;
  readonly toMach: number;
  /** Path angle and angle of attack together. */
  readonly pitchDeg: number;
  readonly angleOfAttackDeg: number;
  /** Since take-off, and since the clock of the climb card. */
  readonly timeS: number;
  readonly sinceStartS: number;
  readonly durationS: number;
  readonly fromPressureAltitudeM: number;
  readonly toPressureAltitudeM: number;
  /** Equivalent airspeed less the schedule's at the same Mach: the least and the greatest on the way. */
  readonly slowestMS: number;
  readonly fastestMS: number;
  /** Pressure altitude less the schedule's at the same time: the most on the way, with its sign. */
  readonly highM: number;
}
