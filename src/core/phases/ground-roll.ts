/**
 * The run along a runway: acceleration with all engines or fewer, the time until the crew acts, and braking to a stop.
 *
 *     m dv/dt = T - D - mu (m g cos(slope) - L) - m g sin(slope)
 *
 * Conventions: SI; speeds are along the ground, the airspeed is greater by the headwind; slope is positive uphill. Mass is held
 * at that of brake release and angle of attack at that of the deck until lift-off, and ground effect is left out: each makes
 * the run a little longer. Distances between two speeds are integrals over speed, ds = v dv / a, by Gauss's rule of three
 * points on pieces of at most 5 m/s, right to 1e-4 across the corners of the tables. A speed that is never reached is
 * infinitely far.
 */
import type { AeroPoint, Aircraft, EnginePoint, Ground } from '../aircraft/aircraft.ts';

/** What the run is made on: held from brake release to lift-off. */
export interface RunwayConditions {
  readonly massKg: number;
  readonly cgFraction: number;
  readonly gravityMS2: number;
  readonly pressureAltitudeM: number;
  readonly geometricHeightM: number;
  readonly temperatureOffsetK: number;
  readonly densityKgM3: number;
  readonly speedOfSoundMS: number;
  /** Negative is a tailwind. */
  readonly headwindMS: number;
  /** Rise over run. */
  readonly slopeFraction: number;
  readonly condition: 'dry' | 'wet';
}

/** A part of the run between two speeds. */
export interface RunPart {
  readonly distanceM: number;
  readonly timeS: number;
}

export interface Stop extends RunPart {
  /** Work of the wheel brakes. */
  readonly brakeEnergyJ: number;
}

const longestPiece = 5;
/** Gauss's rule of three points on -1 to 1. */
const points = [-Math.sqrt(0.6), 0, Math.sqrt(0.6)];
const weights = [5 / 9, 8 / 9, 5 / 9];
/** Steps of the classical Runge-Kutta method over the reaction time. */
const reactionSteps = 4;
const idle = 0;

export class GroundRoll {
  readonly engines: number;
  /** Not 0 where a table of lift, drag or thrust was left on the way. */
  outside = 0;
  private readonly aircraft: Aircraft;
  private readonly ground: Ground;
  private readonly on: RunwayConditions;
  private readonly weightN: number;
  private readonly downhillN: number;
  private readonly aero: AeroPoint = {
    liftSlope: 0.5,
    zeroLiftAngleRad: 0.5,
    zeroLiftDrag: 0.5,
    inducedFactor: 0.5,
    outside: 0,
  };
  private readonly engine: EnginePoint = { thrustN: 0.5, fuelFlowKgS: 0.5, power: 0.5, outside: 0 };

  constructor(aircraft: Aircraft, ground: Ground, on: RunwayConditions) {
    this.aircraft = aircraft;
    this.ground = ground;
    this.on = on;
    this.engines = aircraft.propulsion.engines.length;
    const slopeRad = Math.atan(on.slopeFraction);
    this.weightN = on.massKg * on.gravityMS2 * Math.cos(slopeRad);
    this.downhillN = -on.massKg * on.gravityMS2 * Math.sin(slopeRad);
  }

  /** From a speed [m/s] to a higher one with so many engines at take-off power. */
  accelerate(fromMS: number, toMS: number, engines: number): RunPart {
    const part = { distanceM: 0, timeS: 0 };
    between(fromMS, toMS, (speedMS, dv) => {
      const acceleration = this.acceleration(speedMS, engines);
      const dt = acceleration > 0 ? dv / acceleration : Number.POSITIVE_INFINITY;
      part.timeS += dt;
      part.distanceM += speedMS * dt;
    });
    return part;
  }

  /** What passes until the crew brakes, with so many engines at take-off power, and the speed then; never below rest. */
  react(fromMS: number, engines: number): { readonly distanceM: number; readonly speedMS: number } {
    const dt = this.ground.reactionS / reactionSteps;
    const at = (speedMS: number): number => this.acceleration(Math.max(speedMS, 0), engines);
    let distanceM = 0;
    let speedMS = fromMS;
    for (let step = 0; step < reactionSteps; step++) {
      const k1 = at(speedMS);
      const k2 = at(speedMS + 0.5 * dt * k1);
      const k3 = at(speedMS + 0.5 * dt * k2);
      const k4 = at(speedMS + dt * k3);
      distanceM += Math.max(0, dt * (speedMS + (dt * (k1 + k2 + k3)) / 6));
      speedMS = Math.max(0, speedMS + (dt * (k1 + 2 * k2 + 2 * k3 + k4)) / 6);
    }
    return { distanceM, speedMS };
  }

