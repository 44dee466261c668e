/**
 * The aircraft as its deck describes it, compiled for flying.
 *
 * Conventions: SI, kelvin, radians; forces are those of the whole aircraft unless a name says engine; arms are metres
 * aft of the deck's datum; lift is normal to the airspeed, drag along it; angle of attack is that of the body axis,
 * along which thrust acts.
 */
import type { Cabin, DescentRule } from './descent.ts';
import type { FailureCase, Unstart } from './failures.ts';

/** The lift and drag of an aircraft at one Mach, height and CG: CL = liftSlope (alpha - zeroLiftAngle), CD = zeroLiftDrag + inducedFactor CL^2. */
export interface AeroPoint {
  liftSlope: number;
  zeroLiftAngleRad: number;
  zeroLiftDrag: number;
  /** Drag due to lift and to trim at the CG of the moment. */
  inducedFactor: number;
  /** Not 0 where a table was left. */
  outside: number;
}

export interface Aerodynamics {
  readonly wingAreaM2: number;
  /** The heights of the tables are pressure or geometric altitudes as the deck says, so both are given. */
  at(
    mach: number,
    pressureAltitudeM: number,
    geometricHeightM: number,
    cgFraction: number,
    out: AeroPoint,
  ): void;
  /** Increment of zero-lift drag in a tanker's wash, with its spread (one standard deviation); null where the deck has none. */
  readonly washDrag: { readonly increment: number; readonly spread: number } | null;
  /** Angle of attack at which the warning sounds and the pusher acts, against Mach; null where the deck has none. */
  warningAngleRad(mach: number): number | null;
  pushAngleRad(mach: number): number | null;
}

/**
 * Power is a number on the ladder of the deck's settings: 0 is the first (idle), 1 the second, and so on; a fraction is
 * linear between two neighbours where the engine is continuous there. `names` lists them, `continuousAbove[i]` says
 * whether the engine runs anywhere between settings i and i+1.
 */
export interface Propulsion {
  readonly names: readonly string[];
  readonly continuousAbove: readonly boolean[];
  readonly military: number;
  readonly minimumAfterburner: number | null;
  readonly maximum: number;
  /** Lowest setting allowed in a supersonic descent. */
  readonly descent: number;
  /** null: the deck does not say how an afterburner lights. */
  readonly lightUp: LightUp | null;
  /** Arms of the engines to the right of the centre line. */
  readonly engines: readonly { readonly name: string; readonly armM: number }[];
  /** Net thrust and fuel flow of one engine. */
  at(
    power: number,
    mach: number,
    pressureAltitudeM: number,
    geometricHeightM: number,
    temperatureOffsetK: number,
    out: EnginePoint,
  ): void;
  /**
   * The power of one engine that gives a thrust, and what it burns. Between settings where the engine does not run the
   * next higher is used. `out.power` is NaN where even the greatest thrust is less.
   */
  powerFor(
    thrustN: number,
    mach: number,
    pressureAltitudeM: number,
    geometricHeightM: number,
    temperatureOffsetK: number,
    out: EnginePoint,
  ): void;
}

/** How an afterburner lights: thrust steps from military to its minimum so long after it was selected. */
export interface LightUp {
  readonly lagS: number;
  /** One standard deviation of the lag; by twice that after it, it has failed to light. */
  readonly spreadS: number;
  /** Time constant of a dry engine whose throttle is moved. */
  readonly spoolS: number;
  /** From what the crew feels, or misses, to a throttle moved. */
  readonly reactionS: number;
}

/** What the rudder holds, both ways alike. */
export interface Rudder {
  /** Yawing moment for each radian of rudder [N m/rad]. */
  momentPerRad(mach: number, dynamicPressurePa: number): number;
  limitRad(mach: number): number;
}

export interface EnginePoint {
  thrustN: number;
  fuelFlowKgS: number;
  power: number;
  outside: number;
}

export interface TankHeld {
  readonly name: string;
  readonly capacityKg: number;
  readonly unusableKg: number;
  /** 1 is emptied first and filled last. */
  readonly order: number;
}

/** Fuel that is moved from one tank to another as Mach rises and back as it falls; tanks by their place in the deck. */
export interface Transfer {
  readonly from: number;
  readonly to: number;
  /** All of it at `endsMach`, none at `beginsMach`, in proportion between. */
  readonly massKg: number;
  readonly beginsMach: number;
  readonly endsMach: number;
  /** Of the pump; null where the deck states none. */
  readonly rateKgS: number | null;
}

/** Fuel overboard: so much a second, down to what the standpipes leave. */
export interface Dump {
  readonly rateKgS: number;
  readonly leastKg: number;
}

