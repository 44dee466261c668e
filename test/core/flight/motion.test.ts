import { describe, expect, it } from 'vitest';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import { geometricFromGeopotential } from '../../../src/core/air/standard.ts';
import { gravityDown, normalGravity } from '../../../src/core/earth/gravity.ts';
import { Line } from '../../../src/core/earth/line.ts';
import { ROTATING_EARTH } from '../../../src/core/flight/earth-model.ts';
import { EXACT, type Flight } from '../../../src/core/flight/flight.ts';
import { Leg } from '../../../src/core/flight/leg.ts';
import { Stepper, type System } from '../../../src/core/numerics/stepper.ts';
import { fly } from '../../../src/core/phases/run.ts';
import { benchmarkAircraft, exactFlight, parallelTrack, stateAt, windyDay } from '../../support/benchmark.ts';
import {
  axesAt,
  CartesianMotion,
  dot,
  sum,
  toCartesian,
  toGeodetic,
  type Vector,
} from '../../support/cartesian.ts';

const degree = Math.PI / 180;
const gravity = 9.80665;
const earthRate = 7.292115e-5;
const control = { relative: 1e-11, absolute: [1e-7, 1e-7, 1e-7, 1e-9, 1e-9, 1e-9, 1e-7, 1e-7] };

/** A wind that grows with height, so that its shear enters the motion; the gradients of `windyDay` are exact. */
const shearing = windyDay((height) => [10 + 0.004 * (height - 10_000), 0.004], 25);

/** The along-track equations at a load factor, power and bank, free of any track. */
function bankedMotion(flight: Flight, loadFactor: number, bankRad: number): System {
  const { frame, forces } = flight;
  const power = flight.setup.aircraft.propulsion.maximum;
  return {
    size: 7,
    derivative(t, [latitude, longitude, heading, altitude, speed, path, mass], rates) {
      flight.placeAt(latitude, longitude, altitude, t);
      frame.moveOnHeading(speed, Math.sin(path), heading);
      forces.atSpeed(speed, mass, frame.air, altitude);
      forces.usePower(power);
      forces.useLift(loadFactor * mass * gravity);
      const force = (forces.liftN + forces.thrustN * Math.sin(forces.angleRad)) / mass;
      rates[0] = frame.latitudeRate();
      rates[1] = frame.longitudeRate();
      rates[2] = (force * Math.sin(bankRad) + frame.sidePull) / (speed * frame.cosPath);
      rates[3] = frame.altitudeRate;
      rates[4] = forces.alongN / mass + frame.alongPull;
      rates[5] = (force * Math.cos(bankRad) + frame.normalPull) / speed;
      rates[6] = -forces.fuelFlowKgS;
    },
  };
}

function cartesianStart(
  latitude: number,
  longitude: number,
  heightM: number,
  north: number,
  east: number,
  up: number,
) {
  const [n, e, u] = axesAt(latitude, longitude);
  const velocity = sum([north, n], [east, e], [up, u]);
  return [...toCartesian({ latitudeRad: latitude, longitudeRad: longitude, heightM }), ...velocity];
}

