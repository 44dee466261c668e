/** A drawing on two axes of numbers: marks at round values, curves told apart by dash and weight, each named where it ends. */
import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { line as d3line } from 'd3-shape';
import { Labels } from '../map/labels.ts';
import { element, escapeXml, hundredth, translate } from '../svg.ts';
import { type Column, NO_DATA, type Table } from '../table.ts';
import { FONT_FAMILY, SIZE, type Theme, textWidth } from '../theme.ts';
import { figures, type Gauge, numeral, plainSpaces } from '../units.ts';
import { line, rule } from './frame.ts';
import { spread } from './panel.ts';
import { patterns } from './sheet.ts';

/** A drawing, how it is to be read, and its numbers. */
export interface Figure {
  readonly svg: string;
  readonly note: string;
  readonly table: Table;
}

/** Of its viewBox. */
export function heightOf({ svg }: Figure): number {
  return Number(/viewBox="0 0 [\d.]+ ([\d.]+)"/.exec(svg)?.[1]);
}

export interface PlotLook {
  readonly theme: Theme;
  /** Of the viewBox. */
  readonly width: number;
}

export interface PlotAxis {
  /** What is counted, with unit and kind, such as "Pressure altitude [ft]". */
  readonly name: string;
  readonly least: number;
  readonly greatest: number;
  /** Room in front of the least. */
  readonly before?: number;
}

export interface Curve {
  /** Empty where it needs no name. */
  readonly name: string;
  readonly x: readonly number[];
  /** Not a number is a gap. */
  readonly y: readonly number[];
  readonly dash?: string;
  /** 1.2 where nothing is said; from 2 on the name is bold. */
  readonly weight?: number;
  /** Drawn in the colour of the ground, over another. */
  readonly onGround?: boolean;
}

export interface PlotOf {
  /** What is drawn, in words; the name of the upright axis stands in it. */
  readonly title: string;
  /** What a reader of screens says. */
  readonly description: string;
  readonly x: PlotAxis;
  readonly y: PlotAxis;
  readonly curves: readonly Curve[];
  readonly height?: number;
  /** Names that stand over the drawing, each above its place across; those close to each other are moved apart. */
  readonly above?: readonly NameAbove[];
  /** What lies under the curves, and what over them with its names. */
  readonly under?: (box: PlotBox) => string;
  readonly over?: (box: PlotBox, labels: Labels) => string;
}

export interface NameAbove {
  readonly name: string;
  /** On the axis across. */
  readonly at: number;
  readonly weight?: 'normal' | 'bold';
}

export interface PlotBox {
  readonly theme: Theme;
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  readonly left: number;
  readonly right: number;
  readonly height: number;
}

/** Dash by place among curves of one kind. */
export const DASHES = [undefined, '9 4', '3 3', '12 3 3 3', '1.5 4', '6 2 1.5 2'];

const LEFT = 58;
const HEAD = 26;
/** Room for names over the drawing. */
const ABOVE = 14;
const FOOT = 40;
const HEIGHT = 250;
const BESIDE = 8;

export function plot(of: PlotOf, { theme, width }: PlotLook): string {
  const { height = HEIGHT, above = [] } = of;
  const head = HEAD + (above.length > 0 ? ABOVE : 0);
  const longest = Math.max(0, ...of.curves.map(({ name }) => textWidth(name, SIZE.small) * 1.08));
  const right = width - Math.min(BESIDE + longest + 8, width * 0.42);
  const x = scaleLinear([of.x.least, of.x.greatest], [LEFT + (of.x.before ?? 0), right]);
  const y = scaleLinear([of.y.least, of.y.greatest], [height, 0]);
  const box: PlotBox = { theme, x, y, left: LEFT, right, height };
  const placed = of.curves.map((curve) => ({ curve, points: pointsOf(curve, box) }));
  const labels = new Labels(
    width,
    height,
    placed.flatMap(({ points }) => points),
  );
  const inside = element(
    'svg',
    { x: LEFT, y: 0, width: right - LEFT, height, viewBox: `${LEFT} 0 ${hundredth(right - LEFT)} ${height}` },
    of.under?.(box) ?? '',
    ...placed.map(({ curve, points }) => strokeOf(curve, points, theme)),
  );
  const drawn = element(
    'g',
    { transform: translate(0, head) },
    grid(box, ticksAcross(x, right - LEFT), y.ticks(height / 36)),
    inside,
    of.over?.(box, labels) ?? '',
    names(placed, box, labels),
    namesAbove(above, box, width),
    line({ theme }, LEFT, height + 33, of.x.name, SIZE.small),
  );
  return element(
    'svg',
    {
      viewBox: `0 0 ${hundredth(width)} ${hundredth(head + height + FOOT)}`,
      role: 'img',
      'font-family': FONT_FAMILY,
      'font-size': SIZE.small,
    },
    element('title', {}, escapeXml(of.title)),
    element('desc', {}, escapeXml(plainSpaces(of.description))),
    patterns(theme),
    line({ theme }, 0, 15, of.y.name, SIZE.medium, 'bold'),
    drawn,
  );
}

type Placed = { readonly curve: Curve; readonly points: readonly (readonly [number, number])[] };

