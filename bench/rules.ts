/** What is flown of the demo sortie after its plan for the case that a driver moves or a tanker fails, warm. */
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
}
