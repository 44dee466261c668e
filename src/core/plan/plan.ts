/**
 * The plan file: the whole trace and every number that a chart or a card shows. Charts, cards, airborne and review read it and
 * compute nothing twice.
 *
 * Keys carry their SI unit; angles are degrees; times are ISO 8601 in UTC at the top and seconds since take-off in the trace.
 * Arrays of the trace have one entry for each node, in time order; between nodes every column is linear to the accuracy
 * of the chart. `null` means "not computed", and the reason stands beside it or in `notComputed`.
 */

import type { DayGap } from '../air/day.ts';
import type { CheckMomentKind } from '../aircraft/aircraft.ts';
import type { Light } from '../earth/light.ts';
import type { Compass } from '../earth/magnetic.ts';
import type { PushoverSolution, TurnSolution } from '../phases/index.ts';

export const PLAN_FORMAT = 'ramrise-plan';
export const PLAN_VERSION = 1;

export const CAUTION =
  "Planning aid, not approved data. The approved flight manual, the operating authority and the crew's judgement govern.";

export interface Plan {
  readonly format: typeof PLAN_FORMAT;
  readonly version: typeof PLAN_VERSION;
  /** Name and version of the program that wrote the file. */
  readonly program: string;
  /** Six letters and digits of a hash of all inputs and of the program's version. */
  readonly fingerprint: string;
  readonly inputs: readonly PlanInput[];
  readonly caution: string;
  readonly title: string;
  /** True where the sortie says that its places and data are invented. */
  readonly invented: boolean;
  readonly aircraft: PlanAircraft;
  /** Take-off as planned, ISO 8601. */
  readonly takeOff: string;
  /** The plan holds for take-offs from the first to the second, ISO 8601. */
  readonly validity: { readonly from: string; readonly to: string };
  readonly weather: PlanWeather;
  /** null outside the years of the magnetic models. */
  readonly magnetic: PlanMagnetic | null;
  /** null outside the years of the almanac's formulas. */
  readonly light: PlanLight | null;
  readonly body: PlanBody;
  /** null where the deck has no volumes or the sortie no temperature of the fuel. */
  readonly fuelToday: FuelToday | null;
  readonly flyable: boolean;
  /** Why it cannot be flown and one change that frees it; null where it can. */
  readonly failure: Failure | null;
  readonly trace: Trace;
  /** null where nothing was flown. */
  readonly section: Section | null;
  readonly phases: readonly PlanPhase[];
  readonly events: readonly (PlanEvent & EventLight)[];
  readonly refuellings: readonly (Refuelling & RefuellingAsked)[];
  readonly takeOffData: TakeOffData;
  /** At the end of the sortie, then in the worst case of each contact; those that the deck has data for. */
  readonly landings: readonly LandingData[];
  /** One for each refuelling, in order. */
  readonly rendezvous: readonly Rendezvous[];
  /** One table for each climb to cruise, in order. */
  readonly climbs: readonly ClimbTable[];
  /** In order of time: what is checked from a contact to the cruise. */
  readonly checks: readonly CheckMoment[];
  readonly altitudeGrids: readonly AltitudeGrid[];
  readonly ladder: readonly LadderRow[];
  /** In order of closeness: smallest part of the limit left first. */
  readonly limits: readonly LimitSummary[];
  /** What a worst case named by the sortie costs from each contact. */
  readonly recoveries: readonly Recovery[];
  readonly turns: readonly TurnFlown[];
  readonly levelOffs: readonly LevelOff[];
  /** Every place that the sortie names, for maps. */
  readonly places: readonly PlanPlace[];
  /** The keep-out areas of the sortie against the track as flown. */
  readonly areas: readonly PlanArea[];
  /** One for each descent from a cruise, in order. */
  readonly startDowns: readonly StartDownTable[];
  /** What a re-flight holds: see refly. */
  readonly decisions: readonly LegDecisions[];
  /** What could not be computed and why: "not computed: the deck has no ...". */
  readonly notComputed: readonly string[];
  /** Derivative evaluations of the whole plan. */
  readonly evaluations: number;
}

