import type { Flight } from '../flight/flight.ts';
import { fillLimitInputs } from '../flight/flight.ts';
import type { Motion } from '../flight/leg.ts';
import type { Moment } from '../flight/moment.ts';
import type { FlightState } from '../flight/state.ts';
import type { StepEvent, StepObserver, Stepper } from '../numerics/stepper.ts';
import { isMet, limitEnd, margin, nameOf, outOfFuel, unable } from './ends.ts';
import type { PhaseEnd, PhaseOptions, Stop, WatchedLimit } from './phase.ts';

/** No phase of flight lasts longer. */
const LONGEST_S = 86_400;
/** A level is left behind when the altitude is this far beyond it. */
const INTO_LAYER_M = 1e-3;
const BEHIND_M = 1;
/** A step may leave the layer by this part of the way through it; a step of this length is always allowed. */
const BEYOND_LAYER = 1.25;
const LEAST_LONGEST_S = 2;
/** Time over which the change of angle of attack is taken. */
const RATE_S = 0.01;

/** Event numbers: what makes flying on impossible comes first, then a level of the day, the stops, the limits, the gates. */
const ABLE = 0;
const FUEL = 1;
const LEVEL = 2;
const FIRST_STOP = 3;

/** Flies a motion from a state until a stop, a limit, or what it needs is gone; the state is left at the end. */
export function fly(flight: Flight, motion: Motion, state: FlightState, options: PhaseOptions): PhaseEnd {
  return new Run(flight, motion, options).fly(state);
}

/** One of the events of a run, by its number. */
class RunEvent implements StepEvent {
  readonly direction: -1 | 0;
  readonly terminal: boolean;
  private readonly run: Run;
  private readonly index: number;

  constructor(run: Run, index: number, direction: -1 | 0, terminal: boolean) {
    this.run = run;
    this.index = index;
    this.direction = direction;
    this.terminal = terminal;
  }

  value(t: number, y: Float64Array): number {
    return this.run.eventValue(this.index, t, y);
  }
}

class Run implements StepObserver {
  private readonly flight: Flight;
  private readonly motion: Motion;
  private readonly options: PhaseOptions;
  private readonly limits: readonly WatchedLimit[];
  private readonly y: Float64Array;
  private readonly rates: Float64Array;
  private readonly ahead: Float64Array;
  private readonly dense: Float64Array;
  private readonly state: FlightState;
  private readonly moment: Moment;
  private describedAt = Number.NaN;
  private readonly leadS: number;
  private readonly unusableKg: number;
  /** Between these the layer of the day is kept. */
  private bottomM = Number.NEGATIVE_INFINITY;
  private topM = Number.POSITIVE_INFINITY;

  constructor(flight: Flight, motion: Motion, options: PhaseOptions) {
    this.flight = flight;
    this.motion = motion;
    this.options = options;
    this.limits = options.limits ?? [];
    const { room } = flight;
    this.y = room.y;
    this.rates = room.rates;
    this.ahead = room.ahead;
    this.dense = room.dense;
    this.state = room.state;
    this.moment = flight.moment;
    this.leadS = flight.setup.aircraft.rates.warningLeadS;
    this.unusableKg = flight.setup.aircraft.balance.unusableFuelKg;
  }

  fly(state: FlightState): PhaseEnd {
    const { motion, flight, y } = this;
    motion.load(state, y);
    motion.balancedAt = Number.NaN;
    const { recorder } = this.options;
    recorder?.moment?.(this.momentAt(0, y));
    const met = this.metAlready();
    if (met !== null) return this.finish(0, state, met);
    const events = this.events();
    const { tolerance } = flight.setup;
    const lastS = this.lastTime(state.timeS);
    const observer = recorder !== undefined || this.options.gates !== undefined ? this : null;
    const { stepper } = flight;
    const { absolute } = motion;
    const longest = this.enterLayer(0, y, Math.sign(flight.frame.altitudeRate));
    const control = {
      relative: tolerance.relative,
      absolute,
      rates: this.rates,
      longest,
      first: motion.firstStepS,
      eventTime: tolerance.eventTimeS,
    };
    let event = stepper.run(motion, 0, y, lastS, control, events, observer);
    while (event === LEVEL) {
      const { t } = stepper;
      motion.store(t, y, this.state);
      const { pressureAltitudeM } = this.state;
      const way = this.topM - pressureAltitudeM < pressureAltitudeM - this.bottomM ? 1 : -1;
      control.longest = this.enterLayer(t, y, way);
      control.first = stepper.nextStep;
      event = stepper.run(motion, t, y, lastS, control, events, observer);
    }
    return this.finish(stepper.t, state, this.endOf(event, stepper.t, state.timeS));
  }

