/** A sortie becomes a plan. */

import { showTime } from '../quantities/time.ts';
import { areasOf, findAreas } from './areas.ts';
import { magneticOf, northAt, withMagnetic, withTrack } from './courses.ts';
import { draftOf, type PlanRequest, questionOf, requiredOf } from './draft.ts';
import { explain } from './explain.ts';
import { fuelMissing, fuelToday } from './fuel-today.ts';
import { altitudeGrids, type GridPower } from './grids.ts';
import { summariseLimits } from './limits.ts';
import { levelOffsOf, turnsOf } from './manoeuvres.ts';
import { placesOf } from './places.ts';
import {
  type AltitudeGrid,
  CAUTION,
  type LimitSummary,
  PLAN_FORMAT,
  PLAN_VERSION,
  type Plan,
} from './plan.ts';
import { rendezvousOf } from './rendezvous.ts';
import { sectionOf } from './section.ts';
import { skyOf } from './sky.ts';
import { startDownsOf } from './start-down.ts';
import { climbsOf, ladderOf, traceOf } from './tables.ts';
import { takeOffOf } from './take-off.ts';
import { gapsOf, openAt, withWeatherSpread } from './weather-gaps.ts';

/** Plans a sortie. Never throws for a sortie that cannot be flown: the plan says why. Throws `CannotPlan` where it cannot be asked. */
export function makePlan(request: PlanRequest): Plan {
  const drafted = draftOf(request);
  const { crew, log } = drafted;
  const { aircraft, sortie } = request;
  const { requiredKg, recoveries } = requiredOf(drafted);
  const findings = findAreas(drafted);
  const least = summariseLimits(aircraft.limits, sortie.pads, log, sortie.takeOff.timeS);
  const limits = withWeatherSpread(least, drafted);
  const gaps = gapsOf(drafted);
  const north = northAt(sortie.takeOff.timeS);
  const sky = skyOf(drafted);
  const takeOff = takeOffOf(drafted);
  const grids = gridsOf(request);
  const found = explain(request, drafted, { limits, requiredKg, findings });
  return {
    format: PLAN_FORMAT,
    version: PLAN_VERSION,
    program: request.program,
    fingerprint: request.fingerprint,
    inputs: request.inputs,
    caution: CAUTION,
    title: sortie.title,
    invented: sortie.invented,
    aircraft: {
      name: aircraft.identity.name,
      edition: aircraft.identity.edition,
      basis: aircraft.identity.basis,
      tail: sortie.aircraft.tail,
      emptyMassKg: aircraft.balance.emptyMassKg,
      fuelCapacityKg: crew.flight.setup.aircraft.balance.fuelCapacityKg,
      settings: aircraft.propulsion.names,
      gaugeUnits: aircraft.gauges.units,
    },
    takeOff: showTime(sortie.takeOff.timeS),
    validity: { from: showTime(sortie.takeOff.fromS), to: showTime(sortie.takeOff.toS) },
    weather: {
      title: request.day.description.title,
      run: sortie.weather.run,
      standsFor: sortie.weather.standsFor,
      continuedBy: request.day.description.continuedBy,
      gaps,
      attribution: request.day.description.attribution,
    },
    magnetic: magneticOf(drafted, north),
    light: sky.light,
    fuelToday: fuelToday(aircraft, sortie.aircraft),
    flyable: found.failure === null,
    failure: found.failure,
    trace: traceOf(drafted, requiredKg, sortie.pads, aircraft.limits),
    section: sectionOf(drafted),
    phases: log.phases.map((phase) => ({
      ...phase,
      startS: phase.startS - sortie.takeOff.timeS,
      endS: phase.endS - sortie.takeOff.timeS,
    })),
    events: sky.events,
    refuellings: drafted.flown.refuellings.map((refuelling) => ({
      ...withTrack(refuelling, drafted, north),
      contactS: refuelling.contactS - sortie.takeOff.timeS,
      disconnectS: refuelling.disconnectS - sortie.takeOff.timeS,
    })),
    takeOffData: takeOff.data,
    rendezvous: rendezvousOf(drafted),
    climbs: climbsOf(drafted, requiredKg),
    altitudeGrids: grids.grids,
    ladder: ladderOf(drafted, requiredKg),
    limits,
    recoveries,
    turns: turnsOf(drafted).map((turn) => withMagnetic(turn, drafted, north)),
    levelOffs: levelOffsOf(drafted),
    startDowns: startDownsOf(drafted, requiredKg),
    places: placesOf(sortie),
    areas: areasOf(drafted, findings),
    decisions: drafted.flown.legs.map((leg) => leg.decisions),
    notComputed: [
      ...notComputed(request),
      ...takeOff.missing,
      ...north.missing,
      ...sky.missing,
      ...fuelMissing(aircraft, sortie.aircraft),
      ...openAt(gaps),
    ],
    evaluations: crew.flight.evaluations + crew.counted.evaluations + grids.evaluations + found.evaluations,
  };
}

/** Grids at the Mach of the first supersonic cruise: as required, and at each end of the afterburner's range. */
function gridsOf(request: PlanRequest): { readonly grids: AltitudeGrid[]; readonly evaluations: number } {
  const { sortie, aircraft } = request;
  const cruise = sortie.legs
    .flatMap((leg) => leg.fly)
    .find((step) => step.kind === 'cruise' && step.mach > 1);
  if (cruise?.kind !== 'cruise') return { grids: [], evaluations: 0 };
  const { propulsion } = aircraft;
  const powers: GridPower[] = [
    { name: 'least fuel', power: null },
    { name: propulsion.names[propulsion.maximum], power: propulsion.maximum },
  ];
  const least = propulsion.minimumAfterburner;
  if (least !== null) powers.push({ name: propulsion.names[least], power: least });
  const { fuelKg, temperatureOffsetK } = sortie.grid;
  return altitudeGrids(questionOf(request, cruise.mach), powers, fuelKg, temperatureOffsetK);
}

function notComputed({ aircraft }: PlanRequest): string[] {
  const missing: string[] = [];
  if (!aircraft.landing) missing.push('landing distance: the deck has no landing data');
  if (!aircraft.aerodynamics.washDrag)
    missing.push('drag in the wash of a tanker: the deck has no wash drag');
  return missing;
}
