/** Fuel to a Mach by heading, as a rose: the nearer to the centre the less. */
import { scaleLinear } from 'd3-scale';
import type { HeadingRow, LegAcceleration } from '../../core/plan/acceleration.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { headingSentences } from '../acceleration.ts';
import { threeFigures } from '../course.ts';
import { element, hundredth } from '../svg.ts';
import { SIZE } from '../theme.ts';
import { figures, plainSpaces, shown } from '../units.ts';
import { type Frame, LEFT, line, rule, stroke } from './frame.ts';
import { dot } from './panel.ts';
import { type Body, type ChartOptions, sheet } from './sheet.ts';

const RADIUS = 210;
const MARGIN = 46;
/** The least fuel lies this far out. */
const INNERMOST = 0.35;

export function accelerationChart(leg: LegAcceleration, plan: Plan, options: ChartOptions): string {
  const sentences = headingSentences(leg, plan);
  return sheet(
    plan,
    `Heading of the acceleration: ${leg.name}`,
    sentences,
    plainSpaces(sentences.join(' ')),
    (frame) => body(frame, leg),
    { ...options, width: options.width ?? 640 },
  );
}

function body(frame: Frame, leg: LegAcceleration): Body {
  const { theme, width } = frame;
  const gauge = frame.gauges('fuelKg');
  const rows = [...leg.headings, leg.plannedHeading];
  const fuels = rows.flatMap(({ fuelKg }) => (fuelKg === null ? [] : [gauge.fromSi(fuelKg)]));
  const height = 2 * (RADIUS + MARGIN) + 20;
  if (fuels.length === 0) return { markup: '', height: 20 };
  const [least, most] = [Math.min(...fuels), Math.max(...fuels)];
  const radius = scaleLinear([least, Math.max(most, least + gauge.step)], [INNERMOST * RADIUS, RADIUS]);
  const [cx, cy] = [width / 2, RADIUS + MARGIN];
  const place = (courseDeg: number, r: number): [number, number] => {
    const angle = (courseDeg * Math.PI) / 180;
    return [cx + r * Math.sin(angle), cy - r * Math.cos(angle)];
  };
  const rings = radius.ticks(4).filter((tick) => tick >= least);
  const parts = rings.map((tick) =>
    element('circle', { cx, cy, r: radius(tick), fill: 'none', stroke: theme.rule, 'stroke-width': 1 }),
  );
  for (let course = 0; course < 360; course += 30) {
    const [x1, y1] = place(course, INNERMOST * RADIUS * 0.5);
    const [x2, y2] = place(course, RADIUS);
    const [x, y] = place(course, RADIUS + 24);
    parts.push(rule(x1, y1, x2, y2, theme.rule, 0.8));
    parts.push(line(frame, x, y + 5, threeFigures(course), SIZE.medium, 'normal', theme.ink, 'middle'));
  }
  parts.push(
    stroke(
      outline(leg.headings, place, (kg) => radius(gauge.fromSi(kg))),
      theme.ink,
      2.2,
    ),
  );
  for (const tick of rings) {
    parts.push(
      line(frame, cx + 4, cy - radius(tick) - 3, `${figures(gauge, tick)} ${gauge.unit}`, SIZE.small),
    );
  }
  let legendY = height + 16;
  const best = leg.bestHeading === null ? null : leg.headings[leg.bestHeading];
  for (const [name, row] of [
    ['least', best],
    ['as planned', leg.plannedHeading],
  ] as const) {
    if (row === null || row.fuelKg === null) continue;
    const [x, y] = place(row.courseDeg, radius(gauge.fromSi(row.fuelKg)));
    const dash = name === 'least' ? undefined : '5 4';
    const ink = name === 'least' ? theme.ink : theme.quiet;
    parts.push(rule(cx, cy, x, y, ink, 1.6, dash), dot(frame, x, y));
    parts.push(rule(LEFT, legendY - 5, LEFT + 36, legendY - 5, ink, 1.6, dash));
    const text = `${name}: ${threeFigures(row.courseDeg)}, ${shown(gauge, row.fuelKg, 'required')}`;
    parts.push(line(frame, LEFT + 46, legendY, text, SIZE.medium, name === 'least' ? 'bold' : 'normal'));
    legendY += 20;
  }
  parts.push(
    line(
      frame,
      cx,
      height - 6,
      'true courses; fuel grows outward from the least',
      SIZE.small,
      'normal',
      theme.quiet,
      'middle',
    ),
  );
  return { markup: parts.join(''), height: height + 66 };
}

/** Round all headings; broken where one is refused. */
function outline(
  headings: readonly HeadingRow[],
  place: (courseDeg: number, r: number) => [number, number],
  radius: (kg: number) => number,
): string {
  let pen = 'M';
  const drawn = [...headings, headings[0]].map(({ courseDeg, fuelKg }) => {
    if (fuelKg === null) {
      pen = 'M';
      return '';
    }
    const [x, y] = place(courseDeg, radius(fuelKg));
    const to = `${pen}${hundredth(x)} ${hundredth(y)}`;
    pen = 'L';
    return to;
  });
  return drawn.join('');
}
