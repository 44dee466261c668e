/**
 * Explicit Runge-Kutta steps of order 5 with an embedded order 4 for the error (Dormand and Prince 1980, J. Comput. Appl.
 * Math. 6, 19), continuous output of order 4, and events located on it. Coefficients, continuous output and step control
 * (proportional-integral) as in Hairer, Norsett, Wanner, Solving Ordinary Differential Equations I, 2nd ed., sections II.4 to
 * II.6 and code DOPRI5 (from memory; the order conditions are tested).
 *
 * All storage is made once, by the constructor: a step makes no garbage.
 */

/** y' = f(t, y); `rates` is to be filled. */
export interface System {
  readonly size: number;
  derivative(t: number, y: Float64Array, rates: Float64Array): void;
}

/** A function of time and state whose change of sign is looked for. */
export interface StepEvent {
  value(t: number, y: Float64Array): number;
  /** 1: upward only; -1: downward only; 0: both. */
  readonly direction: -1 | 0 | 1;
  readonly terminal: boolean;
}

export interface StepControl {
  readonly relative: number;
  /** One for each component. */
  readonly absolute: ArrayLike<number>;
  /** Longest step; default none. */
  readonly longest?: number;
  /** First step tried; default chosen from the derivative. */
  readonly first?: number;
  /** y' at the start, where it is known. */
  readonly rates?: Float64Array;
  /** How near the time of an event is found; default 1e-14 of the step. */
  readonly eventTime?: number | undefined;
}

export interface StepObserver {
  /** A step from `t0` to `t1` was accepted (cut short at `t1` by a terminal event); the stepper interpolates within it. */
  step?(t0: number, t1: number, stepper: Stepper): void;
  /** An event that does not end the run, in order of time. */
  event?(index: number, t: number, y: Float64Array): void;
}

/** Why a run could not go on; thrown by `Stepper.run`. */
export class StepFailure extends Error {
  readonly t: number;
  readonly step: number;
  readonly steps: number;
  constructor(what: string, t: number, step: number, steps: number) {
    super(`${what} at t = ${t}, step ${step}, after ${steps} steps`);
    this.name = 'StepFailure';
    this.t = t;
    this.step = step;
    this.steps = steps;
  }
}

const A21 = 1 / 5;
const A31 = 3 / 40;
const A32 = 9 / 40;
const A41 = 44 / 45;
const A42 = -56 / 15;
const A43 = 32 / 9;
const A51 = 19372 / 6561;
const A52 = -25360 / 2187;
const A53 = 64448 / 6561;
const A54 = -212 / 729;
const A61 = 9017 / 3168;
const A62 = -355 / 33;
const A63 = 46732 / 5247;
const A64 = 49 / 176;
const A65 = -5103 / 18656;
const A71 = 35 / 384;
const A73 = 500 / 1113;
const A74 = 125 / 192;
const A75 = -2187 / 6784;
const A76 = 11 / 84;
const C2 = 1 / 5;
const C3 = 3 / 10;
const C4 = 4 / 5;
const C5 = 8 / 9;
const E1 = 71 / 57600;
const E3 = -71 / 16695;
const E4 = 71 / 1920;
const E5 = -17253 / 339200;
const E6 = 22 / 525;
const E7 = -1 / 40;
const D1 = -12715105075 / 11282082432;
const D3 = 87487479700 / 32700410799;
const D4 = -10690763975 / 1880347072;
const D5 = 701980252875 / 199316789632;
const D6 = -1453857185 / 822651844;
const D7 = 69997945 / 29380423;

const SAFETY = 0.9;
/** The step shrinks at most to a fifth and grows at most tenfold. */
const SHRINK = 0.2;
const GROW = 10;
/** Weight of the error of the step before (HNW's beta). */
const BETA = 0.04;
const EXPONENT = 0.2 - 0.75 * BETA;
const MOST_STEPS = 1_000_000;
const MOST_EVENTS = 32;

