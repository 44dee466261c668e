/** A sortie becomes a plan. */

import { showTime } from '../quantities/time.ts';
import { pushoversOf } from './acceleration-pushovers.ts';
import { areasOf, findAreas } from './areas.ts';
import { balanceMissing, balanceOfPlan, dumpOf, tankersOf } from './balance.ts';
import { checksMissing, checksOf } from './checks.ts';
import { contactMissing, contactsOf } from './contact.ts';
import { magneticOf, northAt, withAsked, withMagnetic } from './courses.ts';
import { crewClockOf } from './crew-clock.ts';
import { draftOf, type PlanRequest, questionOf, type Required, requiredOf } from './draft.ts';
import { type Explained, explaining, stopped, toTheEnd } from './explain.ts';
import type { Judged } from './failure.ts';
import { fuelMissing, fuelToday } from './fuel-today.ts';
import { altitudeGrids, type GridPower } from './grids.ts';
import { landingsOf } from './landing.ts';
import { summariseLimits } from './limits.ts';
import { manoeuvresMissing, manoeuvresOf } from './manoeuvre-table.ts';
import { judgedTurns } from './manoeuvre-turns.ts';
import { levelOffsOf, turnsOf } from './manoeuvres.ts';
import { pitchesOf } from './pitch-climb.ts';
import { placesOf } from './places.ts';
import {
  type AltitudeGrid,
  CAUTION,
  type LimitSummary,
  type ManoeuvreTable,
  PLAN_FORMAT,
  PLAN_VERSION,
  type Plan,
} from './plan.ts';
import { rendezvousOf } from './rendezvous.ts';
import { sectionOf } from './section.ts';
import { bodyOf, skyOf } from './sky.ts';
import { startDownsOf } from './start-down.ts';
import { climbsOf, ladderOf, traceOf } from './tables.ts';
import { takeOffOf } from './take-off.ts';
import { tankerOrdersOf } from './tanker-orders.ts';
import { timingsOf } from './timing.ts';
import { gapsOf, openAt, withWeatherSpread } from './weather-gaps.ts';

/** Parts of a plan that take longer than the flight itself. */
export type PlanPart =
  | 'the fuel required'
  | 'the altitude grids'
  | 'the pitch of the climb'
  | 'the manoeuvres'
  | 'what frees it';

/** A plan on its way: what is pending reads "not computed" until a later stage has it. */
export interface Stage {
  readonly plan: Plan;
  readonly pending: readonly PlanPart[];
}

/** Plans a sortie. Never throws for a sortie that cannot be flown: the plan says why. Throws `CannotPlan` where it cannot be asked. */
export function makePlan(request: PlanRequest): Plan {
  const flown = flownOf(request);
  const required = requiredOf(flown.drafted);
  const grids = gridsOf(request);
  const found = toTheEnd(explaining(request, flown.drafted, judgedBy(flown, required)));
  const manoeuvres = manoeuvresOf(flown.drafted);
  return assemble(flown, { required, grids, manoeuvres, found, ascent: ascentOf(flown) });
}

/**
 * The same plan in stages, the flight first; the last stage has all of it. Between two trials of what frees a sortie it yields
 * null, so that who waits can give up.
 */
export function* planning(request: PlanRequest): Generator<Stage | null, void> {
  const flown = flownOf(request);
  const { drafted } = flown;
  const unknown = { requiredKg: new Array<number>(drafted.log.nodes).fill(Number.NaN), recoveries: [] };
  const none = { grids: [], evaluations: 0 };
  const without = (required: Required) => stopped(drafted, judgedBy(flown, required));
  yield {
    plan: assemble(flown, {
      required: unknown,
      grids: none,
      manoeuvres: [],
      found: without(unknown),
      ascent: { pushovers: [], pitches: [] },
    }),
    pending: ['the fuel required', 'the altitude grids', 'the pitch of the climb', 'the manoeuvres'],
  };
  const required = requiredOf(drafted);
  const grids = gridsOf(request);
  const found = without(required);
  const ascent = ascentOf(flown);
  const waits = found.failure !== null;
  const answers = { required, grids, manoeuvres: manoeuvresOf(drafted), ascent };
  yield { plan: assemble(flown, { ...answers, found }), pending: waits ? ['what frees it'] : [] };
  if (!waits) return;
  const freed = yield* explaining(request, drafted, judgedBy(flown, required));
  yield { plan: assemble(flown, { ...answers, found: freed }), pending: [] };
}

