/** The pressure altitude of a place on the ground on the day. */
import { type Day, HEIGHT, newAir } from '../air/day.ts';
import type { Place } from './sortie.ts';

const rounds = 6;

/** Pressure altitude [m] at which the day's air over a place has a geometric height [m]; right to 0.1 m. */
export function pressureAltitudeAt(day: Day, place: Place, heightM: number, timeS: number): number {
  const air = newAir();
  let altitude = heightM;
  for (let round = 0; round < rounds; round++) {
    day.sample(place.latitudeRad, place.longitudeRad, altitude, timeS, air);
    altitude += (heightM - air.geometricHeightM) / air.upward[HEIGHT];
  }
  return altitude;
}