  /**
   * Keeps the steps to the layer of the day that the motion is in or, at a level, goes into: `way` is 1 upward, -1 downward.
   * Leaves the rates there, and returns the longest step that does not leave the layer by much.
   */
  private enterLayer(t: number, y: Float64Array, way: number): number {
    const { flight, motion, state } = this;
    const { frame } = flight;
    const air = motion.track === null ? null : frame.airAlong(motion.track);
    let room = Number.POSITIVE_INFINITY;
    if (air !== null) {
      motion.store(t, y, state);
      const altitude = state.pressureAltitudeM;
      const layer = air.layerOf(altitude + way * INTO_LAYER_M);
      if (layer !== (frame.layer >= 0 ? frame.layer : air.layerOf(altitude))) this.forget();
      frame.layer = layer;
      room = this.keepTo(air.levelsM, layer, altitude, way);
    }
    this.balance(t, y);
    motion.readRates(this.rates);
    return Math.max(LEAST_LONGEST_S, (BEYOND_LAYER * room) / Math.abs(frame.altitudeRate));
  }

  /** Sets the levels at which a layer ends (-1: that below or above all levels); the way to the one ahead. */
  private keepTo(levelsM: readonly number[], layer: number, altitudeM: number, way: number): number {
    const above = altitudeM >= levelsM[levelsM.length - 1] - INTO_LAYER_M;
    this.bottomM = levelsM[layer >= 0 ? layer : above ? levelsM.length - 1 : -1] ?? Number.NEGATIVE_INFINITY;
    this.topM = levelsM[layer >= 0 ? layer + 1 : above ? levelsM.length : 0] ?? Number.POSITIVE_INFINITY;
    if (way === 0) return Number.POSITIVE_INFINITY;
    const room = way > 0 ? this.topM - altitudeM : altitudeM - this.bottomM;
    // The level just left is not met again by a rounding error.
    if (way > 0) this.bottomM -= BEHIND_M;
    else this.topM += BEHIND_M;
    return room;
  }

  private forget(): void {
    this.motion.balancedAt = Number.NaN;
    this.describedAt = Number.NaN;
  }

  /** Makes the flight hold the balance of a time and state. */
  private balance(t: number, y: Float64Array): void {
    if (this.motion.balancedAt !== t) this.motion.derivative(t, y, this.rates);
  }

  private isWatched(): boolean {
    return this.limits.length > 0 || this.options.recorder?.moment !== undefined;
  }

  private momentAt(t: number, y: Float64Array): Moment {
    const { moment, motion, flight } = this;
    if (this.describedAt === t) return moment;
    const before = flight.evaluations;
    this.balance(t, y);
    flight.describe(moment);
    motion.store(t, y, moment);
    if (this.leadS > 0 && motion.quick && this.isWatched()) {
      motion.readRates(this.rates);
      for (let i = 0; i < motion.size; i++) this.ahead[i] = y[i] + RATE_S * this.rates[i];
      motion.derivative(t + RATE_S, this.ahead, this.rates);
      const rate = (flight.forces.angleRad - moment.angleOfAttackRad) / RATE_S;
      moment.ledAngleOfAttackRad = moment.angleOfAttackRad + this.leadS * rate;
    }
    flight.descriptions += flight.evaluations - before;
    fillLimitInputs(moment);
    moment.limitInputs.rollRateRadS = Math.abs(motion.rollRadPerS);
    this.describedAt = t;
    return moment;
  }

  step(t0: number, t1: number, stepper: Stepper): void {
    const { recorder } = this.options;
    if (recorder?.moment === undefined) return;
    const parts = Math.max(1, Math.ceil((t1 - t0) / recorder.everyS));
    for (let part = 1; part <= parts; part++) {
      const t = part === parts ? t1 : t0 + (part * (t1 - t0)) / parts;
      stepper.interpolate(t, this.dense);
      recorder.moment(this.momentAt(t, this.dense));
    }
  }

  event(index: number, t: number, y: Float64Array): void {
    const gate = index - FIRST_STOP - this.options.stops.length - this.limits.length;
    this.options.recorder?.gate?.(gate, this.momentAt(t, y));
  }

  private events(): StepEvent[] {
    const { stops, gates } = this.options;
    const events: StepEvent[] = [];
    const add = (direction: -1 | 0, terminal: boolean) =>
      events.push(new RunEvent(this, events.length, direction, terminal));
    for (let i = 0; i < FIRST_STOP; i++) add(-1, true);
    for (let i = 0; i < stops.length; i++) add(0, true);
    for (let i = 0; i < this.limits.length; i++) add(-1, true);
    for (let i = 0; i < (gates?.length ?? 0); i++) add(0, false);
    return events;
  }

