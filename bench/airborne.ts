/** What a reading costs in the air: digested, and all that follows flown from there, on the demo sortie. */
import { advising } from '../src/core/airborne/advice.ts';
import { deckSlopes } from '../src/core/airborne/deck-slopes.ts';
import { deviationOf } from '../src/core/airborne/deviation.ts';
import { Estimator } from '../src/core/airborne/estimator.ts';
import { Expectation, newExpected } from '../src/core/airborne/expectation.ts';
import { following } from '../src/core/airborne/follow.ts';
import { areasNow, flyingReach } from '../src/core/airborne/reach-flown.ts';
import type { Entry } from '../src/core/airborne/reading.ts';
import { FlyingOn } from '../src/core/airborne/refly.ts';
import { toTheEnd } from '../src/core/plan/explain.ts';
import { makePlan } from '../src/core/plan/make-plan.ts';
import { reachOf } from '../src/core/plan/reach.ts';
import { readPlanRequest } from '../src/files/plan-request.ts';
import { keep, line } from './support/clock.ts';

const rounds = 12;

/** Least and median of the times of some runs [ms]; the first quarter warms up and does not count. */
function times(run: (round: number) => void): { readonly least: number; readonly median: number } {
  const taken: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const start = performance.now();
    run(round);
    if (round >= rounds / 4) taken.push(performance.now() - start);
  }
  taken.sort((a, b) => a - b);
  return { least: taken[0], median: taken[taken.length >> 1] };
}

export async function bench(): Promise<void> {
  const request = await readPlanRequest('examples/long-loop.yaml', 'ramrise bench');
  const made = makePlan(request);
  const plan = { ...made, reach: reachOf(request, made) };
  const expectation = new Expectation(plan, deckSlopes(request.aircraft, plan.trace));
  const tell = (name: string, run: (round: number) => void, words: () => string): void => {
    const { least, median } = times(run);
    line(name, `${median.toFixed(1)} ms`, `least ${least.toFixed(1)} ms${words()}`);
  };
  // A log of 90 minutes: fuel each minute, 2 % more than planned from 1:00 on.
  const entries = Array.from({ length: 90 }, (_, i): Entry => {
    const timeS = 60 * (i + 5);
    const more = 0.02 * Math.max(0, expectation.fuelAt(3600) - expectation.fuelAt(Math.max(3600, timeS)));
    return { timeS, key: 'fuelKg', value: expectation.fuelAt(timeS) - more, status: 'read' };
  });
  const logged = (): Estimator => {
    const estimator = new Estimator(expectation);
    for (const entry of entries) estimator.add(entry);
    return estimator;
  };
  const estimator = logged();
  const last = entries[entries.length - 1];
  tell(
    'one reading more on a log of 90',
    (round) => {
      estimator.add({ ...last, timeS: last.timeS + 60 + round });
      keep(estimator.answer().fuelKg.mean);
    },
    () => ', with its answer',
  );
  const late = logged();
  tell(
    'one reading late by half an hour',
    (round) => {
      late.add({ ...entries[60], timeS: entries[60].timeS + 7 + round });
      keep(late.answer().fuelKg.mean);
    },
    () => ', with its answer',
  );
  // Six values a minute as planned.
  const at = newExpected();
  const full = Array.from({ length: 90 }, (_, i): Entry[] => {
    const timeS = 60 * (i + 5);
    expectation.at(timeS, at);
    const half = at.fuelFlowKgS / 2;
    const values = {
      mach: at.mach,
      fuelKg: at.fuelKg,
      fuelFlowLeftKgS: half,
      fuelFlowRightKgS: half,
      inletTemperatureK: at.inletTemperatureK,
      groundSpeedMS: at.groundSpeedMS,
    };
    return Object.entries(values).map(([key, value]) => ({
      timeS,
      key: key as keyof typeof values,
      value,
      status: 'read',
    }));
  }).flat();
  const filled = new Estimator(expectation);
  for (const entry of full) filled.add(entry);
  for (const [name, corrected] of [
    ['10 min back', full[full.length - 60]],
    ['the very first', full[0]],
  ] as const) {
    tell(
      `one of ${full.length} readings corrected, ${name}`,
      (round) => {
        filled.add({ ...corrected, status: 'corrected', value: corrected.value + 1e-6 * round });
      },
      () => '',
    );
  }
  const answer = logged().answer();
  const on = new FlyingOn(request, plan);
  const takeOffS = request.sortie.takeOff.timeS;
  const now = { timeS: answer.timeS, planTimeS: answer.planTimeS, takeOffS };
  const deviation = deviationOf(answer.state.mean);
  let evaluations = 0;
  let flights = 0;
  tell(
    'fuel ahead flown on',
    () => {
      evaluations = on.fly(now, deviation).evaluations;
    },
    () => `, ${evaluations} evaluations`,
  );
  tell(
    'reach after every failure from here',
    () => {
      ({ flights, evaluations } = toTheEnd(flyingReach(on, now, deviation)));
    },
    () => `, ${flights} flights, ${evaluations} evaluations`,
  );
  tell(
    'what to do now',
    () => {
      evaluations = toTheEnd(advising(on, now, deviation, null))?.evaluations ?? 0;
    },
    () => `, ${evaluations} evaluations`,
  );
  tell(
    'areas in reach from here',
    () => {
      keep(toTheEnd(areasNow(on, now, deviation)).length);
    },
    () => '',
  );
  const told = { plan, answer, readings: entries, expectation, takeOffS };
  tell(
    'all that follows but the areas',
    () => {
      evaluations = toTheEnd(following(told, on, null)).evaluations;
    },
    () => `, ${evaluations} evaluations`,
  );
}
