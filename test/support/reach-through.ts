/**
 * The way of a flight after a failure once more, by the phases and the stepper of every other flight: turn, down or up, cruise,
 * down. It is flown again until the way down ends at the goal.
 */

import { equivalentAirspeed } from '../../src/core/air/airdata.ts';
import type { Air } from '../../src/core/air/day.ts';
import { standardPressure } from '../../src/core/air/standard.ts';
import type { FailureCase } from '../../src/core/aircraft/failures.ts';
import { inverse, Line } from '../../src/core/earth/line.ts';
import type { Flight } from '../../src/core/flight/flight.ts';
import {
  calibratedOf,
  constantCalibratedAirspeed,
  constantEquivalentAirspeed,
  constantMach,
} from '../../src/core/flight/speed-law.ts';
import type { FlightState } from '../../src/core/flight/state.ts';
import { Turning } from '../../src/core/flight/turning.ts';
import { accelerate, climb, cruise } from '../../src/core/phases/index.ts';
import type { PhaseEnd, Power, Stop } from '../../src/core/phases/phase.ts';
import { fly } from '../../src/core/phases/run.ts';
import type { Goal } from '../../src/core/plan/reach-flight.ts';
import { seaLevelDensity } from '../../src/core/quantities/constants.ts';

const CLOSE_M = 30;

/** Fuel on arrival, after the approach [kg]; NaN where the goal is nearer than the way down, or the turn goes below the cruise. */
export function flownThrough(
  flight: Flight,
  failure: FailureCase,
  start: Readonly<FlightState>,
  goal: Goal,
): number {
  let downM = 150_000;
  for (let round = 0; round < 8; round++) {
    const state = { ...start };
    const { leftM, kgPerM } = flyOnce(flight, failure, state, goal, downM);
    if (Math.abs(leftM) < 3000) {
      const massKg = state.massKg - leftM * kgPerM;
      return massKg - flight.setup.zeroFuelMassKg - goal.approach.fuelKg;
    }
    downM -= leftM;
  }
  return Number.NaN;
}

