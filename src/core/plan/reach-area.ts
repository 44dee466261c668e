/** What can be reached from a moment of a sortie after each failure: flown on every bearing until the fuel is down to what must be left. */
import { direct } from '../earth/line.ts';
import { toTheEnd } from './explain.ts';
import { flightAfter } from './failures.ts';
import { patternHeightM } from './leg-end.ts';
import type { ReachArea } from './plan.ts';
import type { ReachRequest } from './reach-asked.ts';
import { type Goal, ReachFlight } from './reach-flight.ts';

/** Bearings of a ring. */
const bearings = 24;
/** Farther than any fuel goes. */
const farM = 6_000_000;
const degrees = 180 / Math.PI;

/** One ring for each failure of the deck; the reserve and an approach are left at its edge, near the ground. */
export function areasInReach(asked: ReachRequest, timeS: number): readonly ReachArea[] {
  return toTheEnd(flyingAreas(asked, timeS));
}

/** The same, with null between two flights. */
export function* flyingAreas(asked: ReachRequest, timeS: number): Generator<null, readonly ReachArea[]> {
  const { aircraft, day, sortie } = asked.request;
  const leastKg = sortie.landingReserveKg + sortie.approach.fuelKg;
  const areas: ReachArea[] = [];
  for (const failure of aircraft.failures) {
    const reach = new ReachFlight(flightAfter(failure, aircraft, day), failure);
    const start = { ...asked.starts.at(timeS) };
    const ring: (readonly [number, number])[] = [];
    const endsBy: ReachArea['endsBy'][number][] = [];
    for (let i = 0; i < bearings; i++) {
      const bearingRad = (-2 * Math.PI * i) / bearings;
      const far: Goal = {
        ...direct(start, bearingRad, farM),
        pressureAltitudeM: patternHeightM,
        calibratedAirspeedMS: null,
        approach: { fuelKg: 0, timeS: 0 },
      };
      const end = reach.asFarAs(start, far, leastKg);
      yield null;
      if (end === null) continue;
      ring.push([end.longitudeRad * degrees, end.latitudeRad * degrees]);
      endsBy.push(end.reason === 'fuel' ? 'fuel' : end.reason === 'outside:day' ? 'weather' : 'data');
    }
    const { key, name } = failure;
    areas.push(
      ring.length < 3
        ? { key, name, timeS, ringDeg: null, endsBy: [] }
        : { key, name, timeS, ringDeg: [...ring, ring[0]], endsBy: [...endsBy, endsBy[0]] },
    );
  }
  return areas;
}
