/**
 * A whole chart: phases and events named above one time axis, panels stacked below each other, UTC and time since take-off on
 * the axis, the foot of every page below.
 */
import { ticks } from 'd3-array';
import type { Plan } from '../../core/plan/plan.ts';
import { footLines } from '../foot.ts';
import { element, escapeXml, hundredth, translate } from '../svg.ts';
import { FONT_FAMILY, SIZE, type Theme, textWidth } from '../theme.ts';
import { clock, hoursMinutes, moment } from '../time.ts';
import { wrap } from '../wrap.ts';
import { band, ground } from './band.ts';
import { type Frame, LEFT, line, newFrame, type Panel, RIGHT, rule } from './frame.ts';

export interface ChartOptions {
  readonly theme: Theme;
  /** Width of the viewBox; 1000 where nothing is said. */
  readonly width?: number;
}

/** A drawing on a sheet: markup in a box of its own from 0 to `height`. */
export interface Body {
  readonly markup: string;
  readonly height: number;
}

/** A whole chart: title, sentences, phases, panels, time axis and foot. `description` is what a reader of screens says. */
export function chart(
  plan: Plan,
  title: string,
  sentences: readonly string[],
  description: string,
  panels: (frame: Frame) => readonly Panel[],
  options: ChartOptions,
): string {
  return sheet(plan, title, sentences, description, (frame) => onTimeAxis(frame, panels(frame)), options);
}

/** Any drawing with title, sentences and foot; `description` is what a reader of screens says. */
export function sheet(
  plan: Plan,
  title: string,
  sentences: readonly string[],
  description: string,
  body: (frame: Frame) => Body,
  options: ChartOptions,
): string {
  const width = options.width ?? 1000;
  const frame = newFrame(plan, options.theme, width);
  const parts: string[] = [];
  let y = 26;
  parts.push(line(frame, LEFT, y, title, SIZE.large, 'bold'));
  for (const sentence of sentences) {
    for (const text of wrap(sentence, (t) => textWidth(t, SIZE.medium), width - LEFT - 24)) {
      y += 20;
      parts.push(line(frame, LEFT, y, text, SIZE.medium));
    }
  }
  y += 14;
  const { markup, height } = body(frame);
  parts.push(element('g', { transform: translate(0, y) }, markup));
  y += height;
  for (const text of footLines(plan)) {
    for (const part of wrap(text, (t) => textWidth(t, SIZE.small), width - LEFT - 24)) {
      parts.push(line(frame, LEFT, y, part, SIZE.small, 'normal', options.theme.quiet));
      y += 15;
    }
  }
  return document(title, description, width, y + 4, options.theme, parts);
}

/** Phases named above, panels stacked below each other, the time axis below. */
export function onTimeAxis(frame: Frame, panels: readonly Panel[]): Body {
  const top = band(frame);
  let y = top.height;
  const drawn: string[] = [];
  for (const panel of panels) {
    drawn.push(element('g', { transform: translate(0, y) }, panel.draw(frame)));
    y += panel.height;
  }
  const behind = element('g', { transform: translate(0, top.height) }, ground(frame, y - top.height));
  const axis = element('g', { transform: translate(0, y) }, timeAxis(frame));
  return { markup: [top.markup, behind, ...drawn, axis].join(''), height: y + 62 };
}

/**
 * The band of phases, the ground under all panels, panels below each other, and the axis they share, each a layer in a box from 0
 * to `height`. `before` are the layers of the same flight drawn in the same way: of them only what comes later is drawn again.
 */
export function layersOf(
  frame: Frame,
  panels: readonly Panel[],
  before: readonly string[] | null,
): { readonly layers: readonly string[]; readonly height: number } {
  const top = band(frame);
  const tops: number[] = [];
  let y = top.height;
  for (const panel of panels) {
    tops.push(y);
    y += panel.height;
  }
  const moved = (down: number, markup: string) => element('g', { transform: translate(0, down) }, markup);
  const draw = [
    () => top.markup,
    () => moved(top.height, ground(frame, y - top.height)),
    ...panels.map((panel, i) => () => moved(tops[i], panel.draw(frame))),
    () => moved(y, axisOf(frame)),
  ];
  const layers = draw.map((layer, i) => (before && !panels[i - 2]?.later ? before[i] : layer()));
  return { layers, height: y + 45 };
}

