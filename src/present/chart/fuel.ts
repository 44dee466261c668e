/** Fuel on board and fuel required against time; what lies between them is in hand, or short. */
import type { Plan } from '../../core/plan/plan.ts';
import { fuelDifference, fuelInHand, type InHand, inHandWords } from '../sentences.ts';
import { element, translate } from '../svg.ts';
import { SIZE } from '../theme.ts';
import { figures, NOT_COMPUTED, plainSpaces, read } from '../units.ts';
import { type Frame, line, type Panel, RIGHT, rule, stroke } from './frame.ts';
import { dot, type EndLabel, endLabels, HEAD, heading, marks } from './panel.ts';
import { bandPath, linePath, type Point, series, upright } from './series.ts';
import { type ChartOptions, chart } from './sheet.ts';

export function fuelChart(plan: Plan, options: ChartOptions): string {
  const title = `Fuel on board and required: ${plan.title}`;
  return chart(plan, title, [], description(plan), (frame) => [fuelPanel(frame, 380)], options);
}

function description(plan: Plan): string {
  const parts = fuelInHand(plan).map((at) => `${inHandWords(at)} at ${at.name}`);
  return plainSpaces(
    `Fuel against time since take-off: ${parts.join(', ')}; the same numbers stand in the table of fuel.`,
  );
}

/** On board strong, required dashed; in hand lightly hatched, short densely. */
export function fuelPanel(frame: Frame, height: number): Panel {
  const { theme, plan } = frame;
  const gauge = frame.gauges('fuelKg');
  const onBoard = series(frame, plan.trace.columns.fuelKg, gauge);
  const required = series(frame, plan.trace.columns.fuelRequiredKg, gauge);
  const plot = height - HEAD - 6;
  const capacity = gauge.fromSi(plan.aircraft.fuelCapacityKg);
  const { y, ticks } = upright(
    Math.min(0, ...finite(onBoard), ...finite(required)),
    capacity * 1.1,
    plot,
    plot / 45,
  );
  const right = frame.width - RIGHT;
  const inHand = fuelInHand(plan);
  const end = endShown(frame, inHand[inHand.length - 1]);
  const hatched = (upper: readonly Point[], lower: readonly Point[], pattern: string) =>
    element('path', { d: bandPath(frame, upper, lower, y), fill: `url(#${pattern})`, stroke: 'none' });
  const body = [
    marks(frame, ticks, y, (value) => figures(gauge, value)),
    rule(frame.x(frame.startS), y(capacity), right, y(capacity), theme.quiet, 1, '2 3'),
    hatched(pairwise(onBoard, required, Math.max), required, 'inHand'),
    hatched(required, pairwise(onBoard, required, Math.min), 'short'),
    stroke(linePath(frame, required, y), theme.helpB, 1.8, '6 3'),
    stroke(linePath(frame, onBoard, y), theme.ink, 3),
    approach(frame, end, (kg) => y(gauge.fromSi(kg))),
    jumpLabel(frame, required, y),
    lastRequired(frame, y),
    ...inHand
      .slice(0, -1)
      .filter(({ timeS }) => frame.shows(timeS))
      .map((at) => inHandLabel(frame, at, (kg) => y(gauge.fromSi(kg)))),
    dot(frame, frame.x(end.timeS), y(gauge.fromSi(end.onBoardKg))),
    endLabels(frame, [
      {
        text: `full ${read(gauge, plan.aircraft.fuelCapacityKg, 'available')}`,
        y: y(capacity),
        strong: false,
      },
      { text: 'on board', y: y(gauge.fromSi(end.onBoardKg)), strong: false },
      ...requiredLabels(end, (kg) => y(gauge.fromSi(kg))),
    ]),
  ];
  return {
    later: true,
    height,
    draw: () =>
      heading(frame, `Fuel [${gauge.unit}]`) + element('g', { transform: translate(0, HEAD) }, ...body),
  };
}

/** What stands at the right end of the lines: the end of the plan, or the trace where the part shown ends before. */
function endShown(frame: Frame, end: InHand): InHand {
  if (frame.shows(end.timeS)) return end;
  const { timeS, fuelKg, fuelRequiredKg } = frame.plan.trace.columns;
  const node = Math.max(
    0,
    timeS.findLastIndex((time) => time <= frame.endS),
  );
  const [onBoardKg, requiredKg] = [fuelKg[node], fuelRequiredKg[node]];
  const difference = fuelDifference(frame.gauges('fuelKg'), onBoardKg, requiredKg);
  return { ...end, timeS: frame.endS, onBoardKg, requiredKg, difference };
}

