/** A flown track with its turns as arcs: between nodes half a minute apart a chord cuts a corner that was flown round. */
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

/** A track with the true course at each node [rad]. */
export interface CoursedTrack extends FlownTrack {
  readonly courseRad: ArrayLike<number>;
}

/** How far a chord may lie inside its arc [m]. */
const withinM = 10;
const mostPieces = 100;
const earthRadiusM = 6_371_000;

/**
 * The track with points on the arcs of constant radius from node to node, so many that no chord lies more than 10 m inside
 * its arc; altitude and time linear along it. At Mach 3 and 125 km radius a chord of half a minute lies 700 m inside. Arcs are
 * those of a sphere: within 1 % of that.
 */
export function roundedTrack(track: CoursedTrack): FlownTrack {
  const timeS: number[] = [];
  const latitudeRad: number[] = [];
  const longitudeRad: number[] = [];
  const pressureAltitudeM: number[] = [];
  const last = track.timeS.length - 1;
  for (let node = 0; node <= last; node++) {
    timeS.push(track.timeS[node]);
    latitudeRad.push(track.latitudeRad[node]);
    longitudeRad.push(track.longitudeRad[node]);
    pressureAltitudeM.push(track.pressureAltitudeM[node]);
    if (node === last) break;
    const arc = arcAfter(track, node);
    const bulge = (arc.angleRad * earthRadiusM * Math.abs(arc.turnRad)) / 8;
    const pieces = Math.min(Math.ceil(Math.sqrt(bulge / withinM)), mostPieces);
    for (let i = 1; i < pieces; i++) {
      const part = i / pieces;
      const place = placeOfVertical(onArc(arc, part));
      const linear = (column: ArrayLike<number>) => column[node] + part * (column[node + 1] - column[node]);
      timeS.push(linear(track.timeS));
      latitudeRad.push(place.latitudeRad);
      longitudeRad.push(place.longitudeRad);
      pressureAltitudeM.push(linear(track.pressureAltitudeM));
    }
  }
  return { timeS, latitudeRad, longitudeRad, pressureAltitudeM };
}

interface Arc {
  readonly from: Vertical;
  readonly to: Vertical;
  /** Length of its chord. */
  readonly angleRad: number;
  /** Change of course along it, positive to the right. */
  readonly turnRad: number;
}

function arcAfter(track: CoursedTrack, node: number): Arc {
  const from = verticalOf(placeOf(track, node));
  const to = verticalOf(placeOf(track, node + 1));
  const angleRad = angleBetween(from, to);
  if (angleRad < 1e-9) return { from, to, angleRad, turnRad: 0 };
  // Beyond the great circle's own change of course, which is great near a pole.
  const bend = courseFrom(to, from) + Math.PI - courseFrom(from, to);
  const turned = track.courseRad[node + 1] - track.courseRad[node] - bend;
  return { from, to, angleRad, turnRad: turned - 2 * Math.PI * Math.round(turned / (2 * Math.PI)) };
}

/** The true course [rad] of the great circle from one vertical to another. */
function courseFrom(from: Vertical, to: Vertical): number {
  const [x, y, z] = from;
  // East and north at `from`, both as long as the cosine of its latitude.
  return Math.atan2(x * to[1] - y * to[0], to[2] - z * dot(from, to));
}

/** The vertical at a part of an arc: so far along its chord, and beside that the height of the arc over it. */
function onArc({ from, to, angleRad, turnRad }: Arc, part: number): Vertical {
  const half = 0.5 * turnRad;
  const chord = Math.sin(part * half) / Math.sin(half);
  const forward = chord * Math.cos((1 - part) * half);
  const left = chord * Math.sin((1 - part) * half) * angleRad;
  const foot = along(from, to, forward);
  // To the left of the chord.
  const normal = cross(from, to);
  const scale = left / Math.sqrt(dot(normal, normal));
  return [foot[0] + scale * normal[0], foot[1] + scale * normal[1], foot[2] + scale * normal[2]];
}