/** A flight and what follows from it alone. */
interface Flown {
  readonly request: PlanRequest;
  readonly drafted: ReturnType<typeof draftOf>;
  readonly findings: ReturnType<typeof findAreas>;
  readonly limits: readonly LimitSummary[];
}

function flownOf(request: PlanRequest): Flown {
  const drafted = draftOf(request);
  const { aircraft, sortie } = request;
  const least = summariseLimits(aircraft.limits, sortie.pads, drafted.log, sortie.takeOff.timeS);
  return { request, drafted, findings: findAreas(drafted), limits: withWeatherSpread(least, drafted) };
}

function judgedBy({ limits, findings }: Flown, { requiredKg }: Required): Judged {
  return { limits, requiredKg, findings };
}

/** What takes longer than the flight. */
interface Answers {
  readonly required: Required;
  readonly grids: ReturnType<typeof gridsOf>;
  readonly manoeuvres: readonly ManoeuvreTable[];
  readonly found: Explained;
  readonly ascent: Pick<Plan, 'pushovers' | 'pitches'>;
}

/** The ways through the drag rise and up the climb. */
function ascentOf({ drafted }: Flown): Answers['ascent'] {
  return { pushovers: pushoversOf(drafted), pitches: pitchesOf(drafted) };
}

function assemble(
  { request, drafted, findings, limits }: Flown,
  { required, grids, manoeuvres, found, ascent }: Answers,
): Plan {
  const { crew, log } = drafted;
  const { aircraft, sortie } = request;
  const { requiredKg, recoveries } = required;
  const gaps = gapsOf(drafted);
  const north = northAt(sortie.takeOff.timeS);
  const sky = skyOf(drafted);
  const { clock, missing: crewMissing } = crewClockOf(drafted, sky.events);
  const takeOff = takeOffOf(drafted, north);
  const landing = landingsOf(drafted, recoveries, north);
  const checks = checksOf(drafted);
  const judged = judgedTurns(drafted);
  const refuellings = withAsked(drafted, north).map((refuelling) => ({
    ...refuelling,
    contactS: refuelling.contactS - sortie.takeOff.timeS,
    disconnectS: refuelling.disconnectS - sortie.takeOff.timeS,
  }));
  const rendezvous = rendezvousOf(drafted);
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
    body: bodyOf(drafted),
    crew: clock,
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
    refuellings,
    contacts: contactsOf(drafted),
    takeOffData: takeOff.data,
    landings: landing.landings,
    rendezvous,
    tankerOrders: tankerOrdersOf(sortie, refuellings, rendezvous),
    climbs: climbsOf(drafted, requiredKg),
    ...ascent,
    checks,
    altitudeGrids: grids.grids,
    ladder: ladderOf(drafted, requiredKg),
    limits,
    recoveries,
    turns: turnsOf(drafted).map((turn, i) => ({ ...withMagnetic(turn, drafted, north), ...judged[i] })),
    manoeuvres,
    manoeuvreRules: { clearanceM: sortie.manoeuvres.clearanceM, heldTo: sortie.manoeuvres.heldTo },
    levelOffs: levelOffsOf(drafted),
    startDowns: startDownsOf(drafted, requiredKg),
    timings: timingsOf(drafted),
    balance: balanceOfPlan(drafted),
    tankers: tankersOf(drafted),
    dump: dumpOf(drafted),
    inlet: null,
    rules: null,
    tankerMatrix: null,
    places: placesOf(sortie),
    areas: areasOf(drafted, findings),
    decisions: drafted.flown.legs.map((leg) => leg.decisions),
    notComputed: [
      ...notComputed(request),
      ...takeOff.missing,
      ...landing.missing,
      ...north.missing,
      ...sky.missing,
      ...crewMissing,
      ...fuelMissing(aircraft, sortie.aircraft),
      ...contactMissing(drafted),
      ...balanceMissing(drafted),
      ...openAt(gaps),
      ...checksMissing(drafted, checks),
      ...manoeuvresMissing(aircraft, sortie.manoeuvres),
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
