/** Curves between two axes of numbers, drawn with the marks of a card. */
import { scaleLinear } from 'd3-scale';
import { spread } from '../chart/panel.ts';
import { numeral } from '../units.ts';
import { HEIGHT, type Mark, type Measure, type Room, text } from './page.ts';

export interface PlottedCurve {
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** Right of where the curve ends, above it where that is short of the right edge; empty where it needs none. */
  readonly name: string;
  /** [mm] */
  readonly weight: number;
  readonly dash: readonly number[];
}

export interface Plotted {
  /** Name with the unit. */
  readonly across: string;
  readonly up: string;
  /** Of the upright axis; that of the curves, rounded, where it is left out. */
  readonly range?: readonly [number, number];
  readonly curves: readonly PlottedCurve[];
}

/** Room beside and below for figures, above for the name of the upright axis, to the right for names of curves [mm]. */
const BESIDE = 9;
const BELOW = 9;
const ABOVE = 5;
const NAMES = 22;
/** A curve that ends so far from the right edge is named above its end [mm]. */
const SHORT = 2;
const GRID = { grey: 0.75, weight: 0.1, dash: [] };
/** Marks of an axis are about so far apart [mm]. */
const APART = 12;

export function plotted(
  { across, up, range, curves }: Plotted,
  room: Room,
  measure: Measure,
): readonly Mark[] {
  const box = {
    left: room.left + BESIDE,
    right: room.left + room.width - NAMES,
    top: room.top + ABOVE,
    bottom: room.top + room.height - BELOW,
  };
  const x = scaleLinear(extent(curves.map((curve) => curve.x)), [box.left, box.right]);
  const upright = scaleLinear(range ?? extent(curves.map((curve) => curve.y)), [box.bottom, box.top]);
  const y = range === undefined ? upright.nice() : upright;
  const marks: Mark[] = [];
  const path = (d: string, stroke: { grey: number; weight: number; dash: readonly number[] }): void => {
    marks.push({ is: 'path', d, at: [0, 0], ...stroke });
  };
  const small = (at: number, baseline: number, content: string): void =>
    text(marks, at, baseline, content, HEIGHT.small, 'regular');
  const wide = (content: string): number => measure(content, HEIGHT.small, 'regular');
  const xs = x.ticks((box.right - box.left) / APART);
  const ys = y.ticks((box.bottom - box.top) / APART);
  for (const tick of xs) {
    path(`M${mm(x(tick))} ${mm(box.top)}V${mm(box.bottom)}`, GRID);
    const figure = numeral(tick, stepOf(xs));
    small(x(tick) - wide(figure) / 2, box.bottom + 3.2, figure);
  }
  for (const tick of ys) {
    path(`M${mm(box.left)} ${mm(y(tick))}H${mm(box.right)}`, GRID);
    const figure = numeral(tick, stepOf(ys));
    small(box.left - 1 - wide(figure), y(tick) + HEIGHT.small / 2, figure);
  }
  for (const { x: xValues, y: yValues, weight, dash } of curves) {
    const points = xValues.map((value, i) => `${mm(x(value))} ${mm(y(yValues[i]))}`);
    path(`M${points.join('L')}`, { grey: 0, weight, dash });
  }
  const ends = curves
    .filter(({ name }) => name !== '')
    .map((curve) => ({ name: curve.name, x: x(curve.x.at(-1) ?? 0), y: y(curve.y.at(-1) ?? 0) }));
  const beside = ends.filter((end) => end.x > box.right - SHORT).sort((a, b) => a.y - b.y);
  const places = spread(
    beside.map((end) => end.y),
    HEIGHT.small * 1.6,
  );
  beside.forEach(({ name }, i) => {
    small(box.right + 1.5, places[i] + HEIGHT.small / 2, name);
  });
  for (const end of ends.filter((each) => each.x <= box.right - SHORT)) {
    small(end.x - wide(end.name) / 2, end.y - 1, end.name);
  }
  small(room.left, room.top + 2.2, up);
  small(box.left, box.bottom + 7, across);
  return marks;
}

function extent(lists: readonly (readonly number[])[]): [number, number] {
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const list of lists) {
    for (const value of list) {
      least = Math.min(least, value);
      greatest = Math.max(greatest, value);
    }
  }
  return [least, greatest];
}

function stepOf(ticks: readonly number[]): number {
  return ticks.length > 1 ? Number((ticks[1] - ticks[0]).toPrecision(6)) : 1;
}

function mm(value: number): number {
  return Math.round(value * 100) / 100;
}
