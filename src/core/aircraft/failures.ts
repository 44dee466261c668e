/** What a deck says of its aircraft after a failure: how it is flown then, and what that costs. */

/** The failures of a deck, in the order in which they are told; `none` is the whole aircraft, turned away from its plan. */
export const FAILURE_KEYS = ['none', 'oneEngine', 'inletNotStarted', 'noAfterburner', 'noCabin'] as const;
export type FailureKey = (typeof FAILURE_KEYS)[number];

/** How the aircraft flies to where it can still go after a failure. */
export interface FailureCase {
  readonly key: FailureKey;
  /** "One engine stopped". */
  readonly name: string;
  /** Added to the drag coefficient at zero lift, and one standard deviation of it. */
  readonly dragIncrement: number;
  readonly dragSpread: number;
  /** Engines that still run. */
  readonly enginesLeft: number;
  /** Greatest setting on the deck's ladder. */
  readonly greatestPower: number;
  readonly thrustFactor: number;
  readonly fuelFlowFactor: number;
  /** Of the cruise. */
  readonly mach: number;
  /** Falling; of those that can be held the one with the most range for its fuel is flown. */
  readonly pressureAltitudesM: readonly number[];
  readonly bankRad: number;
  readonly climbCalibratedAirspeedMS: number;
  readonly descentEquivalentAirspeedMS: number;
  /** Whether the aircraft can still take fuel. */
  readonly refuels: boolean;
  readonly source: string;
}

/** The loss of an inlet's started state, and what it takes to start it again. */
export interface Unstart {
  /** It happens above this Mach. */
  readonly fromMach: number;
  /** Of the thrust and the fuel flow of the engine on that side, what is left. */
  readonly thrustLeft: number;
  /** Added to the drag coefficient at zero lift: of the spilling inlet, with its arm from the centre line, and one standard deviation. */
  readonly dragIncrement: number;
  readonly dragSpread: number;
  readonly armM: number;
  /** The inlet starts again at this Mach or below, at this pressure altitude or below, after this time there. */
  readonly restartMach: number;
  readonly restartPressureAltitudeM: number;
  readonly restartS: number;
  readonly source: string;
}
