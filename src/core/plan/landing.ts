/** The landings of a sortie, as planned and in the worst cases: how fast, and does the runway hold them. */
import { machFromEquivalent } from '../air/airdata.ts';
import { standardPressure } from '../air/standard.ts';
import type { Aircraft, Landing } from '../aircraft/aircraft.ts';
import { GroundRoll } from '../phases/index.ts';
import { OutsideRange } from '../quantities/errors.ts';
import type { North } from './courses.ts';
import type { Draft } from './draft.ts';
import type { LandingData, LandingStop, Recovery } from './plan.ts';
import type { Crew } from './route-flight.ts';
import { type OnRunway, onRunway, runSpeed, withCourse } from './runway.ts';
import type { Base } from './sortie.ts';

/** Where a flight comes down, and when (seconds since 1970). */
interface Arrival {
  readonly worstCase: string | null;
  readonly base: Base;
  readonly timeS: number;
  readonly fuelKg: number;
}

/** The landings of a draft, and what of them could not be computed. */
export function landingsOf(
  drafted: Draft,
  recoveries: readonly Recovery[],
  north: North,
): { readonly landings: LandingData[]; readonly missing: string[] } {
  const { crew } = drafted;
  const { landing } = crew.flight.setup.aircraft;
  const landings: LandingData[] = [];
  const missing: string[] = [];
  if (!landing) return { landings, missing };
  for (const arrival of arrivalsOf(drafted, recoveries)) {
    const found = landingAt(crew, landing, arrival, north);
    if (found instanceof OutsideRange) missing.push(`landing at ${arrival.base.name}: ${found.message}`);
    else landings.push(found);
  }
  const bare = landings.filter(({ runway }) => runway === null).map(({ base }) => base);
  for (const base of new Set(bare))
    missing.push(`landing against the runway: the sortie states none at ${base}`);
  return { landings, missing };
}

/** Those that are reached: at the end of the sortie, then in the worst case of each contact. */
function arrivalsOf({ crew, flown }: Draft, recoveries: readonly Recovery[]): Arrival[] {
  const { legs, approach } = crew.sortie;
  const { end } = legs[legs.length - 1];
  const { landingFuelKg: fuelKg, landingTimeS: timeS } = flown;
  const planned = end.kind === 'landing' ? [{ worstCase: null, base: end.base, timeS, fuelKg }] : [];
  const worst = recoveries.flatMap((recovery) => {
    const { end: contact } = legs[recovery.leg];
    if (contact.kind !== 'contact') return [];
    const contactS = flown.legs[recovery.leg].end.state.timeS;
    return [
      {
        worstCase: recovery.name,
        base: contact.worstCase.base,
        timeS: contactS + recovery.timeS + approach.timeS,
        fuelKg: recovery.fuelOnLandingKg,
      },
    ];
  });
  return [...planned, ...worst].filter((arrival) => !Number.isNaN(arrival.fuelKg));
}

function landingAt(
  crew: Crew,
  landing: Landing,
  { worstCase, base, timeS, fuelKg }: Arrival,
  north: North,
): LandingData | OutsideRange {
  const { sortie, flight } = crew;
  const at = onRunway(crew, base, timeS, fuelKg, null);
  const tables = tablesOf(landing, at);
  if (tables instanceof OutsideRange) return tables;
  const { massKg, pressureAltitudeM, temperatureOffsetK, headwindMS, speedOfSoundMS } = at.on;
  const mach = machFromEquivalent(tables.approachMS, standardPressure(pressureAltitudeM));
  const approach = runSpeed(mach * speedOfSoundMS - headwindMS, at);
  const stop = stopOf(flight.setup.aircraft, at, approach.groundSpeedMS);
  const endless = stop !== null && stop.distanceM === null;
  return {
    worstCase,
    base: base.name,
    timeS: timeS - sortie.takeOff.timeS,
    massKg,
    fuelKg,
    reserveKg: sortie.landingReserveKg,
    pressureAltitudeM,
    temperatureK: at.temperatureK,
    temperatureOffsetK,
    runway: withCourse(at, base, north),
    approach,
    tableGroundRunM: tables.groundRunM,
    stop,
    longestM: endless ? null : Math.max(tables.groundRunM, stop?.distanceM ?? 0),
  };
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
