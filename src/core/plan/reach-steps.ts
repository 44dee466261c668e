/**
 * The parts of a flight after a failure, each in steps of the midpoint rule over the quantity that ends it: distance, height, speed
 * or heading. No step is tried twice and no end is looked for. The balance of forces is that of every other flight (`Flight`).
 *
 * Fuel comes out to about 0.1 % of what is burnt: the error goes with the square of a step, and air that changes within one is met
 * by even steps where long ones of higher order would catch it by chance.
 */
import { type Air, newAir } from '../air/day.ts';
import { newLinePoint } from '../earth/line.ts';
import type { Flight } from '../flight/flight.ts';
import type { SpeedLaw } from '../flight/speed-law.ts';
import type { FlightState } from '../flight/state.ts';
import { TRACK_MARGIN_M, type Track } from '../flight/track.ts';
import { Turning, type TurningWay } from '../flight/turning.ts';
import { unable } from '../phases/ends.ts';

/** Longest steps. */
const LEVEL_M = 50_000;
const HEIGHT_M = 400;
const SPEED_MS = 40;
const TURN_RAD = Math.PI / 12;
/** A turn is over when so little is missing; the line to the goal begins where it ends. */
const TOWARDS_RAD = 0.01;
const FULL_CIRCLE_RAD = 2 * Math.PI;
/** A climb or descent counts as none below 300 ft/min (cruise ceiling of MIL-STD-3013, from memory), a change of speed below this. */
const LEAST_RATE_MS = 1.524;
const LEAST_ACCELERATION_MS2 = 1e-3;
/** The edge of the data, and where a flow jumps by more than this part of it, are found to this. */
const EDGE_M = 2000;
const JUMP = 0.05;

export class Steps {
  readonly flight: Flight;
  track!: Track;
  /** Of the level flight last balanced. */
  kgPerM = 0;
  secondsPerM = 0;
  private readonly air: Air = newAir();
  private readonly point = newLinePoint();
  private readonly speed = { trueAirspeedMS: 0.5, perLogPressure: 0.5, perLogTemperature: 0.5 };
  private readonly y = new Float64Array(6);
  private readonly middle = new Float64Array(6);
  private readonly rates = new Float64Array(6);

  constructor(flight: Flight) {
    this.flight = flight;
  }

  /** Level on a law here: whether that can be kept, and what it burns; null or what is missing. */
  balance(state: Readonly<FlightState>, law: SpeedLaw): string | null {
    return this.levelAt(state, law, 0);
  }

  /**
   * Level on a law to a distance along the track, after `balance` of it; null, 'fuel' where the mass is down to `leastKg` before, or
   * what is missing: the state then is at the edge of it.
   */
  level(state: FlightState, law: SpeedLaw, toM: number, leastKg = this.emptyKg): string | null {
    let steps = Math.ceil((toM - state.distanceM) / LEVEL_M);
    let stepM = (toM - state.distanceM) / Math.max(steps, 1);
    let balancedM = state.distanceM;
    let why: string | null = null;
    while (steps > 0 && why === null) {
      const { kgPerM, secondsPerM } = this;
      const stopped = this.levelAt(state, law, 0.5 * stepM);
      if (stopped !== null) {
        this.kgPerM = kgPerM;
        this.secondsPerM = secondsPerM;
        if (stepM < EDGE_M) why = stopped;
        stepM *= 0.5;
        steps *= 2;
        continue;
      }
      if (Math.abs(this.kgPerM / kgPerM - 1) > JUMP)
        this.findJump(state, law, kgPerM, balancedM, 0.5 * stepM);
      balancedM = state.distanceM + 0.5 * stepM;
      const movedM = Math.min(stepM, (state.massKg - leastKg) / this.kgPerM);
      if (movedM < stepM) why = 'fuel';
      state.distanceM += movedM;
      state.massKg -= movedM * this.kgPerM;
      state.timeS += movedM * this.secondsPerM;
      steps--;
    }
    return this.settled(state, law) ?? why;
  }

