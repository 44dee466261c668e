/**
 * The light along a flight. The sun is up while its upper limb is over the horizon that is seen from the height. The
 * twilights end with the sun's centre 6, 12 and 18 degrees below the horizontal at the sea; at a height they are counted
 * from the horizon that is seen (the project's own convention: the almanacs define them for the sea only).
 */

import { between, placeOf } from './flown.ts';
import { horizonLowering, sunsetElevation } from './horizon.ts';
import type { Place } from './line.ts';
import { sunOver } from './sun.ts';

const degree = Math.PI / 180;

/** From light to dark. */
const LIGHTS = ['day', 'civil twilight', 'nautical twilight', 'astronomical twilight', 'night'] as const;
export type Light = (typeof LIGHTS)[number];

/** The lowest elevation [rad] of the sun's centre at which each light but night still holds, at a height [m]. */
function lowest(heightM: number): readonly number[] {
  const lowered = horizonLowering(heightM);
  return [sunsetElevation(heightM), ...[6, 12, 18].map((angle) => -angle * degree - lowered)];
}

/** The light with the sun's centre at an elevation [rad, without refraction] over an eye at a height [m above the sea]. */
export function lightAt(elevationRad: number, heightM: number): Light {
  // Above the horizontal it is day at every height.
  if (elevationRad >= 0) return 'day';
  const at = lowest(heightM).findIndex((limit) => elevationRad >= limit);
  return at < 0 ? 'night' : LIGHTS[at];
}

/** Columns of equal length in time order; the way between two nodes is a great circle flown at a constant speed. */
export interface SkyTrack {
  /** Since 1970. */
  readonly timeS: ArrayLike<number>;
  readonly latitudeRad: ArrayLike<number>;
  readonly longitudeRad: ArrayLike<number>;
  readonly geometricHeightM: ArrayLike<number>;
}

/** The moment at which one light gives way to another; brighter is true where the sun comes up. */
export interface LightChange extends Place {
  readonly timeS: number;
  readonly geometricHeightM: number;
  readonly from: Light;
  readonly to: Light;
  readonly brighter: boolean;
}

/** The light at the start and every change after it; a dash for the sun at Mach 3 can turn dusk into day again. */
export interface LightAlong {
  readonly start: Light;
  readonly changes: readonly LightChange[];
}

/** Longest time between two looks at the sun [s]: it moves 0.25 degrees a minute, and half of that for the flight. */
const lookEveryS = 60;

export function lightAlong(track: SkyTrack): LightAlong {
  const changes: LightChange[] = [];
  let last = lookAt(track, 0, 0);
  const start = last.light;
  for (let segment = 0; segment + 1 < track.timeS.length; segment++) {
    const lengthS = track.timeS[segment + 1] - track.timeS[segment];
    const looks = Math.max(1, Math.ceil(lengthS / lookEveryS));
    for (let k = 1; k <= looks; k++) {
      const next = lookAt(track, segment, k / looks);
      changes.push(...changesBetween(track, segment, last, next));
      last = next;
    }
  }
  return { start, changes };
}

interface Look extends Place {
  /** Of the segment. */
  readonly part: number;
  readonly timeS: number;
  readonly geometricHeightM: number;
  readonly elevationRad: number;
  readonly light: Light;
}

function lookAt(track: SkyTrack, segment: number, part: number): Look {
  const next = Math.min(segment + 1, track.timeS.length - 1);
  const linear = (column: ArrayLike<number>) => column[segment] + part * (column[next] - column[segment]);
  const timeS = linear(track.timeS);
  const geometricHeightM = linear(track.geometricHeightM);
  const [from, to] = [placeOf(track, segment), placeOf(track, next)];
  // Most looks are at nodes, where no way between is needed.
  const place = part === 1 ? to : between(from, to, part);
  const { elevationRad } = sunOver(place, timeS);
  // The horizon is that of the sea: below it there is none to dip.
  const light = lightAt(elevationRad, Math.max(0, geometricHeightM));
  return { part, timeS, geometricHeightM, ...place, elevationRad, light };
}

/** Every light's limit between two looks that lie on different sides of it, in the order in which they are passed. */
function changesBetween(track: SkyTrack, segment: number, before: Look, after: Look): LightChange[] {
  const from = LIGHTS.indexOf(before.light);
  const to = LIGHTS.indexOf(after.light);
  const step = Math.sign(to - from);
  // Across a segment's start the part begins again.
  const start = before.timeS === track.timeS[segment] ? 0 : before.part;
  const changes: LightChange[] = [];
  for (let light = from; light !== to; light += step) {
    const passed = (look: Look) => step * (LIGHTS.indexOf(look.light) - light) > 0;
    let low = start;
    let high = after.part;
    for (let halving = 0; halving < 40; halving++) {
      const middle = 0.5 * (low + high);
      if (passed(lookAt(track, segment, middle))) high = middle;
      else low = middle;
    }
    const { timeS, geometricHeightM, latitudeRad, longitudeRad } = lookAt(track, segment, high);
    const names = { from: LIGHTS[light], to: LIGHTS[light + step], brighter: step < 0 };
    changes.push({ timeS, geometricHeightM, latitudeRad, longitudeRad, ...names });
  }
  return changes;
}
