/**
 * A tanker's own fuel: burnt while it waits and in contact, and on the way home, which begins where the last contact ends. Burn by the
 * rates that the sortie states; the way home at one true airspeed and the height of the contact, in the wind of the day there.
 */
import { type Air, type Day, newAir } from '../air/day.ts';
import { direct, inverse, type Place } from '../earth/line.ts';
import type { Draft } from './draft.ts';
import { placeAt } from './place-at.ts';
import type { TankerOwn } from './plan.ts';
import type { Base, Sortie, Tanker, TankerFlight } from './sortie.ts';

/** Of a tanker that comes late, by how much its time on station moves [s]. */
export type Delays = ReadonlyMap<string, number>;

const noDelays: Delays = new Map();

/** One for each tanker that flies by the sortie and has given something. */
export function tankerOwnOf(drafted: Draft, delays: Delays = noDelays): TankerOwn[] {
  const { sortie } = drafted.crew;
  return sortie.tankers.flatMap((tanker) => {
    const { flight, carries } = tanker;
    if (flight === null || carries.ownFuelKg === null) return [];
    const own = ownOf(drafted, {
      tanker,
      flight,
      ownKg: carries.ownFuelKg,
      delayS: delays.get(tanker.name) ?? 0,
    });
    return own === null ? [] : [own];
  });
}

interface Flying {
  readonly tanker: Tanker;
  readonly flight: TankerFlight;
  readonly ownKg: number;
  readonly delayS: number;
}

function ownOf(drafted: Draft, { tanker, flight, ownKg, delayS }: Flying): TankerOwn | null {
  const { crew, log, flown } = drafted;
  const { day } = crew.flight.setup;
  const takeOffS = crew.sortie.takeOff.timeS;
  const contacts = flown.refuellings.filter((refuelling) => refuelling.tanker === tanker.name);
  if (contacts.length === 0) return null;
  const fromS = flight.fromS + delayS;
  const leavesS = contacts[contacts.length - 1].disconnectS;
  const inContactS = contacts.reduce((sum, { contactS, disconnectS }) => sum + disconnectS - contactS, 0);
  const from = { ...placeAt(log, leavesS), pressureAltitudeM: tanker.pressureAltitudeM };
  const home = wayHome(day, from, flight, leavesS);
  const onStationS = leavesS - Math.min(fromS, contacts[0].contactS);
  const contactKg = inContactS * flight.burnKgS;
  const waitedKg = onStationS * flight.burnKgS - contactKg;
  const homeKg = home === null ? null : home.durationS * flight.homeBurnKgS;
  const onLandingKg = homeKg === null ? null : ownKg - waitedKg - contactKg - homeKg;
  const overReserveKg = onLandingKg === null ? null : onLandingKg - flight.reserveKg;
  return {
    tanker: tanker.name,
    onStationS: fromS - takeOffS,
    firstContactS: contacts[0].contactS - takeOffS,
    leavesS: leavesS - takeOffS,
    ownKg,
    waitedKg,
    contactKg,
    home: home && {
      base: flight.base.name,
      distanceM: home.distanceM,
      durationS: home.durationS,
      landsS: leavesS + home.durationS - takeOffS,
      burntKg: home.durationS * flight.homeBurnKgS,
    },
    onLandingKg,
    reserveKg: flight.reserveKg,
    overReserveKg,
    canWaitS: overReserveKg === null ? null : overReserveKg / flight.burnKgS,
  };
}

const steps = 24;

/** Over the geodesic, midpoint by midpoint; null where the weather does not reach. */
function wayHome(
  day: Day,
  from: Place & { readonly pressureAltitudeM: number },
  { base, trueAirspeedMS }: { base: Base; trueAirspeedMS: number },
  leavesS: number,
): { distanceM: number; durationS: number } | null {
  const { distanceM, initialCourseRad } = inverse(from, base);
  const air = newAir();
  const stepM = distanceM / steps;
  let durationS = 0;
  for (let i = 0; i < steps; i++) {
    const at = direct(from, initialCourseRad, (i + 0.5) * stepM);
    day.sample(at.latitudeRad, at.longitudeRad, from.pressureAltitudeM, leavesS + durationS, air);
    if (air.outside !== 0) return null;
    durationS += stepM / groundSpeed(air, at.courseRad, trueAirspeedMS);
  }
  return { distanceM, durationS };
}

/** The heading holds the course against what blows across. */
function groundSpeed({ windEastMS, windNorthMS }: Air, courseRad: number, trueAirspeedMS: number): number {
  const along = windEastMS * Math.sin(courseRad) + windNorthMS * Math.cos(courseRad);
  const across = windEastMS * Math.cos(courseRad) - windNorthMS * Math.sin(courseRad);
  return Math.sqrt(Math.max(trueAirspeedMS ** 2 - across ** 2, 0)) + along;
}

/** What cannot be told of a tanker's own flight, and why. */
export function tankerOwnMissing({ tankers }: Sortie, own: readonly TankerOwn[]): string[] {
  return [
    ...tankers
      .filter(({ flight }) => flight === null)
      .map(({ name }) => `the own fuel of ${name}: the sortie does not say how it flies`),
    ...own
      .filter(({ home }) => home === null)
      .map(({ tanker }) => `the way home of ${tanker}: the weather does not reach so far`),
  ];
}
