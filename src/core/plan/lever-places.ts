/** Places of a sortie that could be moved to free it. A moved place is written in whole hundredths of a degree. */
import type { Incursion } from '../earth/areas.ts';
import { direct, inverse } from '../earth/line.ts';
import { type Lever, replaceLeg, replaceTanker } from './lever.ts';
import type { Leg, Place, Sortie, Waypoint } from './sortie.ts';

const mile = 1852;
const degree = Math.PI / 180;
const hundredth = degree / 100;
/** How far beyond the depth of an incursion a waypoint is tried, and how far onward one without room is [m]. */
const beyondM = 50_000;
const onwardM = 500 * mile;

/** A place moved by a distance on a course, as it would be typed. */
function moved(from: Place, courseRad: number, distanceM: number): Place {
  if (distanceM === 0) return from;
  const { latitudeRad, longitudeRad } = direct(from, courseRad, distanceM);
  return {
    name: from.name,
    latitudeRad: Math.round(latitudeRad / hundredth) * hundredth,
    longitudeRad: Math.round(longitudeRad / hundredth) * hundredth,
  };
}

function waypoint(sortie: Sortie, leg: number, index: number, changed: (old: Waypoint) => Waypoint): Sortie {
  const change = (old: Leg): Leg => ({
    ...old,
    through: old.through.map((at, i) => (i === index ? changed(at) : at)),
  });
  return replaceLeg(sortie, leg, change);
}

/** The bank at a waypoint, less. */
export function waypointBank(sortie: Sortie, leg: number, index: number): Lever {
  const { name, bankRad } = sortie.legs[leg].through[index];
  return {
    path: `legs.${leg}.through.${index}.bank`,
    also: [],
    name: `bank at ${name}`,
    quantity: 'bankDeg',
    from: bankRad / degree,
    towards: 10,
    step: 1,
    set: (bankDeg) => waypoint(sortie, leg, index, (old) => ({ ...old, bankRad: bankDeg * degree })),
  };
}

/** A waypoint moved on a course, in steps. */
function movedWaypoint(
  sortie: Sortie,
  leg: number,
  index: number,
  courseRad: number,
  towards: number,
  step: number,
): Lever {
  const at = sortie.legs[leg].through[index];
  const place = (distanceM: number): Place => moved(at, courseRad, distanceM);
  return {
    path: `legs.${leg}.through.${index}.at`,
    also: [],
    name: at.name,
    quantity: 'distanceM',
    from: 0,
    towards,
    step,
    place,
    set: (distanceM) => waypoint(sortie, leg, index, (old) => ({ ...old, ...place(distanceM) })),
  };
}

/**
 * The waypoints of a leg, the one nearest to an incursion first, each moved on the course on which that is left soonest, then
 * away from its deepest point: where a turn cuts a corner of the area, the way to the nearest side leads along the track.
 */
export function waypointMoved(
  sortie: Sortie,
  leg: number,
  { deepest, depthM, outCourseRad }: Incursion,
): Lever[] {
  return sortie.legs[leg].through
    .map((at, index) => ({ index, outward: inverse(deepest, at) }))
    .sort((a, b) => a.outward.distanceM - b.outward.distanceM)
    .flatMap(({ index, outward }) =>
      [outCourseRad, outward.finalCourseRad].map((courseRad) =>
        movedWaypoint(sortie, leg, index, courseRad, depthM + beyondM, mile),
      ),
    );
}

/** Each waypoint of a leg moved onward along the line that leads to it: room for what is flown before it. */
export function waypointOnward(sortie: Sortie, leg: number): Lever[] {
  const { through } = sortie.legs[leg];
  return through.map((at, index) => {
    const course = inverse(through[index - 1] ?? startOf(sortie, leg), at).finalCourseRad;
    return movedWaypoint(sortie, leg, index, course, onwardM, 5 * mile);
  });
}

function startOf(sortie: Sortie, leg: number): Place {
  const before = sortie.legs[leg - 1]?.end;
  return before?.kind === 'contact' ? before.tanker : sortie.takeOff.base;
}

/** The contact point that ends a leg, moved back along the line to it by a distance. */
export function tankerNearer(sortie: Sortie, leg: number): Lever | null {
  const { end, through } = sortie.legs[leg];
  if (end.kind !== 'contact') return null;
  const { tanker } = end;
  const from = through[through.length - 1] ?? startOf(sortie, leg);
  const back = inverse(tanker, from);
  const place = (backM: number): Place => moved(tanker, back.initialCourseRad, backM);
  return {
    path: `tankers.${sortie.tankers.indexOf(tanker)}.at`,
    also: [],
    name: `contact point of ${tanker.name}`,
    quantity: 'distanceM',
    from: 0,
    towards: 0.8 * back.distanceM,
    step: 5 * mile,
    place,
    set: (backM) => replaceTanker(sortie, tanker, { ...tanker, ...place(backM) }),
  };
}
