import type { System } from '../numerics/stepper.ts';
import type { Flight } from './flight.ts';
import type { FlightState } from './state.ts';
import type { Track } from './track.ts';

/** What the stepper can integrate and a phase can read a state from. Time is counted from the start of the phase. */
export interface Motion extends System {
  /** Absolute tolerance of each component. */
  readonly absolute: Float64Array;
  readonly firstStepS: number;
  /** The track that distance runs along; null off any. */
  readonly track: Track | null;
  /** Angle of attack changes within seconds, so that the lead of a stall warning counts. */
  readonly quick: boolean;
  /** Rate at which the bank is built up or taken off. */
  readonly rollRadPerS: number;
  /** Time for which the flight holds the balance; NaN for none. */
  balancedAt: number;
  load(state: Readonly<FlightState>, y: Float64Array): void;
  /** Writes time, distance, altitude and mass, and what else is integrated, into a state; looks nothing up. */
  store(t: number, y: Float64Array, state: FlightState): void;
  /** The rates of the instant that the flight holds. */
  readRates(rates: Float64Array): void;
}

/** Which quantities, beside distance and mass, are integrated; the others stay or follow from the way of flying. */
export interface Unknowns {
  readonly altitude?: boolean;
  readonly speed?: boolean;
  readonly path?: boolean;
  readonly angle?: boolean;
}

/** Sets the balance of `leg.flight` from the leg's present values. */
export type Way = (leg: Leg, t: number) => void;

/** Motion along a track: distance and mass always, then altitude, speed, path angle, angle of attack as asked for. */
export class Leg implements Motion {
  readonly flight: Flight;
  readonly size: number;
  readonly absolute: Float64Array;
  readonly firstStepS: number;
  balancedAt = Number.NaN;
  distanceM = 0.5;
  massKg = 0.5;
  pressureAltitudeM = 0.5;
  speedMS = 0.5;
  pathRad = 0.5;
  angleRad = 0.5;
  /** Set by the way of flying where angle of attack is integrated. */
  angleRateRadS = 0.5;
  /** Fuel taken on. */
  inflowKgS = 0;
  readonly track: Track;
  readonly quick: boolean;
  readonly rollRadPerS = 0;
  private readonly startS: number;
  private readonly way: Way;
  private readonly altitudeAt: number;
  private readonly speedAt: number;
  private readonly pathAt: number;
  private readonly angleAt: number;

  constructor(
    flight: Flight,
    track: Track,
    state: Readonly<FlightState>,
    unknowns: Unknowns,
    firstStepS: number,
    way: Way,
  ) {
    this.flight = flight;
    this.track = track;
    this.startS = state.timeS;
    this.pressureAltitudeM = state.pressureAltitudeM;
    this.speedMS = state.trueAirspeedMS;
    this.pathRad = state.pathAngleRad;
    this.firstStepS = firstStepS;
    this.way = way;
    const { tolerance } = flight.setup;
    const absolute = [tolerance.distanceM, tolerance.massKg];
    const next = (wanted: boolean | undefined, by: number) => (wanted ? absolute.push(by) - 1 : -1);
    this.altitudeAt = next(unknowns.altitude, tolerance.altitudeM);
    this.speedAt = next(unknowns.speed, tolerance.speedMS);
    this.pathAt = next(unknowns.path, tolerance.angleRad);
    this.angleAt = next(unknowns.angle, tolerance.angleRad);
    this.quick = unknowns.path === true || unknowns.angle === true;
    this.size = absolute.length;
    this.absolute = new Float64Array(absolute);
  }

  load(state: Readonly<FlightState>, y: Float64Array): void {
    y[0] = state.distanceM;
    y[1] = state.massKg;
    if (this.altitudeAt >= 0) y[this.altitudeAt] = state.pressureAltitudeM;
    if (this.speedAt >= 0) y[this.speedAt] = state.trueAirspeedMS;
    if (this.pathAt >= 0) y[this.pathAt] = state.pathAngleRad;
    if (this.angleAt >= 0) y[this.angleAt] = this.angleRad;
  }

  store(t: number, y: Float64Array, state: FlightState): void {
    state.timeS = this.startS + t;
    state.distanceM = y[0];
    state.massKg = y[1];
    state.pressureAltitudeM = this.altitudeAt >= 0 ? y[this.altitudeAt] : this.pressureAltitudeM;
    if (this.speedAt >= 0) state.trueAirspeedMS = y[this.speedAt];
    if (this.pathAt >= 0) state.pathAngleRad = y[this.pathAt];
  }

  derivative(t: number, y: Float64Array, rates: Float64Array): void {
    this.distanceM = y[0];
    this.massKg = y[1];
    if (this.altitudeAt >= 0) this.pressureAltitudeM = y[this.altitudeAt];
    if (this.speedAt >= 0) this.speedMS = y[this.speedAt];
    if (this.pathAt >= 0) this.pathRad = y[this.pathAt];
    if (this.angleAt >= 0) this.angleRad = y[this.angleAt];
    this.flight.placeOnTrack(this.track, this.distanceM, this.pressureAltitudeM, this.startS + t);
    this.way(this, t);
    this.balancedAt = t;
    this.readRates(rates);
  }

  readRates(rates: Float64Array): void {
    const { flight } = this;
    rates[0] = flight.frame.distanceRate;
    rates[1] = this.inflowKgS - flight.forces.fuelFlowKgS - flight.forces.leakKgS;
    if (this.altitudeAt >= 0) rates[this.altitudeAt] = flight.frame.altitudeRate;
    if (this.speedAt >= 0) rates[this.speedAt] = flight.accelerationMS2;
    if (this.pathAt >= 0) rates[this.pathAt] = flight.pathRateRadS;
    if (this.angleAt >= 0) rates[this.angleAt] = this.angleRateRadS;
  }
}
