/** Fuel as it was read against the line of the plan, and what is expected to the end of the leg, with its band. */
import type { Answer } from '../../core/airborne/answer.ts';
import type { Follows } from '../../core/airborne/follow.ts';
import { plannedAt } from '../../core/airborne/reach-flown.ts';
import type { Entry } from '../../core/airborne/reading.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { fuelTable } from '../airborne-follows.ts';
import { element } from '../svg.ts';
import { gaugesOf } from '../units.ts';
import { rule } from './frame.ts';
import { type Curve, DASHES, type Figure, type PlotLook, plot, rangeOf } from './plot.ts';

/** Shown before the first reading, and at least in all [s]. */
const beforeS = 300;
const leastS = 1800;

/** `readings` in order of time. */
export function fuelNowFigure(
  plan: Plan,
  answer: Answer,
  follows: Follows,
  readings: readonly Entry[],
  look: PlotLook,
): Figure {
  const fuel = gaugesOf(plan)('fuelKg');
  const kg = (si: number): number => fuel.fromSi(si);
  const { columns } = plan.trace;
  const shiftS = answer.timeS - answer.planTimeS;
  const last = follows.fuel.findIndex(({ kind }) => kind === 'contact' || kind === 'landing');
  const ahead = follows.fuel.slice(0, last < 0 ? follows.fuel.length : last + 1);
  const read = readings.filter(({ key, status }) => key === 'fuelKg' && status !== 'withdrawn');
  const toS = Math.max(
    answer.timeS,
    ...ahead.map(({ timeS, planTimeS }) => Math.max(timeS, planTimeS + shiftS)),
  );
  const fromS = Math.min((read[0]?.timeS ?? answer.timeS) - beforeS, toS - leastS);
  const planned = columns.timeS.flatMap((timeS, i) => {
    const at = timeS + shiftS;
    return at < fromS || at > toS
      ? []
      : [{ minute: at / 60, onKg: columns.fuelKg[i], neededKg: columns.fuelRequiredKg[i] }];
  });
  const moments = [
    { planTimeS: answer.planTimeS, moreKg: answer.fuelKg.mean, sdKg: answer.fuelKg.sd },
  ].concat(
    ahead.map(({ planTimeS, fuelKg, plannedKg, sdKg }) => ({ planTimeS, moreKg: fuelKg - plannedKg, sdKg })),
  );
  const times = moments.map(({ planTimeS }) => planTimeS);
  const along = (values: readonly number[], atS: number): number => plannedAt(times, values, atS);
  const expected = [
    answer.planTimeS,
    ...columns.timeS.filter((at) => at > answer.planTimeS && at + shiftS <= toS),
  ].map((atS) => ({
    minute: (atS + shiftS) / 60,
    onKg:
      plannedAt(columns.timeS, columns.fuelKg, atS) +
      along(
        moments.map(({ moreKg }) => moreKg),
        atS,
      ),
    sdKg: along(
      moments.map(({ sdKg }) => sdKg),
      atS,
    ),
  }));
  const minutes = expected.map(({ minute }) => minute);
  const band = (side: 1 | -1): Curve => ({
    name: '',
    x: minutes,
    y: expected.map(({ onKg, sdKg }) => kg(onKg + side * 2 * sdKg)),
    dash: DASHES[4],
  });
  const found = ahead.flatMap(({ planTimeS, requiredKg }) =>
    requiredKg === null ? [] : [{ minute: (planTimeS + shiftS) / 60, neededKg: requiredKg }],
  );
  // Before the first moment that is flown to, what is required is the plan's.
  const required = [...planned.filter(({ minute }) => minute < (found[0]?.minute ?? Infinity)), ...found];
  const curves: readonly Curve[] = [
    {
      name: 'planned',
      x: planned.map(({ minute }) => minute),
      y: planned.map(({ onKg }) => kg(onKg)),
      dash: DASHES[1],
    },
    {
      name: 'required',
      x: required.map(({ minute }) => minute),
      y: required.map(({ neededKg }) => kg(neededKg ?? Number.NaN)),
      dash: DASHES[2],
    },
    { name: 'expected', x: minutes, y: expected.map(({ onKg }) => kg(onKg)), weight: 2.4 },
    band(1),
    band(-1),
  ];
  const [least, greatest] = rangeOf([
    ...curves.flatMap(({ y }) => [...y]),
    ...read.map(({ value }) => kg(value)),
  ]);
  const room = 0.05 * (greatest - least);
  const note =
    'Circles: as read. Strong: expected with what is found; fine dots: two standard deviations of it. Dashes: planned. Short dashes: required, from the next moment of the plan on with what is found.';
  const svg = plot(
    {
      title: 'Fuel against the plan',
      description: `Fuel on board against minutes from take-off, read ${read.length} times; the same numbers stand in the table of fuel ahead. ${note}`,
      x: { name: 'Minutes from take-off', least: fromS / 60, greatest: toS / 60 },
      y: {
        name: `Fuel on board [${fuel.unit}]`,
        least: Math.max(0, least - room),
        greatest: greatest + room,
      },
      curves,
      height: 300,
      under: (box) =>
        rule(box.x(answer.timeS / 60), 0, box.x(answer.timeS / 60), box.height, box.theme.quiet, 1),
      over: (box) =>
        read
          .filter(({ timeS }) => timeS >= fromS)
          .map(({ timeS, value }) =>
            element('circle', {
              cx: box.x(timeS / 60),
              cy: box.y(kg(value)),
              r: 3.2,
              fill: box.theme.ground,
              stroke: box.theme.ink,
              'stroke-width': 1.4,
            }),
          )
          .join(''),
    },
    look,
  );
  return { svg, note, table: fuelTable(follows, plan) };
}