  /** What changes its sign at an event. */
  eventValue(index: number, t: number, y: Float64Array): number {
    const { motion, state, flight, limits } = this;
    if (index === ABLE) {
      this.balance(t, y);
      return this.isAble() ? 1 : -1;
    }
    if (index < FIRST_STOP) {
      motion.store(t, y, state);
      if (index === FUEL) return state.massKg - flight.setup.zeroFuelMassKg - this.unusableKg;
      return Math.min(state.pressureAltitudeM - this.bottomM, this.topM - state.pressureAltitudeM);
    }
    const { stops, gates } = this.options;
    const stop = index - FIRST_STOP;
    if (stop < stops.length) return this.stopValue(stops[stop], t, y);
    const limit = stop - stops.length;
    if (limit < limits.length) return margin(limits[limit], this.momentAt(t, y));
    return this.stopValue((gates as readonly Stop[])[limit - limits.length], t, y);
  }

  private stopValue(stop: Stop, t: number, y: Float64Array): number {
    const { state, flight } = this;
    switch (stop.at) {
      case 'time':
        // Reached by the end of the run itself.
        return 1;
      case 'custom':
        return stop.value(this.momentAt(t, y));
      case 'state':
        if (stop.balanced) this.balance(t, y);
        this.motion.store(t, y, state);
        return stop.value(state);
      case 'mach':
        this.balance(t, y);
        return flight.forces.mach - stop.mach;
      case 'trueAirspeed':
        this.balance(t, y);
        return flight.speedMS - stop.speedMS;
      case 'equivalentAirspeed':
        this.balance(t, y);
        return flight.equivalentAirspeedMS - stop.speedMS;
      case 'calibratedAirspeed':
        this.balance(t, y);
        return flight.calibratedAirspeedMS - stop.speedMS;
      default:
        this.motion.store(t, y, state);
        if (stop.at === 'altitude') return state.pressureAltitudeM - stop.pressureAltitudeM;
        if (stop.at === 'distance') return state.distanceM - stop.distanceM;
        return state.massKg - flight.setup.zeroFuelMassKg - stop.fuelKg;
    }
  }

  private isAble(): boolean {
    const { flight } = this;
    return !flight.short && flight.frame.outside === 0 && flight.forces.outside === 0;
  }

  /** What ends the phase before it begins; null for nothing. */
  private metAlready(): PhaseEnd | null {
    const { y, options, flight } = this;
    this.balance(0, y);
    if (!this.isAble()) return unable(flight);
    this.motion.store(0, y, this.state);
    for (let i = 0; i < options.stops.length; i++) {
      const stop = options.stops[i];
      const value = stop.at === 'time' ? this.state.timeS - stop.timeS : this.stopValue(stop, 0, y);
      if (isMet(stop, value))
        return { reason: nameOf(stop), stop: i, text: `${nameOf(stop)} was met already` };
    }
    const fuel = this.state.massKg - flight.setup.zeroFuelMassKg;
    if (fuel <= this.unusableKg) return { reason: 'fuel', stop: -1, text: outOfFuel(this.unusableKg) };
    for (const watched of this.limits) {
      const moment = this.momentAt(0, y);
      if (margin(watched, moment) < 0) return limitEnd(watched, moment, 'was passed already');
    }
    return null;
  }

  private lastTime(startS: number): number {
    let last = LONGEST_S;
    for (const stop of this.options.stops) if (stop.at === 'time') last = Math.min(last, stop.timeS - startS);
    return last;
  }

  private endOf(event: number, t: number, startS: number): PhaseEnd {
    const { stops } = this.options;
    if (event === ABLE) {
      this.motion.balancedAt = Number.NaN;
      this.balance(t, this.y);
      return unable(this.flight);
    }
    if (event === FUEL) {
      return { reason: 'fuel', stop: -1, text: outOfFuel(this.unusableKg) };
    }
    if (event < 0) {
      const stop = stops.findIndex((s) => s.at === 'time' && s.timeS - startS <= t);
      if (stop >= 0) return { reason: 'time', stop, text: 'time reached' };
      return { reason: 'endless', stop: -1, text: `no stop was met within ${LONGEST_S} s` };
    }
    const stop = event - FIRST_STOP;
    if (stop < stops.length)
      return { reason: nameOf(stops[stop]), stop, text: `${nameOf(stops[stop])} reached` };
    return limitEnd(this.limits[stop - stops.length], this.momentAt(t, this.y), 'was met');
  }

  /** Leaves the state at the end of the phase. */
  private finish(t: number, state: FlightState, end: PhaseEnd): PhaseEnd {
    const { flight, motion, y } = this;
    if (motion.balancedAt !== t) motion.derivative(t, y, this.rates);
    const { frame } = flight;
    frame.layer = -1;
    state.trueAirspeedMS = flight.speedMS;
    state.pathAngleRad = Math.asin(frame.sinPath);
    state.latitudeRad = frame.point.latitudeRad;
    state.longitudeRad = frame.point.longitudeRad;
    state.headingRad = Math.atan2(frame.sinHeading, frame.cosHeading);
    state.bankRad = flight.bankRad;
    motion.store(t, y, state);
    return end;
  }
}
