/** A flown track with its turns as arcs: between nodes half a minute apart a chord cuts a corner that was flown round. */
import type { FlownTrack } from './flown.ts';
import { direct, inverse } from './line.ts';

/** A track with the true course at each node [rad]. */
export interface CoursedTrack extends FlownTrack {
  readonly courseRad: ArrayLike<number>;
}

/** How far a chord may lie inside its arc [m]. */
const withinM = 10;
const mostPieces = 100;

/**
 * The track with points on the arcs of constant radius from node to node, so many that no chord lies more than 10 m inside
 * its arc; altitude and time linear along it. At Mach 3 and 125 km radius a chord of half a minute lies 700 m inside.
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
    const pieces = Math.min(
      Math.ceil(Math.sqrt((arc.lengthM * Math.abs(arc.turnRad)) / (8 * withinM))),
      mostPieces,
    );
    for (let i = 1; i < pieces; i++) {
      const part = i / pieces;
      const place = onArc(arc, part);
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
  readonly from: { readonly latitudeRad: number; readonly longitudeRad: number };
  /** Length and course of its chord. */
  readonly lengthM: number;
  readonly courseRad: number;
  /** Change of course along it, positive to the right. */
  readonly turnRad: number;
}

function arcAfter({ latitudeRad, longitudeRad, courseRad }: CoursedTrack, node: number): Arc {
  const next = node + 1;
  const from = { latitudeRad: latitudeRad[node], longitudeRad: longitudeRad[node] };
  const chord = inverse(from, { latitudeRad: latitudeRad[next], longitudeRad: longitudeRad[next] });
  // Beyond the geodesic's own change of course, which is great near a pole.
  const turned = courseRad[next] - chord.finalCourseRad - (courseRad[node] - chord.initialCourseRad);
  const turnRad = turned - 2 * Math.PI * Math.round(turned / (2 * Math.PI));
  return { from, lengthM: chord.distanceM, courseRad: chord.initialCourseRad, turnRad };
}

/** The place at a part of an arc: its chord and the angle between that and the whole chord, on a circle. */
function onArc({ from, lengthM, courseRad, turnRad }: Arc, part: number) {
  const half = 0.5 * turnRad;
  return direct(from, courseRad - (1 - part) * half, (lengthM * Math.sin(part * half)) / Math.sin(half));
}
