/** The trace of a plan, its phases and events. */

/** Columns of equal length. Keys of the margin columns are the limits' keys. */
export interface Trace {
  readonly columns: Readonly<Record<TraceColumn, readonly number[]>>;
  /** Signed margin of each limit, positive inside, in the SI unit of its quantity, angles in degrees. */
  readonly margins: Readonly<Record<string, readonly number[]>>;
  /** The bound of each limit at each node, in the same unit. */
  readonly bounds: Readonly<Record<string, readonly number[]>>;
  /** Margin less pad of each limit on the one scale by which limits are put in order, see `LimitSummary.closeness`. */
  readonly closeness: Readonly<Record<string, readonly number[]>>;
  /** Index into `phases` of each node. */
  readonly phase: readonly number[];
  /** For each node the key of the limit that is next. */
  readonly next: readonly string[];
}

export const TRACE_COLUMNS = [
  'timeS',
  'distanceM',
  'latitudeDeg',
  'longitudeDeg',
  'courseDeg',
  'pressureAltitudeM',
  'geometricHeightM',
  'energyHeightM',
  'mach',
  'trueAirspeedMS',
  'equivalentAirspeedMS',
  'calibratedAirspeedMS',
  'groundSpeedMS',
  'temperatureK',
  'temperatureOffsetK',
  'inletTemperatureK',
  'windAlongMS',
  'windAcrossMS',
  'massKg',
  'fuelKg',
  'fuelRequiredKg',
  'fuelAtEqualEnergyKg',
  'fuelFlowKgS',
  'power',
  'thrustN',
  'dragN',
  'angleOfAttackDeg',
  'loadFactor',
  'bankDeg',
  'cgFraction',
  'climbRateMS',
] as const;

export type TraceColumn = (typeof TRACE_COLUMNS)[number];

export interface PlanPhase {
  /** 'take-off', 'climb', 'contact', 'pushover', 'level-off', 'cruise', 'turn', 'deceleration', 'descent', 'landing' ... */
  readonly kind: string;
  /** "Climb at 430 KEAS", "Contact with Ewer One". */
  readonly name: string;
  /** Leg between contacts, from 0. */
  readonly leg: number;
  readonly startS: number;
  readonly endS: number;
  readonly distanceM: number;
  readonly fuelKg: number;
}

export interface PlanEvent {
  readonly timeS: number;
  /** 'gate', 'contact', 'disconnect', 'limit', 'waypoint', 'start-down', 'slow-down', 'level-off', 'take-off', 'landing'. */
  readonly kind: string;
  readonly name: string;
  readonly fuelKg: number;
}
