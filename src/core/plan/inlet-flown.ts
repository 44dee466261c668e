/**
 * What an inlet off its schedule costs: each leg that is flown supersonic is flown again, as it was decided, with an aircraft whose
 * inlets stand beside the schedule by a constant error; and the error with which its end is just in reach.
 */
import type { Aircraft, InletError, Schedule } from '../aircraft/aircraft.ts';
import { newInletErrorPoint, withInletError } from '../aircraft/inlet-error.ts';
import { seaLevelDensity } from '../quantities/constants.ts';
import { crewOf, type Draft, draftOf, type PlanRequest, requiredOf } from './draft.ts';
import { toTheEnd } from './explain.ts';
import { LegFlyer } from './leg-flyer.ts';
import { copyProgress, newProgress, type Progress } from './log.ts';
import type { InletEdge, InletLeg, InletRow, PlanInlet } from './plan-inlet.ts';
import { fuelOf, type LegFlown } from './sortie-flyer.ts';

const degree = Math.PI / 180;
const errorsDeg = [-2, -1, -0.5, 0.5, 1, 2];
/** The error at the edge is found to this. */
const nearRad = 0.005 * degree;

/** How a leg ended: with so much fuel, or why not. */
interface Arrival {
  readonly fuelKg: number;
  readonly stopped: string | null;
}

/** A leg that can be flown again, with what its end requires. */
interface Again {
  readonly index: number;
  readonly flown: LegFlown;
  readonly from: Readonly<Progress>;
  readonly nodes: readonly number[];
  readonly wantedKg: number;
  /** With an error of the inlets, all of them or a share of what that does. */
  readonly arrive: (errorRad: number, share?: number) => Arrival;
}

/** null where the deck has no table of an inlet off its schedule. Throws `CannotPlan` as a plan does. */
export function inletAsFlown(request: PlanRequest): PlanInlet | null {
  return toTheEnd(flyingInlets(request));
}

/** The same, with null between two flights, so that who waits can give up. */
export function* flyingInlets(request: PlanRequest): Generator<null, PlanInlet | null> {
  const { inletError, schedules } = request.aircraft;
  const schedule = schedules.find(({ key }) => key === inletError?.schedule);
  if (inletError === null || schedule === undefined) return null;
  const drafted = draftOf(request);
  const { recoveries } = requiredOf(drafted);
  const { sortie } = drafted.crew;
  const legs: InletLeg[] = [];
  for (const [index, flown] of drafted.flown.legs.entries()) {
    const wantedKg =
      sortie.legs[index].end.kind === 'landing'
        ? sortie.landingReserveKg + sortie.approach.fuelKg
        : (recoveries.find(({ leg }) => leg === index)?.fuelRequiredKg ?? Number.NaN);
    const again = againOf(request, drafted, flown, index, wantedKg);
    if (again === null || Number.isNaN(wantedKg)) continue;
    legs.push(yield* legOf(drafted, again, inletError, schedule));
  }
  return { schedule: schedule.key, name: schedule.name, legs };
}

/** null where the leg is nowhere supersonic. */
function againOf(
  request: PlanRequest,
  { crew, log }: Draft,
  flown: LegFlown,
  index: number,
  wantedKg: number,
): Again | null {
  const nodes = log.columns.mach.flatMap((mach, i) =>
    mach > 1 && log.phases[log.phaseOf[i]]?.leg === index ? [i] : [],
  );
  const from = log.anchors.find(({ progress }) => progress.leg === index)?.progress;
  if (nodes.length === 0 || from === undefined) return null;
  const progress = newProgress();
  const arrive = (errorRad: number, share = 1): Arrival => {
    const aircraft: Aircraft = withInletError(request.aircraft, errorRad, share);
    const fresh = { ...crewOf({ ...request, aircraft }), altitudes: crew.altitudes };
    copyProgress(from, progress);
    const leg = crew.sortie.legs[index];
    const stopped = new LegFlyer(fresh, leg, flown.route, flown.decisions, null).fly(progress);
    return { fuelKg: stopped ? Number.NaN : fuelOf(fresh, progress), stopped: stopped?.reason ?? null };
  };
  return { index, flown, from, nodes, wantedKg, arrive };
}