  /**
   * Where between two balances the flow jumps, as it does when an afterburner is lit or put out: the step before went on with its
   * flow to the state, the next begins there with its own, and the mass is set right for what lies between.
   */
  private findJump(
    state: FlightState,
    law: SpeedLaw,
    beforeKgPerM: number,
    balancedM: number,
    aheadM: number,
  ): void {
    const { kgPerM, secondsPerM } = this;
    let [low, high] = [balancedM - state.distanceM, aheadM];
    while (high - low > EDGE_M) {
      const middle = 0.5 * (low + high);
      this.levelAt(state, law, middle);
      if (Math.abs(this.kgPerM - beforeKgPerM) < Math.abs(this.kgPerM - kgPerM)) low = middle;
      else high = middle;
    }
    this.kgPerM = kgPerM;
    this.secondsPerM = secondsPerM;
    state.massKg += 0.5 * (low + high) * (kgPerM - beforeKgPerM);
  }

  /** Level at a power to a true airspeed, or to a distance along the track; null, or what is missing. */
  change(state: FlightState, power: number, speedMS: number, farM: number): string | null {
    const { flight } = this;
    const changeMS = speedMS - state.trueAirspeedMS;
    const steps = Math.ceil(Math.abs(changeMS) / SPEED_MS);
    const stepMS = changeMS / steps;
    let [metreS, kgS, secondsS] = [0, 0, 0];
    for (let i = 0; i < steps; i++) {
      const half = 0.5 * secondsS;
      flight.placeOnTrack(
        this.track,
        state.distanceM + half * metreS,
        state.pressureAltitudeM,
        state.timeS + half,
      );
      flight.levelAtPower(state.trueAirspeedMS + 0.5 * stepMS, state.massKg - half * kgS, power);
      const { accelerationMS2 } = flight;
      const why = this.missing(accelerationMS2 * Math.sign(stepMS) < LEAST_ACCELERATION_MS2);
      if (why !== null) return why;
      [metreS, kgS, secondsS] = [
        flight.frame.distanceRate,
        flight.forces.fuelFlowKgS,
        stepMS / accelerationMS2,
      ];
      const part = this.move(state, secondsS, farM);
      state.trueAirspeedMS += part * stepMS;
      if (part < 1) break;
    }
    return this.settled(state, null);
  }

  /** Up or down on a law at a power to a height, or to a distance along the track; null, or what is missing. */
  climb(state: FlightState, law: SpeedLaw, power: number, toM: number, farM: number): string | null {
    const { flight } = this;
    const changeM = toM - state.pressureAltitudeM;
    const steps = Math.ceil(Math.abs(changeM) / HEIGHT_M);
    const stepM = changeM / steps;
    let [metreS, kgS, secondsS] = [0, 0, 0];
    for (let i = 0; i < steps; i++) {
      const half = 0.5 * secondsS;
      flight.placeOnTrack(
        this.track,
        state.distanceM + half * metreS,
        state.pressureAltitudeM + 0.5 * stepM,
        state.timeS + half,
      );
      flight.climbInBalance(law, state.massKg - half * kgS, power);
      const { altitudeRate, distanceRate } = flight.frame;
      const why = this.missing(altitudeRate * Math.sign(stepM) < LEAST_RATE_MS);
      if (why !== null) return why;
      [metreS, kgS, secondsS] = [distanceRate, flight.forces.fuelFlowKgS, stepM / altitudeRate];
      const part = this.move(state, secondsS, farM);
      state.pressureAltitudeM += part * stepM;
      if (part < 1) break;
    }
    return this.settled(state, law);
  }

