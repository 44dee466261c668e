/** The benchmark interceptor of the published minimum-time-to-climb problem, and simple surroundings to fly it in. */
import { fileURLToPath } from 'node:url';
import { type Air, type Day, HEIGHT, WIND_EAST, WIND_NORTH } from '../../src/core/air/day.ts';
import { standardDay } from '../../src/core/air/offset-day.ts';
import { geopotentialFromGeometric } from '../../src/core/air/standard.ts';
import type { Aircraft } from '../../src/core/aircraft/aircraft.ts';
import type { EarthModel } from '../../src/core/flight/earth-model.ts';
import { EXACT, Flight, type FlightSetup } from '../../src/core/flight/flight.ts';
import { type FlightState, newState } from '../../src/core/flight/state.ts';
import type { Track } from '../../src/core/flight/track.ts';
import { loadDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';

const folder = fileURLToPath(new URL('../../decks/benchmark-interceptor', import.meta.url));

export function benchmarkAircraft(): Aircraft {
  return loadDeck(deckFolder(folder)).aircraft;
}

/** The same without T sin(alpha): its lift is made at hardly any angle, its polar is the same function of lift. */
export function withoutAngle(aircraft: Aircraft): Aircraft {
  const { aerodynamics } = aircraft;
  return {
    ...aircraft,
    aerodynamics: {
      ...aerodynamics,
      at(mach, pressureAltitudeM, geometricHeightM, cgFraction, out) {
        aerodynamics.at(mach, pressureAltitudeM, geometricHeightM, cgFraction, out);
        out.liftSlope = 1e7;
        out.zeroLiftAngleRad = 0;
      },
    },
  };
}

/** North over the flat Earth. */
export const flatTrack: Track = {
  lengthM: 1e9,
  at(_distanceM, out) {
    out.latitudeRad = 0;
    out.longitudeRad = 0;
    out.courseRad = 0;
    out.sinLatitude = 0;
    out.cosLatitude = 1;
    out.sinCourse = 0;
    out.cosCourse = 1;
  },
};

/** Along a parallel of latitude, eastward (1) or westward (-1); its length counts for nothing. */
export function parallelTrack(latitudeRad: number, way: 1 | -1): Track {
  return {
    lengthM: 1e9,
    at(_distanceM, out) {
      out.latitudeRad = latitudeRad;
      out.longitudeRad = 0;
      out.courseRad = (way * Math.PI) / 2;
      out.sinLatitude = Math.sin(latitudeRad);
      out.cosLatitude = Math.cos(latitudeRad);
      out.sinCourse = way;
      out.cosCourse = 0;
    },
  };
}

/** The standard day with a wind (north, east) that is linear in geometric height. */
export function windyDay(north: (heightM: number) => [speed: number, perMetre: number], eastMS = 0): Day {
  return {
    ...standardDay,
    sample(latitudeRad: number, longitudeRad: number, pressureAltitudeM: number, timeS: number, air: Air) {
      standardDay.sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air);
      const [speed, perMetre] = north(air.geometricHeightM);
      air.windNorthMS = speed;
      air.upward[WIND_NORTH] = perMetre * air.upward[HEIGHT];
      air.windEastMS = eastMS;
      air.upward[WIND_EAST] = 0;
    },
  };
}

export function exactFlight(aircraft: Aircraft, earth: EarthModel, more: Partial<FlightSetup> = {}): Flight {
  return new Flight({ aircraft, day: standardDay, earth, tolerance: EXACT, zeroFuelMassKg: 0, ...more });
}

/** A state at a geometric height on the standard day. */
export function stateAt(heightM: number, speedMS: number, massKg: number): FlightState {
  return {
    ...newState(),
    timeS: 0,
    distanceM: 0,
    pressureAltitudeM: geopotentialFromGeometric(heightM),
    trueAirspeedMS: speedMS,
    pathAngleRad: 0,
    massKg,
    latitudeRad: 0,
    longitudeRad: 0,
    headingRad: 0,
    bankRad: 0,
  };
}
