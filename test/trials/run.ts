/**
 * `npm run trials [-- SEEDS]`: how soon and how rightly the estimate speaks, on flights whose truth is known, beside a crew that
 * compares fuel every 30 minutes on the same readings. Default 500 seeds for detection, a fifth of it for causes.
 */
import { asPlanned, cruise, type Deviation, from, steady } from './flight.ts';
import { correlated, type GaugeError, read, sloshing, stepped, white } from './gauges.ts';

const seeds = Number(process.argv[2] ?? 500);
const some = Math.max(10, Math.round(seeds / 5));
const onset = 20;
let failed = 0;

function tell(what: string, value: string, wanted: string, holds: boolean): void {
  if (!holds) failed++;
  process.stdout.write(
    `${holds ? 'holds ' : 'FAILS '} ${what.padEnd(58)} ${value.padStart(16)}   ${wanted}\n`,
  );
}

function quantile(values: readonly number[], part: number): number {
  return [...values].sort((a, b) => a - b)[Math.floor(part * (values.length - 1))];
}

const each = <T>(count: number, of: (seed: number) => T): T[] =>
  Array.from({ length: count }, (_, seed) => of(seed));

/** The minute at which a crew sees it: the first half hour with fuel further off than the tolerance. */
function checkpoint(fuelOffKg: readonly number[], toleranceKg: number): number | null {
  for (let minute = 30; minute < fuelOffKg.length; minute += 30) {
    if (Math.abs(fuelOffKg[minute]) > toleranceKg) return minute;
  }
  return null;
}

/** Fuel alone: false alarms with four kinds of gauge, and the tolerance with which checkpoints have as many. */
const quiet = steady(90);
const kinds: Readonly<Record<string, GaugeError>> = { white, correlated, stepped, sloshing };
const quietRuns = Object.entries(kinds).map(([name, error]) => {
  const runs = each(seeds, (seed) => read(quiet, ['fuel'], 10_000 + seed, [], error));
  const alarms = runs.filter(({ alertMin }) => alertMin !== null).length;
  tell(
    `false alarms in 90 min, ${name} noise of 50 kg`,
    `${alarms} of ${seeds}`,
    'at most 7 %',
    alarms <= 0.07 * seeds,
  );
  return { name, runs, alarms };
});
const base = quietRuns[0];
const worst = base.runs.map(({ fuelOffKg }) =>
  Math.max(...[30, 60, 90].map((minute) => Math.abs(fuelOffKg[minute]))),
);
const toleranceKg = quantile(worst, 1 - Math.max(1, base.alarms) / seeds);

/** 3 % more from minute 20, fuel alone. */
const more = steady(90, 0.03, onset);
const runs = each(seeds, (seed) => read(more, ['fuel'], seed, [35, 45]));
const delay = runs.map(({ alertMin }) => (alertMin === null ? 99 : alertMin - onset));
const late = runs.map(({ fuelOffKg }) => (checkpoint(fuelOffKg, toleranceKg) ?? 120) - onset);
const median = quantile(delay, 0.5);
tell('+3 % of flow from fuel alone, median', `${median} min`, 'at most 10', median <= 10);
const soon = delay.filter((minutes) => minutes <= 15).length / seeds;
tell(
  '+3 % of flow from fuel alone, within 15 min',
  `${(100 * soon).toFixed(1)} %`,
  'at least 90',
  soon >= 0.9,
);
const crew = quantile(late, 0.5);
const times = crew / Math.max(1, median);
tell(
  `checkpoints of 30 min, tolerance ${toleranceKg.toFixed(0)} kg, median ${crew} min`,
  `${times.toFixed(1)} times`,
  'at least 2.5',
  times >= 2.5,
);
const slope = runs.map(({ answers }) => 60 * (answers.get(35)?.rateKgS.mean ?? 0) - 9);
const rms = Math.sqrt(slope.reduce((sum, error) => sum + error * error, 0) / seeds);
tell('error of the slope after 15 min, rms', `${rms.toFixed(2)} kg/min`, 'at most 3.3', rms <= 3.3);
const told = runs.filter(
  ({ answers }) => answers.get(45)?.alert?.cause || answers.get(45)?.known.length,
).length;
tell(
  'a cause named from fuel alone (cannot be told)',
  `${told} of ${seeds}`,
  'at most 5 %',
  told <= 0.05 * seeds,
);

/** Flow meters. */
const flows = each(some, (seed) => read(steady(40, 0.02, onset), ['fuel', 'flow'], seed));
const metered = quantile(
  flows.map(({ alertMin }) => (alertMin === null ? 99 : alertMin - onset)),
  0.5,
);
tell('+2 % with flow meters of 1 %, median', `${metered} min`, 'at most 4', metered <= 4);

/** Causes. */
const causes: readonly (readonly [string, Partial<Deviation>])[] = [
  ['leak', { leakKgS: 9 / 60 }],
  ['temperature', { temperatureK: 6 }],
  ['headwind', { headwindMS: (30 * 1852) / 3600 }],
  ['leftEngine', { left: 1.06 }],
  ['bothEngines', { drag: 1.03 }],
  ['gauge', { gaugeKg: -250 }],
];
for (const [cause, deviation] of causes) {
  const flown = cruise(45, from(onset, { ...asPlanned, ...deviation }));
  let [right, wrong] = [0, 0];
  for (let seed = 0; seed < some; seed++) {
    const answer = read(flown, ['fuel', 'flow', 'inlet', 'ground'], seed, [45]).answers.get(45);
    const named = [...(answer?.known ?? []), ...(answer?.alert ? [answer.alert] : [])].flatMap(
      (each) => each.cause ?? [],
    );
    if (named.length === 1 && named[0] === cause) right++;
    else if (named.length > 0) wrong++;
  }
  const holds = right >= 0.9 * some && wrong <= 0.05 * some;
  tell(
    `cause ${cause}, 25 min after onset: right, wrong`,
    `${right}, ${wrong} of ${some}`,
    '90 % right, 5 % wrong',
    holds,
  );
}

process.exitCode = failed === 0 ? 0 : 1;
