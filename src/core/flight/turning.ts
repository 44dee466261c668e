/** A turn that goes down, or up, at a power: wings banked, free of any track, the path angle in balance at each instant. */
import { HEIGHT, TEMPERATURE } from '../air/day.ts';
import type { Flight } from './flight.ts';
import { freeTolerance, loadFree, readFree, storeFree } from './free.ts';
import type { Motion } from './leg.ts';
import type { LawSpeed, SpeedLaw } from './speed-law.ts';
import type { FlightState } from './state.ts';

const MOST_ROUNDS = 12;

/** How a turn is flown: with a power the height follows; without one it is level and the thrust follows. */
export interface TurningWay {
  readonly law: SpeedLaw;
  /** Positive to the right. Rolling in and out takes no time. */
  readonly bankRad: number;
  readonly power: number | null;
}

/** Distance over the ground, mass, latitude, longitude, heading, altitude. */
export class Turning implements Motion {
  readonly size = 6;
  readonly absolute: Float64Array;
  readonly firstStepS = 20;
  readonly track = null;
  readonly quick = false;
  readonly rollRadPerS = 0;
  balancedAt = Number.NaN;
  private readonly flight: Flight;
  private readonly way: TurningWay;
  private readonly startS: number;
  private readonly speed: LawSpeed = { trueAirspeedMS: 0.5, perLogPressure: 0.5, perLogTemperature: 0.5 };
  private sinPath = 0.5;

  constructor(flight: Flight, way: TurningWay, state: Readonly<FlightState>) {
    this.flight = flight;
    this.way = way;
    this.startS = state.timeS;
    this.sinPath = 0;
    const { tolerance } = flight.setup;
    this.absolute = Float64Array.of(...freeTolerance(tolerance), tolerance.altitudeM);
  }

  load(state: Readonly<FlightState>, y: Float64Array): void {
    loadFree(state, y);
    y[5] = state.pressureAltitudeM;
  }

  store(t: number, y: Float64Array, state: FlightState): void {
    state.timeS = this.startS + t;
    storeFree(y, state);
    state.pressureAltitudeM = y[5];
  }

  derivative(t: number, y: Float64Array, rates: Float64Array): void {
    const { flight, way } = this;
    flight.placeAt(y[2], y[3], y[5], this.startS + t);
    if (way.power === null) flight.turnOnLaw(way.law, y[1], y[4], way.bankRad);
    else this.balance(y[1], y[4], way.power);
    this.balancedAt = t;
    this.readRates(rates);
  }

  readRates(rates: Float64Array): void {
    readFree(this.flight, rates);
    rates[5] = this.way.power === null ? 0 : this.flight.frame.altitudeRate;
  }

  /** The sine of path angle at which the forces along the path change the speed as the law asks: by the rule of Newton. */
  private balance(massKg: number, headingRad: number, power: number): void {
    const { flight, way, speed } = this;
    const { frame, forces } = flight;
    const { air } = frame;
    way.law.at(air, speed, massKg);
    const { trueAirspeedMS } = speed;
    forces.atSpeed(trueAirspeedMS, massKg, air, frame.pressureAltitudeM);
    forces.usePower(power);
    const perHeight =
      speed.perLogPressure * frame.logPressureUp +
      (speed.perLogTemperature * air.upward[TEMPERATURE]) / air.temperatureK;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      frame.moveOnHeading(trueAirspeedMS, this.sinPath, headingRad);
      forces.useNormalForce((-massKg * frame.normalPull) / Math.cos(way.bankRad));
      flight.accelerationMS2 = forces.alongN / massKg + frame.alongPull;
      const byPressure = speed.perLogPressure * frame.logPressureUp * frame.altitudeRate;
      const byTemperature = (speed.perLogTemperature * frame.temperatureRate) / air.temperatureK;
      const lacking = flight.accelerationMS2 - trueAirspeedMS * (byPressure + byTemperature);
      const climb = trueAirspeedMS / air.upward[HEIGHT];
      const slope = -gravity(frame.normalPull, frame.cosPath) - climb * trueAirspeedMS * perHeight;
      const change = -lacking / slope;
      this.sinPath = Math.min(0.9, Math.max(-0.9, this.sinPath + change));
      if (Math.abs(change) < 1e-7) break;
    }
    flight.speedMS = trueAirspeedMS;
    flight.bankRad = way.bankRad;
    const side = forces.liftN + forces.thrustN * Math.sin(forces.angleRad);
    flight.headingRateRadS =
      ((side * Math.sin(way.bankRad)) / massKg + frame.sidePull) / (trueAirspeedMS * frame.cosPath);
  }
}

function gravity(normalPull: number, cosPath: number): number {
  return -normalPull / cosPath;
}
