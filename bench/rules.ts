/** What is flown of the demo sortie after its plan, for the case that something goes otherwise, warm. */
import { inletAsFlown } from '../src/core/plan/inlet-flown.ts';
import { makePlan } from '../src/core/plan/make-plan.ts';
import { reachOf } from '../src/core/plan/reach.ts';
import { rulesOf } from '../src/core/plan/rules.ts';
import { tankerMatrix } from '../src/core/plan/tanker-cases.ts';
import { readPlanRequest } from '../src/files/plan-request.ts';
import { line } from './support/clock.ts';

const rounds = 15;

/** The least time of some runs [ms], after one that is not counted, and what the last came to. */
function least<T>(run: () => T): { readonly ms: number; readonly result: T } {
  let result = run();
  let ms = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round++) {
    const start = performance.now();
    result = run();
    ms = Math.min(ms, performance.now() - start);
  }
  return { ms, result };
}

export async function bench(): Promise<void> {
  const request = await readPlanRequest('examples/long-loop.yaml', 'ramrise bench');
  const { ms, result: rules } = least(() => rulesOf(request));
  line('the rules of the day', `${ms.toFixed(0)} ms`, `${rules.evaluations} evaluations`);
  for (const { key, of, evaluations, edges } of rules.drivers) {
    const ends = edges.map(({ limit }) => limit ?? 'no limit').join(', ');
    line(`  ${of === null ? key : `${key} ${of}`}`, `${evaluations}`, `evaluations; ends by ${ends}`);
  }
  const troubled = least(() => tankerMatrix(request));
  const { cases, evaluations } = troubled.result;
  const words = `${cases.length} cases, ${evaluations} evaluations`;
  line('each tanker in trouble', `${troubled.ms.toFixed(0)} ms`, words);
  const plan = makePlan(request);
  const reached = least(() => reachOf(request, plan));
  const reach = reached.result;
  const flown =
    reach === null
      ? ''
      : `${reach.timeS.length} minutes, ${reach.ladders.length} cases, ${reach.flights} flights, ${reach.evaluations} evaluations`;
  line('what is in reach', `${reached.ms.toFixed(0)} ms`, flown);
  const inlet = least(() => inletAsFlown(request));
  line('inlets off their schedule', `${inlet.ms.toFixed(0)} ms`);
  line('all of it', `${(ms + troubled.ms + reached.ms + inlet.ms).toFixed(0)} ms`);
}
