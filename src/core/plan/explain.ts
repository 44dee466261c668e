/** A sortie that cannot be flown gets an answer: what binds, where, by how much, and one change that frees it. */
import { findAreas } from './areas.ts';
import { cabinMarginMS } from './descent-held.ts';
import { crewOf, type Draft, draft, type PlanRequest, requiredOf } from './draft.ts';
import { type Fault, firstFault, type Judged } from './failure.ts';
import { fuelled } from './fuel-today.ts';
import type { Lever } from './lever.ts';
import { isAboutFuel, leversFor } from './levers.ts';
import { summariseLimits } from './limits.ts';
import type { Failure, Freed } from './plan.ts';
import type { Place, Sortie } from './sortie.ts';
import { takeOffMargins } from './take-off.ts';

const degrees = 180 / Math.PI;

/** Names of what is not a limit of the deck, and the quantity its excess is measured in. */
const others: Readonly<Record<string, readonly [name: string, quantity: string]>> = {
  thrust: ['thrust', 'thrustN'],
  fuel: ['fuel', 'fuelKg'],
  fuelRequired: ['fuel required', 'fuelKg'],
  route: ['the route', 'distanceM'],
  manoeuvre: ['the manoeuvre', ''],
  area: ['area', 'distanceM'],
  runway: ['length of the runway', 'lengthM'],
  tyreSpeed: ['tyre speed', 'groundSpeedMS'],
  cabinRate: ['rate of the cabin', 'climbRateMS'],
  tankerMach: ['Mach limit of the tanker', 'mach'],
  tankerSpeed: ['airspeed limit of the tanker', 'calibratedAirspeedMS'],
};

/** Why a sortie cannot be flown; null where it can be. `evaluations` is what the search for a change took. */
export interface Explained {
  readonly failure: Failure | null;
  readonly evaluations: number;
}

/** Why a flown sortie cannot be flown, without the change that would free it. */
export function stopped(drafted: Draft, judged: Judged): Explained {
  const fault = firstFault(drafted, judged);
  return { failure: fault && failureOf(drafted, judged, fault, null), evaluations: 0 };
}

/** The same with the change that frees it; yields null between trials. */
export function* explaining(
  request: PlanRequest,
  drafted: Draft,
  judged: Judged,
): Generator<null, Explained> {
  const fault = firstFault(drafted, judged);
  if (fault === null) return { failure: null, evaluations: 0 };
  const { freedBy, evaluations } = yield* free(request, fault);
  return { failure: failureOf(drafted, judged, fault, freedBy), evaluations };
}

/** The result of work that pauses, without the pauses. */
export function toTheEnd<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}

function failureOf(drafted: Draft, judged: Judged, fault: Fault, freedBy: Freed | null): Failure {
  const limit = judged.limits.find(({ key }) => key === fault.key);
  const other = others[fault.key];
  return {
    limit: fault.key,
    name: limit?.name ?? fault.through?.name ?? other?.[0] ?? fault.key,
    text: fault.text,
    phase: fault.phase,
    ...whereabouts(drafted, fault),
    excess: fault.excess,
    quantity: limit?.quantity ?? other?.[1] ?? '',
    pad: limit?.pad ?? 0,
    freedBy,
  };
}

/** Time since take-off and place of a fault; those of the take-off where nothing was flown. */
function whereabouts(
  { log, crew }: Draft,
  { node, through }: Fault,
): Pick<Failure, 'timeS' | 'latitudeDeg' | 'longitudeDeg'> {
  const { columns } = log;
  const { base, timeS: takeOffS } = crew.sortie.takeOff;
  const onGround = { ...base, timeS: takeOffS };
  const atNode = {
    timeS: columns.timeS[node],
    latitudeRad: columns.latitudeRad[node],
    longitudeRad: columns.longitudeRad[node],
  };
  const { timeS, latitudeRad, longitudeRad } = through?.entry ?? (log.nodes > 0 ? atNode : onGround);
  return {
    timeS: timeS - takeOffS,
    latitudeDeg: latitudeRad * degrees,
    longitudeDeg: longitudeRad * degrees,
  };
}

/** How one version of the sortie does. */
interface Trial {
  readonly fault: Fault | null;
  readonly judged: Judged;
  readonly fuelInHandKg: number;
  readonly drafted: Draft;
}