export interface Balance {
  /** All but fuel: the empty aircraft, its crew, its payload. */
  readonly emptyMassKg: number;
  /** All fuel, with what cannot be used: by mass, and by volume where the density of the fuel is told. */
  readonly fuelCapacityKg: number;
  readonly unusableFuelKg: number;
  /**
   * Centre of gravity as a fraction of the mean chord with the tanks filled and emptied in the deck's order, and with what is
   * transferred at the Mach; without one, nothing is. NaN where the deck has no arms.
   */
  cgFraction(fuelKg: number, mach?: number): number;
  /** In the deck's order; the capacity is by mass, or what the volume holds where the density is told. */
  readonly tanks: readonly TankHeld[];
  readonly transfers: readonly Transfer[];
  /** Fuel in each tank [kg] into `out`, one place a tank: the sum is the fuel on board, from 0 to full. */
  fillTanks(fuelKg: number, mach: number, out: Float64Array): void;
  /** Centre of gravity with so much in each tank [kg], one place a tank; NaN where the deck has no arms. */
  cgOfTanks(heldKg: ArrayLike<number>): number;
  /** Fuel on board, from 0 to full, where another tank begins to fill: between two of them the moment is linear. */
  readonly corners: Float64Array;
  /** What may be filled of all tanks together [m3], the room for expansion left; null where the deck has no volumes. */
  readonly volumeM3: number | null;
  /** The same tanks with fuel of a density [kg/m3]: each holds its capacity by mass, or what its volume holds of it. */
  heldAt(densityKgM3: number): Balance;
}

/** The fuel that the aircraft is made for; densities at 15 degC. */
export interface FuelGrade {
  readonly name: string;
  /** Usual, and the range that the grade allows. */
  readonly densityKgM3: number;
  readonly lightestKgM3: number;
  readonly heaviestKgM3: number;
  /** Other grades that it may burn, by name. */
  readonly alsoBurns: readonly string[];
}

/** What a limit is read against; the flight fills it once for each moment, and every limit reads its own part. */
export interface LimitInputs {
  mach: number;
  pressureAltitudeM: number;
  equivalentAirspeedMS: number;
  calibratedAirspeedMS: number;
  staticTemperatureK: number;
  /** As the gauge reads it: with probe recovery. */
  indicatedInletTemperatureK: number;
  angleOfAttackRad: number;
  /** Angle of attack with the lead of the warning: alpha + tau alpha-rate. */
  ledAngleOfAttackRad: number;
  loadFactor: number;
  bankRad: number;
  /** Rate of roll; absent or 0 is not rolling. */
  rollRateRadS?: number;
  fuelKg: number;
  massKg: number;
  cgFraction: number;
  time: number;
}

/** A named, signed margin: positive inside. Stall and structure are never merged. */
export interface Limit {
  /** Key such as 'inletTemperature', unique in the deck. */
  readonly key: string;
  /** "Inlet temperature". */
  readonly name: string;
  /** Key of the quantity it bounds, in the table of quantities; gives unit and symbol. */
  readonly quantity: string;
  readonly side: 'upper' | 'lower';
  /** One standard deviation of the limit as the deck states it, in the quantity's SI unit; 0 where unstated. */
  readonly spread: number;
  /** What is bounded, as read: the quantity's value at this moment. */
  value(at: LimitInputs): number;
  /** The bound at this moment (a table over what it depends on). */
  bound(at: LimitInputs): number;
  /** Where it stands in the deck: file and line. */
  readonly source: string;
}

/** A table of the deck that gives ground roll, time and fuel of a take-off. */
export interface TakeOff {
  /** distance [m], time [s], fuel [kg], speed at lift-off [m/s TAS] against mass, pressure altitude, temperature offset. */
  at(massKg: number, pressureAltitudeM: number, temperatureOffsetK: number, out: TakeOffPoint): void;
}

export interface TakeOffPoint {
  groundRollM: number;
  timeS: number;
  fuelKg: number;
  liftOffSpeedMS: number;
  outside: number;
}

/** The aircraft on its wheels: drag coefficients are added to those of flight, on the wing's area. */
export interface Ground {
  readonly angleOfAttackRad: number;
  /** Of the gear, and of flaps as set for take-off. */
  readonly gearDrag: number;
  /** Of what comes out with the brakes, such as a parachute. */
  readonly brakingDrag: number;
  /** Of an engine that has stopped and of holding the nose straight against the others. */
  readonly engineOutDrag: number;
  readonly rollingFriction: number;
  readonly brakingFriction: { readonly dry: number; readonly wet: number };
  /** From the failure of an engine to full braking and idle thrust. */
  readonly reactionS: number;
  /** Speed of the climb-out over that of lift-off. */
  readonly climbOutRatio: number;
  /** Least calibrated airspeed at which the rudder holds the aircraft on the runway with an engine lost; null: not stated. */
  readonly minimumControlSpeedMS: number | null;
  /** Greatest ground speed of the tyres; null: not stated. */
  readonly tyreSpeedMS: number | null;
  /** Greatest work of the wheel brakes in one stop; null: not stated. */
  readonly brakeEnergyJ: number | null;
}

export interface Landing {
  /** Greatest mass on landing; null: not stated. */
  readonly maximumMassKg: number | null;
  approachSpeedMS(massKg: number): number;
  groundRollM(massKg: number, pressureAltitudeM: number, temperatureOffsetK: number): number;
}

