/** The time axis that every panel of a chart shares, and what is drawn on it. Lengths are in units of the viewBox. */
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
  readonly startS: number;
  readonly endS: number;
}

/** A drawing on the shared axis; `draw` works in a box from 0 to `height`. */
export interface Panel {
  readonly height: number;
  draw(frame: Frame): string;
}

export function newFrame(plan: Plan, theme: Theme, width: number): Frame {
  const times = plan.trace.columns.timeS;
  const startS = Math.min(times[0], ...plan.phases.map((phase) => phase.startS));
  const ends = [...plan.phases.map((phase) => phase.endS), ...plan.events.map((event) => event.timeS)];
  const endS = Math.max(times[times.length - 1], ...ends);
  const x = scaleLinear([startS, endS], [LEFT, width - RIGHT]);
  return { plan, theme, gauges: gaugesOf(plan), width, x, startS, endS };
}

/** A line of text with its ground behind it, so that lines which pass under it do not disturb it. */
export function line(
  frame: Frame,
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