export interface PlanInput {
  /** 'sortie', 'deck', 'weather', 'areas'. */
  readonly role: string;
  /** Path as the sortie names it. */
  readonly name: string;
  readonly sha256: string;
}

export interface PlanAircraft {
  readonly name: string;
  readonly edition: string;
  readonly basis: string;
  readonly tail: string;
  readonly emptyMassKg: number;
  readonly fuelCapacityKg: number;
  /** The deck's ladder of power settings, from 0. */
  readonly settings: readonly string[];
  /** Units in which the aircraft's own gauges read, by key of the table of quantities. */
  readonly gaugeUnits: Readonly<Record<string, string>>;
}

export interface PlanWeather {
  readonly title: string;
  /** Time of the analysis or start of the forecast run, ISO 8601; null on a standard or offset day. */
  readonly run: string | null;
  /** What the sortie says the weather stands for, where it is not the weather of its date. */
  readonly standsFor: string | null;
  readonly continuedBy: readonly string[];
  /** How far a temperature offset held beyond the data may be off, for each edge that is held. */
  readonly gaps: readonly WeatherGap[];
  readonly attribution: readonly string[];
}

/** An edge of the weather beyond which its temperature offset was held, and how far the flight went there. */
export interface WeatherGap extends DayGap {
  readonly edgePa: number;
  /** Furthest pressure altitude from the edge that was flown; 0 where the flight stayed within the data. */
  readonly flownBeyondM: number;
  /** Standard deviation of the temperature there; null where the data are too thin to tell. */
  readonly spreadK: number | null;
}

/** Magnetic north of the sortie. */
export interface PlanMagnetic {
  /** "WMM2025", the model of the take-off's date. */
  readonly edition: string;
  /** On the first line from the runway. */
  readonly takeOff: CourseAt;
}

/** One direction over the ground by both norths; magnetic is null outside the years of the model. */
export interface CourseAt {
  readonly courseDeg: number;
  readonly magneticDeg: number | null;
  /** Whether a compass is good there, poor ('caution') or useless ('blackout'). */
  readonly compass: Compass | null;
}

/** What the sortie asks of a refuelling. */
export interface RefuellingAsked {
  /** Of the refuelling track at the contact point. */
  readonly track: CourseAt;
  /** null where it asks for full tanks. */
  readonly askedKg: number | null;
}

export interface PlanLight {
  readonly start: Light;
  /** Every change of the light on the way, in order. */
  readonly changes: readonly PlanLightChange[];
  /** Dip of the horizon at the greatest height of the flight, as it is seen through the air. */
  readonly horizon: {
    readonly timeS: number;
    readonly geometricHeightM: number;
    readonly dipDeg: number;
  };
}

/** The sky at an event; null outside the years of the almanac's formulas. */
export interface EventLight {
  readonly light: Light | null;
  /** Of the sun's centre above the horizontal, without refraction, and its true bearing. */
  readonly sunElevationDeg: number | null;
  readonly sunBearingDeg: number | null;
}

/** What the pressure outside would do to a body without a suit. */
export interface PlanBody {
  /** Pressure of water vapour at 37 degC, and the pressure altitude of it. */
  readonly boilingPressurePa: number;
  readonly boilingAltitudeM: number;
  /** Time above that altitude, and the least pressure outside on the way. */
  readonly aboveS: number;
  readonly leastPressurePa: number;
}

export interface PlanLightChange {
  readonly timeS: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly geometricHeightM: number;
  readonly from: Light;
  readonly to: Light;
  readonly brighter: boolean;
}