function pointsOf({ x, y }: Curve, box: PlotBox): (readonly [number, number])[] {
  return x.map((value, i) => [tenth(box.x(value)), tenth(box.y(y[i]))] as const);
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

function strokeOf({ dash, weight = 1.2, onGround }: Curve, points: Placed['points'], theme: Theme): string {
  const d = d3line<readonly [number, number]>().defined((point) => point.every(Number.isFinite))(
    points as (readonly [number, number])[],
  );
  if (!d) return '';
  return element('path', {
    d,
    fill: 'none',
    stroke: onGround ? theme.ground : theme.ink,
    'stroke-width': weight,
    'stroke-dasharray': dash,
    'stroke-linejoin': 'round',
  });
}

/** Round values, no more than their figures have room for. */
function ticksAcross(x: ScaleLinear<number, number>, room: number): number[] {
  for (let most = room / 60; ; most /= 2) {
    const ticks = x.ticks(most);
    const widest = Math.max(...ticks.map((tick) => textWidth(numeral(tick, stepOf(ticks)), SIZE.small)));
    if (ticks.length < 3 || x(ticks[1]) - x(ticks[0]) > widest + 6) return ticks;
  }
}

function grid(box: PlotBox, xs: readonly number[], ys: readonly number[]): string {
  const { theme, left, right, height } = box;
  const across = ys.map((tick) => rule(left, box.y(tick), right, box.y(tick), theme.rule, 0.8));
  const up = xs.map((tick) => rule(box.x(tick), 0, box.x(tick), height, theme.rule, 0.8));
  const beside = ys.map((tick) =>
    line(
      { theme },
      left - 6,
      box.y(tick) + 4,
      numeral(tick, stepOf(ys)),
      SIZE.small,
      'normal',
      theme.ink,
      'end',
    ),
  );
  const below = xs.map((tick) =>
    line(
      { theme },
      box.x(tick),
      height + 16,
      numeral(tick, stepOf(xs)),
      SIZE.small,
      'normal',
      theme.ink,
      'middle',
    ),
  );
  const foot = rule(left, height, right, height, theme.ink, 1);
  return [...across, ...up, foot, ...beside, ...below].join('');
}

function stepOf(ticks: readonly number[]): number {
  return ticks.length > 1 ? Number((ticks[1] - ticks[0]).toPrecision(6)) : 1;
}

/** Names of curves that end at the right edge stand beside it, moved apart; the others where their ends leave room. */
function names(placed: readonly Placed[], box: PlotBox, labels: Labels): string {
  const ends = placed.flatMap(({ curve, points }) => {
    const shown = points.filter(([x, y]) => Number.isFinite(x) && y >= -1 && y <= box.height + 1);
    const at = shown.at(-1);
    return at === undefined || curve.name === '' ? [] : [{ curve, at }];
  });
  const atEdge = ends.filter(({ at }) => at[0] > box.right - 6).sort((a, b) => a.at[1] - b.at[1]);
  const places = spread(
    atEdge.map(({ at }) => at[1]),
    SIZE.small + 2,
  );
  const beside = atEdge.map(({ curve }, i) =>
    line(box, box.right + BESIDE, places[i] + 4, curve.name, SIZE.small, weightOf(curve)),
  );
  const within = ends
    .filter(({ at }) => at[0] <= box.right - 6)
    .map(({ curve, at }) => nameAt(box, labels, curve.name, at, weightOf(curve)));
  return [...beside, ...within].join('');
}

/** Side by side in the order of their places, none beyond an edge of the drawing. */
function namesAbove(above: readonly NameAbove[], box: PlotBox, width: number): string {
  const sorted = [...above].sort((a, b) => a.at - b.at);
  const wide = Math.max(0, ...sorted.map(({ name }) => textWidth(name, SIZE.small) * 1.08));
  const places = spread(
    sorted.map(({ at }) => box.x(at)),
    wide + 6,
  );
  const over = Math.max(0, (places.at(-1) ?? 0) + wide / 2 - width);
  const under = Math.max(0, wide / 2 - (places[0] ?? 0));
  return sorted
    .map(({ name, weight }, i) =>
      line(box, places[i] - over + under, -5, name, SIZE.small, weight, box.theme.ink, 'middle'),
    )
    .join('');
}

function weightOf({ weight = 1 }: Curve): 'normal' | 'bold' {
  return weight >= 2 ? 'bold' : 'normal';
}

/** A name beside a point, where there is room. */
export function nameAt(
  { theme }: PlotBox,
  labels: Labels,
  text: string,
  at: readonly [number, number],
  weight: 'normal' | 'bold' = 'normal',
): string {
  const label = labels.place({ text, at: [at[0], at[1]], radius: 3, size: SIZE.small, weight, must: true });
  return label === null ? '' : line({ theme }, label.x, label.y, text, SIZE.small, weight);
}

/** The least and the greatest of values that are there; 0 and 1 where none is. */
export function rangeOf(values: readonly number[]): readonly [number, number] {
  const known = values.filter(Number.isFinite);
  if (known.length === 0) return [0, 1];
  return [Math.min(...known), Math.max(...known)];
}

/** A column of numbers of a figure's table. */
export function number(name: string, unit: string): Column {
  return { name, unit, align: 'right' };
}

/** A number of a table, or that there is none there. */
export function inTable(gauge: Gauge, value: number, step: number): string {
  return Number.isFinite(value) ? figures(gauge, value, 'nearest', step) : NO_DATA;
}