describe('the two formulations', () => {
  it.each([
    ['to the right, eastward, middle latitude', 45, 80, 30],
    ['to the left, westward, high southern latitude', -68, 250, -25],
  ])(
    '[FLY-1] Cartesian and along-track agree to 1e-6 on a climbing supersonic turn %s',
    (_name, latitudeDeg, headingDeg, bankDeg) => {
      const aircraft = benchmarkAircraft();
      const [latitude, longitude] = [latitudeDeg * degree, 179.9 * degree];
      const bank = bankDeg * degree;
      const loadFactor = 1.2;
      const state = stateAt(10_000, 400, 18_000);
      const path = 4 * degree;
      const heading = headingDeg * degree;
      const flight = exactFlight(aircraft, ROTATING_EARTH, { day: shearing });
      const along = Float64Array.of(latitude, longitude, heading, state.pressureAltitudeM, 400, path, 18_000);
      const seconds = 60;
      new Stepper(7).run(bankedMotion(flight, loadFactor, bank), 0, along, seconds, control);

      const setup = { aircraft, day: shearing, earth: ROTATING_EARTH, tolerance: EXACT, zeroFuelMassKg: 0 };
      const motion = new CartesianMotion(setup, (forces) => {
        forces.usePower(aircraft.propulsion.maximum);
        forces.useLift(loadFactor * forces.massKg * gravity);
        return bank;
      });
      const level = 400 * Math.cos(path);
      const start = cartesianStart(
        latitude,
        longitude,
        10_000,
        level * Math.cos(heading) + 10,
        level * Math.sin(heading) + 25,
        400 * Math.sin(path),
      );
      const y = Float64Array.of(...start, 18_000);
      new Stepper(7).run(motion, 0, y, seconds, control);

      const place = toGeodetic([y[0], y[1], y[2]]);
      const [north, east, up] = axesAt(place.latitudeRad, place.longitudeRad);
      const velocity: Vector = [y[3], y[4], y[5]];
      flight.placeAt(along[0], along[1], along[3], 0);
      flight.frame.moveOnHeading(along[4], Math.sin(along[5]), along[2]);
      const flown = seconds * 400;
      const turned = Math.PI + place.longitudeRad - (Math.PI + along[1]);
      const apart = 6_371_000 * Math.cos(along[0]) * Math.sin(turned);
      expect(Math.abs(apart) / flown).toBeLessThan(1e-6);
      expect((6_371_000 * Math.abs(place.latitudeRad - along[0])) / flown).toBeLessThan(1e-6);
      expect(Math.abs(place.heightM / flight.frame.air.geometricHeightM - 1)).toBeLessThan(1e-6);
      expect(Math.abs(dot(velocity, north) - flight.frame.groundNorthMS) / 400).toBeLessThan(1e-6);
      expect(Math.abs(dot(velocity, east) - flight.frame.groundEastMS) / 400).toBeLessThan(1e-6);
      expect(Math.abs(dot(velocity, up) - along[4] * Math.sin(along[5])) / 400).toBeLessThan(1e-6);
      expect(Math.abs(y[6] / along[6] - 1)).toBeLessThan(1e-6);
      // The manoeuvre is what the name says.
      expect(place.heightM).toBeGreaterThan(11_000);
      expect(Math.abs(along[2] - heading)).toBeGreaterThan(0.2);
    },
  );

  it('[FLY-2] a leg along a geodesic agrees with Cartesian axes to 1e-6, its bank holding the sideways Coriolis force', () => {
    const aircraft = benchmarkAircraft();
    const from = { latitudeRad: 40 * degree, longitudeRad: 10 * degree };
    const to = { latitudeRad: 44 * degree, longitudeRad: 16 * degree };
    const line = new Line(from, to);
    const flight = exactFlight(aircraft, ROTATING_EARTH);
    const power = aircraft.propulsion.maximum;
    const state = { ...stateAt(11_000, 420, 18_000), pathAngleRad: 3 * degree };
    const leg = new Leg(flight, line, state, { altitude: true, speed: true, path: true }, 1, (at) => {
      flight.atLoadFactor(at.speedMS, at.massKg, power, at.pathRad, 0.97);
    });
    fly(flight, leg, state, { stops: [{ at: 'time', timeS: 100 }] });

    const setup = { aircraft, day: standardDay, earth: ROTATING_EARTH, tolerance: EXACT, zeroFuelMassKg: 0 };
    let turn = 0;
    const motion = new CartesianMotion(setup, (forces) => {
      forces.usePower(power);
      forces.useLift(0.97 * forces.massKg * gravity);
      const force = (forces.liftN + forces.thrustN * Math.sin(forces.angleRad)) / forces.massKg;
      return -Math.asin(turn / force);
    });
    const steered: System = {
      size: 7,
      derivative(t, y, rates) {
        const place = toGeodetic([y[0], y[1], y[2]]);
        const [north, east] = axesAt(place.latitudeRad, place.longitudeRad);
        const velocity: Vector = [y[3], y[4], y[5]];
        const [toNorth, toEast] = [dot(velocity, north), dot(velocity, east)];
        const level = Math.hypot(toNorth, toEast);
        const right = sum([toNorth / level, east], [-toEast / level, north]);
        const coriolis: Vector = [2 * earthRate * velocity[1], -2 * earthRate * velocity[0], 0];
        const northward = normalGravity(place.latitudeRad, place.heightM).north;
        turn = dot(coriolis, right) + northward * dot(north, right);
        motion.derivative(t, y, rates);
      },
    };
    const course = line.initialCourseRad;
    const level = 420 * Math.cos(3 * degree);
    const start = cartesianStart(
      from.latitudeRad,
      from.longitudeRad,
      11_000,
      level * Math.cos(course),
      level * Math.sin(course),
      420 * Math.sin(3 * degree),
    );
    const y = Float64Array.of(...start, 18_000);
    new Stepper(7).run(steered, 0, y, 100, control);
    const place = toGeodetic([y[0], y[1], y[2]]);
    const seen = line.offset(place);
    expect(Math.abs(seen.alongM / state.distanceM - 1)).toBeLessThan(1e-6);
    // The air's course and the ground's differ by h (1/M - 1/N), 1e-5 rad here.
    expect(Math.abs(seen.rightM)).toBeLessThan(0.4);
    expect(Math.abs(place.heightM / geometricFromGeopotential(state.pressureAltitudeM) - 1)).toBeLessThan(
      1e-6,
    );
    expect(Math.abs(Math.hypot(y[3], y[4], y[5]) / state.trueAirspeedMS - 1)).toBeLessThan(1e-6);
    expect(Math.abs(y[6] / state.massKg - 1)).toBeLessThan(1e-6);
  });
});

describe('conservation', () => {
  it('[FLY-3] without thrust and drag the energy stays, the Earth turning below', () => {
    const base = benchmarkAircraft();
    const flight = exactFlight(base, ROTATING_EARTH, { variation: { dragFactor: 0 } });
    const state = { ...stateAt(15_000, 350, 18_000), pathAngleRad: -0.05 };
    const leg = new Leg(
      flight,
      parallelTrack(0, 1),
      state,
      { altitude: true, speed: true, path: true },
      1,
      (at) => {
        flight.atLoadFactor(at.speedMS, at.massKg, 0, at.pathRad, 0.9);
      },
    );
    const speed = state.trueAirspeedMS;
    fly(flight, leg, state, { stops: [{ at: 'time', timeS: 40 }] });
    const height = geometricFromGeopotential(state.pressureAltitudeM);
    let potential = 0;
    const steps = 1000;
    for (let i = 0; i < steps; i++) {
      const middle = 15_000 + ((i + 0.5) / steps) * (height - 15_000);
      potential += (gravityDown(0, middle) * (height - 15_000)) / steps;
    }
    const change = 0.5 * (state.trueAirspeedMS ** 2 - speed ** 2);
    expect(height).toBeLessThan(14_000);
    expect(Math.abs(change / potential + 1)).toBeLessThan(1e-7);
  });
});
