/** The take-off of the day: speeds, stop or go, and the climb with an engine lost, on the runway that the sortie states. */
import { machFromCalibrated } from '../air/airdata.ts';
import { type Air, newAir } from '../air/day.ts';
import { standardPressure } from '../air/standard.ts';
import type { Aircraft, Ground, TakeOffPoint } from '../aircraft/aircraft.ts';
import { normalGravity } from '../earth/gravity.ts';
import {
  accelerateGoM,
  accelerateStop,
  climbOut,
  decide,
  GroundRoll,
  type RunwayConditions,
} from '../phases/index.ts';
import type { North } from './courses.ts';
import type { Draft } from './draft.ts';
import { pressureAltitudeAt } from './ground.ts';
import type { CourseAt, RunSpeed, RunwayToday, TakeOffData, TakeOffRun } from './plan.ts';
import { fourSpeeds } from './rendezvous.ts';
import type { Crew } from './route-flight.ts';
import type { Runway, Sortie } from './sortie.ts';

const degrees = 180 / Math.PI;

/** Parts of the wind along the runway that count, after 14 CFR 25.105(d)(1). */
const partOfHeadwind = 0.5;
const partOfTailwind = 1.5;

/** Where the run begins, and what ends it. */
interface Start {
  readonly on: RunwayConditions;
  readonly temperatureK: number;
  readonly runway: Omit<RunwayToday, keyof CourseAt> | null;
  readonly table: Readonly<TakeOffPoint>;
  /** Ground speed of the lift-off. */
  readonly liftOffMS: number;
}

/** The take-off of a draft, and what of it could not be computed. */
export function takeOffOf(
  { crew }: Draft,
  { read }: North,
): { readonly data: TakeOffData; readonly missing: string[] } {
  const { base } = crew.sortie.takeOff;
  const { aircraft } = crew.flight.setup;
  const { ground } = aircraft;
  const start = startOf(crew);
  const { on, temperatureK, table } = start;
  const runway = start.runway &&
    base.runway && {
      ...start.runway,
      ...read(base.runway.courseRad * degrees, { ...base, geometricHeightM: base.elevationM }),
    };
  const run = ground && runOf(aircraft, ground, start);
  const missing: string[] = [];
  if (!ground) missing.push('decision speed, stopping and climb-out: the deck has no ground data');
  else if (!run)
    missing.push(
      "decision speed, stopping and climb-out: the runway's air is outside the deck's tables of lift, drag or thrust",
    );
  if (!runway) missing.push(`take-off against the runway: the sortie states none at ${base.name}`);
  const data: TakeOffData = {
    base: base.name,
    massKg: on.massKg,
    pressureAltitudeM: on.pressureAltitudeM,
    temperatureK,
    temperatureOffsetK: on.temperatureOffsetK,
    runway,
    liftOff: runSpeed(start.liftOffMS, start),
    tableGroundRunM: table.groundRollM,
    run,
  };
  return { data, missing };
}

/** Why the aircraft cannot leave the runway even with all engines; null where it can or where it is not known. */
export function takeOffFault(crew: Crew): {
  readonly key: 'runway' | 'tyreSpeed';
  readonly excess: number;
} | null {
  const { aircraft } = crew.flight.setup;
  const { ground } = aircraft;
  if (!ground) return null;
  const { on, runway, liftOffMS } = startOf(crew);
  const roll = new GroundRoll(aircraft, ground, on);
  const short = roll.accelerate(0, liftOffMS, roll.engines).distanceM - (runway?.lengthM ?? Infinity);
  if (roll.outside !== 0) return null;
  if (short > 0) return { key: 'runway', excess: short };
  const fast = liftOffMS - (ground.tyreSpeedMS ?? Infinity);
  return fast > 0 ? { key: 'tyreSpeed', excess: fast } : null;
}

function startOf({ sortie, flight }: Crew): Start {
  const { aircraft, day, zeroFuelMassKg } = flight.setup;
  const { base, timeS, wind } = sortie.takeOff;
  const air = newAir();
  const pressureAltitudeM = pressureAltitudeAt(day, base, base.elevationM, timeS);
  day.sample(base.latitudeRad, base.longitudeRad, pressureAltitudeM, timeS, air);
  const massKg = zeroFuelMassKg + sortie.aircraft.fuelKg;
  const table: TakeOffPoint = { groundRollM: 0, timeS: 0, fuelKg: 0, liftOffSpeedMS: 0, outside: 0 };
  aircraft.takeOff?.at(massKg, pressureAltitudeM, air.temperatureOffsetK, table);
  const runway = base.runway && runwayToday(base.runway, wind, air);
  const on: RunwayConditions = {
    massKg,
    cgFraction: aircraft.balance.cgFraction(sortie.aircraft.fuelKg),
    gravityMS2: normalGravity(base.latitudeRad, base.elevationM).down,
    pressureAltitudeM,
    geometricHeightM: base.elevationM,
    temperatureOffsetK: air.temperatureOffsetK,
    densityKgM3: air.densityKgM3,
    speedOfSoundMS: air.speedOfSoundMS,
    headwindMS: runway?.headwindCountedMS ?? 0,
    slopeFraction: runway?.slopeFraction ?? 0,
    condition: runway?.condition ?? 'dry',
  };
  const liftOffMS = table.liftOffSpeedMS - on.headwindMS;
  return { on, temperatureK: air.temperatureK, runway, table, liftOffMS };
}

