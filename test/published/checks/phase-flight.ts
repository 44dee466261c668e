/** Flies one row of phases.csv with the project's own phases, and tells what the row's columns should read. */
import { pressureWhereEquivalentMeets } from '../../../src/core/air/airdata.ts';
import { HEIGHT } from '../../../src/core/air/day.ts';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import {
  geometricFromGeopotential,
  geopotentialFromGeometric,
  pressureAltitudeOf,
} from '../../../src/core/air/standard.ts';
import type { Aircraft } from '../../../src/core/aircraft/aircraft.ts';
import { primeVerticalRadius } from '../../../src/core/earth/ellipsoid.ts';
import { gravityDown } from '../../../src/core/earth/gravity.ts';
import { Arc } from '../../../src/core/flight/arc.ts';
import {
  type EarthModel,
  flatEarth,
  ROTATING_EARTH,
  STILL_EARTH,
} from '../../../src/core/flight/earth-model.ts';
import type { Flight } from '../../../src/core/flight/flight.ts';
import type { Moment } from '../../../src/core/flight/moment.ts';
import {
  bledEquivalentAirspeed,
  constantEquivalentAirspeed,
  constantMach,
  constantTrueAirspeed,
  type SpeedLaw,
} from '../../../src/core/flight/speed-law.ts';
import type { FlightState } from '../../../src/core/flight/state.ts';
import type { Track } from '../../../src/core/flight/track.ts';
import { accelerate, climb, cruise, pushover } from '../../../src/core/phases/index.ts';
import type { PhaseEnd, Recorder, Stop } from '../../../src/core/phases/phase.ts';
import { fly } from '../../../src/core/phases/run.ts';
import {
  benchmarkAircraft,
  exactFlight,
  flatTrack,
  parallelTrack,
  stateAt,
  windyDay,
  withoutAngle,
} from '../../support/benchmark.ts';

const feet = 0.3048;
const knot = 1852 / 3600;
const degree = Math.PI / 180;
const pound = 0.45359237;
const everyS = 0.02;

/** Mach numbers and heights at which the tables bend: extremes lie there, so they are recorded. */
const bendMachs = [0.8, 0.9, 1, 1.2, 1.4, 1.6];
const bendFeet = [5000, 10_000, 15_000, 20_000, 25_000, 30_000, 40_000, 50_000];
const gates: Stop[] = [
  ...bendMachs.map((mach): Stop => ({ at: 'mach', mach })),
  ...bendFeet.map((height): Stop => ({ at: 'altitude', pressureAltitudeM: geopotential(height * feet) })),
  { at: 'altitude', pressureAltitudeM: 11_000 },
];

function geopotential(heightM: number): number {
  return geopotentialFromGeometric(heightM);
}

export type Given = Readonly<Record<string, number>>;

/** One moment as recorded. */
export type Sample = Omit<Moment, 'limitInputs' | 'enginePowers'>;

/** A phase as flown: its samples in order of time, one at each start and end of a piece, so that a jump shows as two. */
export interface FlownPhase {
  readonly samples: Sample[];
  readonly flight: Flight;
  /** Metres on the ellipsoid to metres flown. */
  readonly stretch: number;
  /** Samples of the pieces 'push', 'hold', 'pull' of a pushover. */
  readonly parts: Readonly<Record<string, Sample[]>>;
  readonly pullStartM: number;
  /** Flown without T sin(alpha), and without thrust for its climb. */
  readonly withoutAngle: boolean;
  readonly climbsFree: boolean;
}

const aircraft = benchmarkAircraft();

class Recording implements Recorder {
  readonly everyS = everyS;
  readonly samples: Sample[] = [];
  moment(at: Moment): void {
    this.samples.push({ ...at });
  }
  gate(_index: number, at: Moment): void {
    this.moment(at);
  }
}

/** Flies the case of a row; throws where the phase ends otherwise than the row says. */
export function flyCase(name: string, given: Given, earth: string): FlownPhase {
  const rule = /-exact$/.test(name) ? 'exact' : 'quasi';
  if (/^(accel|decel|round)/.test(name)) return levelCase(name, given, earth);
  if (/^(climb|glide|shear)/.test(name)) return climbCase(name, given, rule);
  if (name.startsWith('pushover')) return pushoverCase(name, given);
  if (name.startsWith('turn')) return turnCase(given, aircraft);
  if (name.startsWith('cruise')) return cruiseCase(name, given);
  throw new Error(`the case ${name} is not known`);
}

