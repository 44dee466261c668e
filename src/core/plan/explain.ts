/** A sortie that cannot be flown gets an answer: what binds, where, by how much, and one change that frees it. */
import { crewOf, type Draft, draft, type PlanRequest, requiredOf } from './draft.ts';
import { type Fault, firstFault } from './failure.ts';
import { type Lever, leversFor } from './levers.ts';
import { summariseLimits } from './limits.ts';
import type { Failure, Freed, LimitSummary } from './plan.ts';
import type { Sortie } from './sortie.ts';

const degrees = 180 / Math.PI;

/** Names of what is not a limit of the deck, and the quantity its excess is measured in. */
const others: Readonly<Record<string, readonly [name: string, quantity: string]>> = {
  thrust: ['thrust', 'thrustN'],
  fuel: ['fuel', 'fuelKg'],
  fuelRequired: ['fuel required', 'fuelKg'],
  route: ['the route', 'distanceM'],
};

export function explain(
  request: PlanRequest,
  drafted: Draft,
  limits: readonly LimitSummary[],
  requiredKg: readonly number[],
): { readonly failure: Failure | null; readonly evaluations: number } {
  const fault = firstFault(drafted, limits, requiredKg);
  if (fault === null) return { failure: null, evaluations: 0 };
  const { columns } = drafted.log;
  const limit = limits.find(({ key }) => key === fault.key);
  const other = others[fault.key];
  const { freedBy, evaluations } = free(request, fault);
  const failure: Failure = {
    limit: fault.key,
    name: limit?.name ?? other?.[0] ?? fault.key,
    text: fault.text,
    timeS: columns.timeS[fault.node] - request.sortie.takeOff.timeS,
    phase: fault.phase,
    latitudeDeg: columns.latitudeRad[fault.node] * degrees,
    longitudeDeg: columns.longitudeRad[fault.node] * degrees,
    excess: fault.excess,
    quantity: limit?.quantity ?? other?.[1] ?? '',
    pad: limit?.pad ?? 0,
    freedBy,
  };
  return { failure, evaluations };
}

/** How one version of the sortie does. */
interface Trial {
  readonly fault: Fault | null;
  readonly limits: readonly LimitSummary[];
  readonly fuelInHandKg: number;
}

/** Tries the levers of a fault in turn; the first that frees the whole sortie is the answer. */
function free(request: PlanRequest, fault: Fault): { freedBy: Freed | null; evaluations: number } {
  let evaluations = 0;
  const fly = (sortie: Sortie): Trial => {
    const crew = crewOf({ ...request, sortie });
    const drafted = draft(crew);
    const { requiredKg } = requiredOf(drafted);
    const limits = summariseLimits(request.aircraft.limits, sortie.pads, drafted.log, sortie.takeOff.timeS);
    evaluations += crew.flight.evaluations + crew.counted.evaluations;
    const { fuelKg } = drafted.log.columns;
    const differences = requiredKg
      .map((required, i) => fuelKg[i] - required)
      .filter((kg) => !Number.isNaN(kg));
    return { fault: firstFault(drafted, limits, requiredKg), limits, fuelInHandKg: Math.min(...differences) };
  };
  for (const lever of leversFor(fault, request.sortie, request.aircraft.balance.fuelCapacityKg)) {
    const found = solve(lever, fly);
    if (!found) continue;
    const limit = found.trial.limits.find(({ key }) => key === fault.key);
    const freedBy: Freed = {
      lever: lever.path,
      name: lever.name,
      quantity: lever.quantity,
      from: lever.from,
      to: found.value,
      marginAfter: limit ? limit.leastMargin : found.trial.fuelInHandKg,
      fuelInHandKg: found.trial.fuelInHandKg,
    };
    return { freedBy, evaluations };
  }
  return { freedBy: null, evaluations };
}

/** The least movement of a lever, in its steps, with which the sortie can be flown; null where none is found. */
function solve(lever: Lever, fly: (sortie: Sortie) => Trial): { value: number; trial: Trial } | null {
  const direction = Math.sign(lever.towards - lever.from);
  const most = Math.floor(Math.abs(lever.towards - lever.from) / lever.step + 1e-9);
  const at = (steps: number): number => Number((lever.from + direction * steps * lever.step).toPrecision(12));
  let fails = 0;
  let passes = 0;
  let best: Trial | null = null;
  for (let steps = 1; steps < 2 * most; steps *= 2) {
    const tried = Math.min(steps, most);
    const trial = fly(lever.set(at(tried)));
    if (trial.fault === null) {
      passes = tried;
      best = trial;
      break;
    }
    fails = tried;
  }
  if (!best) return null;
  while (passes - fails > 1) {
    const middle = Math.floor((passes + fails) / 2);
    const trial = fly(lever.set(at(middle)));
    if (trial.fault === null) {
      passes = middle;
      best = trial;
    } else {
      fails = middle;
    }
  }
  return { value: at(passes), trial: best };
}
