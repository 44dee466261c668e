/**
 * What may be pulled, how slow, and what a push costs. Load factors are lift over weight, so that a level turn at a bank has
 * 1/cos(bank), on the safe side of the little that thrust carries.
 */

/** Load factors at one speed, each bound by itself; null where the deck has none of it or its tables end. */
export interface LoadFactorBounds {
  /** Where the stall warning sounds in steady flight, and where the pusher acts. */
  readonly warning: number | null;
  readonly push: number | null;
  /** What the structure takes without and with a rate of roll. */
  readonly symmetric: number | null;
  readonly rolling: number | null;
  /** What the sortie holds the crew to. */
  readonly held: number | null;
  /** At which drag is all the thrust there is; 0 where it is more at no lift. */
  readonly sustained: number | null;
}

/** One speed in the languages of the gauges. */
export interface GaugeSpeeds {
  readonly mach: number;
  readonly calibratedAirspeedMS: number;
  readonly equivalentAirspeedMS: number;
}

/** Least speeds for one load factor; null where none is fast enough inside the tables. */
export interface LeastSpeeds {
  readonly named: 'level' | 'loadFactor' | 'bank';
  readonly loadFactor: number;
  /** Of the level turn with that load factor. */
  readonly bankDeg: number;
  readonly warning: GaugeSpeeds | null;
  /** Without warning while it is entered: pulled at the deck's onset, a bank rolled into at its rate of roll. */
  readonly entered: GaugeSpeeds | null;
  readonly push: GaugeSpeeds | null;
}

/** A push out of level flight at a bank and the recovery from it, wings levelled at the deck's rate. */
export interface PushRecovery {
  readonly bankDeg: number;
  /** At which the push comes. */
  readonly from: GaugeSpeeds;
  /** Until level again; null where that takes more than two minutes or leaves the tables of the deck. */
  readonly lostM: number | null;
  /** Above the ground: with the clearance that the sortie asks for. */
  readonly leastHeightM: number | null;
  readonly timeS: number;
  readonly steepestDeg: number;
}

/** What the sortie asks of manoeuvres, beside the limits of the deck. */
export interface PlanManoeuvreRules {
  /** Kept between the bottom of a recovery from a push and the ground. */
  readonly clearanceM: number;
  /** Load factors that are not passed from so much fuel on, and who says so. */
  readonly heldTo: readonly {
    readonly fromFuelKg: number;
    readonly loadFactor: number;
    readonly source: string;
  }[];
}

export interface ManoeuvreRow {
  readonly fuelKg: number;
  readonly massKg: number;
  readonly cgFraction: number;
  readonly bounds: LoadFactorBounds;
  readonly speeds: readonly LeastSpeeds[];
  /** Wings level and at the steepest bank that the sortie names, at a disconnect; none elsewhere, and where neither deck nor sortie says what the pusher does. */
  readonly pushes: readonly PushRecovery[];
}

/** Load factors against speed, from where the pusher acts in level flight to a limit of speed. */
export interface ManoeuvreEnvelope {
  readonly fuelKg: number;
  /** The limit of the deck that ends it; null where its tables do. */
  readonly endedBy: string | null;
  /** By rising speed, evenly in Mach. */
  readonly points: readonly { readonly at: GaugeSpeeds; readonly bounds: LoadFactorBounds }[];
  /** Pulled at any slower speed, the warning comes before that bound; left out where it does to the end, or nowhere. */
  readonly warnedUpTo: readonly WarnedUpTo[];
}

/** Where the warning and another bound are met at one load factor. */
export interface WarnedUpTo {
  readonly bound: 'symmetric' | 'rolling' | 'held';
  readonly at: GaugeSpeeds;
  readonly loadFactor: number;
}

/** What a push costs low over a base, begun as high as the costliest needs. */
export interface LowPushes {
  readonly base: string;
  /** Above sea level. */
  readonly groundM: number;
  readonly pressureAltitudeM: number;
  readonly temperatureOffsetK: number;
  /** From full tanks down; wings level, then each bank that the sortie names. */
  readonly rows: readonly {
    readonly fuelKg: number;
    readonly massKg: number;
    readonly pushes: readonly PushRecovery[];
  }[];
}

/** By fuel on board, at one height and speed. */
export interface ManoeuvreTable {
  /** The leg that begins with it. */
  readonly leg: number;
  /** "after Ewer One". */
  readonly name: string;
  readonly pressureAltitudeM: number;
  readonly temperatureOffsetK: number;
  /** At which the bounds stand. */
  readonly at: GaugeSpeeds;
  /** How much earlier in load factor the warning sounds while the deck's onset lasts. */
  readonly leadLoadFactor: number;
  /** With the fuel of the first row; null where the deck has no stall table. */
  readonly envelope: ManoeuvreEnvelope | null;
  readonly rows: readonly ManoeuvreRow[];
}

/** A turn that was flown, judged where it comes nearest to the stall warning; without stall table where it pulls most. */
export interface JudgedTurn {
  readonly nearest: {
    /** Since take-off. */
    readonly timeS: number;
    readonly loadFactor: number;
    readonly bounds: LoadFactorBounds;
  };
}