function* legOf(
  drafted: Draft,
  again: Again,
  inletError: InletError,
  schedule: Schedule,
): Generator<null, InletLeg> {
  const { log, crew } = drafted;
  const { mach } = log.columns;
  const { name, end } = crew.sortie.legs[again.index];
  const fastest = again.nodes.reduce((most, node) => (mach[node] > mach[most] ? node : most));
  const position = schedule.at(0, mach[fastest], 0, 0, 0) / degree;
  const margin = (errorRad: number): number => leastMargin(inletError, again, mach, errorRad);
  const planned = again.arrive(0);
  const inHandKg = planned.fuelKg - again.wantedKg;
  const { leastRad, mostRad } = inletError;
  const rows: InletRow[] = [];
  for (const errorDeg of errorsDeg) {
    if (errorDeg * degree < leastRad || errorDeg * degree > mostRad) continue;
    yield null;
    rows.push(rowOf(drafted, again, inletError, { fastest, errorDeg, planned }));
  }
  return {
    leg: again.index,
    name,
    to: end.kind === 'contact' ? end.tanker.name : end.base.name,
    mach: mach[fastest],
    positionDeg: Number.isNaN(position) ? null : position,
    inHandKg,
    rows,
    low: yield* edgeOf(again, margin, leastRad),
    high: yield* edgeOf(again, margin, mostRad),
  };
}

/** The least angle left on a leg until the shock is expelled. */
function leastMargin(
  inletError: InletError,
  { nodes }: Again,
  mach: readonly number[],
  errorRad: number,
): number {
  const point = newInletErrorPoint();
  return nodes.reduce((least, node) => {
    inletError.at(mach[node], errorRad, point);
    return Math.min(least, point.shockMarginRad);
  }, Number.POSITIVE_INFINITY);
}

function rowOf(
  { log, crew }: Draft,
  again: Again,
  inletError: InletError,
  { fastest, errorDeg, planned }: { fastest: number; errorDeg: number; planned: Arrival },
): InletRow {
  const { mach, dragN, equivalentAirspeedMS } = log.columns;
  const { aerodynamics, propulsion } = crew.flight.setup.aircraft;
  const errorRad = errorDeg * degree;
  const point = newInletErrorPoint();
  inletError.at(mach[fastest], errorRad, point);
  const pressureAreaN = 0.5 * seaLevelDensity * equivalentAirspeedMS[fastest] ** 2 * aerodynamics.wingAreaM2;
  const margin = leastMargin(inletError, again, mach, errorRad);
  const expelled = margin < 0;
  const all = expelled ? null : again.arrive(errorRad);
  const one = expelled ? null : again.arrive(errorRad, 1 / propulsion.engines.length);
  const more = (arrival: Arrival | null): number | null =>
    arrival === null || arrival.stopped !== null ? null : planned.fuelKg - arrival.fuelKg;
  return {
    errorDeg,
    thrustChange: point.thrustRatio - 1,
    dragChange: (point.dragIncrement * pressureAreaN) / dragN[fastest],
    shockMarginDeg: margin / degree,
    fuelKg: more(all),
    oneInletFuelKg: more(one),
    stopped: expelled ? 'expelled' : (all?.stopped ?? null),
  };
}

/** Halves the way between none and the end of the table: what an error costs grows with it. */
function* edgeOf(
  again: Again,
  margin: (errorRad: number) => number,
  endRad: number,
): Generator<null, InletEdge> {
  const why = (errorRad: number): string | null => {
    if (margin(errorRad) < 0) return 'expelled';
    const { fuelKg, stopped } = again.arrive(errorRad);
    return stopped ?? (fuelKg < again.wantedKg ? 'fuel' : null);
  };
  let by = why(endRad);
  if (by === null) return { errorDeg: null, by: 'table' };
  let [inside, outside] = [0, endRad];
  while (Math.abs(outside - inside) > nearRad) {
    const middle = 0.5 * (inside + outside);
    const reason = why(middle);
    yield null;
    if (reason === null) inside = middle;
    else {
      outside = middle;
      by = reason;
    }
  }
  return { errorDeg: inside / degree, by };
}
