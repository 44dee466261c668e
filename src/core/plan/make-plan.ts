/** A sortie becomes a plan. */

import { pushoversOf } from './acceleration-pushovers.ts';
import { findAreas } from './areas.ts';
import { type North, northAt } from './courses.ts';
import { draftOf, type PlanRequest, questionOf, type Required, requiredOf } from './draft.ts';
import { type Explained, explaining, stopped } from './explain.ts';
import type { Judged } from './failure.ts';
import { type FlightParts, flightParts } from './flight-parts.ts';
import { altitudeGrids, type GridPower } from './grids.ts';
import { landingsOf } from './landing.ts';
import { summariseLimits } from './limits.ts';
import { lowPushesOf } from './low-pushes.ts';
import { manoeuvresOf } from './manoeuvre-table.ts';
import { pitchesOf } from './pitch-climb.ts';
import {
  type AltitudeGrid,
  CAUTION,
  type LimitSummary,
  PLAN_FORMAT,
  PLAN_VERSION,
  type Plan,
} from './plan.ts';
import { startDownsOf } from './start-down.ts';
import { climbsOf, ladderOf } from './tables.ts';
import { withWeatherSpread } from './weather-gaps.ts';

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
  let made: Plan | null = null;
  for (const stage of planning(request)) made = stage?.plan ?? made;
  if (made === null) throw new Error('planning ended without a plan');
  return made;
}

/**
 * The same plan in stages, the flight first; the last stage has all of it, and what did not change is the same object as before.
 * Between two steps of work it yields null, so that who waits can give up.
 */
export function* planning(request: PlanRequest): Generator<Stage | null, void> {
  const flown = flownOf(request);
  const { drafted } = flown;
  const without = (required: Required) => stopped(drafted, judgedBy(flown, required));
  const required: Required = {
    requiredKg: new Array<number>(drafted.log.nodes).fill(Number.NaN),
    recoveries: [],
  };
  let answers: Answers = {
    required,
    found: without(required),
    grids: { grids: [], evaluations: 0 },
    manoeuvres: { manoeuvres: [], lowPushes: null },
    ascent: { pushovers: [], pitches: [] },
  };
  yield {
    plan: assemble(flown, answers),
    pending: ['the fuel required', 'the altitude grids', 'the pitch of the climb', 'the manoeuvres'],
  };
  answers = { ...answers, required: requiredOf(drafted) };
  yield null;
  answers = { ...answers, grids: gridsOf(request) };
  yield null;
  answers = {
    ...answers,
    manoeuvres: { manoeuvres: manoeuvresOf(drafted), lowPushes: lowPushesOf(drafted) },
  };
  yield null;
  answers = { ...answers, ascent: ascentOf(flown), found: without(answers.required) };
  const waits = answers.found.failure !== null;
  yield { plan: assemble(flown, answers), pending: waits ? ['what frees it'] : [] };
  if (!waits) return;
  const found = yield* explaining(request, drafted, judgedBy(flown, answers.required));
  yield { plan: assemble(flown, { ...answers, found }), pending: [] };
}

/** A flight and what follows from it alone. */
interface Flown {
  readonly request: PlanRequest;
  readonly drafted: ReturnType<typeof draftOf>;
  readonly findings: ReturnType<typeof findAreas>;
  readonly limits: readonly LimitSummary[];
  readonly north: North;
  readonly parts: FlightParts;
  readonly missing: readonly string[];
}

function flownOf(request: PlanRequest): Flown {
  const drafted = draftOf(request);
  const { aircraft, sortie } = request;
  const findings = findAreas(drafted);
  const least = summariseLimits(aircraft.limits, sortie.pads, drafted.log, sortie.takeOff.timeS);
  const limits = withWeatherSpread(least, drafted);
  const north = northAt(sortie.takeOff.timeS);
  return { request, drafted, findings, limits, north, ...flightParts(request, drafted, findings, north) };
}

function judgedBy({ limits, findings }: Flown, { requiredKg }: Required): Judged {
  return { limits, requiredKg, findings };
}

/** What takes longer than the flight. */
interface Answers {
  readonly required: Required;
  readonly grids: ReturnType<typeof gridsOf>;
  readonly manoeuvres: Pick<Plan, 'manoeuvres' | 'lowPushes'>;
  readonly found: Explained;
  readonly ascent: Pick<Plan, 'pushovers' | 'pitches'>;
}

/** The ways through the drag rise and up the climb. */
function ascentOf({ drafted }: Flown): Answers['ascent'] {
  return { pushovers: pushoversOf(drafted), pitches: pitchesOf(drafted) };
}

function assemble(
  { request, drafted, north, limits, parts, missing }: Flown,
  { required, grids, manoeuvres, found, ascent }: Answers,
): Plan {
  const { crew } = drafted;
  const { requiredKg, recoveries } = required;
  const landing = landingsOf(drafted, recoveries, north);
  return {
    format: PLAN_FORMAT,
    version: PLAN_VERSION,
    program: request.program,
    fingerprint: request.fingerprint,
    inputs: request.inputs,
    caution: CAUTION,
    flyable: found.failure === null,
    failure: found.failure,
    ...parts,
    limits,
    trace: { ...parts.trace, columns: { ...parts.trace.columns, fuelRequiredKg: [...requiredKg] } },
    landings: landing.landings,
    climbs: climbsOf(drafted, requiredKg),
    ...ascent,
    altitudeGrids: grids.grids,
    ladder: ladderOf(drafted, requiredKg),
    recoveries,
    ...manoeuvres,
    startDowns: startDownsOf(drafted, requiredKg),
    inlet: null,
    rules: null,
    tankerMatrix: null,
    reach: null,
    notComputed: [...missing, ...landing.missing],
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