/** Fuel required of the last plan, while that of this one is not worked out. */
function lastRequired(frame: Frame, y: (value: number) => number): string {
  const { last, theme } = frame;
  if (last === null) return '';
  const gauge = frame.gauges('fuelKg');
  const { timeS, fuelRequiredKg } = last.trace.columns;
  const points = fuelRequiredKg.map((kg, i) => ({ timeS: timeS[i], value: gauge.fromSi(kg) }));
  const name = points.find(({ timeS: at, value }) => Number.isFinite(value) && frame.shows(at));
  return (
    stroke(linePath(frame, points, y), theme.quiet, 1.8, '1 4') +
    (name
      ? line(frame, frame.x(name.timeS) + 8, y(name.value) - 6, 'required, of the last plan', SIZE.small)
      : '')
  );
}

/** Names of the lower line and of the difference at the end; in two lines where there is none. */
function requiredLabels(end: InHand, y: (kg: number) => number): readonly EndLabel[] {
  const at = end.requiredKg ?? Number.NaN;
  if (Number.isNaN(at)) {
    const place = y(end.onBoardKg) + 1;
    return ['required', NOT_COMPUTED].map((text) => ({ text, y: place, strong: false }));
  }
  return [
    { text: inHandWords(end), y: y((end.onBoardKg + at) / 2), strong: true },
    { text: 'required', y: y(at), strong: false },
  ];
}

/** On board, a bracket down to what is required, and below it what lies between them. */
function inHandLabel(frame: Frame, at: InHand, y: (kg: number) => number): string {
  const x = frame.x(at.timeS);
  const top = y(at.onBoardKg);
  const mark = dot(frame, x, top);
  if (at.requiredKg === null || !Number.isFinite(at.requiredKg)) {
    return mark + line(frame, x + 7, top + 16, inHandWords(at), SIZE.medium, 'bold');
  }
  const foot = y(at.requiredKg);
  return (
    mark +
    rule(x, top, x, foot, frame.theme.ink, 1.2) +
    rule(x - 4, foot, x + 4, foot, frame.theme.ink, 1.2) +
    line(frame, x, Math.max(top, foot) + 17, inHandWords(at), SIZE.medium, 'bold', frame.theme.ink, 'middle')
  );
}

/** Why the lower line jumps, beside its first jump. */
function jumpLabel(frame: Frame, required: readonly Point[], y: (value: number) => number): string {
  const first = frame.plan.refuellings.at(0);
  if (first === undefined || !frame.shows(first.disconnectS)) return '';
  const after = required.find((point) => point.timeS > first.disconnectS && Number.isFinite(point.value));
  if (after === undefined) return '';
  const x = frame.x(first.disconnectS) + 9;
  const top = y(after.value) + (y(0) - y(after.value)) * 0.68;
  return ['at disconnect: required now', 'to fly the next leg']
    .map((text, i) => line(frame, x, top + 15 * i, text, SIZE.small))
    .join('');
}

/** What the approach takes after the last node of the trace, on both lines. */
function approach(frame: Frame, end: InHand, y: (kg: number) => number): string {
  const { timeS, fuelKg, fuelRequiredKg } = frame.plan.trace.columns;
  const last = timeS.length - 1;
  const from = frame.x(timeS[last]);
  const to = frame.x(end.timeS);
  if (to - from < 1) return '';
  const dotted = (start: number | null, finish: number | null) =>
    isNumber(start) && isNumber(finish)
      ? rule(from, y(start), to, y(finish), frame.theme.ink, 1.6, '1.5 3')
      : '';
  return dotted(fuelKg[last], end.onBoardKg) + dotted(fuelRequiredKg[last], end.requiredKg);
}

function isNumber(value: number | null): value is number {
  return value !== null && Number.isFinite(value);
}

function finite(points: readonly Point[]): readonly number[] {
  return points.map((point) => point.value).filter(Number.isFinite);
}

function pairwise(
  a: readonly Point[],
  b: readonly Point[],
  choose: (x: number, y: number) => number,
): readonly Point[] {
  return a.map((point, i) => ({ timeS: point.timeS, value: choose(point.value, b[i].value) }));
}
