/** `ramrise track`: the geodesic between two positions. */
import { inverse } from '../core/earth/line.ts';
import { readPosition, showPosition } from '../core/quantities/place.ts';
import { show } from '../core/quantities/values.ts';
import { columns, say, sayJson } from './text.ts';

export interface TrackOptions {
  readonly from: string;
  readonly to: string;
  readonly json?: boolean;
}

export function track(options: TrackOptions): void {
  const from = readPosition(options.from, '--from');
  const to = readPosition(options.to, '--to');
  const line = inverse(from, to);
  if (options.json) {
    sayJson({
      distanceM: line.distanceM,
      initialBearingDeg: bearingDeg(line.initialCourseRad),
      finalBearingDeg: bearingDeg(line.finalCourseRad),
    });
    return;
  }
  const rows = [
    ['From', showPosition(from)],
    ['To', showPosition(to)],
    ['Distance', show('distanceM', line.distanceM), `${line.distanceM.toFixed(1)} m`],
    ['Initial bearing', showBearing(line.initialCourseRad)],
    ['Final bearing', showBearing(line.finalCourseRad)],
  ];
  for (const row of columns(rows, () => false)) say(row);
}

function showBearing(courseRad: number): string {
  const hundredths = Math.round(bearingDeg(courseRad) * 100) % 36000;
  return `${(hundredths / 100).toFixed(2).padStart(6, '0')} deg true`;
}

/** A course [rad] as degrees from 0 up to, but not, 360. */
function bearingDeg(courseRad: number): number {
  return ((((courseRad * 180) / Math.PI) % 360) + 360) % 360;
}