export interface Rates {
  /** Build-up of load factor, 1/s; infinite where the deck has no rates. */
  readonly onsetPerS: number;
  /** Infinite where the deck has no rates. */
  readonly rollRadPerS: number;
  /** First-order lag of angle of attack; 0 is none. */
  readonly angleOfAttackLagS: number;
  /** Lead of the stall warning. */
  readonly warningLeadS: number;
}

/** What the stick pusher does, once the angle of attack is that at which it acts. */
export interface Pusher {
  /** To which it lowers the load factor, and for how long it holds that before the crew can pull. */
  readonly loadFactor: number;
  readonly holdS: number;
}

export interface Gauges {
  /** Recovery factor of the inlet-temperature probe: T = Ts + r (Tt - Ts). */
  readonly inletTemperatureRecovery: number;
  /** Time constant of the gauge behind its probe, first order; 0 is none. */
  readonly inletTemperatureLagS: number;
  /** Units in which the aircraft's own gauges read, by quantity key, such as { inletTemperature: 'degC', fuel: 'kg' }. */
  readonly units: Readonly<Record<string, string>>;
}

/** A position that the aircraft sets by itself. */
export interface Schedule {
  readonly key: string;
  readonly name: string;
  /** Key of the quantity that is read. */
  readonly quantity: string;
  /** Of each engine by itself, or of the inlet on each side. */
  readonly of: 'engine' | 'side';
  /** Mach at which an inlet's part begins to move; null for one that never does, and for an engine's. */
  readonly startMach: number | null;
  /** In SI at a power on the ladder of settings; an inlet's part reads Mach only. NaN outside its table. */
  at(
    power: number,
    mach: number,
    pressureAltitudeM: number,
    geometricHeightM: number,
    temperatureOffsetK: number,
  ): number;
}

/** What an inlet's moving part beside its schedule does: by Mach and by position less schedule. */
export interface InletError {
  /** Key of the schedule from which the error counts. */
  readonly schedule: string;
  /** Range of the table. */
  readonly leastRad: number;
  readonly mostRad: number;
  /** Beyond the table its ends hold. */
  at(mach: number, errorRad: number, out: InletErrorPoint): void;
}

export interface InletErrorPoint {
  /** Net thrust and fuel flow at a power over those on schedule. */
  thrustRatio: number;
  fuelFlowRatio: number;
  /** Added to CD without lift with every inlet off by as much. */
  dragIncrement: number;
  /** Angle left until the shock is expelled; negative where it is. */
  shockMarginRad: number;
}

/** The moments of a climb from a tanker at which a crew checks that everything is on schedule, in the usual order. */
export const CHECK_MOMENTS = ['disconnect', 'burner', 'dragRise', 'inletStart', 'gate', 'levelOff'] as const;
export type CheckMomentKind = (typeof CHECK_MOMENTS)[number];

/** How near a reading has to be to what is expected, and what to do where it is not. */
export interface CheckRule {
  /** What is read: one of `usualChecks` or the key of a schedule. */
  readonly of: string;
  /** The moment it is for; null is every one. */
  readonly at: CheckMomentKind | null;
  /** In the SI unit of what is read, or as a part of what is expected; null where it is left to another rule. */
  readonly within: { readonly value: number; readonly partOfExpected: boolean } | null;
  readonly action: string | null;
}

export interface DeckIdentity {
  readonly name: string;
  readonly edition: string;
  readonly basis: 'notional' | 'measured';
  readonly source: string;
  readonly tails: readonly string[];
}

export interface Aircraft {
  readonly identity: DeckIdentity;
  readonly aerodynamics: Aerodynamics;
  readonly propulsion: Propulsion;
  /** null: the deck has none, and no rudder is worked out. */
  readonly rudder: Rudder | null;
  readonly balance: Balance;
  /** null: the deck has none, and no density of the day is worked out. */
  readonly fuel: FuelGrade | null;
  readonly limits: readonly Limit[];
  readonly rates: Rates;
  /** null: the deck does not say what its pusher does. */
  readonly pusher: Pusher | null;
  readonly gauges: Gauges;
  /** null: the deck has none, and what depends on it reads "not computed: the deck has no ...". */
  readonly takeOff: TakeOff | null;
  readonly ground: Ground | null;
  readonly landing: Landing | null;
  /** null: the deck has none, or fuel cannot be dumped. */
  readonly dump: Dump | null;
  /** None where the deck has none. */
  readonly failures: readonly FailureCase[];
  /** null: the deck does not say what the loss of an inlet's started state does. */
  readonly unstart: Unstart | null;
  /** The engines' own floor above Mach 1 is `propulsion.descent`; none beside it where the deck has none. */
  readonly descentRules: readonly DescentRule[];
  /** null: the deck does not say how its cabin follows its height. */
  readonly cabin: Cabin | null;
  /** None where the deck has no scheduled positions. */
  readonly schedules: readonly Schedule[];
  /** null: the deck has no table of an inlet off its schedule. */
  readonly inletError: InletError | null;
  readonly checks: readonly CheckRule[];
  /** Ranges of the tables in words, by table. */
  readonly covers: readonly string[];
}