  /**
   * A turn until nothing is missing to the course of `leftRad`, a full circle, or a height; 'towards', 'circle' or 'altitude', or
   * what is missing to fly it.
   */
  turn(
    state: FlightState,
    way: TurningWay,
    leftRad: (at: Readonly<FlightState>) => number,
    floorM: number,
  ): string {
    const { y, middle, rates } = this;
    const motion = new Turning(this.flight, way, state);
    const side = Math.sign(way.bankRad);
    motion.load(state, y);
    motion.derivative(0, y, rates);
    let timeS = 0;
    let end = this.missing(false);
    for (let turnedRad = 0; end === null; ) {
      const left = leftRad(state);
      const least = FULL_CIRCLE_RAD - turnedRad;
      if (left < TOWARDS_RAD) end = 'towards';
      else if (least < TOWARDS_RAD) end = 'circle';
      if (end !== null) break;
      const stepRad = Math.min(left, least, TURN_RAD, (HEIGHT_M * side * rates[4]) / Math.abs(rates[5]));
      const half = (0.5 * stepRad) / (side * rates[4]);
      for (let i = 0; i < y.length; i++) middle[i] = y[i] + half * rates[i];
      motion.derivative(timeS + half, middle, rates);
      end = this.missing(!(side * rates[4] > 0));
      if (end !== null) break;
      const seconds = stepRad / (side * rates[4]);
      const part = y[5] + seconds * rates[5] < floorM ? (floorM - y[5]) / (seconds * rates[5]) : 1;
      if (part < 1) end = 'altitude';
      for (let i = 0; i < y.length; i++) y[i] += part * seconds * rates[i];
      timeS += part * seconds;
      turnedRad += part * stepRad;
      motion.store(timeS, y, state);
    }
    this.hold(state, way.law);
    return end;
  }

  /** Where the tanks, or what they may owe, are down. */
  get emptyKg(): number {
    const { zeroFuelMassKg, aircraft } = this.flight.setup;
    return zeroFuelMassKg + aircraft.balance.unusableFuelKg;
  }

  /** Level on a law so far ahead of a state, at the rates that were last balanced. */
  private levelAt(state: Readonly<FlightState>, law: SpeedLaw, aheadM: number): string | null {
    const { flight } = this;
    const { distanceM, pressureAltitudeM, timeS, massKg } = state;
    flight.placeOnTrack(this.track, distanceM + aheadM, pressureAltitudeM, timeS + aheadM * this.secondsPerM);
    flight.levelOnLaw(law, massKg - aheadM * this.kgPerM);
    this.secondsPerM = 1 / flight.frame.distanceRate;
    this.kgPerM = flight.forces.fuelFlowKgS * this.secondsPerM;
    return this.missing(false);
  }

  /** Moves on at the rates of the flight for a time, or to a distance; which part of it. */
  private move(state: FlightState, seconds: number, farM: number): number {
    const { frame, forces } = this.flight;
    const metres = seconds * frame.distanceRate;
    const part = state.distanceM + metres > farM ? Math.max(0, (farM - state.distanceM) / metres) : 1;
    state.distanceM += part * metres;
    state.massKg -= part * seconds * forces.fuelFlowKgS;
    state.timeS += part * seconds;
    return part;
  }

  private missing(hopeless: boolean): string | null {
    const { flight } = this;
    if (!flight.short && flight.frame.outside === 0 && flight.forces.outside === 0)
      return hopeless ? 'thrust' : null;
    return unable(flight).reason;
  }

  /** Takes up the place on the track, and the speed of the law there; null, or what is gone. */
  private settled(state: FlightState, law: SpeedLaw | null): string | null {
    if (state.massKg <= this.emptyKg) return 'fuel';
    if (state.distanceM > this.track.lengthM + TRACK_MARGIN_M) return 'outside:track';
    this.track.at(state.distanceM, this.point);
    state.latitudeRad = this.point.latitudeRad;
    state.longitudeRad = this.point.longitudeRad;
    if (law !== null) this.hold(state, law);
    return null;
  }

  /** The speed of a law where a state is. */
  private hold(state: FlightState, law: SpeedLaw): void {
    const { air, speed } = this;
    const { latitudeRad, longitudeRad, pressureAltitudeM, timeS } = state;
    this.flight.setup.day.sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air);
    law.at(air, speed, state.massKg);
    state.trueAirspeedMS = speed.trueAirspeedMS;
  }
}
