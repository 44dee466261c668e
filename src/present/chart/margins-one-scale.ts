/** The margins of all limits on one scale in one panel: which is next, when, and how near the others come. */
import type { Plan } from '../../core/plan/plan.ts';
import { Labels } from '../map/labels.ts';
import { limitMargin } from '../sentences.ts';
import { element, translate } from '../svg.ts';
import { SIZE, textWidth } from '../theme.ts';
import { hoursMinutes } from '../time.ts';
import { figures, plainSpaces } from '../units.ts';
import { type Frame, LEFT, line, type Panel, RIGHT, rule } from './frame.ts';
import { dot, HEAD, heading, marks } from './panel.ts';
import { linePath, type Point, upright } from './series.ts';
import { type Body, type ChartOptions, onTimeAxis, sheet } from './sheet.ts';

const PLOT = 330;
/** The scale goes up to here: what is farther off does not bind. */
const TOP = 6;
const STRIP = 26;
/** Rows and columns of the list below. */
const ROW = 15;
const TABS = [0, 22, 250, 310, 510];

export function oneScaleChart(plan: Plan, options: ChartOptions): string {
  const title = `All margins on one scale: ${plan.title}`;
  const body = (frame: Frame): Body => {
    const above = onTimeAxis(frame, [reading(frame), scalePanel(frame), nextPanel(frame)]);
    const list = element('g', { transform: translate(0, above.height) }, ...order(frame));
    return { markup: above.markup + list, height: above.height + ROW * plan.limits.length + 12 };
  };
  return sheet(plan, title, [], description(plan), body, options);
}

function description(plan: Plan): string {
  const parts = plan.limits.map(
    ({ name, closeness, timeS }) => `${name} ${shownCloseness(closeness)} at ${hoursMinutes(timeS)}`,
  );
  return plainSpaces(
    `Least margins on one scale, the closest first: ${parts.join(', ')}; the course of each stands in the table of margins on one scale.`,
  );
}

/** The scale, in words. */
function reading(frame: Frame): Panel {
  const texts = [
    'Margin less the pad that the sortie keeps, in what a crew calls close for its quantity (common practice; listed below): 0 is the limit or its pad,',
    'hatched beyond. Strong: the limit that is next. A dot: the least margin of a limit.',
  ];
  return {
    height: 42,
    draw: () => texts.map((text, i) => line(frame, 8, 18 + 15 * i, text, SIZE.small)).join(''),
  };
}

/** Dash and weight of the lines in the order of the limits, so that neighbours differ; more limits than these repeat them. */
const DASHES = [undefined, '8 3', '2 2', '8 2 2 2', '14 3', '5 5', '1 3', '14 3 2 3'];
const WEIGHTS = [1.1, 1.7];

function scalePanel(frame: Frame): Panel {
  const { plan, theme } = frame;
  const least = Math.min(0, ...plan.limits.map((limit) => limit.closeness));
  const foot = -Math.min(4, Math.max(0.6, -least * 1.1));
  const { y, ticks } = upright(foot, TOP, PLOT, 7);
  const right = frame.width - RIGHT;
  const box = { x: LEFT, y: 0, width: right - LEFT, height: PLOT };
  const draw = () =>
    heading(frame, 'Margin [what counts as close]') +
    element(
      'g',
      { transform: translate(0, HEAD) },
      element('clipPath', { id: 'scale' }, element('rect', box)),
      marks(
        frame,
        ticks.filter((tick) => tick >= 0),
        y,
        (value) => String(value),
      ),
      element('rect', { ...box, y: y(0), height: PLOT - y(0), fill: 'url(#land)', opacity: 0.55 }),
      rule(LEFT, y(0), right, y(0), theme.ink, 1.6),
      element('g', { 'clip-path': 'url(#scale)' }, ...lines(frame, y)),
      ...leastLabels(frame, y),
    );
  return { height: HEAD + PLOT + 8, draw };
}

function pointsOf(plan: Plan, key: string): readonly Point[] {
  const { timeS } = plan.trace.columns;
  return plan.trace.closeness[key].map((value, i) => ({ timeS: timeS[i], value: value ?? Number.NaN }));
}