/** The fuel at its temperature of the day: what full tanks hold by mass and by volume. */
export interface FuelToday {
  readonly grade: string;
  readonly temperatureK: number;
  readonly densityKgM3: number;
  readonly density15KgM3: number;
  /** True where the sortie gives a measured density; otherwise it is the deck's for the grade. */
  readonly measured: boolean;
  /** What full tanks hold today: of each tank its capacity by mass, or what its volume holds. */
  readonly fullKg: number;
  /** The same with the lightest and the heaviest fuel of the grade; where the density was measured both are `fullKg`. */
  readonly fullFromKg: number;
  readonly fullToKg: number;
  /** By mass, as the deck states it, and how far today's is short of it, as a part of it. */
  readonly capacityKg: number;
  readonly shortFraction: number;
  /** All tanks to where they are filled, the room for expansion left. */
  readonly tankVolumeM3: number;
  readonly fullVolumeM3: number;
  readonly takeOffKg: number;
  readonly takeOffVolumeM3: number;
}

/** Why the sortie cannot be flown. */
export interface Failure {
  /** Key of the limit, or 'thrust', 'fuel', 'fuelRequired', 'route', 'manoeuvre', 'tankerMach', 'area', 'runway', 'tyreSpeed'. */
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

/** The weather along the track as flown: a column for each time, at the place of that time, a row for each altitude. */
export interface Section {
  readonly timeS: readonly number[];
  readonly pressureAltitudeM: readonly number[];
  /** Of each column the rows upward; null where the weather has no data and is not continued. */
  readonly temperatureOffsetK: readonly (readonly number[])[];
  /** From behind, along the course flown there. */
  readonly windAlongMS: readonly (readonly number[])[];
  /** From the left. */
  readonly windAcrossMS: readonly (readonly number[])[];
  /** First tropopause of each column, pressure altitude; null where there is none between 500 and 50 hPa. */
  readonly tropopauseM: readonly number[];
  /** The range of the weather in words. */
  readonly covers: string;
}

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

export interface Refuelling {
  readonly tanker: string;
  readonly contactS: number;
  readonly disconnectS: number;
  readonly pressureAltitudeM: number;
  readonly calibratedAirspeedMS: number;
  readonly equivalentAirspeedMS: number;
  readonly trueAirspeedMS: number;
  readonly mach: number;
  readonly fuelOnContactKg: number;
  readonly takenKg: number;
  readonly burntKg: number;
  readonly rateKgS: number;
  readonly cgAtContact: number;
  readonly cgAtDisconnect: number;
  /** Least (available - required) / required thrust in contact. */
  readonly leastThrustMargin: number;
  /** Power of each engine at disconnect, on the deck's ladder of settings. */
  readonly enginesAtDisconnect: readonly { readonly name: string; readonly power: number }[];
  /** The mass taken at which the first engine has to go into afterburner; null where none has to. */
  readonly afterburnerFromKg: number | null;
  /** Tanker's fuel for offload left. */
  readonly offloadLeftKg: number;
}

/** What the crews of receiver and tanker have to agree on. */
export interface Rendezvous {
  readonly tanker: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly pressureAltitudeM: number;
  readonly temperatureK: number;
  readonly temperatureOffsetK: number;
  readonly contact: FourSpeeds;
  /** At the same Mach and altitude. */
  readonly trueAirspeedOnStandardDayMS: number;
  /** The tanker's greatest Mach in the other languages. */
  readonly greatest: FourSpeeds;
  readonly groundSpeedMS: number;
  /** Of the refuelling track over the ellipsoid, from contact to disconnect. */
  readonly trackM: number;
  readonly massAtDisconnectKg: number;
}

/** One speed in four languages. */
export interface FourSpeeds {
  readonly calibratedAirspeedMS: number;
  readonly equivalentAirspeedMS: number;
  readonly mach: number;
  readonly trueAirspeedMS: number;
}

/** The take-off of the day: what the runway asks for and gives. Distances are from brake release; null has no end. */
export interface TakeOffData {
  readonly base: string;
  readonly massKg: number;
  readonly pressureAltitudeM: number;
  readonly temperatureK: number;
  readonly temperatureOffsetK: number;
  /** null where the sortie states none: then level and dry, without wind. */
  readonly runway: RunwayToday | null;
  readonly liftOff: RunSpeed;
  /** By the deck's table: level, without wind. */
  readonly tableGroundRunM: number;
  /** null where the deck has no ground data or its tables do not reach the runway. */
  readonly run: TakeOffRun | null;
}

export interface RunwayToday extends CourseAt {
  readonly name: string;
  readonly lengthM: number;
  /** Rise over run, positive uphill. */
  readonly slopeFraction: number;
  readonly condition: 'dry' | 'wet';
  /** Negative is a tailwind. */
  readonly headwindMS: number;
  /** Positive comes from the left. */
  readonly crosswindMS: number;
  /** What distances and ground speeds count: half of a headwind, one and a half of a tailwind. */
  readonly headwindCountedMS: number;
  /** True where the sortie states the wind, false where it is that of the weather. */
  readonly windStated: boolean;
}

/** A landing on its runway, as planned or in a worst case. */
export interface LandingData {
  /** "No contact with Ewer Two"; null for the one that is planned. */
  readonly worstCase: string | null;
  readonly base: string;
  /** Since take-off. */
  readonly timeS: number;
  readonly massKg: number;
  readonly fuelKg: number;
  readonly reserveKg: number;
  readonly pressureAltitudeM: number;
  readonly temperatureK: number;
  readonly temperatureOffsetK: number;
  readonly runway: RunwayToday | null;
  readonly approach: RunSpeed;
  /** By the deck's table: dry, level, without wind, braked as the deck says. */
  readonly tableGroundRunM: number;
  /** Braked at once from the approach speed, all engines at idle; null as that of the take-off. */
  readonly stop: LandingStop | null;
  /** The longer of the two; null has no end. */
  readonly longestM: number | null;
}

export interface LandingStop {
  readonly distanceM: number | null;
  readonly brakeEnergyJ: number;
  readonly brakeEnergyLimitJ: number | null;
  readonly tyreSpeedMS: number | null;
}

/** A speed on the runway. */
export interface RunSpeed extends FourSpeeds {
  readonly groundSpeedMS: number;
}

export interface TakeOffRun {
  readonly groundRunM: number;
  readonly groundRunS: number;
  readonly climbOut: RunSpeed;
  /** Rise over run with an engine lost at the climb-out speed; null where lift or thrust do not carry the weight. */
  readonly climbGradient: { readonly gearDown: number | null; readonly gearUp: number | null };
  /** Where accelerate-stop equals accelerate-go, and that distance. */
  readonly critical: RunSpeed;
  readonly criticalFieldM: number | null;
  /** Least and greatest decision speed and what bounds them: 'runway', 'minimumControlSpeed', 'brakeEnergy', 'liftOff', 'none'. */
  readonly least: RunSpeed;
  readonly leastBy: string;
  readonly greatest: RunSpeed;
  readonly greatestBy: string;
  /** False where the least decision speed is above the greatest: between them the take-off neither stops nor goes on. */
  readonly decisionFits: boolean;
  /** The critical speed or the nearest to it that fits; with what follows from an engine lost there. */
  readonly decision: RunSpeed;
  readonly accelerateGoM: number | null;
  readonly accelerateStopM: number | null;
  /** Refused at the decision speed with all engines running until the crew acts. */
  readonly allEnginesStopM: number | null;
  /** Work of the wheel brakes in that stop, and its limit; null where the deck states none. */
  readonly brakeEnergyJ: number;
  readonly brakeEnergyLimitJ: number | null;
  /** Greatest ground speed of the tyres; null where the deck states none. */
  readonly tyreSpeedMS: number | null;
}

export interface ClimbTable {
  readonly leg: number;
  readonly name: string;
  readonly rows: readonly ClimbRow[];
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

export interface Recovery {
  /** "No contact with Ewer Two". */
  readonly name: string;
  readonly leg: number;
  readonly base: string;
  /** Fuel required at the contact point to land there with the reserve. */
  readonly fuelRequiredKg: number;
  /** Fuel on landing when flown with the fuel on board at contact. */
  readonly fuelOnLandingKg: number;
  readonly distanceM: number;
  readonly timeS: number;
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
