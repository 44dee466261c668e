/** The ground track of a leg: geodesic lines from corner to corner. */
import { direct, Line, newLinePoint } from '../earth/line.ts';
import { standardGravity } from '../quantities/constants.ts';
import type { Leg, Place } from './sortie.ts';

/** How far a refuelling track is prepared ahead of the contact point. */
const refuellingTrackM = 600_000;

export interface Corner {
  readonly name: string;
  readonly bankRad: number;
  readonly kind: 'waypoint' | 'contact' | 'disconnect';
}

/** Tracks in order and, between track i and i + 1, corner i, which lies `cornersM[i]` along track i. */
export interface Route {
  readonly tracks: readonly Line[];
  readonly corners: readonly Corner[];
  readonly cornersM: readonly number[];
}

/** The line that a tanker flies from the contact point. */
function refuellingTrack(tanker: Place & { readonly courseRad: number }): Line {
  return new Line(tanker, direct(tanker, tanker.courseRad, refuellingTrackM));
}

/** The refuelling track that a leg begins on, where along it and with what bank it is left. */
export interface Leaving {
  readonly track: Line;
  readonly cornerM: number;
  readonly bankRad: number;
  /** A corner in between where the leg goes back: two turns instead of one that has no room. */
  readonly via: Place | null;
}

/** The route of a leg from `start`, where it begins with the course of its first line or leaves a refuelling track. */
export function routeOf(leg: Leg, start: Place, leaving: Leaving | null): Route {
  const tracks: Line[] = [];
  const corners: Corner[] = [];
  const cornersM: number[] = [];
  const turnAt = (corner: Corner, track: Line, atM: number): void => {
    tracks.push(track);
    corners.push(corner);
    cornersM.push(atM);
  };
  if (leaving)
    turnAt(
      { name: 'disconnect', bankRad: leaving.bankRad, kind: 'disconnect' },
      leaving.track,
      leaving.cornerM,
    );
  let from = start;
  if (leaving?.via) {
    const track = new Line(start, leaving.via);
    turnAt({ name: 'turning back', bankRad: leaving.bankRad, kind: 'waypoint' }, track, track.lengthM);
    from = leaving.via;
  }
  for (const waypoint of leg.through) {
    const track = new Line(from, waypoint);
    turnAt({ name: waypoint.name, bankRad: waypoint.bankRad, kind: 'waypoint' }, track, track.lengthM);
    from = waypoint;
  }
  if (leg.end.kind === 'landing') {
    tracks.push(new Line(from, leg.end.base));
    return { tracks, corners, cornersM };
  }
  const tanker = leg.end.tanker;
  const inbound = new Line(from, tanker);
  turnAt({ name: tanker.name, bankRad: tanker.bankRad, kind: 'contact' }, inbound, inbound.lengthM);
  tracks.push(refuellingTrack(tanker));
  return { tracks, corners, cornersM };
}

const point = newLinePoint();

/** The change of course at the corner between two tracks, within [-pi, pi]; positive to the right. */
export function courseChange(from: Line, fromM: number, to: Line): number {
  from.at(fromM, point);
  const before = point.courseRad;
  to.at(0, point);
  const change = point.courseRad - before;
  return change - 2 * Math.PI * Math.round(change / (2 * Math.PI));
}

/**
 * About how far before a corner a turn begins: the tangent of a circular arc, half of the way flown while the bank
 * builds up, and what the wind can add. For placing the end of what comes before; the turn itself is solved for.
 */
export function leadEstimate(
  speedMS: number,
  windMS: number,
  bankRad: number,
  rollRadPerS: number,
  changeRad: number,
): number {
  const change = Math.min(Math.abs(changeRad), 2.8);
  const radius = (speedMS * speedMS) / (standardGravity * Math.tan(bankRad));
  const turning = (radius * change) / speedMS;
  return radius * Math.tan(change / 2) + (speedMS * bankRad) / (2 * rollRadPerS) + windMS * turning;
}