export class Stepper {
  /** Evaluations of the derivative, accepted and rejected steps since construction. */
  evaluations = 0;
  accepted = 0;
  rejected = 0;
  /** Where the last run ended. */
  t = 0.5;
  /** Step that the control would take next; a good `first` for a run that goes on from here. */
  nextStep = 0.5;
  private readonly k1: Float64Array;
  private readonly k2: Float64Array;
  private readonly k3: Float64Array;
  private readonly k4: Float64Array;
  private readonly k5: Float64Array;
  private readonly k6: Float64Array;
  private readonly k7: Float64Array;
  private readonly trial: Float64Array;
  private readonly r1: Float64Array;
  private readonly r2: Float64Array;
  private readonly r3: Float64Array;
  private readonly r4: Float64Array;
  private readonly r5: Float64Array;
  private readonly probe: Float64Array;
  private readonly before = new Float64Array(MOST_EVENTS);
  private readonly foundTimes = new Float64Array(MOST_EVENTS);
  private readonly foundEvents = new Int32Array(MOST_EVENTS);
  private found = 0;
  private size = 0;
  private from = 0.5;
  private length = 0.5;
  private denseReady = false;

  constructor(mostComponents: number) {
    const vector = () => new Float64Array(mostComponents);
    this.k1 = vector();
    this.k2 = vector();
    this.k3 = vector();
    this.k4 = vector();
    this.k5 = vector();
    this.k6 = vector();
    this.k7 = vector();
    this.trial = vector();
    this.r1 = vector();
    this.r2 = vector();
    this.r3 = vector();
    this.r4 = vector();
    this.r5 = vector();
    this.probe = vector();
  }

  /**
   * Integrates from `t0` to `t1` (greater), `y` in place, or to the first terminal event.
   *
   * @returns the index of the terminal event, or -1 at `t1`; the time reached is `this.t`. An event whose value is 0 at
   * the start is looked for only after it has left 0. At most 32 events, which may each change sign once in a step.
   * @throws StepFailure where the step vanishes or a million steps do not suffice.
   */
  run(
    system: System,
    t0: number,
    y: Float64Array,
    t1: number,
    control: StepControl,
    events: readonly StepEvent[] = [],
    observer: StepObserver | null = null,
  ): number {
    this.size = system.size;
    const longest = control.longest ?? Number.POSITIVE_INFINITY;
    let t = t0;
    const known = control.rates;
    if (known === undefined) this.evaluate(system, t, y, this.k1);
    else for (let i = 0; i < this.size; i++) this.k1[i] = known[i];
    for (let e = 0; e < events.length; e++) this.before[e] = events[e].value(t, y);
    let step = Math.min(control.first ?? this.firstStep(system, t, y, t1 - t0, control), longest, t1 - t0);
    let lastError = 1e-4;
    let justRejected = false;
    const start = this.accepted + this.rejected;
    while (t < t1) {
      if (t + 1.0001 * step >= t1) step = t1 - t;
      if (!(step > 1e-14 * Math.abs(t)) && step < t1 - t) {
        throw new StepFailure('the step has vanished', t, step, this.accepted + this.rejected - start);
      }
      if (this.accepted + this.rejected - start > MOST_STEPS) {
        throw new StepFailure('too many steps', t, step, MOST_STEPS);
      }
      const error = this.tryStep(system, t, y, step, control);
      if (!(error <= 1)) {
        this.rejected++;
        justRejected = true;
        step *= Number.isFinite(error) ? Math.max(SHRINK, SAFETY * error ** -EXPONENT) : SHRINK;
        continue;
      }
      this.accepted++;
      const growth = SAFETY * Math.max(error, 1e-10) ** -EXPONENT * lastError ** BETA;
      let next = step * Math.min(justRejected ? 1 : GROW, Math.max(SHRINK, growth));
      next = Math.min(next, longest);
      lastError = Math.max(error, 1e-4);
      justRejected = false;
      this.nextStep = next;
      const end = t + step === t || t1 - t === step ? t1 : t + step;
      const terminal = this.finishStep(t, y, step, end, events, observer, control.eventTime ?? 0);
      t = this.t;
      if (terminal >= 0) return terminal;
      step = next;
    }
    this.t = t;
    return -1;
  }

  /** State at a time within the step last accepted (order 4). Valid until the next step. */
  interpolate(t: number, out: Float64Array): void {
    if (!this.denseReady) this.prepareDense();
    const s = (t - this.from) / this.length;
    const s1 = 1 - s;
    for (let i = 0; i < this.size; i++) {
      const inner = this.r4[i] + s1 * this.r5[i];
      out[i] = this.r1[i] + s * (this.r2[i] + s1 * (this.r3[i] + s * inner));
    }
  }