/** Tries the levers of a fault in turn; the first that frees the whole sortie is the answer. */
function* free(
  request: PlanRequest,
  fault: Fault,
): Generator<null, { freedBy: Freed | null; evaluations: number }> {
  let evaluations = 0;
  const aboutFuel = isAboutFuel(fault);
  const fly = (sortie: Sortie, withFuel: boolean): Trial => {
    const crew = crewOf({ ...request, sortie });
    const drafted = draft(crew);
    const requiredKg = withFuel ? requiredOf(drafted).requiredKg : [];
    const limits = summariseLimits(request.aircraft.limits, sortie.pads, drafted.log, sortie.takeOff.timeS);
    evaluations += crew.flight.evaluations + crew.counted.evaluations;
    const { fuelKg } = drafted.log.columns;
    const differences = requiredKg
      .map((required, i) => fuelKg[i] - required)
      .filter((kg) => !Number.isNaN(kg));
    const fuelInHandKg = Math.min(...differences);
    const judged = { limits, requiredKg, findings: findAreas(drafted) };
    return { fault: firstFault(drafted, judged), judged, fuelInHandKg, drafted };
  };
  const fullKg = fuelled(request.aircraft, request.sortie.aircraft).balance.fuelCapacityKg;
  for (const lever of leversFor(fault, request.sortie, fullKg)) {
    const value = yield* solve(lever, (sortie) => fly(sortie, aboutFuel).fault === null);
    if (value === null) continue;
    const rerun = fly(lever.set(value), true);
    if (rerun.fault !== null) continue;
    const freedBy: Freed = {
      lever: lever.path,
      also: lever.also,
      name: lever.name,
      quantity: lever.quantity,
      from: lever.from,
      to: value,
      place: lever.place ? inDegrees(lever.place(value)) : null,
      marginAfter: marginAfter(fault, rerun, request.sortie.corridorHalfWidthM),
      fuelInHandKg: rerun.fuelInHandKg,
    };
    return { freedBy, evaluations };
  }
  return { freedBy: null, evaluations };
}

function inDegrees({ latitudeRad, longitudeRad }: Place): Freed['place'] {
  const hundredths = (angleRad: number): number => Number((angleRad * degrees).toFixed(2));
  return { latitudeDeg: hundredths(latitudeRad), longitudeDeg: hundredths(longitudeRad) };
}

/** What a trial keeps at the limit, the area, the runway, the cabin or the fuel that was at fault; null where that has no measure. */
function marginAfter(
  fault: Fault,
  { judged, fuelInHandKg, drafted }: Trial,
  halfWidthM: number,
): number | null {
  if (fault.through) {
    const found = judged.findings.find(({ area }) => area.name === fault.through?.name);
    return found?.nearest ? found.nearest.distanceM - halfWidthM : null;
  }
  if (fault.key === 'fuelRequired' || fault.key === 'fuel') return fuelInHandKg;
  if (fault.key === 'runway' || fault.key === 'tyreSpeed') return takeOffMargins(drafted.crew)[fault.key];
  if (fault.key === 'cabinRate') return cabinMarginMS(drafted);
  return judged.limits.find(({ key }) => key === fault.key)?.leastMargin ?? null;
}

/** The least movement of a lever, in its steps, with which the sortie passes; null where none is found. */
function* solve(lever: Lever, passesWith: (sortie: Sortie) => boolean): Generator<null, number | null> {
  const direction = Math.sign(lever.towards - lever.from);
  const most = Math.floor(Math.abs(lever.towards - lever.from) / lever.step + 1e-9);
  const at = (steps: number): number => Number((lever.from + direction * steps * lever.step).toPrecision(12));
  let fails = 0;
  let passes = 0;
  for (let steps = 1; passes === 0 && fails < most; steps *= 2) {
    const tried = Math.min(steps, most);
    if (passesWith(lever.set(at(tried)))) passes = tried;
    else fails = tried;
    yield null;
  }
  if (passes === 0) return null;
  while (passes - fails > 1) {
    const middle = Math.floor((passes + fails) / 2);
    if (passesWith(lever.set(at(middle)))) passes = middle;
    else fails = middle;
    yield null;
  }
  return at(passes);
}