function lines(frame: Frame, y: (value: number) => number): readonly string[] {
  const { plan, theme } = frame;
  const { next } = plan.trace;
  const path = (points: readonly Point[], width: number, dash?: string) =>
    element('path', {
      d: linePath(frame, points, y),
      fill: 'none',
      stroke: theme.ink,
      'stroke-width': width,
      'stroke-dasharray': dash,
      'stroke-linejoin': 'round',
    });
  const each = plan.limits.map(({ key }, i) =>
    path(
      pointsOf(plan, key),
      WEIGHTS[Math.floor(i / DASHES.length) % WEIGHTS.length],
      DASHES[i % DASHES.length],
    ),
  );
  // What is next is one line: the least of all.
  const { timeS } = plan.trace.columns;
  const nearest = next.map((key, i) => ({
    timeS: timeS[i],
    value: plan.trace.closeness[key]?.[i] ?? Number.NaN,
  }));
  return [...each, path(nearest, 3.4)];
}

/** A dot at the least margin of each limit on the scale and its name beside it. */
function leastLabels(frame: Frame, y: (value: number) => number): readonly string[] {
  const { plan } = frame;
  const onScale = plan.limits.filter(({ closeness }) => closeness <= TOP);
  const crowd = onScale.flatMap(({ key }) =>
    pointsOf(plan, key)
      .filter(({ value }) => value <= TOP)
      .map(({ timeS, value }) => [frame.x(timeS) - LEFT, y(value)] as const),
  );
  const labels = new Labels(frame.width - LEFT, PLOT, crowd);
  const places = onScale.map(
    (limit) => [frame.x(limit.timeS) - LEFT, Math.min(PLOT - 4, y(limit.closeness))] as const,
  );
  for (const place of places) labels.reserve(place, 4);
  return onScale.map((limit, i) => {
    const [x, at] = places[i];
    const label = labels.place({
      text: limit.name,
      at: [x, at],
      radius: 5,
      size: SIZE.small,
      weight: 'bold',
      must: true,
    });
    const name = label === null ? '' : line(frame, LEFT + label.x, label.y, label.text, SIZE.small, 'bold');
    return dot(frame, LEFT + x, at) + name;
  });
}

interface Run {
  readonly key: string;
  readonly startS: number;
  endS: number;
}

/** A strip that names the limit that is next, where its name has room. */
function nextPanel(frame: Frame): Panel {
  const { plan, theme } = frame;
  const { timeS } = plan.trace.columns;
  const runs: Run[] = [];
  plan.trace.next.forEach((key, i) => {
    const last = runs.at(-1);
    if (last?.key === key) last.endS = timeS[i];
    else {
      if (last !== undefined) last.endS = timeS[i];
      runs.push({ key, startS: timeS[i], endS: timeS[i] });
    }
  });
  const order = new Map(plan.limits.map((limit, i) => [limit.key, i + 1]));
  const draw = () =>
    line(frame, 8, 17, 'next', SIZE.medium, 'bold') +
    runs
      .map(({ key, startS, endS }, i) => {
        const [left, right] = [frame.x(startS), frame.x(endS)];
        const limit = plan.limits.find((one) => one.key === key);
        const texts = [limit?.name ?? key, String(order.get(key) ?? '')];
        const text = texts.find((one) => textWidth(one, SIZE.small) < right - left - 4);
        const box = element('rect', {
          x: left,
          y: 2,
          width: Math.max(0.4, right - left),
          height: STRIP - 6,
          fill: i % 2 === 0 ? theme.ground : theme.tint,
          stroke: theme.ink,
          'stroke-width': 0.6,
        });
        if (text === undefined) return box;
        return box + line(frame, (left + right) / 2, 16, text, SIZE.small, 'normal', theme.ink, 'middle');
      })
      .join('');
  return { height: STRIP, draw };
}

/** The limits in order of closeness, with what counts as one for each. */
function order(frame: Frame): readonly string[] {
  const { plan } = frame;
  return plan.limits.map((limit, i) => {
    const { quantity, countsAsOne, timeS, closeness, name } = limit;
    const gauge = frame.gauges(quantity);
    const figure = figures(gauge, gauge.differenceFromSi(countsAsOne));
    const one = `${figure}${gauge.differenceUnit === '°' ? '' : '\u00a0'}${gauge.differenceUnit}`;
    const least = `${limitMargin(plan, limit).text} at ${hoursMinutes(timeS)}`;
    return [String(i + 1), name, shownCloseness(closeness), least, `one is ${one}`]
      .map((text, k) => line(frame, LEFT + TABS[k], ROW * i, text, SIZE.small))
      .join('');
  });
}

function shownCloseness(value: number): string {
  return value.toFixed(1).replace('-', '−');
}
