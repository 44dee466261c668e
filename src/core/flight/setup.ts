import type { Day } from '../air/day.ts';
import type { Aircraft } from '../aircraft/aircraft.ts';
import type { EarthModel } from './earth-model.ts';

/** What may differ from the deck: a tail's own factors, a draw of risk, a failure. */
export interface Variation {
  /** Multiplies the whole drag. */
  readonly dragFactor: number;
  /** Multiplies the fuel flow. */
  readonly fuelFlowFactor: number;
  /** Multiplies the thrust at a power; the fuel flow at that power stays. */
  readonly thrustFactor: number;
  /** Added to the drag coefficient at zero lift. */
  readonly dragIncrement: number;
  /** Against the motion wherever it goes, in turns too, beside the wind of the day; negative helps. [m/s] */
  readonly headwindMS: number;
  /** How many of the engines run. */
  readonly runningEngines: number;
  /** Fuel lost beside what the engines burn [kg/s]. */
  readonly leakKgS: number;
}

/** Tolerance of the integration, for each step: absolute part by quantity and a relative part common to all. */
export interface Tolerance {
  readonly relative: number;
  readonly distanceM: number;
  readonly altitudeM: number;
  readonly speedMS: number;
  readonly angleRad: number;
  readonly massKg: number;
  /** How near the end of a phase is found; default: as near as numbers go. */
  readonly eventTimeS?: number;
}

/** Fuel of a leg right to about 5 kg; most of that is where a table of the deck or a start-down turns a corner. */
export const ENGINEERING: Tolerance = {
  relative: 1e-7,
  distanceM: 5,
  altitudeM: 0.5,
  speedMS: 0.01,
  angleRad: 1e-5,
  massKg: 0.05,
};

/** For comparison with published values. */
export const EXACT: Tolerance = {
  relative: 1e-11,
  distanceM: 1e-4,
  altitudeM: 1e-6,
  speedMS: 1e-8,
  angleRad: 1e-11,
  massKg: 1e-6,
};

export interface FlightSetup {
  readonly aircraft: Aircraft;
  readonly day: Day;
  readonly earth: EarthModel;
  readonly tolerance: Tolerance;
  /** Mass without any fuel: empty, crew, payload. Fuel on board is mass less this. */
  readonly zeroFuelMassKg: number;
  readonly variation?: Partial<Variation>;
}