  private evaluate(system: System, t: number, y: Float64Array, rates: Float64Array): void {
    this.evaluations++;
    system.derivative(t, y, rates);
  }

  /** Stages of one step into k2..k7 and `trial`; the norm of the error in units of the tolerance. */
  private tryStep(system: System, t: number, y: Float64Array, h: number, control: StepControl): number {
    const n = this.size;
    const { k1, k2, k3, k4, k5, k6, k7, trial: w } = this;
    for (let i = 0; i < n; i++) w[i] = y[i] + h * A21 * k1[i];
    this.evaluate(system, t + C2 * h, w, k2);
    for (let i = 0; i < n; i++) w[i] = y[i] + h * (A31 * k1[i] + A32 * k2[i]);
    this.evaluate(system, t + C3 * h, w, k3);
    for (let i = 0; i < n; i++) w[i] = y[i] + h * (A41 * k1[i] + A42 * k2[i] + A43 * k3[i]);
    this.evaluate(system, t + C4 * h, w, k4);
    for (let i = 0; i < n; i++) w[i] = y[i] + h * (A51 * k1[i] + A52 * k2[i] + A53 * k3[i] + A54 * k4[i]);
    this.evaluate(system, t + C5 * h, w, k5);
    for (let i = 0; i < n; i++) {
      w[i] = y[i] + h * (A61 * k1[i] + A62 * k2[i] + A63 * k3[i] + A64 * k4[i] + A65 * k5[i]);
    }
    this.evaluate(system, t + h, w, k6);
    for (let i = 0; i < n; i++) {
      w[i] = y[i] + h * (A71 * k1[i] + A73 * k3[i] + A74 * k4[i] + A75 * k5[i] + A76 * k6[i]);
    }
    this.evaluate(system, t + h, w, k7);
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const error = E1 * k1[i] + E3 * k3[i] + E4 * k4[i] + E5 * k5[i] + E6 * k6[i] + E7 * k7[i];
      const scale = control.absolute[i] + control.relative * Math.max(Math.abs(y[i]), Math.abs(w[i]));
      const part = (h * error) / scale;
      sum += part * part;
    }
    return Math.sqrt(sum / n);
  }

  /** Looks for events in the accepted step, tells the observer, and moves `y` to its end or to the terminal event. */
  private finishStep(
    t: number,
    y: Float64Array,
    h: number,
    end: number,
    events: readonly StepEvent[],
    observer: StepObserver | null,
    eventTime: number,
  ): number {
    const n = this.size;
    this.from = t;
    this.length = h;
    this.denseReady = false;
    for (let i = 0; i < n; i++) this.r1[i] = y[i];
    this.collectEvents(t, end, events, eventTime);
    let terminal = -1;
    let stop = end;
    for (let f = 0; f < this.found; f++) {
      const index = this.foundEvents[f];
      const time = this.foundTimes[f];
      if (events[index].terminal) {
        terminal = index;
        stop = time;
        this.found = f;
        break;
      }
    }
    if (terminal >= 0) {
      this.interpolate(stop, y);
    } else {
      for (let i = 0; i < n; i++) y[i] = this.trial[i];
    }
    this.t = stop;
    if (observer !== null) {
      for (let f = 0; f < this.found; f++) {
        const time = this.foundTimes[f];
        this.interpolate(time, this.probe);
        observer.event?.(this.foundEvents[f], time, this.probe);
      }
      observer.step?.(t, stop, this);
    }
    if (terminal < 0) {
      for (let i = 0; i < n; i++) this.k1[i] = this.k7[i];
    }
    return terminal;
  }

  /**
   * Fills `foundTimes` and `foundEvents`, in order of time, with the events of the step; of one time the first event comes
   * first. What comes after a terminal event is not looked for.
   */
  private collectEvents(t: number, end: number, events: readonly StepEvent[], eventTime: number): void {
    this.found = 0;
    let last = end;
    for (let e = events.length - 1; e >= 0; e--) {
      const event = events[e];
      const before = this.before[e];
      const after = event.value(end, this.trial);
      this.before[e] = after;
      if (before === 0 || before * after > 0) continue;
      if (event.direction !== 0 && (after - before) * event.direction <= 0) continue;
      if (last < end) {
        this.interpolate(last, this.probe);
        if (before * event.value(last, this.probe) > 0) continue;
      }
      // Between the same ends for all, so that two events of the same value come at the same time, to the last bit.
      const time = after === 0 ? end : this.locate(event, t, before, end, after, eventTime);
      if (event.terminal && time < last) last = time;
      let slot = this.found++;
      while (slot > 0 && (this.foundTimes[slot - 1] as number) >= time) {
        this.foundTimes[slot] = this.foundTimes[slot - 1];
        this.foundEvents[slot] = this.foundEvents[slot - 1];
        slot--;
      }
      this.foundTimes[slot] = time;
      this.foundEvents[slot] = e;
    }
  }

  /**
   * Root of an event on the continuous output, to 1e-14 of the step or to `near`: false position with the far end's value halved
   * (the Illinois rule), and a bisection at every fourth iteration against functions that defeat it, such as a step. The
   * time returned is that end of the last bracket which lies after the change of sign.
   */
  private locate(event: StepEvent, t0: number, f0: number, t1: number, f1: number, near: number): number {
    const tolerance = Math.max(near, 1e-14 * this.length + 2.3e-16 * Math.abs(t1));
    let a = t0;
    let fa = f0;
    let b = t1;
    let fb = f1;
    for (let count = 1; Math.abs(b - a) > 2 * tolerance && count < 120; count++) {
      const secant = (fa * b - fb * a) / (fa - fb);
      const inward = b + Math.sign(a - b) * tolerance;
      let c = count % 4 === 0 || !Number.isFinite(secant) ? 0.5 * (a + b) : secant;
      if (Math.abs(c - b) < tolerance) c = inward;
      this.interpolate(c, this.probe);
      const fc = event.value(c, this.probe);
      if (fc === 0) return c;
      if (fc * fb < 0) {
        a = b;
        fa = fb;
      } else {
        fa *= 0.5;
      }
      b = c;
      fb = fc;
    }
    return fb * f1 > 0 ? b : a;
  }

  private prepareDense(): void {
    const h = this.length;
    const { k1, k3, k4, k5, k6, k7, r1, r2, r3, r4, r5, trial } = this;
    for (let i = 0; i < this.size; i++) {
      const difference = trial[i] - r1[i];
      const bend = h * k1[i] - difference;
      r2[i] = difference;
      r3[i] = bend;
      r4[i] = difference - h * k7[i] - bend;
      r5[i] = h * (D1 * k1[i] + D3 * k3[i] + D4 * k4[i] + D5 * k5[i] + D6 * k6[i] + D7 * k7[i]);
    }
    this.denseReady = true;
  }

  /** Starting step of HNW section II.4: from the size of the solution, its slope and the change of the slope. */
  private firstStep(system: System, t: number, y: Float64Array, span: number, control: StepControl): number {
    const n = this.size;
    let size = 0;
    let slope = 0;
    for (let i = 0; i < n; i++) {
      const scale = control.absolute[i] + control.relative * Math.abs(y[i]);
      size += (y[i] / scale) ** 2;
      slope += (this.k1[i] / scale) ** 2;
    }
    let h = size <= 1e-10 || slope <= 1e-10 ? 1e-6 : 0.01 * Math.sqrt(size / slope);
    h = Math.min(h, span, control.longest ?? span);
    for (let i = 0; i < n; i++) this.trial[i] = y[i] + h * this.k1[i];
    this.evaluate(system, t + h, this.trial, this.k2);
    let change = 0;
    for (let i = 0; i < n; i++) {
      const scale = control.absolute[i] + control.relative * Math.abs(y[i]);
      change += ((this.k2[i] - this.k1[i]) / scale) ** 2;
    }
    const greatest = Math.max(Math.sqrt(change / n) / h, Math.sqrt(slope / n));
    const second = greatest <= 1e-15 ? Math.max(1e-6, h * 1e-3) : (0.01 / greatest) ** 0.2;
    return Math.min(100 * h, second, span);
  }
}
