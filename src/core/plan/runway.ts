/** An aircraft on a runway of the day. */
import { type Air, newAir } from '../air/day.ts';
import { normalGravity } from '../earth/gravity.ts';
import type { RunwayConditions } from '../phases/index.ts';
import type { North } from './courses.ts';
import { pressureAltitudeAt } from './ground.ts';
import type { CourseAt, RunSpeed, RunwayToday } from './plan.ts';
import { fourSpeeds } from './rendezvous.ts';
import type { Crew } from './route-flight.ts';
import type { Base, Runway, Sortie } from './sortie.ts';

/** Parts of the wind along the runway that count, after 14 CFR 25.105(d)(1). */
const partOfHeadwind = 0.5;
const partOfTailwind = 1.5;

type Wind = Sortie['takeOff']['wind'];

export interface OnRunway {
  readonly on: RunwayConditions;
  readonly temperatureK: number;
  /** null where the sortie states none: then level and dry, without wind. */
  readonly runway: Omit<RunwayToday, keyof CourseAt> | null;
}

/** With a load of fuel at a base and time, in the wind that is stated or that of the day. */
export function onRunway(
  { flight }: Crew,
  base: Base,
  timeS: number,
  fuelKg: number,
  stated: Wind,
): OnRunway {
  const { aircraft, day, zeroFuelMassKg } = flight.setup;
  const air = newAir();
  const pressureAltitudeM = pressureAltitudeAt(day, base, base.elevationM, timeS);
  day.sample(base.latitudeRad, base.longitudeRad, pressureAltitudeM, timeS, air);
  const runway = base.runway && runwayToday(base.runway, stated, air);
  const on: RunwayConditions = {
    massKg: zeroFuelMassKg + fuelKg,
    cgFraction: aircraft.balance.cgFraction(fuelKg),
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
  return { on, temperatureK: air.temperatureK, runway };
}

/** The runway with the wind along and across it. */
function runwayToday(runway: Runway, stated: Wind, air: Readonly<Air>): Omit<RunwayToday, keyof CourseAt> {
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

/** The same runway with its course by both norths. */
export function withCourse({ runway }: OnRunway, base: Base, { read }: North): RunwayToday | null {
  if (runway === null || base.runway === null) return null;
  const courseDeg = (base.runway.courseRad * 180) / Math.PI;
  return { ...runway, ...read(courseDeg, { ...base, geometricHeightM: base.elevationM }) };
}

/** A ground speed on the runway, at least that of standing air. */
export function runSpeed(groundSpeedMS: number, { on, temperatureK }: OnRunway): RunSpeed {
  const airspeedMS = Math.max(0, groundSpeedMS + on.headwindMS);
  const speeds = fourSpeeds(airspeedMS / on.speedOfSoundMS, on.pressureAltitudeM, temperatureK);
  return { ...speeds, groundSpeedMS };
}