  /** Braking from a speed [m/s] to rest with so many engines at idle. */
  stop(fromMS: number, engines: number): Stop {
    const { brakingDrag, brakingFriction } = this.ground;
    const friction = brakingFriction[this.on.condition];
    const part = { distanceM: 0, timeS: 0, brakeEnergyJ: 0 };
    between(0, fromMS, (speedMS, dv) => {
      const thrust = this.thrust(idle, speedMS, engines);
      const drag = this.drag(speedMS, brakingDrag);
      const brakesN = friction * this.wheelLoad(speedMS);
      const slowing = (drag + brakesN - thrust - this.downhillN) / this.on.massKg;
      const dt = slowing > 0 ? dv / slowing : Number.POSITIVE_INFINITY;
      part.timeS += dt;
      part.distanceM += speedMS * dt;
      if (brakesN > 0) part.brakeEnergyJ += brakesN * speedMS * dt;
    });
    return part;
  }

  private acceleration(speedMS: number, engines: number): number {
    const thrust = this.thrust(this.aircraft.propulsion.maximum, speedMS, engines);
    const drag = this.drag(speedMS, engines < this.engines ? this.ground.engineOutDrag : 0);
    const friction = this.ground.rollingFriction * this.wheelLoad(speedMS);
    return (thrust - drag - friction + this.downhillN) / this.on.massKg;
  }

  private thrust(power: number, speedMS: number, engines: number): number {
    const { pressureAltitudeM, geometricHeightM, temperatureOffsetK } = this.on;
    const { engine } = this;
    this.aircraft.propulsion.at(
      power,
      this.mach(speedMS),
      pressureAltitudeM,
      geometricHeightM,
      temperatureOffsetK,
      engine,
    );
    this.outside |= engine.outside;
    return engines * engine.thrustN;
  }

  /** Drag on the wheels [N]; a tailwind that is faster than the aircraft pushes it. */
  private drag(speedMS: number, increment: number): number {
    const lift = this.liftCoefficient(speedMS);
    const { aero } = this;
    const coefficient =
      aero.zeroLiftDrag + this.ground.gearDrag + increment + aero.inducedFactor * lift * lift;
    return Math.sign(speedMS + this.on.headwindMS) * this.pressureArea(speedMS) * coefficient;
  }

  private wheelLoad(speedMS: number): number {
    return Math.max(0, this.weightN - this.pressureArea(speedMS) * this.liftCoefficient(speedMS));
  }

  private liftCoefficient(speedMS: number): number {
    const { pressureAltitudeM, geometricHeightM, cgFraction } = this.on;
    const { aero } = this;
    this.aircraft.aerodynamics.at(this.mach(speedMS), pressureAltitudeM, geometricHeightM, cgFraction, aero);
    this.outside |= aero.outside;
    return aero.liftSlope * (this.ground.angleOfAttackRad - aero.zeroLiftAngleRad);
  }

  private mach(speedMS: number): number {
    return Math.abs(speedMS + this.on.headwindMS) / this.on.speedOfSoundMS;
  }

  /** Dynamic pressure times wing area [N]. */
  private pressureArea(speedMS: number): number {
    const airspeed = speedMS + this.on.headwindMS;
    return 0.5 * this.on.densityKgM3 * airspeed * airspeed * this.aircraft.aerodynamics.wingAreaM2;
  }
}

/** Gives the points of Gauss's rule between two speeds, each with the part of dv that it stands for. */
function between(fromMS: number, toMS: number, take: (speedMS: number, dv: number) => void): void {
  const pieces = Math.ceil((toMS - fromMS) / longestPiece);
  const half = (toMS - fromMS) / pieces / 2;
  for (let i = 0; i < pieces; i++) {
    const middle = fromMS + (2 * i + 1) * half;
    for (let k = 0; k < points.length; k++) take(middle + half * points[k], half * weights[k]);
  }
}