function earthOf(text: string, given: Given): EarthModel {
  const height = given.altitudeFt * feet;
  if (text.includes('local gravityDown')) {
    return flatEarth(gravityDown(Math.sin(given.latitudeDeg * degree) ** 2, height));
  }
  if (text.startsWith('flat')) return flatEarth();
  const model = text.includes('curvature only') ? STILL_EARTH : ROTATING_EARTH;
  return { ...model, sideways: false };
}

function levelCase(name: string, given: Given, earth: string): FlownPhase {
  const flight = exactFlight(aircraft, earthOf(earth, given));
  const height = given.altitudeFt * feet;
  const curved = earth.startsWith('round');
  const latitude = (given.latitudeDeg ?? 0) * degree;
  const track = curved ? parallelTrack(latitude, earth.includes('west') ? -1 : 1) : flatTrack;
  const state = stateAt(height, 0, given.massLb * pound);
  setMach(flight, state, track, given.machStart);
  const recorder = new Recording();
  const power = name.startsWith('decel') ? 'idle' : 'full';
  const stops: Stop[] = [{ at: 'mach', mach: given.machEnd }];
  ended(accelerate(flight, state, track, { power, stops, gates, recorder }), 'mach');
  const prime = primeVerticalRadius(Math.sin(latitude) ** 2);
  return flown(flight, recorder, curved ? (prime + height) / prime : 1);
}

function climbCase(name: string, given: Given, pathAngle: 'exact' | 'quasi'): FlownPhase {
  const shear = name.startsWith('shear');
  const bleed = name.includes('bleed');
  const law = lawOf(given, bleed);
  const startM = bleed ? heightWhereMet(given.easKt * knot, given.machStart) : given.startAltitudeFt * feet;
  const slope = shear ? (given.windEnd - given.windStart) / (given.endAltitudeFt * feet - startM) : 0;
  const day = shear ? windyDay((z) => [given.windStart + slope * (z - startM), slope]) : standardDay;
  const flight = exactFlight(aircraft, flatEarth(), { day });
  const state = stateAt(startM, 200, given.massLb * pound);
  const stops: Stop[] = bleed
    ? [{ at: 'mach', mach: given.machEnd }]
    : [{ at: 'altitude', pressureAltitudeM: geopotential(given.endAltitudeFt * feet) }];
  const recorder = new Recording();
  const power = name.startsWith('glide') ? 'idle' : 'full';
  ended(climb(flight, state, flatTrack, { law, power, pathAngle, stops, gates, recorder }), stops[0].at);
  return flown(flight, recorder, 1);
}

/** Geometric height at which an equivalent airspeed is a Mach number. */
function heightWhereMet(equivalentMS: number, mach: number): number {
  const height: number = pressureAltitudeOf(pressureWhereEquivalentMeets(equivalentMS, mach));
  return geometricFromGeopotential(height);
}

function lawOf(given: Given, bleed: boolean): SpeedLaw {
  if (bleed) return bledEquivalentAirspeed(given.easKt * knot, given.machStart, given.bleedKtPerMach * knot);
  if (given.tas !== undefined) return constantTrueAirspeed(given.tas);
  if (given.mach !== undefined) return constantMach(given.mach);
  return constantEquivalentAirspeed(given.easKt * knot);
}

