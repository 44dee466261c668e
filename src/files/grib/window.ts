/** The columns of a grid that a window needs. */
import type { WeatherWindow } from '../grid-file.ts';

const degree = Math.PI / 180;

/**
 * The columns from the west to the east of a window and their neighbours; all where the window is not within the grid. On
 * a grid that goes round the globe they may go on past its last column, counted on from there.
 */
export function columnsAround(longitudesDeg: Float64Array, window: WeatherWindow | undefined): number[] {
  const count = longitudesDeg.length;
  const all = Array.from(longitudesDeg, (_, column) => column);
  if (!window || count < 3) return all;
  const step = (longitudesDeg[count - 1] - longitudesDeg[0]) / (count - 1);
  const start = eastward(window.westRad / degree - longitudesDeg[0]);
  const width = eastward((window.eastRad - window.westRad) / degree);
  const west = Math.floor(start / step) - 1;
  const east = Math.ceil((start + width) / step) + 1;
  const span = Array.from({ length: east - west + 1 }, (_, i) => west + i);
  // As for the axis of a gridded day: one more step completes the turn.
  const closed = Math.abs(step * count - 360) < 0.01 * step;
  if (closed && span.length < count) return west < 0 ? span.map((column) => column + count) : span;
  if (closed || east > count) return all;
  return span.filter((column) => column >= 0 && column < count);
}

/** Longitude [deg] of a column that may go on past the last one. */
export function longitudeOf(longitudesDeg: Float64Array, column: number): number {
  const count = longitudesDeg.length;
  return longitudesDeg[column % count] + 360 * Math.floor(column / count);
}

/** An angle as 0 to 360 degrees eastward. */
function eastward(degrees: number): number {
  return degrees - 360 * Math.floor(degrees / 360);
}
