/** The landing at the end of a sortie: how fast, and does the runway hold it. */
import { machFromEquivalent } from '../air/airdata.ts';
import { standardPressure } from '../air/standard.ts';
import type { Aircraft, Landing } from '../aircraft/aircraft.ts';
import { GroundRoll } from '../phases/index.ts';
import { OutsideRange } from '../quantities/errors.ts';
import type { North } from './courses.ts';
import type { Draft } from './draft.ts';
import type { LandingData, LandingStop } from './plan.ts';
import { type OnRunway, onRunway, runSpeed, withCourse } from './runway.ts';

/** The landing of a draft, and what of it could not be computed. */
export function landingOf(
  { crew, flown }: Draft,
  north: North,
): { readonly data: LandingData | null; readonly missing: string[] } {
  const { sortie, flight } = crew;
  const { aircraft } = flight.setup;
  const { landing } = aircraft;
  const { end } = sortie.legs[sortie.legs.length - 1];
  const { landingFuelKg, landingTimeS } = flown;
  if (!landing || end.kind !== 'landing' || Number.isNaN(landingFuelKg)) return { data: null, missing: [] };
  const { base } = end;
  const at = onRunway(crew, base, landingTimeS, landingFuelKg, null);
  const tables = tablesOf(landing, at);
  if (tables instanceof OutsideRange) return { data: null, missing: [`landing: ${tables.message}`] };
  const { massKg, pressureAltitudeM, temperatureOffsetK, headwindMS, speedOfSoundMS } = at.on;
  const mach = machFromEquivalent(tables.approachMS, standardPressure(pressureAltitudeM));
  const approach = runSpeed(mach * speedOfSoundMS - headwindMS, at);
  const data: LandingData = {
    base: base.name,
    massKg,
    fuelKg: landingFuelKg,
    reserveKg: sortie.landingReserveKg,
    pressureAltitudeM,
    temperatureK: at.temperatureK,
    temperatureOffsetK,
    runway: withCourse(at, base, north),
    approach,
    tableGroundRunM: tables.groundRunM,
    stop: stopOf(aircraft, at, approach.groundSpeedMS),
  };
  const missing: string[] = [];
  // Of the base of take-off the sentence is there already.
  if (!base.runway && base.name !== sortie.takeOff.base.name)
    missing.push(`landing against the runway: the sortie states none at ${base.name}`);
  return { data, missing };
}

/** Equivalent airspeed [m/s] of the approach and the ground run [m]; the error where a table does not reach. */
function tablesOf(
  landing: Landing,
  { on }: OnRunway,
): { readonly approachMS: number; readonly groundRunM: number } | OutsideRange {
  try {
    return {
      approachMS: landing.approachSpeedMS(on.massKg),
      groundRunM: landing.groundRollM(on.massKg, on.pressureAltitudeM, on.temperatureOffsetK),
    };
  } catch (error) {
    if (error instanceof OutsideRange) return error;
    throw error;
  }
}

function stopOf(aircraft: Aircraft, { on }: OnRunway, fromMS: number): LandingStop | null {
  const { ground } = aircraft;
  if (!ground) return null;
  const roll = new GroundRoll(aircraft, ground, on);
  const { distanceM, brakeEnergyJ } = roll.stop(fromMS, roll.engines);
  if (roll.outside !== 0) return null;
  return {
    distanceM: Number.isFinite(distanceM) ? distanceM : null,
    brakeEnergyJ,
    brakeEnergyLimitJ: ground.brakeEnergyJ,
    tyreSpeedMS: ground.tyreSpeedMS,
  };
}
