/** The take-off of the day: speeds, stop or go, and the climb with an engine lost, on the runway that the sortie states. */
import { machFromCalibrated } from '../air/airdata.ts';
import { standardPressure } from '../air/standard.ts';
import type { Aircraft, Ground, TakeOffPoint } from '../aircraft/aircraft.ts';
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
import type { RunSpeed, TakeOffData, TakeOffRun } from './plan.ts';
import type { Crew } from './route-flight.ts';
import { type OnRunway, onRunway, runSpeed, withCourse } from './runway.ts';

/** Where the run begins, and what ends it. */
interface Start extends OnRunway {
  readonly table: Readonly<TakeOffPoint>;
  /** Ground speed of the lift-off. */
  readonly liftOffMS: number;
}

/** The take-off of a draft, and what of it could not be computed. */
export function takeOffOf(
  { crew }: Draft,
  north: North,
): { readonly data: TakeOffData; readonly missing: string[] } {
  const { base } = crew.sortie.takeOff;
  const { aircraft } = crew.flight.setup;
  const { ground } = aircraft;
  const start = startOf(crew);
  const { on, temperatureK, table } = start;
  const run = ground && runOf(aircraft, ground, start);
  const missing: string[] = [];
  if (!ground) missing.push('decision speed, stopping and climb-out: the deck has no ground data');
  else if (!run)
    missing.push(
      "decision speed, stopping and climb-out: the runway's air is outside the deck's tables of lift, drag or thrust",
    );
  if (!base.runway) missing.push(`take-off against the runway: the sortie states none at ${base.name}`);
  const data: TakeOffData = {
    base: base.name,
    massKg: on.massKg,
    pressureAltitudeM: on.pressureAltitudeM,
    temperatureK,
    temperatureOffsetK: on.temperatureOffsetK,
    runway: withCourse(start, base, north),
    liftOff: runSpeed(start.liftOffMS, start),
    tableGroundRunM: table.groundRollM,
    run,
  };
  return { data, missing };
}

/** What the take-off with all engines leaves of the runway [m] and of the tyres' speed [m/s]; null where it is not known. */
export function takeOffMargins(crew: Crew): {
  readonly runway: number | null;
  readonly tyreSpeed: number | null;
} {
  const { aircraft } = crew.flight.setup;
  const { ground } = aircraft;
  if (!ground) return { runway: null, tyreSpeed: null };
  const { on, runway, liftOffMS } = startOf(crew);
  const roll = new GroundRoll(aircraft, ground, on);
  const { distanceM } = roll.accelerate(0, liftOffMS, roll.engines);
  return {
    runway: runway && roll.outside === 0 ? runway.lengthM - distanceM : null,
    tyreSpeed: ground.tyreSpeedMS === null ? null : ground.tyreSpeedMS - liftOffMS,
  };
}

function startOf(crew: Crew): Start {
  const { base, timeS, wind } = crew.sortie.takeOff;
  const at = onRunway(crew, base, timeS, crew.sortie.aircraft.fuelKg, wind);
  const { massKg, pressureAltitudeM, temperatureOffsetK, headwindMS } = at.on;
  const table: TakeOffPoint = { groundRollM: 0, timeS: 0, fuelKg: 0, liftOffSpeedMS: 0, outside: 0 };
  crew.flight.setup.aircraft.takeOff?.at(massKg, pressureAltitudeM, temperatureOffsetK, table);
  return { ...at, table, liftOffMS: table.liftOffSpeedMS - headwindMS };
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
    criticalFieldM: finite(decision.criticalFieldM),
    least: speeds(decision.leastMS),
    leastBy: decision.leastBy,
    greatest: speeds(decision.greatestMS),
    greatestBy: decision.greatestBy,
    decisionFits: decision.fits,
    decision: speeds(decision.speedMS),
    accelerateGoM: finite(accelerateGoM(roll, liftOffMS, decision.speedMS)),
    accelerateStopM: finite(accelerateStop(roll, decision.speedMS, roll.engines - 1).distanceM),
    allEnginesStopM: finite(allEngines.distanceM),
    brakeEnergyJ: allEngines.brakeEnergyJ,
    brakeEnergyLimitJ: ground.brakeEnergyJ,
    tyreSpeedMS: ground.tyreSpeedMS,
  };
}

/** A distance; null where it has no end. */
function finite(distanceM: number): number | null {
  return Number.isFinite(distanceM) ? distanceM : null;
}

/** Along the ground; 0 where the deck states none. */
function minimumControl({ minimumControlSpeedMS }: Ground, on: RunwayConditions): number {
  if (minimumControlSpeedMS === null) return 0;
  const mach = machFromCalibrated(minimumControlSpeedMS, standardPressure(on.pressureAltitudeM));
  return Math.max(0, mach * on.speedOfSoundMS - on.headwindMS);
}
