/** The way from one node of a track to the next, by parts from 0 to 1, and stretches of it. */
import {
  along,
  angleBetween,
  cross,
  dot,
  type FlownTrack,
  placeOf,
  placeOfVertical,
  type Vertical,
  verticalOf,
} from './flown.ts';
import type { Place } from './line.ts';

/** A stretch of a segment, in parts of it. */
export type Span = readonly [from: number, to: number];

/** A moment of a track. */
export interface Passage extends Place {
  readonly timeS: number;
  readonly pressureAltitudeM: number;
  /** The last node not after it. */
  readonly node: number;
}

export class Segment {
  readonly node: number;
  readonly from: Vertical;
  readonly to: Vertical;
  readonly angleRad: number;
  private readonly track: FlownTrack;

  constructor(track: FlownTrack, node: number) {
    this.track = track;
    this.node = node;
    this.from = verticalOf(placeOf(track, node));
    this.to = verticalOf(placeOf(track, node + 1));
    this.angleRad = angleBetween(this.from, this.to);
  }

  at(part: number): Vertical {
    return along(this.from, this.to, part);
  }

  passage(part: number): Passage {
    const { track, node } = this;
    const linear = (column: ArrayLike<number>) => column[node] + part * (column[node + 1] - column[node]);
    const last = part >= 1 ? node + 1 : node;
    const place = placeOfVertical(this.at(part));
    return {
      ...place,
      timeS: linear(track.timeS),
      pressureAltitudeM: linear(track.pressureAltitudeM),
      node: last,
    };
  }

  /** The part nearest to a point. */
  nearestPart(point: Vertical): number {
    return nearestPart(point, this.from, this.to);
  }

  /** The part at which it crosses the great circle from a to b between its ends; null where it does not. */
  crossing(a: Vertical, b: Vertical): number | null {
    const across = cross(a, b);
    const mine = cross(this.from, this.to);
    const [before, after] = [dot(across, this.from), dot(across, this.to)];
    if (before > 0 === after > 0 || dot(mine, a) > 0 === dot(mine, b) > 0) return null;
    const share = before / (before - after);
    const { from, to } = this;
    const meeting: Vertical = [
      from[0] + share * (to[0] - from[0]),
      from[1] + share * (to[1] - from[1]),
      from[2] + share * (to[2] - from[2]),
    ];
    // The same planes meet again on the other side of the Earth.
    if (dot(meeting, a) + dot(meeting, b) < 0) return null;
    return angleBetween(from, meeting) / this.angleRad;
  }
}

/** The part, 0 to 1, of the great circle from a to b that is nearest to a point. */
export function nearestPart(point: Vertical, a: Vertical, b: Vertical): number {
  const normal = cross(a, b);
  const length = Math.sqrt(dot(normal, normal));
  if (length < 1e-14) return 0;
  const ahead = dot(point, cross(normal, a)) / length;
  const angle = Math.atan2(length, dot(a, b));
  const reached = Math.atan2(ahead, dot(point, a));
  if (reached >= 0 && reached <= angle) return reached / angle;
  return chordSquare(point, a) <= chordSquare(point, b) ? 0 : 1;
}

/** Square of the straight distance between two verticals. */
export function chordSquare(a: Vertical, b: Vertical): number {
  const x = a[0] - b[0];
  const y = a[1] - b[1];
  const z = a[2] - b[2];
  return x * x + y * y + z * z;
}

/** What two spans share; nothing where they only touch. */
export function overlap(a: Span, b: Span): Span[] {
  const from = Math.max(a[0], b[0]);
  const to = Math.min(a[1], b[1]);
  return from < to ? [[from, to]] : [];
}

/** Spans in order, those that touch made one. */
export function merged(spans: readonly Span[]): Span[] {
  const out: [number, number][] = [];
  for (const [from, to] of spans) {
    const last = out[out.length - 1];
    if (last && from <= last[1]) last[1] = Math.max(last[1], to);
    else out.push([from, to]);
  }
  return out;
}

/** The part of the way from one value to another that lies between two bounds; null where none does. */
export function partWithin(from: number, to: number, low: number, high: number): Span | null {
  if (from === to) return from >= low && from <= high ? [0, 1] : null;
  const [a, b] = [(low - from) / (to - from), (high - from) / (to - from)];
  const [first, last] = [Math.max(0, Math.min(a, b)), Math.min(1, Math.max(a, b))];
  return first <= last ? [first, last] : null;
}