function pushoverCase(name: string, given: Given): FlownPhase {
  const flight = exactFlight(aircraft, flatEarth());
  const state = stateAt(given.altitudeFt * feet, 0, given.massLb * pound);
  setMach(flight, state, flatTrack, given.machStart);
  const recorder = new Recording();
  const rule = name.includes('-release') ? 'onsetRelease' : name.includes('-onset') ? 'onset' : 'instant';
  const result = pushover(flight, state, flatTrack, {
    power: 'full',
    pushLoadFactor: given.pushLoadFactor,
    pathAngleRad: given.gammaDeg * degree,
    pullLoadFactor: given.pullLoadFactor,
    bottomPressureAltitudeM: geopotential(given.bottomFt * feet),
    rule,
    onsetPerS: given.ratePerS,
    recorder,
  });
  ended(result, 'bottom');
  const { samples } = recorder;
  const first = boundary(samples, result.push.timeS);
  const second = boundary(samples, result.push.timeS + result.hold.timeS);
  const parts = {
    push: samples.slice(0, first),
    hold: samples.slice(first, second),
    pull: samples.slice(second),
    all: samples,
  };
  return { ...flown(flight, recorder, 1), parts, pullStartM: result.pullStartPressureAltitudeM };
}

/** Index of the first sample after a time that is the end of one piece and the start of the next. */
function boundary(samples: readonly Sample[], timeS: number): number {
  return samples.findIndex((at) => at.timeS > timeS - 1e-6) + 1;
}

function turnCase(given: Given, of: Aircraft): FlownPhase {
  const toward = given.windTowardDeg * degree;
  const wind = given.windKt * knot;
  const day = windyDay(() => [wind * Math.cos(toward), 0], wind * Math.sin(toward));
  const flight = exactFlight(of, flatEarth(), { day });
  const state = stateAt(given.altitudeFt * feet, 0, given.massLb * pound);
  const goal = given.headingChangeDeg * degree;
  const recorder = new Recording();
  const arc = new Arc(flight, constantMach(given.mach), state, {
    startRad: given.bankDeg * degree,
    rateRadS: 0,
  });
  const there: Stop = { at: 'custom', name: 'heading', value: (at) => at.headingRad - goal };
  ended(fly(flight, arc, state, { stops: [there], recorder }), 'heading');
  return flown(flight, recorder, 1);
}

/** Fuel of the turn where T sin(alpha) is left out. */
export function turnFuelWithoutAngle(given: Given): number {
  const { samples } = turnCase(given, withoutAngle(aircraft));
  return samples[0].massKg - samples[samples.length - 1].massKg;
}

/**
 * Cruise-climb at constant lift coefficient. The Breguet row has no thrust for the climb: its isobars are a day's whose
 * geometric height does not change, so that climbing costs nothing.
 */
function cruiseCase(name: string, given: Given): FlownPhase {
  const free = name.includes('breguet');
  const height = given.altitudeFt * feet;
  const day: typeof standardDay = {
    ...standardDay,
    sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air) {
      standardDay.sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air);
      air.geometricHeightM = height;
      air.upward[HEIGHT] = 1e-9;
    },
  };
  const flight = exactFlight(withoutAngle(aircraft), flatEarth(), free ? { day } : {});
  const state = stateAt(height, 0, given.massLb * pound);
  const recorder = new Recording();
  const law = constantMach(given.mach);
  const stops: Stop[] = [{ at: 'time', timeS: given.time }];
  ended(cruise(flight, state, flatTrack, { law, altitude: 'constantLift', stops, recorder }), 'time');
  return { ...flown(flight, recorder, 1), withoutAngle: true, climbsFree: free };
}

/** Lift slope of the benchmark interceptor at a Mach number. */
export function liftSlope(mach: number): number {
  const out = { liftSlope: 0, zeroLiftAngleRad: 0, zeroLiftDrag: 0, inducedFactor: 0, outside: 0 };
  aircraft.aerodynamics.at(mach, 0, 0, Number.NaN, out);
  return out.liftSlope;
}

function setMach(flight: Flight, state: FlightState, track: Track, mach: number): void {
  flight.placeOnTrack(track, 0, state.pressureAltitudeM, 0);
  state.trueAirspeedMS = flight.speedOf(constantMach(mach), state.massKg);
}

function flown(flight: Flight, recorder: Recording, stretch: number): FlownPhase {
  const { samples } = recorder;
  return {
    samples,
    flight,
    stretch,
    parts: {},
    pullStartM: Number.NaN,
    withoutAngle: false,
    climbsFree: false,
  };
}

function ended(end: PhaseEnd, reason: string): void {
  if (end.reason !== reason) throw new Error(`ended by ${end.reason}: ${end.text}`);
}
