import type { Flight } from './flight.ts';
import { freeTolerance, loadFree, readFree, storeFree } from './free.ts';
import type { Motion } from './leg.ts';
import type { SpeedLaw } from './speed-law.ts';
import type { FlightState } from './state.ts';

/** Bank as a function of time: `startRad`, changing at a rate. */
export interface BankLaw {
  readonly startRad: number;
  readonly rateRadS: number;
}

/** Level motion with the wings banked, free of any track: distance over the ground, mass, latitude, longitude, heading. */
export class Arc implements Motion {
  readonly size = 5;
  readonly absolute: Float64Array;
  readonly firstStepS: number;
  readonly track = null;
  readonly quick: boolean;
  readonly rollRadPerS: number;
  balancedAt = Number.NaN;
  private readonly flight: Flight;
  private readonly law: SpeedLaw;
  private readonly bank: BankLaw;
  private readonly startS: number;
  private readonly pressureAltitudeM: number;

  constructor(flight: Flight, law: SpeedLaw, state: Readonly<FlightState>, bank: BankLaw) {
    this.flight = flight;
    this.law = law;
    this.bank = bank;
    this.quick = bank.rateRadS !== 0;
    this.rollRadPerS = bank.rateRadS;
    this.startS = state.timeS;
    this.pressureAltitudeM = state.pressureAltitudeM;
    this.firstStepS = bank.rateRadS === 0 ? 60 : 10;
    this.absolute = Float64Array.from(freeTolerance(flight.setup.tolerance));
  }

  load(state: Readonly<FlightState>, y: Float64Array): void {
    loadFree(state, y);
  }

  store(t: number, y: Float64Array, state: FlightState): void {
    state.timeS = this.startS + t;
    storeFree(y, state);
    state.pressureAltitudeM = this.pressureAltitudeM;
  }

  derivative(t: number, y: Float64Array, rates: Float64Array): void {
    const { flight, bank } = this;
    flight.placeAt(y[2], y[3], this.pressureAltitudeM, this.startS + t);
    flight.turnOnLaw(this.law, y[1], y[4], bank.startRad + bank.rateRadS * t);
    this.balancedAt = t;
    this.readRates(rates);
  }

  readRates(rates: Float64Array): void {
    readFree(this.flight, rates);
  }
}
