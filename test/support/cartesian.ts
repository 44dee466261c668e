/**
 * The same forces integrated in Earth-fixed Cartesian axes (x at latitude 0 and longitude 0, z at the north pole): nothing of the
 * along-track equations of motion is used, so that each is a check on the other.
 */
import { type Air, type Day, HEIGHT, newAir } from '../../src/core/air/day.ts';
import { normalGravity } from '../../src/core/earth/gravity.ts';
import { Forces } from '../../src/core/flight/forces.ts';
import type { FlightSetup } from '../../src/core/flight/setup.ts';
import type { System } from '../../src/core/numerics/stepper.ts';

const equatorialRadius = 6378137;
const flattening = 1 / 298.257223563;
const eccentricitySquare = flattening * (2 - flattening);
const earthRate = 7.292115e-5;

export type Vector = [number, number, number];

export interface Geodetic {
  latitudeRad: number;
  longitudeRad: number;
  heightM: number;
}

export function toGeodetic([x, y, z]: Vector): Geodetic {
  const p = Math.hypot(x, y);
  let latitude = Math.atan2(z, p * (1 - eccentricitySquare));
  let height = 0;
  for (let round = 0; round < 12; round++) {
    const sine = Math.sin(latitude);
    const n = equatorialRadius / Math.sqrt(1 - eccentricitySquare * sine * sine);
    height = p / Math.cos(latitude) - n;
    latitude = Math.atan2(z, p * (1 - (eccentricitySquare * n) / (n + height)));
  }
  return { latitudeRad: latitude, longitudeRad: Math.atan2(y, x), heightM: height };
}

export function toCartesian({ latitudeRad, longitudeRad, heightM }: Geodetic): Vector {
  const sine = Math.sin(latitudeRad);
  const n = equatorialRadius / Math.sqrt(1 - eccentricitySquare * sine * sine);
  const level = (n + heightM) * Math.cos(latitudeRad);
  return [
    level * Math.cos(longitudeRad),
    level * Math.sin(longitudeRad),
    (n * (1 - eccentricitySquare) + heightM) * sine,
  ];
}

/** Unit vectors north, east and up at a place. */
export function axesAt(latitudeRad: number, longitudeRad: number): readonly [Vector, Vector, Vector] {
  const [sl, cl] = [Math.sin(latitudeRad), Math.cos(latitudeRad)];
  const [so, co] = [Math.sin(longitudeRad), Math.cos(longitudeRad)];
  return [
    [-sl * co, -sl * so, cl],
    [-so, co, 0],
    [cl * co, cl * so, sl],
  ];
}

export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export function sum(...terms: readonly (readonly [number, Vector])[]): Vector {
  const out: Vector = [0, 0, 0];
  for (const [factor, vector] of terms) for (let i = 0; i < 3; i++) out[i] += factor * vector[i];
  return out;
}

/** Gravity with the centrifugal part, as a vector. */
export type GravityField = (place: Geodetic, position: Vector) => Vector;

const normalField: GravityField = (place) => {
  const [north, , up] = axesAt(place.latitudeRad, place.longitudeRad);
  const gravity = normalGravity(place.latitudeRad, place.heightM);
  return sum([gravity.north, north], [-gravity.down, up]);
};

/** Gravitation of the Earth's mass and oblateness only, WGS-84, and the centrifugal part. */
export const oblateField: GravityField = (_place, position) => {
  const [x, y, z] = position;
  const mu = 3.986004418e14;
  const j2 = 1.08262982131e-3;
  const r = Math.hypot(x, y, z);
  const k = 1.5 * j2 * (equatorialRadius / r) ** 2;
  const level = (-mu / r ** 3) * (1 + k * (1 - (5 * z * z) / (r * r)));
  const axial = (-mu / r ** 3) * (1 + k * (3 - (5 * z * z) / (r * r)));
  const spin = earthRate * earthRate;
  return [x * (level + spin), y * (level + spin), z * axial];
};

/** Sets the controls of `forces` (power or thrust, angle or lift), and says the bank. */
export type Controls = (forces: Forces, t: number) => number;

/** Position (3), velocity over the rotating Earth (3) and mass. */
export class CartesianMotion implements System {
  readonly size = 7;
  readonly forces: Forces;
  private readonly day: Day;
  private readonly air: Air = newAir();
  private readonly controls: Controls;
  private readonly field: GravityField;

  constructor(setup: FlightSetup, controls: Controls, field: GravityField = normalField) {
    this.forces = new Forces(setup, {
      dragFactor: 1,
      fuelFlowFactor: 1,
      thrustFactor: 1,
      headwindMS: 0,
      leakKgS: 0,
      dragIncrement: 0,
      runningEngines: setup.aircraft.propulsion.engines.length,
    });
    this.day = setup.day;
    this.controls = controls;
    this.field = field;
  }

  derivative(t: number, y: Float64Array, rates: Float64Array): void {
    const { forces, air } = this;
    const position: Vector = [y[0], y[1], y[2]];
    const velocity: Vector = [y[3], y[4], y[5]];
    const mass = y[6];
    const place = toGeodetic(position);
    const pressureAltitude = this.sampleAt(place, t);
    const [north, east, up] = axesAt(place.latitudeRad, place.longitudeRad);
    const through = sum([1, velocity], [-air.windNorthMS, north], [-air.windEastMS, east]);
    const speed = Math.sqrt(dot(through, through));
    forces.atSpeed(speed, mass, air, pressureAltitude);
    const bank = this.controls(forces, t);
    const along: Vector = speed > 0 ? sum([1 / speed, through]) : up;
    const upward = sum([1, up], [-dot(up, along), along]);
    const length = Math.sqrt(dot(upward, upward));
    const normal: Vector = length > 0 ? sum([1 / length, upward]) : north;
    const right: Vector = [
      along[1] * normal[2] - along[2] * normal[1],
      along[2] * normal[0] - along[0] * normal[2],
      along[0] * normal[1] - along[1] * normal[0],
    ];
    const lift = (forces.liftN + forces.thrustN * Math.sin(forces.angleRad)) / mass;
    const coriolis: Vector = [2 * earthRate * velocity[1], -2 * earthRate * velocity[0], 0];
    const acceleration = sum(
      [forces.alongN / mass, along],
      [lift * Math.cos(bank), normal],
      [lift * Math.sin(bank), right],
      [1, this.field(place, position)],
      [1, coriolis],
    );
    for (let i = 0; i < 3; i++) {
      rates[i] = velocity[i];
      rates[3 + i] = acceleration[i];
    }
    rates[6] = -forces.fuelFlowKgS;
  }

  /** Samples the day at a height above the ellipsoid: Newton on its column. */
  private sampleAt(place: Geodetic, t: number): number {
    const { air, day } = this;
    let altitude = place.heightM;
    for (let round = 0; round < 30; round++) {
      day.sample(place.latitudeRad, place.longitudeRad, altitude, t, air);
      const step = (place.heightM - air.geometricHeightM) / air.upward[HEIGHT];
      altitude += step;
      if (Math.abs(step) < 1e-9) break;
    }
    day.sample(place.latitudeRad, place.longitudeRad, altitude, t, air);
    return altitude;
  }
}
