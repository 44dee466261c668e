/** Every limit's margin against time, one small panel each, the closest first: the limit is a shore, its spread a beach. */
import type { LimitSummary, Plan } from '../../core/plan/plan.ts';
import { limitMargin, padWords } from '../sentences.ts';
import { element, translate } from '../svg.ts';
import { SIZE } from '../theme.ts';
import { hoursMinutes } from '../time.ts';
import { figures, type Gauge, plainSpaces } from '../units.ts';
import { type Frame, LEFT, line, type Panel, RIGHT, rule } from './frame.ts';
import { dot } from './panel.ts';
import { greatest, linePath, type Point, upright } from './series.ts';
import { type ChartOptions, chart } from './sheet.ts';

const NAME = 25;
const PLOT = 46;
const SHORE = 12;
const GAP = 8;

export function marginsChart(plan: Plan, options: ChartOptions): string {
  const title = `Margins to the limits: ${plan.title}`;
  return chart(plan, title, [], description(plan), marginPanels, options);
}

function description(plan: Plan): string {
  const parts = plan.limits.map((limit) => `${limit.name} ${limitMargin(plan, limit).text}`);
  return plainSpaces(
    `Least margins: ${parts.join(', ')}; the course of each stands in the table of margins.`,
  );
}

export function marginPanels(frame: Frame): readonly Panel[] {
  return [caption(frame), ...frame.plan.limits.map((limit) => marginPanel(frame, limit))];
}

/** How the panels are read, in words. */
function caption(frame: Frame): Panel {
  const text =
    'Margins, the closest first. Hatched: beyond the limit; grey: its spread; dashes: the pad; strong line: this limit is next.';
  return { height: 30, draw: () => line(frame, 8, 18, text, SIZE.small) };
}

function marginPanel(frame: Frame, limit: LimitSummary): Panel {
  const height = NAME + PLOT + SHORE + GAP;
  return { height, draw: () => drawMargin(frame, limit) };
}

function drawMargin(frame: Frame, limit: LimitSummary): string {
  const { theme, plan } = frame;
  const gauge = frame.gauges(limit.quantity);
  const times = plan.trace.columns.timeS;
  const points = plan.trace.margins[limit.key].map((si, i) => ({
    timeS: times[i],
    value: gauge.differenceFromSi(si),
  }));
  const top = greatestDrawn(points, limit, gauge);
  const { y } = upright(0, top, PLOT, 2);
  const clip = `inside-${limit.key.replace(/[^A-Za-z0-9]/g, '')}`;
  const right = frame.width - RIGHT;
  const box = { x: LEFT, y: 0, width: right - LEFT, height: PLOT + SHORE };
  const parts = [
    element('clipPath', { id: clip }, element('rect', box)),
    shore(frame, limit, gauge, y),
    rule(LEFT, y(top), right, y(top), theme.rule, 0.8),
    side(frame, y(top), figures(gauge, top, 'nearest', stepFor(top))),
    side(frame, y(0), '0'),
    element('g', { 'clip-path': `url(#${clip})` }, ...lines(frame, limit, points, y)),
    least(frame, limit, y, gauge),
  ];
  const name = line(frame, 8, 14, nameWithUnit(limit.name, gauge.differenceUnit), SIZE.medium, 'bold');
  return name + element('g', { transform: translate(0, NAME) }, ...parts);
}

/** Land beyond the limit, a grey beach of one standard deviation on its near side, and the pad that the sortie keeps. */
function shore(frame: Frame, limit: LimitSummary, gauge: Gauge, y: (value: number) => number): string {
  const { theme } = frame;
  const right = frame.width - RIGHT;
  const width = right - LEFT;
  const spread = Math.max(0, y(0) - y(gauge.differenceFromSi(limit.spread)));
  const pad = y(gauge.differenceFromSi(limit.pad));
  return [
    element('rect', { x: LEFT, y: y(0), width, height: SHORE, fill: 'url(#land)', opacity: 0.55 }),
    spread > 0 ? element('rect', { x: LEFT, y: y(0) - spread, width, height: spread, fill: theme.rule }) : '',
    limit.pad > 0 ? rule(LEFT, pad, right, pad, theme.ink, 1, '7 4') : '',
    rule(LEFT, y(0), right, y(0), theme.ink, 1.6),
  ].join('');
}

/** Thin where another limit is next, strong where this one is. */
function lines(
  frame: Frame,
  limit: LimitSummary,
  points: readonly Point[],
  y: (value: number) => number,
): readonly string[] {
  const { next } = frame.plan.trace;
  const path = (chosen: readonly Point[], width: number) =>
    element('path', {
      d: linePath(frame, chosen, y),
      fill: 'none',
      stroke: frame.theme.ink,
      'stroke-width': width,
      'stroke-linejoin': 'round',
    });
  const strong = points.map((point, i) =>
    next[i] === limit.key || next[i - 1] === limit.key ? point : { timeS: point.timeS, value: Number.NaN },
  );
  return [path(points, 1.1), path(strong, 3.4)];
}

/** The least margin as a dot on the line and, right of the plot, in figures with its spread, its time and the pad. */
function least(frame: Frame, limit: LimitSummary, y: (value: number) => number, gauge: Gauge): string {
  const value = gauge.differenceFromSi(limit.leastMargin);
  const at = Math.min(Math.max(y(value), 0), PLOT + SHORE - 3);
  const x = frame.width - RIGHT + 10;
  const when = `at ${hoursMinutes(limit.timeS)}`;
  const pad = padWords(frame.plan, limit);
  const reach = (sign: number) =>
    Math.min(PLOT + SHORE, Math.max(0, y(value + sign * gauge.differenceFromSi(limit.spread))));
  const whisker = frame.x(limit.timeS);
  const here = frame.shows(limit.timeS);
  return (
    (here && limit.spread > 0 ? rule(whisker, reach(1), whisker, reach(-1), frame.theme.ink, 1.4) : '') +
    (here ? dot(frame, frame.x(limit.timeS), at) : '') +
    line(frame, x, 14, limitMargin(frame.plan, limit).text, SIZE.medium, 'bold') +
    line(frame, x, 30, when, SIZE.small) +
    (pad === '' ? '' : line(frame, x, 45, pad, SIZE.small))
  );
}

function nameWithUnit(name: string, unit: string): string {
  return unit === '' || unit === name ? name : `${name} [${unit}]`;
}

function side(frame: Frame, y: number, text: string): string {
  return line(frame, LEFT - 8, y + 4, text, SIZE.small, 'normal', frame.theme.ink, 'end');
}

/** A round value above what decides: twice the least margin, four times the spread, three times the pad, but no more than the line has. */
function greatestDrawn(points: readonly Point[], limit: LimitSummary, gauge: Gauge): number {
  const decisive = Math.max(
    2 * Math.abs(gauge.differenceFromSi(limit.leastMargin)),
    4 * gauge.differenceFromSi(limit.spread),
    3 * gauge.differenceFromSi(limit.pad),
    5 * gauge.step,
  );
  const reached = greatest(points);
  return roundUp(Math.max(5 * gauge.step, Math.min(decisive, reached * 1.05)));
}

/** The next of 1, 1.5, 2, 3, 4, 5, 6, 8 times a power of ten. */
function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const lead = [1, 1.5, 2, 3, 4, 5, 6, 8, 10].find((digit) => digit * power >= value * (1 - 1e-9)) ?? 10;
  return lead * power;
}

function stepFor(value: number): number {
  return 10 ** Math.min(0, Math.floor(Math.log10(value)) - 1);
}
