/** A column of the trace as the pieces of a line in a panel. */
import { scaleLinear } from 'd3-scale';
import { area as d3area, line as d3line } from 'd3-shape';
import type { Gauge } from '../units.ts';
import type { Frame } from './frame.ts';

export interface Point {
  readonly timeS: number;
  readonly value: number;
}

/** Values in the gauge's unit; a value that is not a number becomes a gap. */
export function series(frame: Frame, column: readonly (number | null)[], gauge: Gauge): readonly Point[] {
  const times = frame.plan.trace.columns.timeS;
  return column.map((si, i) => ({ timeS: times[i], value: gauge.fromSi(si) }));
}

/** The points that a frame shows, cut at its ends. */
function shown(frame: Frame, points: readonly Point[]): readonly Point[] {
  const { startS, endS } = frame;
  if (points.length < 2 || (points[0].timeS >= startS && points[points.length - 1].timeS <= endS))
    return points;
  const within = points.filter(({ timeS }) => timeS > startS && timeS < endS);
  const edge = (timeS: number): readonly Point[] => {
    const after = points.findIndex((point) => point.timeS >= timeS);
    if (after < 1) return [];
    const [a, b] = [points[after - 1], points[after]];
    const part = b.timeS > a.timeS ? (timeS - a.timeS) / (b.timeS - a.timeS) : 1;
    return [{ timeS, value: a.value + part * (b.value - a.value) }];
  };
  return [...edge(startS), ...within, ...edge(endS)];
}

/** Path of a line through the points, broken at gaps. */
export function linePath(frame: Frame, points: readonly Point[], y: (value: number) => number): string {
  const path = d3line<Point>()
    .defined((p) => Number.isFinite(p.value))
    .x((p) => tenth(frame.x(p.timeS)))
    .y((p) => tenth(y(p.value)))(shown(frame, points) as Point[]);
  return path ?? '';
}

/** Path of the area between two lines at the same times, broken where either has a gap. */
export function bandPath(
  frame: Frame,
  upper: readonly Point[],
  lower: readonly Point[],
  y: (value: number) => number,
): string {
  const [above, below] = [shown(frame, upper), shown(frame, lower)];
  const path = d3area<Point>()
    .defined((p, i) => Number.isFinite(p.value) && Number.isFinite(below[i].value))
    .x((p) => tenth(frame.x(p.timeS)))
    .y0((_, i) => tenth(y(below[i].value)))
    .y1((p) => tenth(y(p.value)))(above as Point[]);
  return path ?? '';
}

/** A tenth of a unit is finer than any line here. */
function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

/** The greatest value of a line, 0 where it has none above. */
export function greatest(points: readonly Point[]): number {
  return Math.max(0, ...points.map((point) => point.value).filter(Number.isFinite));
}

/** A linear scale from `least` at the foot of a panel to `greatest` at its top, with about `count` marks at round values. */
export function upright(least: number, greatest: number, height: number, count: number) {
  const y = scaleLinear([least, greatest], [height, 0]);
  return { y, ticks: y.ticks(count) };
}

/** Index of the node nearest to a time. */
export function nodeAt(frame: Frame, timeS: number): number {
  const times = frame.plan.trace.columns.timeS;
  let best = 0;
  for (let i = 1; i < times.length; i++) {
    if (Math.abs(times[i] - timeS) < Math.abs(times[best] - timeS)) best = i;
  }
  return best;
}
