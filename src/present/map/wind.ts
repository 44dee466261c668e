/** Wind barbs: half a barb 5 kt, a barb 10 kt, a pennant 50 kt (WMO-No. 485, manual on the data-processing system, from memory). */
import { hundredth } from '../svg.ts';
import type { Point } from './view.ts';

const KNOT = 1852 / 3600;

/** Strokes and, to be filled, pennants of a barb. */
export interface Barb {
  readonly strokes: string;
  readonly pennants: string;
}

/**
 * A barb at a point. `towards` is a unit vector on the drawing in which the air goes; the staff stands against it, barbs to the
 * side of low pressure: left of the wind in the north, right of it in the south. Below 3 kt a calm, a dot.
 */
export function barbAt(at: Point, towards: Point, speedMS: number, northern: boolean, length: number): Barb {
  const fives = Math.round(speedMS / KNOT / 5);
  if (fives === 0) return { strokes: '', pennants: '' };
  const [ux, uy] = [-towards[0], -towards[1]];
  // Right of the staff as seen from its foot, y down.
  const side = northern ? 1 : -1;
  const [sx, sy] = [-uy * side, ux * side];
  const on = (along: number, out: number): string =>
    `${hundredth(at[0] + ux * along + sx * out)} ${hundredth(at[1] + uy * along + sy * out)}`;
  const step = length * 0.14;
  const feather = length * 0.42;
  let strokes = `M${on(0, 0)}L${on(length, 0)}`;
  let pennants = '';
  let along = length;
  let left = fives;
  for (; left >= 10; left -= 10) {
    pennants += `M${on(along, 0)}L${on(along, feather)}L${on(along - step * 1.6, 0)}Z`;
    along -= step * 2;
  }
  for (; left >= 2; left -= 2) {
    strokes += `M${on(along, 0)}L${on(along + step * 0.7, feather)}`;
    along -= step;
  }
  if (left === 1) {
    // A half barb alone stands in from the end, so that it is not taken for a whole one.
    const foot = fives === 1 ? along - step : along;
    strokes += `M${on(foot, 0)}L${on(foot + step * 0.35, feather / 2)}`;
  }
  return { strokes, pennants };
}
