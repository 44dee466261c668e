/** The parts of a plan that follow from the flight alone, whatever is worked out after it, and why some of them are missing. */

import type { AreaFinding } from '../earth/areas.ts';
import { showTime } from '../quantities/time.ts';
import { areasOf } from './areas.ts';
import { balanceMissing, balanceOfPlan, dumpOf, tankersOf } from './balance.ts';
import { checksMissing, checksOf } from './checks.ts';
import { contactMissing, contactsOf } from './contact.ts';
import { magneticOf, type North, withAsked, withMagnetic } from './courses.ts';
import { crewClockOf } from './crew-clock.ts';
import type { Draft, PlanRequest } from './draft.ts';
import { fuelMissing, fuelToday } from './fuel-today.ts';
import { manoeuvresMissing } from './manoeuvre-table.ts';
import { judgedTurns } from './manoeuvre-turns.ts';
import { levelOffsOf, turnsOf } from './manoeuvres.ts';
import { placesOf } from './places.ts';
import type { Plan } from './plan.ts';
import { rendezvousOf } from './rendezvous.ts';
import { sectionOf } from './section.ts';
import { bodyOf, skyOf } from './sky.ts';
import { traceOf } from './tables.ts';
import { takeOffOf } from './take-off.ts';
import { tankerOrdersOf } from './tanker-orders.ts';
import { tankerOwnMissing, tankerOwnOf } from './tanker-own.ts';
import { timingsOf } from './timing.ts';
import { gapsOf, openAt } from './weather-gaps.ts';

export type FlightParts = ReturnType<typeof flightParts>['parts'];

export function flightParts(
  request: PlanRequest,
  drafted: Draft,
  findings: readonly AreaFinding[],
  north: North,
) {
  const { crew, log } = drafted;
  const { aircraft, sortie } = request;
  const gaps = gapsOf(drafted);
  const sky = skyOf(drafted);
  const { clock, missing: crewMissing } = crewClockOf(drafted, sky.events);
  const takeOff = takeOffOf(drafted, north);
  const checks = checksOf(drafted);
  const judged = judgedTurns(drafted);
  const refuellings = withAsked(drafted, north).map((refuelling) => ({
    ...refuelling,
    contactS: refuelling.contactS - sortie.takeOff.timeS,
    disconnectS: refuelling.disconnectS - sortie.takeOff.timeS,
  }));
  const rendezvous = rendezvousOf(drafted);
  const tankerOwn = tankerOwnOf(drafted);
  const parts = {
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
    body: bodyOf(drafted),
    crew: clock,
    fuelToday: fuelToday(aircraft, sortie.aircraft),
    trace: traceOf(drafted, sortie.pads, aircraft.limits),
    section: sectionOf(drafted),
    phases: log.phases.map((phase) => ({
      ...phase,
      startS: phase.startS - sortie.takeOff.timeS,
      endS: phase.endS - sortie.takeOff.timeS,
    })),
    events: sky.events,
    refuellings,
    contacts: contactsOf(drafted),
    takeOffData: takeOff.data,
    rendezvous,
    tankerOwn,
    tankerOrders: tankerOrdersOf(sortie, refuellings, rendezvous),
    checks,
    turns: turnsOf(drafted).map((turn, i) => ({ ...withMagnetic(turn, drafted, north), ...judged[i] })),
    manoeuvreRules: { clearanceM: sortie.manoeuvres.clearanceM, heldTo: sortie.manoeuvres.heldTo },
    levelOffs: levelOffsOf(drafted),
    timings: timingsOf(drafted),
    balance: balanceOfPlan(drafted),
    tankers: tankersOf(drafted),
    dump: dumpOf(drafted),
    places: placesOf(sortie),
    areas: areasOf(drafted, findings),
    decisions: drafted.flown.legs.map((leg) => leg.decisions),
  } satisfies Partial<Plan>;
  const missing = [
    ...notComputed(request),
    ...takeOff.missing,
    ...north.missing,
    ...sky.missing,
    ...crewMissing,
    ...fuelMissing(aircraft, sortie.aircraft),
    ...contactMissing(drafted),
    ...tankerOwnMissing(sortie, tankerOwn),
    ...balanceMissing(drafted),
    ...openAt(gaps),
    ...checksMissing(drafted, checks),
    ...manoeuvresMissing(aircraft, sortie.manoeuvres),
  ];
  return { parts, missing };
}

function notComputed({ aircraft }: PlanRequest): string[] {
  const missing: string[] = [];
  if (!aircraft.landing) missing.push('landing distance: the deck has no landing data');
  if (!aircraft.aerodynamics.washDrag)
    missing.push('drag in the wash of a tanker: the deck has no wash drag');
  return missing;
}
