/** The axis of time or distance that every panel of a chart shares, and what is drawn on it. Lengths are in units of the viewBox. */
import { bisectRight } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import type { Plan } from '../../core/plan/plan.ts';
import { element, escapeXml } from '../svg.ts';
import type { Theme } from '../theme.ts';
import { type Gauges, gaugesOf } from '../units.ts';

export const LEFT = 96;
export const RIGHT = 148;

export interface Frame {
  readonly plan: Plan;
  readonly theme: Theme;
  readonly gauges: Gauges;
  readonly width: number;
  /** Place of a time since take-off in seconds. */
  readonly x: (timeS: number) => number;
  /** The time at a place; that of the nearest end outside. */
  readonly timeAt: (x: number) => number;
  readonly along: Along;
  /** Whether a time lies in the part shown. */
  readonly shows: (timeS: number) => boolean;
  readonly startS: number;
  readonly endS: number;
  /** The plan whose slower answers stand in for those that are not worked out yet; null where nothing is missing. */
  readonly last: Plan | null;
}

/** What the axis counts: time since take-off, or the way flown. */
export type Along = 'time' | 'distance';

/** A part of a sortie, times since take-off in seconds; the whole of it where nothing is said. */
export interface Part {
  readonly startS: number;
  readonly endS: number;
}

/** A drawing on the shared axis; `draw` works in a box from 0 to `height`. */
export interface Panel {
  readonly height: number;
  /** It shows what is worked out after the flight; the others follow from the flight alone. */
  readonly later?: boolean;
  draw(frame: Frame): string;
}

export interface FrameOptions {
  readonly along?: Along;
  readonly part?: Part;
  readonly last?: Plan | null;
}

export function newFrame(
  plan: Plan,
  theme: Theme,
  width: number,
  { along = 'time', part, last = null }: FrameOptions = {},
): Frame {
  const { startS, endS } = part ?? whole(plan);
  const count = along === 'time' ? (timeS: number) => timeS : (timeS: number) => distanceAt(plan, timeS);
  const scale = scaleLinear([count(startS), count(endS)], [LEFT, width - RIGHT]);
  const inverse = along === 'time' ? scale.invert : (x: number) => timeOfDistance(plan, scale.invert(x));
  return {
    plan,
    theme,
    gauges: gaugesOf(plan),
    width,
    x: (timeS) => scale(count(timeS)),
    timeAt: (x) => Math.min(Math.max(inverse(x), startS), endS),
    along,
    shows: (timeS) => timeS >= startS - 1e-6 && timeS <= endS + 1e-6,
    startS,
    endS,
    last,
  };
}

/** From the first moment of a plan to its last. */
export function whole(plan: Plan): Part {
  const times = plan.trace.columns.timeS;
  const ends = [...plan.phases.map((phase) => phase.endS), ...plan.events.map((event) => event.timeS)];
  return {
    startS: Math.min(times[0], ...plan.phases.map((phase) => phase.startS)),
    endS: Math.max(times[times.length - 1], ...ends),
  };
}

/** The way flown at a time; beyond the trace it goes on at the last speed over the ground, so that the approach keeps a width. */
function distanceAt(plan: Plan, timeS: number): number {
  const { timeS: times, distanceM, groundSpeedMS } = plan.trace.columns;
  const last = times.length - 1;
  if (timeS >= times[last]) return distanceM[last] + (timeS - times[last]) * groundSpeedMS[last];
  if (timeS <= times[0]) return distanceM[0] + (timeS - times[0]) * groundSpeedMS[0];
  return between(times, distanceM, timeS);
}

function timeOfDistance(plan: Plan, distance: number): number {
  const { timeS, distanceM, groundSpeedMS } = plan.trace.columns;
  const last = timeS.length - 1;
  if (distance >= distanceM[last]) return timeS[last] + (distance - distanceM[last]) / groundSpeedMS[last];
  if (distance <= distanceM[0]) return timeS[0];
  return between(distanceM, timeS, distance);
}

/** The value of one rising column beside that of another, linear between nodes. */
function between(from: readonly number[], to: readonly number[], value: number): number {
  const i = bisectRight(from, value, 1, from.length - 1);
  const step = from[i] - from[i - 1];
  return step > 0 ? to[i - 1] + ((value - from[i - 1]) / step) * (to[i] - to[i - 1]) : to[i];
}

/** A line of text with its ground behind it, so that lines which pass under it do not disturb it. */
export function line(
  frame: Pick<Frame, 'theme'>,
  x: number,
  y: number,
  text: string,
  size: number,
  weight: 'normal' | 'bold' = 'normal',
  fill = frame.theme.ink,
  anchor: 'start' | 'middle' | 'end' = 'start',
): string {
  return element(
    'text',
    {
      x,
      y,
      fill,
      'font-size': size,
      'font-weight': weight === 'bold' ? 700 : undefined,
      'text-anchor': anchor === 'start' ? undefined : anchor,
      stroke: frame.theme.ground,
      'stroke-width': 3,
      'stroke-linejoin': 'round',
      'paint-order': 'stroke',
    },
    escapeXml(text),
  );
}

export function rule(
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  stroke: string,
  width: number,
  dash?: string,
): string {
  return element('line', { x1, y1, x2, y2, stroke, 'stroke-width': width, 'stroke-dasharray': dash });
}

/** A line along a path; nothing where the path is empty. */
export function stroke(d: string, ink: string, width: number, dash?: string): string {
  if (d === '') return '';
  return element('path', {
    d,
    fill: 'none',
    stroke: ink,
    'stroke-width': width,
    'stroke-dasharray': dash,
    'stroke-linejoin': 'round',
  });
}
