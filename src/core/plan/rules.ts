/**
 * The day's own rules of thumb. The planned sortie is flown again with one driver changed and its decisions held; what fuel is less
 * at each gate is the cost. Where the sortie fails it is planned anew. A contact for full tanks fills them whatever came before,
 * so that no cost passes through it; one for a fixed mass passes all on.
 */
import { standardDay } from '../air/offset-day.ts';
import { crewOf, type PlanRequest } from './draft.ts';
import { driversOf } from './drivers.ts';
import { toTheEnd } from './explain.ts';
import { Log } from './log.ts';
import type { DriverRule, RuleEdge, Rules } from './plan.ts';
import type { Crew } from './route-flight.ts';
import { costsOf, guessOf } from './rules-cost.ts';
import { edgeOf, judged } from './rules-edge.ts';
import { Held, Trials } from './rules-held.ts';
import { CannotPlan } from './sortie-flyer.ts';

/** A flyable sortie of `request` is looked at; one that is not has no edges. Throws `CannotPlan`. */
export function rulesOf(request: PlanRequest): Rules {
  return toTheEnd(ruling(request));
}

/** The same, with null between two flights, so that who waits can give up. */
export function* ruling(request: PlanRequest): Generator<null, Rules> {
  const { altitudes } = crewOf(request);
  const log = new Log(request.aircraft.limits);
  const today = new Held(request, altitudes, log);
  const drafted = { crew: today.asPlanned, log, flown: today.flown };
  const planned = judged(drafted);
  yield null;
  const standard = standardOf(request, altitudes);
  yield null;
  const drivers: DriverRule[] = [];
  for (const driver of driversOf(request)) {
    const { key, of, quantity, step } = driver;
    const before = evaluationsOf(today, standard);
    const { costs, marks, flown } = yield* costsOf(
      driver,
      today,
      typeof standard === 'string' ? null : standard,
    );
    const edges: RuleEdge[] = [];
    const trials = new Trials(today, { drafted, planned }, driver);
    for (const towards of planned.failure === null ? driver.edges : []) {
      const lookedTo = towards === 'more' ? driver.most : driver.least;
      const guess = driver.guess?.(log, towards) ?? guessOf(planned, today.gates, flown, lookedTo);
      edges.push(yield* edgeOf({ fly: (value) => trials.at(value), lookedTo, towards, guess }));
    }
    const evaluations = evaluationsOf(today, standard) - before;
    drivers.push({ key, of, quantity, step, costs, marks, edges, evaluations });
  }
  const notComputed = [
    ...(typeof standard === 'string' ? [standard] : []),
    ...(request.aircraft.inletError === null
      ? ['what an inlet off its schedule costs: the deck has no table of it']
      : []),
    ...(request.day.steady
      ? ['what a later take-off costs in other air: the weather is the same at every time']
      : []),
    ...(planned.failure === null
      ? []
      : [`how far each driver can go: the sortie cannot be flown as it is (${planned.failure.name})`]),
  ];
  return {
    gates: today.gates,
    drivers,
    withStandardDay: typeof standard !== 'string',
    notComputed,
    evaluations: evaluationsOf(today, standard),
  };
}

function evaluationsOf(today: Held, standard: Held | string): number {
  return today.evaluations + (typeof standard === 'string' ? 0 : standard.evaluations);
}

/** The same sortie on the standard day, or why there is none. */
function standardOf(request: PlanRequest, altitudes: Crew['altitudes']): Held | string {
  const what = 'what the drivers cost on the standard day';
  if (request.day.description.title === standardDay.description.title) return `${what}: it is today's`;
  try {
    const held = new Held({ ...request, day: standardDay }, altitudes, null);
    return held.flown.stopped ? `${what}: the sortie cannot be flown on it` : held;
  } catch (error) {
    if (error instanceof CannotPlan) return `${what}: ${error.message}`;
    throw error;
  }
}
