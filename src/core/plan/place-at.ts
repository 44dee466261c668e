/** Where the flight is at a time. */
import { between, placeOf } from '../earth/flown.ts';
import type { Log } from './log.ts';

export interface PlaceAt {
  readonly latitudeRad: number;
  readonly longitudeRad: number;
  readonly geometricHeightM: number;
}

/** Along the great circle between two nodes; the first or the last node outside the flight. The log holds a node at least. */
export function placeAt({ columns }: Log, timeS: number): PlaceAt {
  const times = columns.timeS;
  let next = 1;
  while (next < times.length - 1 && times[next] < timeS) next++;
  next = Math.min(next, times.length - 1);
  const last = Math.max(next - 1, 0);
  const span = times[next] - times[last];
  const part = span > 0 ? Math.min(Math.max((timeS - times[last]) / span, 0), 1) : 0;
  const { geometricHeightM: heights } = columns;
  return {
    ...between(placeOf(columns, last), placeOf(columns, next), part),
    geometricHeightM: heights[last] + part * (heights[next] - heights[last]),
  };
}
