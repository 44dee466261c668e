/** Fuel in hand at every contact and at the landing against the slip of the take-off, and the light at each of them. */
import { scaleLinear } from 'd3-scale';
import { line as path } from 'd3-shape';
import type { Plan } from '../../core/plan/plan.ts';
import type { Slip, SlipPlace } from '../../core/plan/slip.ts';
import { furthest, slipPlaceName, slipSentences, slipWords } from '../slip.ts';
import { element } from '../svg.ts';
import { SIZE } from '../theme.ts';
import { figures, plainSpaces } from '../units.ts';
import { type Frame, LEFT, line, rule } from './frame.ts';
import { dot } from './panel.ts';
import { type Body, type ChartOptions, sheet } from './sheet.ts';

const PLOT = 260;
const NAMES = 200;
const LIGHT = 24;

export function slipChart(slip: Slip, plan: Plan, options: ChartOptions): string {
  const title = `A later take-off: ${plan.title}`;
  const sentences = slipSentences(slip, plan);
  return sheet(
    plan,
    title,
    sentences,
    plainSpaces(sentences.join(' ')),
    (frame) => body(frame, slip),
    options,
  );
}

function body(frame: Frame, slip: Slip): Body {
  const { rows } = slip;
  const right = frame.width - NAMES;
  const x = scaleLinear([rows[0].slipS, rows[rows.length - 1].slipS], [LEFT, right]);
  const places = furthest(slip);
  const fuel = drawFuel(frame, slip, places, x);
  const bottom = 20 + PLOT;
  const axis = rows.map(({ slipS }) => rule(x(slipS), bottom, x(slipS), bottom + 5, frame.theme.ink, 1));
  const every = Math.ceil(rows.length / 13);
  const labels = rows
    .filter((_, i) => i % every === 0)
    .map(({ slipS }) =>
      line(frame, x(slipS), bottom + 18, slipWords(slipS), SIZE.small, 'normal', frame.theme.ink, 'middle'),
    );
  const lights = places.map((place, i) => drawLight(frame, slip, place, x, bottom + 34 + i * LIGHT));
  return {
    markup: [fuel, ...axis, ...labels, ...lights].join(''),
    height: bottom + 34 + places.length * LIGHT + 24,
  };
}

type Scale = (slipS: number) => number;

const DASHES = [undefined, '9 4', '2 4', '12 4 2 4'];

function drawFuel(frame: Frame, slip: Slip, places: readonly SlipPlace[], x: Scale): string {
  const { theme, width } = frame;
  const gauge = frame.gauges('fuelKg');
  const lines = places
    .filter(({ kind }) => kind !== 'take-off')
    .map((place) => ({
      place,
      points: slip.rows.flatMap(({ slipS, places: there }): [number, number][] => {
        const inHandKg = there.find(({ key }) => key === place.key)?.inHandKg ?? null;
        return inHandKg === null ? [] : [[slipS, gauge.differenceFromSi(inHandKg)]];
      }),
    }))
    .filter(({ points }) => points.length > 0);
  const values = lines.flatMap(({ points }) => points.map(([, value]) => value));
  const y = scaleLinear([Math.min(0, ...values), Math.max(...values, gauge.step)], [20 + PLOT, 20]).nice(5);
  const parts = [line(frame, LEFT, 10, `Fuel in hand [${gauge.shortUnit}]`, SIZE.medium, 'bold')];
  for (const tick of y.ticks(5)) {
    parts.push(rule(LEFT, y(tick), width - NAMES, y(tick), theme.rule, 0.8));
    parts.push(
      line(frame, LEFT - 8, y(tick) + 4, figures(gauge, tick), SIZE.small, 'normal', theme.ink, 'end'),
    );
  }
  parts.push(rule(LEFT, y(0), width - NAMES, y(0), theme.ink, 1.6));
  const draw = path<[number, number]>()
    .x(([slipS]) => x(slipS))
    .y(([, value]) => y(value));
  const ends = spread(lines.map(({ points }) => y(points[points.length - 1][1])));
  lines.forEach(({ place, points }, i) => {
    const dash = DASHES[i % DASHES.length];
    parts.push(
      element('path', {
        d: draw(points) ?? '',
        fill: 'none',
        stroke: theme.ink,
        'stroke-width': 2,
        'stroke-dasharray': dash,
      }),
    );
    parts.push(line(frame, width - NAMES + 10, ends[i] + 4, slipPlaceName(frame.plan, place), SIZE.small));
  });
  const worst = slip.worst === null ? null : slip.rows[slip.worst];
  if (worst?.worst) parts.push(dot(frame, x(worst.slipS), y(gauge.differenceFromSi(worst.worst.inHandKg))));
  return parts.join('');
}

/** Heights of labels, moved down so that none lies on another. */
function spread(heights: readonly number[]): number[] {
  const moved = [...heights];
  const order = moved.map((_, i) => i).sort((a, b) => heights[a] - heights[b]);
  order.slice(1).forEach((i, k) => {
    moved[i] = Math.max(moved[i], moved[order[k]] + 14);
  });
  return moved;
}

/** One row: a bar for each stretch of slips with the same light, the light in words. */
function drawLight(frame: Frame, { rows }: Slip, place: SlipPlace, x: Scale, top: number): string {
  const { theme, width, plan } = frame;
  const lights = rows.map(({ slipS, places }) => ({
    slipS,
    light: places.find(({ key }) => key === place.key)?.light ?? null,
  }));
  const parts = [
    line(frame, width - NAMES + 10, top + 15, `light at ${slipPlaceName(plan, place)}`, SIZE.small),
  ];
  for (let from = 0; from < lights.length; ) {
    let to = from;
    while (lights[to + 1]?.light === lights[from].light) to++;
    const { light } = lights[from];
    if (light !== null) {
      const [left, right] = [x(lights[from].slipS), x(lights[to].slipS)];
      const dark = light === 'day' ? theme.ground : light === 'night' ? theme.rule : theme.tint;
      parts.push(
        element('rect', {
          x: left - 3,
          y: top,
          width: right - left + 6,
          height: LIGHT - 4,
          fill: dark,
          stroke: theme.quiet,
        }),
      );
      parts.push(line(frame, left + 6, top + 15, light, SIZE.small));
    }
    from = to + 1;
  }
  return parts.join('');
}
