/** The places that a sortie names, for maps. */
import type { PlanPlace } from './plan.ts';
import type { Place, Sortie } from './sortie.ts';

const degrees = 180 / Math.PI;

/** Bases, tankers in their order, waypoints in the order they are flown. */
export function placesOf({ bases, tankers, legs }: Sortie): PlanPlace[] {
  const at = (kind: PlanPlace['kind'], { name, latitudeRad, longitudeRad }: Place, courseRad?: number) => ({
    kind,
    name,
    latitudeDeg: latitudeRad * degrees,
    longitudeDeg: longitudeRad * degrees,
    courseDeg: courseRad === undefined ? null : courseRad * degrees,
  });
  return [
    ...bases.map((base) => at('base', base)),
    ...tankers.map((tanker) => at('tanker', tanker, tanker.courseRad)),
    ...legs.flatMap(({ through }) => through).map((waypoint) => at('waypoint', waypoint)),
  ];
}
