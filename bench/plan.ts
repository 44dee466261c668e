/** The demo sortie: planned warm, flown again with its decisions held, and as a command of its own. */
import { spawnSync } from 'node:child_process';
import { readFileSync, statSync } from 'node:fs';
import { makePlan } from '../src/core/plan/make-plan.ts';
import type { Reach } from '../src/core/plan/plan.ts';
import { reachOf } from '../src/core/plan/reach.ts';
import { type Draw, Refly } from '../src/core/plan/refly.ts';
import { planText } from '../src/files/plan.ts';
import { readPlanRequest } from '../src/files/plan-request.ts';
import { keep, line } from './support/clock.ts';

const sortie = 'examples/long-loop.yaml';
const rounds = 80;

/** Median of the times of some runs [ms]; the first quarter warms up and does not count. */
function median(run: (round: number) => void, of = rounds): number {
  const times: number[] = [];
  for (let round = 0; round < of; round++) {
    const start = performance.now();
    run(round);
    if (round >= of / 4) times.push(performance.now() - start);
  }
  times.sort((a, b) => a - b);
  return times[times.length >> 1];
}

export async function bench(): Promise<void> {
  const request = await readPlanRequest(sortie, 'ramrise bench');
  let plan = makePlan(request);
  const planned = median(() => {
    plan = makePlan(request);
  });
  line('the demo sortie planned, warm', `${planned.toFixed(1)} ms`, `${plan.evaluations} evaluations`);
  const refly = new Refly(request, plan);
  let evaluations = 0;
  const reflown = median((round) => {
    const draw: Draw = { dragFactor: 1 + 1e-4 * (round % 7), temperatureK: 0.1 * (round % 5) };
    const answer = refly.fly(draw);
    evaluations = answer.evaluations;
    keep(answer.fuelKg[0]);
  });
  line('flown again, decisions held', `${reflown.toFixed(1)} ms`, `${evaluations} evaluations`);
  let reach = reachOf(request, plan);
  const reached = median(() => {
    reach = reachOf(request, plan);
  }, 5);
  line('where to go, minute by minute', `${reached.toFixed(0)} ms`, reachWords(reach));
  line('plan file', `${(planText(plan).length / 1e6).toFixed(2)} MB`, '');
  command();
}

/** What its cost goes with. */
function reachWords(reach: Reach | null): string {
  if (reach === null) return 'no failures';
  const { timeS, ladders, flights, evaluations } = reach;
  return `${timeS.length} min, ${ladders.length} failures, ${flights} flights, ${evaluations} evaluations`;
}

/** The whole command, from the built program where there is one. */
function command(): void {
  const built = 'dist/main.js';
  if (!statSync(built, { throwIfNoEntry: false })) {
    line('the command', 'not measured', 'nothing is built: npm run build');
    return;
  }
  const report = "process.on('exit', () => process.stderr.write('\\n' + process.resourceUsage().maxRSS));";
  const start = performance.now();
  const child = spawnSync(
    process.execPath,
    [
      '--import',
      `data:text/javascript,${encodeURIComponent(report)}`,
      'bin/ramrise.js',
      'plan',
      sortie,
      '--out',
      'out/bench',
    ],
    { stdio: ['ignore', 'ignore', 'pipe'], encoding: 'utf8' },
  );
  keep(readFileSync('out/bench/plan.json').length);
  const peak = Number(child.stderr.trim().split('\n').at(-1)) / 1024;
  line(
    'the command, cold',
    `${((performance.now() - start) / 1000).toFixed(2)} s`,
    `peak ${peak.toFixed(0)} MB`,
  );
}
