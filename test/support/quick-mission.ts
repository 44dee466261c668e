/**
 * A sortie leg by energy alone, independent of the project's flight: quasi-steady, small angles, flat Earth, no wind. Good to
 * about 2 % of fuel; it asks whether a deck meets its requirements, not how it is best flown.
 */
import { pressureAltitudeOf, standardPressure, standardTemperature } from '../../src/core/air/standard.ts';
import type { AeroPoint, Aircraft, EnginePoint } from '../../src/core/aircraft/aircraft.ts';

export const foot = 0.3048;
export const mile = 1852;
const g = 9.80665;

/** Pressure altitude [m] at which an equivalent airspeed in knots is a Mach number. */
export function altitudeOfEquivalent(mach: number, knots: number): number {
  const ratio = ((knots * mile) / 3600 / (mach * 340.294)) ** 2;
  return pressureAltitudeOf(101325 * ratio);
}

export class QuickMission {
  massKg: number;
  distanceM = 0;
  timeS = 0;
  readonly aircraft: Aircraft;
  private readonly aero: AeroPoint = {
    liftSlope: 0,
    zeroLiftAngleRad: 0,
    zeroLiftDrag: 0,
    inducedFactor: 0,
    outside: 0,
  };
  private readonly engine: EnginePoint = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };

  constructor(aircraft: Aircraft, fuelKg: number) {
    this.aircraft = aircraft;
    this.massKg = aircraft.balance.emptyMassKg + fuelKg;
  }

  get fuelKg(): number {
    return this.massKg - this.aircraft.balance.emptyMassKg;
  }

  speed(mach: number, altitudeM: number): number {
    return mach * Math.sqrt(1.4 * 287.05287 * standardTemperature(altitudeM));
  }

  /** Drag [N] with lift equal to weight, and the lift coefficient and angle of attack that go with it. */
  level(mach: number, altitudeM: number, wash = 0): { dragN: number; lift: number; angleRad: number } {
    const force = 0.7 * standardPressure(altitudeM) * mach * mach * this.aircraft.aerodynamics.wingAreaM2;
    const cg = this.aircraft.balance.cgFraction(this.fuelKg);
    this.aircraft.aerodynamics.at(mach, altitudeM, altitudeM, cg, this.aero);
    if (this.aero.outside !== 0) throw new Error(`Mach ${mach} at ${altitudeM} m is outside the deck`);
    const lift = (this.massKg * g) / force;
    return {
      dragN: force * (this.aero.zeroLiftDrag + wash + this.aero.inducedFactor * lift * lift),
      lift,
      angleRad: this.aero.zeroLiftAngleRad + lift / this.aero.liftSlope,
    };
  }

  /** Thrust [N] and fuel flow [kg/s] of all engines at one power. */
  power(power: number, mach: number, altitudeM: number): { thrustN: number; flowKgS: number } {
    const count = this.aircraft.propulsion.engines.length;
    this.aircraft.propulsion.at(power, mach, altitudeM, altitudeM, 0, this.engine);
    if (this.engine.outside !== 0) throw new Error(`Mach ${mach} at ${altitudeM} m is outside the deck`);
    return { thrustN: count * this.engine.thrustN, flowKgS: count * this.engine.fuelFlowKgS };
  }

  /** (thrust - drag)/weight in level flight. */
  excess(power: number, mach: number, altitudeM: number): number {
    const { dragN } = this.level(mach, altitudeM);
    return (this.power(power, mach, altitudeM).thrustN - dragN) / (this.massKg * g);
  }

  /** Flies a path given as Mach and altitude against a parameter from 0 to 1; returns the fuel burnt. */
  fly(power: number, path: (part: number) => readonly [mach: number, altitudeM: number]): number {
    const before = this.massKg;
    const steps = 200;
    const energy = ([mach, altitude]: readonly [number, number]): number =>
      altitude + this.speed(mach, altitude) ** 2 / (2 * g);
    for (let i = 0; i < steps; i++) {
      const [mach, altitude] = path((i + 0.5) / steps);
      const rise = energy(path((i + 1) / steps)) - energy(path(i / steps));
      const speed = this.speed(mach, altitude);
      const time = rise / (this.excess(power, mach, altitude) * speed);
      if (!(time >= 0)) throw new Error(`the path cannot be flown at Mach ${mach} and ${altitude} m`);
      this.massKg -= this.power(power, mach, altitude).flowKgS * time;
      this.distanceM += speed * time;
      this.timeS += time;
    }
    return before - this.massKg;
  }

  /** Metres flown on a kilogram in level flight at the least equal power; 0 where the engines cannot, or not below a power. */
  specificRange(mach: number, altitudeM: number, greatestPower = Number.POSITIVE_INFINITY): number {
    const count = this.aircraft.propulsion.engines.length;
    const { dragN } = this.level(mach, altitudeM);
    this.aircraft.propulsion.powerFor(dragN / count, mach, altitudeM, altitudeM, 0, this.engine);
    if (!(this.engine.power <= greatestPower)) return 0;
    return this.speed(mach, altitudeM) / (count * this.engine.fuelFlowKgS);
  }

  /** Cruises a distance at the best altitude of a range, sought anew every 10 miles; returns the altitudes flown. */
  cruise(mach: number, distanceM: number, fromM: number, toM: number): { first: number; last: number } {
    let first = 0;
    let last = 0;
    for (let flown = 0; flown < distanceM; flown += 10 * mile) {
      let best = 0;
      for (let altitude = fromM; altitude <= toM; altitude += 500 * foot) {
        const range = this.specificRange(mach, altitude);
        if (range > best) {
          best = range;
          last = altitude;
        }
      }
      if (best === 0) throw new Error(`no cruise at Mach ${mach}`);
      if (flown === 0) first = last;
      this.massKg -= (10 * mile) / best;
      this.distanceM += 10 * mile;
    }
    return { first, last };
  }
}

/** A straight line from one Mach and altitude to another. */
export function straight(
  from: readonly [number, number],
  to: readonly [number, number],
): (part: number) => readonly [number, number] {
  return (part) => [from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])];
}

/** Along a constant equivalent airspeed in knots from one Mach to another. */
export function alongEquivalent(
  knots: number,
  fromMach: number,
  toMach: number,
): (part: number) => readonly [number, number] {
  return (part) => {
    const mach = fromMach + part * (toMach - fromMach);
    return [mach, altitudeOfEquivalent(mach, knots)];
  };
}