/** At the one height of the failure; how far before the goal it ends, and what the cruise burns. */
function flyOnce(
  flight: Flight,
  failure: FailureCase,
  state: FlightState,
  goal: Goal,
  downM: number,
): { leftM: number; kgPerM: number } {
  const missed = { leftM: Number.NaN, kgPerM: Number.NaN };
  const [heightM] = failure.pressureAltitudesM;
  const { mach: cruiseMach, descentEquivalentAirspeedMS: descentMS } = failure;
  const air = () => {
    flight.placeAt(state.latitudeRad, state.longitudeRad, state.pressureAltitudeM, state.timeS);
    return flight.frame.air;
  };
  const machNow = () => state.trueAirspeedMS / air().speedOfSoundMS;
  const equivalentNow = () => state.trueAirspeedMS * Math.sqrt(air().densityKgM3 / seaLevelDensity);
  const done = (end: PhaseEnd): PhaseEnd => {
    if (end.stop < 0) throw new Error(end.text);
    return end;
  };
  const above = state.pressureAltitudeM > heightM + CLOSE_M;
  if (!turnTo(flight, failure, state, goal, air(), above ? heightM : null)) return missed;
  const track = new Line(state, goal);
  state.distanceM = 0;
  const faster = (stop: Stop, power: Power) =>
    done(accelerate(flight, state, track, { power, stops: [stop] }));
  const slower = (stop: Stop) => {
    if (machNow() > 1 + 1e-6) {
      const one = accelerate(flight, state, track, {
        power: 'descent',
        stops: [stop, { at: 'mach', mach: 1 }],
      });
      if (done(one).stop === 0) return;
    }
    faster(stop, 'idle');
  };
  const down = (bottomM: number, speedMS: number) => {
    const bottom: Stop = { at: 'altitude', pressureAltitudeM: bottomM };
    const met: Stop = { at: 'equivalentAirspeed', speedMS };
    if (equivalentNow() > speedMS + 0.5) slower(met);
    else if (equivalentNow() < speedMS - 0.5) {
      const law = constantMach(machNow());
      const power: Power = machNow() > 1 ? 'descent' : 'idle';
      if (done(climb(flight, state, track, { law, power, stops: [met, bottom] })).stop === 1) return;
    }
    const law = constantEquivalentAirspeed(speedMS);
    if (machNow() > 1) {
      const stops: Stop[] = [bottom, { at: 'mach', mach: 1 }];
      if (done(climb(flight, state, track, { law, power: 'descent', stops })).stop === 0) return;
    }
    done(climb(flight, state, track, { law, power: 'idle', stops: [bottom] }));
  };
  if (above) {
    down(heightM, Math.max(descentMS, equivalentAirspeed(cruiseMach, standardPressure(heightM))));
  } else if (state.pressureAltitudeM < heightM - CLOSE_M) {
    const top: Stop = { at: 'altitude', pressureAltitudeM: heightM };
    const mach: Stop = { at: 'mach', mach: cruiseMach };
    const speedMS = failure.climbCalibratedAirspeedMS;
    const below = () => machNow() < cruiseMach - 2e-3;
    if (below() && calibratedOf(air(), state.trueAirspeedMS) < speedMS - 0.5) {
      const stops: Stop[] = [{ at: 'calibratedAirspeed', speedMS }, mach];
      done(accelerate(flight, state, track, { power: 'full', stops }));
    }
    const law = constantCalibratedAirspeed(speedMS);
    if (below()) done(climb(flight, state, track, { law, power: 'full', stops: [top, mach] }));
    if (state.pressureAltitudeM < heightM - 1) {
      done(climb(flight, state, track, { law: constantMach(cruiseMach), power: 'full', stops: [top] }));
    }
  }
  if (machNow() < cruiseMach - 2e-3) faster({ at: 'mach', mach: cruiseMach }, 'full');
  else if (machNow() > cruiseMach + 2e-3) slower({ at: 'mach', mach: cruiseMach });
  if (state.distanceM > track.lengthM - downM) return missed;
  const { distanceM, massKg } = state;
  const stops: Stop[] = [{ at: 'distance', distanceM: track.lengthM - downM }];
  done(cruise(flight, state, track, { law: constantMach(cruiseMach), altitude: 'hold', stops }));
  const kgPerM = (massKg - state.massKg) / (state.distanceM - distanceM);
  down(goal.pressureAltitudeM, descentMS);
  return { leftM: track.lengthM - state.distanceM, kgPerM };
}

/** The shorter way round until the course leads to the goal, down to a height or level; false where it comes to the height first. */
function turnTo(
  flight: Flight,
  { bankRad }: FailureCase,
  state: FlightState,
  goal: Goal,
  { windEastMS, windNorthMS, densityKgM3, speedOfSoundMS }: Air,
  floorM: number | null,
): boolean {
  const speedMS = state.trueAirspeedMS;
  const law =
    floorM !== null
      ? constantEquivalentAirspeed(speedMS * Math.sqrt(densityKgM3 / seaLevelDensity))
      : constantMach(speedMS / speedOfSoundMS);
  const { descent } = flight.setup.aircraft.propulsion;
  const power = floorM !== null ? (speedMS > speedOfSoundMS ? descent : 0) : null;
  const missing = (at: Readonly<FlightState>): number => {
    const east = speedMS * Math.sin(at.headingRad) + windEastMS;
    const north = speedMS * Math.cos(at.headingRad) + windNorthMS;
    const angle = inverse(at, goal).initialCourseRad - Math.atan2(east, north);
    return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
  };
  const side = Math.sign(missing(state));
  // Counted from the start, so that half a circle is no jump.
  const first = side * missing(state);
  const startRad = state.headingRad;
  const value = (at: Readonly<FlightState>): number => {
    const expected = first - side * (at.headingRad - startRad);
    const apart = side * missing(at) - expected;
    return expected + apart - 2 * Math.PI * Math.round(apart / (2 * Math.PI));
  };
  if (first > 0.03) {
    const end = fly(flight, new Turning(flight, { law, bankRad: side * bankRad, power }, state), state, {
      stops: [
        { at: 'state', name: 'towards', value },
        { at: 'altitude', pressureAltitudeM: floorM ?? -1000 },
      ],
    });
    if (end.stop < 0) throw new Error(end.text);
    if (end.stop === 1) return false;
  }
  return true;
}