function document(
  title: string,
  description: string,
  width: number,
  height: number,
  theme: Theme,
  parts: readonly string[],
): string {
  const attributes = {
    xmlns: 'http://www.w3.org/2000/svg',
    viewBox: `0 0 ${hundredth(width)} ${hundredth(height)}`,
    role: 'img',
    'font-family': FONT_FAMILY,
    'font-size': SIZE.small,
    style: 'font-variant-numeric: tabular-nums lining-nums',
  };
  const sheet = element('rect', { width, height, fill: theme.ground });
  return element(
    'svg',
    attributes,
    element('title', {}, escapeXml(title)),
    element('desc', {}, escapeXml(description)),
    patterns(theme),
    sheet,
    ...parts,
  );
}

/** Hatches: land beyond a limit, fuel in hand, fuel short. */
export function patterns(theme: Theme): string {
  const hatch = (id: string, step: number, angle: number, weight: number, stroke: string) =>
    element(
      'pattern',
      {
        id,
        width: step,
        height: step,
        patternUnits: 'userSpaceOnUse',
        patternTransform: `rotate(${angle})`,
      },
      element('line', { x1: 0, y1: 0, x2: 0, y2: step, stroke, 'stroke-width': weight }),
    );
  return element(
    'defs',
    {},
    hatch('land', 4, 45, 1.6, theme.ink),
    hatch('inHand', 9, -45, 0.6, theme.quiet),
    hatch('short', 3.5, 45, 1.8, theme.helpB),
  );
}

function axisOf(frame: Frame): string {
  return frame.along === 'time' ? timeAxis(frame) : distanceAxis(frame);
}

/** The way flown in the gauge's unit, at round values. */
function distanceAxis(frame: Frame): string {
  const { x, timeAt, theme, startS, endS } = frame;
  const gauge = frame.gauges('distanceM');
  const { timeS, distanceM } = frame.plan.trace.columns;
  const parts = [rule(x(startS), 0, x(endS), 0, theme.ink, 1)];
  const ends = [0, distanceM[distanceM.length - 1]].map((m) => gauge.fromSi(m));
  for (const tick of ticks(ends[0], ends[1], (x(endS) - x(startS)) / 90)) {
    const after = distanceM.findIndex((m) => gauge.fromSi(m) >= tick);
    if (after < 0 || timeS[after] < startS || timeS[after] > endS) continue;
    const [a, b] = [Math.max(0, after - 1), after].map((node) => gauge.fromSi(distanceM[node]));
    const part = b > a ? (tick - a) / (b - a) : 0;
    const at = x(timeS[Math.max(0, after - 1)]) * (1 - part) + x(timeS[after]) * part;
    parts.push(rule(at, 0, at, 5, theme.ink, 1));
    parts.push(line(frame, at, 17, String(tick), SIZE.small, 'normal', theme.ink, 'middle'));
    parts.push(line(frame, at, 38, hoursMinutes(timeAt(at)), SIZE.small, 'normal', theme.quiet, 'middle'));
  }
  const right = frame.width - RIGHT + 34;
  parts.push(line(frame, right, 17, `flown [${gauge.unit}]`, SIZE.small));
  parts.push(line(frame, right, 38, 'since take-off', SIZE.small, 'normal', theme.quiet));
  return parts.join('');
}

/** Steps of a time axis that people count in, minutes. */
const TIME_STEPS = [1, 2, 5, 10, 15, 20, 30, 60, 120, 240, 360];

/** Time since take-off above, UTC below, each with its own marks. */
function timeAxis(frame: Frame): string {
  const { plan, x, theme, startS, endS } = frame;
  const pixels = (x(endS) - x(startS)) / ((endS - startS) / 60);
  const step = TIME_STEPS.find((minutes) => minutes * pixels >= 58) ?? 720;
  const parts = [rule(x(startS), 0, x(endS), 0, theme.ink, 1)];
  for (let t = Math.ceil(startS / (step * 60)) * step * 60; t <= endS; t += step * 60) {
    parts.push(rule(x(t), 0, x(t), 5, theme.ink, 1));
    parts.push(line(frame, x(t), 17, hoursMinutes(t), SIZE.small, 'normal', theme.ink, 'middle'));
  }
  const first = moment(plan.takeOff) / 1000;
  const from = Math.ceil((first + startS) / (step * 60)) * step * 60;
  for (let t = from; t <= first + endS; t += step * 60) {
    parts.push(rule(x(t - first), 22, x(t - first), 27, theme.quiet, 1));
    const text = clock(plan.takeOff, t - first);
    parts.push(line(frame, x(t - first), 38, text, SIZE.small, 'normal', theme.quiet, 'middle'));
  }
  const right = frame.width - RIGHT + 34;
  parts.push(line(frame, right, 17, 'since take-off [h:mm]', SIZE.small));
  parts.push(line(frame, right, 38, 'UTC', SIZE.small, 'normal', theme.quiet));
  return parts.join('');
}