/** The runway with the wind along and across it. */
function runwayToday(
  runway: Runway,
  stated: Sortie['takeOff']['wind'],
  air: Readonly<Air>,
): Omit<RunwayToday, keyof CourseAt> {
  const east = stated ? -stated.speedMS * Math.sin(stated.fromRad) : air.windEastMS;
  const north = stated ? -stated.speedMS * Math.cos(stated.fromRad) : air.windNorthMS;
  const { name, courseRad, lengthM, slopeFraction, condition } = runway;
  const headwindMS = -(east * Math.sin(courseRad) + north * Math.cos(courseRad));
  return {
    name,
    lengthM,
    slopeFraction,
    condition,
    headwindMS,
    crosswindMS: east * Math.cos(courseRad) - north * Math.sin(courseRad),
    headwindCountedMS: headwindMS * (headwindMS > 0 ? partOfHeadwind : partOfTailwind),
    windStated: stated !== null,
  };
}

/** Null where the tables of the deck do not reach the runway. */
function runOf(aircraft: Aircraft, ground: Ground, start: Start): TakeOffRun | null {
  const { on, runway, liftOffMS } = start;
  const speeds = (groundSpeedMS: number): RunSpeed => runSpeed(groundSpeedMS, start);
  const roll = new GroundRoll(aircraft, ground, on);
  const run = roll.accelerate(0, liftOffMS, roll.engines);
  const decision = decide({
    roll,
    liftOffMS,
    runwayM: runway?.lengthM ?? Number.POSITIVE_INFINITY,
    minimumControlMS: minimumControl(ground, on),
    brakeEnergyJ: ground.brakeEnergyJ ?? Number.POSITIVE_INFINITY,
  });
  const allEngines = accelerateStop(roll, decision.speedMS, roll.engines);
  const climbOutMS = (liftOffMS + on.headwindMS) * ground.climbOutRatio;
  const gradient = (gearDrag: number): number | null => {
    const found = climbOut(
      aircraft,
      on,
      climbOutMS,
      roll.engines - 1,
      ground.engineOutDrag + gearDrag,
    ).gradient;
    return Number.isNaN(found) ? null : found;
  };
  const climbGradient = { gearDown: gradient(ground.gearDrag), gearUp: gradient(0) };
  if (roll.outside !== 0) return null;
  return {
    groundRunM: run.distanceM,
    groundRunS: run.timeS,
    climbOut: speeds(climbOutMS - on.headwindMS),
    climbGradient,
    critical: speeds(decision.criticalMS),
    criticalFieldM: decision.criticalFieldM,
    least: speeds(decision.leastMS),
    leastBy: decision.leastBy,
    greatest: speeds(decision.greatestMS),
    greatestBy: decision.greatestBy,
    decisionFits: decision.fits,
    decision: speeds(decision.speedMS),
    accelerateGoM: accelerateGoM(roll, liftOffMS, decision.speedMS),
    accelerateStopM: accelerateStop(roll, decision.speedMS, roll.engines - 1).distanceM,
    allEnginesStopM: allEngines.distanceM,
    brakeEnergyJ: allEngines.brakeEnergyJ,
    brakeEnergyLimitJ: ground.brakeEnergyJ,
    tyreSpeedMS: ground.tyreSpeedMS,
  };
}

/** Along the ground; 0 where the deck states none. */
function minimumControl({ minimumControlSpeedMS }: Ground, on: RunwayConditions): number {
  if (minimumControlSpeedMS === null) return 0;
  const mach = machFromCalibrated(minimumControlSpeedMS, standardPressure(on.pressureAltitudeM));
  return Math.max(0, mach * on.speedOfSoundMS - on.headwindMS);
}

function runSpeed(groundSpeedMS: number, { on, temperatureK }: Start): RunSpeed {
  const airspeedMS = Math.max(0, groundSpeedMS + on.headwindMS);
  const speeds = fourSpeeds(airspeedMS / on.speedOfSoundMS, on.pressureAltitudeM, temperatureK);
  return { ...speeds, groundSpeedMS };
}
