/** The air met along a sortie: how far its temperature is off standard, and the wind along and across the track. */
import { element, translate } from '../svg.ts';
import { SIZE } from '../theme.ts';
import { figures, type Gauge } from '../units.ts';
import { type Frame, LEFT, type Panel, RIGHT, rule } from './frame.ts';
import { endLabels, HEAD, heading, marks } from './panel.ts';
import { linePath, type Point, series, upright } from './series.ts';

/** Off standard, a strong line about zero. */
export function temperaturePanel(frame: Frame, height: number): Panel {
  const gauge = frame.gauges('temperatureOffsetK');
  const points = series(frame, frame.plan.trace.columns.temperatureOffsetK, gauge);
  return about(frame, `Air off standard [${gauge.unit}]`, gauge, height, [
    { points, name: 'off standard', width: 2.2, ink: frame.theme.ink },
  ]);
}

/** Tail wind strong, wind from the left dashed. */
export function windPanel(frame: Frame, height: number): Panel {
  const gauge = frame.gauges('windSpeedMS');
  const { windAlongMS, windAcrossMS } = frame.plan.trace.columns;
  return about(frame, `Wind [${gauge.unit}]`, gauge, height, [
    {
      points: series(frame, windAlongMS, gauge),
      name: 'tail (head below)',
      width: 2.2,
      ink: frame.theme.ink,
    },
    {
      points: series(frame, windAcrossMS, gauge),
      name: 'from left (right below)',
      width: 1.6,
      ink: frame.theme.helpA,
      dash: '6 3',
    },
  ]);
}

interface Drawn {
  readonly points: readonly Point[];
  readonly name: string;
  readonly width: number;
  readonly ink: string;
  readonly dash?: string;
}

/** Lines about a zero that is drawn, each named at its end. */
function about(frame: Frame, name: string, gauge: Gauge, height: number, lines: readonly Drawn[]): Panel {
  const values = lines.flatMap(({ points }) => points.map(({ value }) => value)).filter(Number.isFinite);
  const plot = height - HEAD - 6;
  const room = 4 * gauge.step;
  const least = Math.min(0, ...values) - room;
  const greatest = Math.max(0, ...values) + room;
  const { y, ticks } = upright(least, greatest, plot, plot / 30);
  const paths = lines.map(({ points, width, ink, dash }) =>
    element('path', {
      d: linePath(frame, points, y),
      fill: 'none',
      stroke: ink,
      'stroke-width': width,
      'stroke-dasharray': dash,
      'stroke-linejoin': 'round',
    }),
  );
  const ends = lines.map(({ points, name: text }, i) => ({
    text,
    y: y(points.findLast(({ value, timeS }) => Number.isFinite(value) && timeS <= frame.endS)?.value ?? 0),
    strong: i === 0,
  }));
  const zero = rule(LEFT, y(0), frame.width - RIGHT, y(0), frame.theme.ink, 0.8);
  const scale = marks(frame, ticks, y, (value) => figures(gauge, value, 'nearest', 1));
  const small = endLabels(frame, ends).replaceAll(`font-size="${SIZE.medium}"`, `font-size="${SIZE.small}"`);
  return {
    height,
    draw: () =>
      heading(frame, name) + element('g', { transform: translate(0, HEAD) }, scale, zero, ...paths, small),
  };
}
