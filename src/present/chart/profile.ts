/** Height and Mach against time. */
import type { Plan } from '../../core/plan/plan.ts';
import { element, translate } from '../svg.ts';
import { SIZE } from '../theme.ts';
import { figures } from '../units.ts';
import { type Frame, line, type Panel } from './frame.ts';
import { dot, HEAD, heading, marks } from './panel.ts';
import { greatest, linePath, nodeAt, type Point, series, upright } from './series.ts';
import { type ChartOptions, chart } from './sheet.ts';

export function profileChart(plan: Plan, options: ChartOptions): string {
  const panels = (frame: Frame) => [heightPanel(frame, 230), machPanel(frame, 170)];
  return chart(plan, `Height and Mach: ${plan.title}`, [], description(plan), panels, options);
}

function description(plan: Plan): string {
  return `Pressure altitude and Mach against time since take-off through ${plan.phases.length} phases; the same numbers stand in the table of the profile.`;
}

/** Pressure altitude, with the greatest height of every cruise written at it. */
export function heightPanel(frame: Frame, height: number): Panel {
  const gauge = frame.gauges('pressureAltitudeM');
  const points = series(frame, frame.plan.trace.columns.pressureAltitudeM, gauge);
  const top = greatest(points) * 1.14;
  return plotted(
    frame,
    `Height [${gauge.unit}]`,
    points,
    height,
    [0, top],
    (value) => figures(gauge, value),
    {
      width: 2.6,
      ink: frame.theme.ink,
      labels: cruiseEnds(frame, points, (value) => `${figures(gauge, value)} ${gauge.shortUnit}`),
    },
  );
}

/** Mach, dashed, with the Mach of every cruise written at it and the gates passed as dots. */
export function machPanel(frame: Frame, height: number): Panel {
  const gauge = frame.gauges('mach');
  const points = series(frame, frame.plan.trace.columns.mach, gauge);
  const top = greatest(points) * 1.2;
  return plotted(frame, 'Mach', points, height, [0, top], (value) => value.toFixed(1), {
    width: 2,
    dash: '9 3',
    ink: frame.theme.helpA,
    labels: cruiseEnds(frame, points, (value) => `M ${figures(gauge, value)}`),
  });
}

interface Style {
  readonly width: number;
  readonly ink: string;
  readonly dash?: string;
  readonly labels: readonly { readonly at: Point; readonly text: string }[];
}

function plotted(
  frame: Frame,
  name: string,
  points: readonly Point[],
  height: number,
  range: readonly [number, number],
  text: (value: number) => string,
  style: Style,
): Panel {
  const plot = height - HEAD - 6;
  const { y, ticks } = upright(range[0], range[1], plot, plot / 32);
  const { theme } = frame;
  const path = element('path', {
    d: linePath(frame, points, y),
    fill: 'none',
    stroke: style.ink,
    'stroke-width': style.width,
    'stroke-dasharray': style.dash,
    'stroke-linejoin': 'round',
  });
  const labels = style.labels.map(
    ({ at, text: label }) =>
      dot(frame, frame.x(at.timeS), y(at.value)) +
      line(frame, frame.x(at.timeS), y(at.value) - 8, label, SIZE.medium, 'bold', theme.ink, 'middle'),
  );
  return {
    height,
    draw: () =>
      heading(frame, name) +
      element('g', { transform: translate(0, HEAD) }, marks(frame, ticks, y, text), path, ...labels),
  };
}

/** The end of the last cruise of every leg, where height and Mach are read. */
function cruiseEnds(frame: Frame, points: readonly Point[], text: (value: number) => string) {
  const ends = new Map<number, number>();
  for (const phase of frame.plan.phases) if (phase.kind === 'cruise') ends.set(phase.leg, phase.endS);
  return [...ends.values()].filter(frame.shows).map((endS) => {
    const at = points[nodeAt(frame, endS)];
    return { at, text: text(at.value) };
  });
}
