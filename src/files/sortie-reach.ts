/** The part of a weather file that a sortie can need. */
import type { Position } from '../core/quantities/place.ts';
import type { WeatherWindow } from './grid-file.ts';
import type { SortieFile } from './sortie-schema.ts';

/** Room beside the lines between the places of a sortie, for turns, refuelling tracks and detours: 240 nm. */
const roomRad = (4 * Math.PI) / 180;
/** Points along the great circle between two places. */
const points = 16;

type Places = Pick<SortieFile, 'bases' | 'tankers' | 'legs'>;

/**
 * The box, widened by 4 degrees of arc, around the great circles between every two places that a sortie names, for the
 * whole time of the file. Longitudes [rad] run from west to east without a jump and may pass ±pi; around a pole the box is
 * the whole turn.
 */
export function reachOf({ bases, tankers, legs }: Places): WeatherWindow {
  const places = [...bases, ...tankers, ...legs.flatMap(({ through }) => through)].map(({ at }) => at);
  let [southRad, northRad, westRad, eastRad] = [Infinity, -Infinity, Infinity, -Infinity];
  places.forEach((from, i) => {
    for (const to of places.slice(i)) {
      for (const { latitudeRad, longitudeRad } of between(from, to)) {
        const longitude = near(longitudeRad, places[0].longitudeRad);
        southRad = Math.min(southRad, latitudeRad);
        northRad = Math.max(northRad, latitudeRad);
        westRad = Math.min(westRad, longitude);
        eastRad = Math.max(eastRad, longitude);
      }
    }
  });
  southRad -= roomRad;
  northRad += roomRad;
  const farthest = Math.max(-southRad, northRad);
  const room = farthest < Math.PI / 2 ? roomRad / Math.cos(farthest) : Math.PI;
  const wide = eastRad - westRad + 2 * room >= 2 * Math.PI;
  return {
    southRad: Math.max(southRad, -Math.PI / 2),
    northRad: Math.min(northRad, Math.PI / 2),
    westRad: wide ? -Math.PI : westRad - room,
    eastRad: wide ? Math.PI : eastRad + room,
    fromS: -Infinity,
    toS: Infinity,
  };
}

/** Points of the great circle from one place to another, on a sphere: the chord, brought back to the surface. */
function between(from: Position, to: Position): Position[] {
  const [a, b] = [vector(from), vector(to)];
  return Array.from({ length: points + 1 }, (_, i) => {
    const [x, y, z] = a.map((value, axis) => value + ((b[axis] - value) * i) / points);
    return { latitudeRad: Math.atan2(z, Math.hypot(x, y)), longitudeRad: Math.atan2(y, x) };
  });
}

function vector({ latitudeRad, longitudeRad }: Position): [number, number, number] {
  const radius = Math.cos(latitudeRad);
  return [radius * Math.cos(longitudeRad), radius * Math.sin(longitudeRad), Math.sin(latitudeRad)];
}

/** A longitude less or more whole turns, within half a turn of another. */
function near(longitudeRad: number, otherRad: number): number {
  return longitudeRad - 2 * Math.PI * Math.round((longitudeRad - otherRad) / (2 * Math.PI));
}
