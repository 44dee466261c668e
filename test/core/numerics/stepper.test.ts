import { describe, expect, it } from 'vitest';
import {
  type StepControl,
  type StepEvent,
  StepFailure,
  Stepper,
  type System,
} from '../../../src/core/numerics/stepper.ts';

const tight: StepControl = { relative: 1e-11, absolute: new Float64Array(8).fill(1e-12) };
const fixed = (h: number): StepControl => ({
  relative: 1e9,
  absolute: new Float64Array(8).fill(1e9),
  first: h,
  longest: h,
});

/** y'' = -y: cos and -sin. */
const oscillator: System = {
  size: 2,
  derivative(_t, y, rates) {
    rates[0] = y[1];
    rates[1] = -y[0];
  },
};

/** y' = 1. */
const still: System = {
  size: 1,
  derivative(_t, _y, rates) {
    rates[0] = 1;
  },
};

/** Linear, with time in it: y' = y cos t, y = exp(sin t). */
const swell: System = {
  size: 1,
  derivative(t, y, rates) {
    rates[0] = y[0] * Math.cos(t);
  },
};

function end(system: System, start: number[], t0: number, t1: number, control: StepControl): Float64Array {
  const y = Float64Array.from(start);
  new Stepper(start.length).run(system, t0, y, t1, control);
  return y;
}

describe('order', () => {
  it('[NUM-10] halving the step divides the error by 32', () => {
    const error = (h: number) => Math.abs(end(swell, [1], 0, 4, fixed(h))[0] - Math.exp(Math.sin(4)));
    for (const h of [0.1, 0.05]) {
      const order = Math.log2(error(h) / error(h / 2));
      expect(order).toBeGreaterThan(4.7);
      expect(order).toBeLessThan(5.6);
    }
  });

  it('[NUM-10] the continuous output is of order 4 everywhere in the step', () => {
    const worst = (h: number): number => {
      const y = Float64Array.of(1);
      const out = new Float64Array(1);
      let error = 0;
      new Stepper(1).run(swell, 0, y, 2, fixed(h), [], {
        step(t0, t1, stepper) {
          for (let s = 0.1; s < 1; s += 0.1) {
            const t = t0 + s * (t1 - t0);
            stepper.interpolate(t, out);
            error = Math.max(error, Math.abs(out[0] - Math.exp(Math.sin(t))));
          }
        },
      });
      return error;
    };
    expect(Math.log2(worst(0.1) / worst(0.05))).toBeGreaterThan(3.8);
  });

  it('[NUM-10] the continuous output meets both ends of the step, with their slopes', () => {
    const y = Float64Array.of(1);
    const [a, b] = [new Float64Array(1), new Float64Array(1)];
    new Stepper(1).run(swell, 0, y, 0.3, fixed(0.3), [], {
      step(t0, t1, stepper) {
        stepper.interpolate(t0, a);
        stepper.interpolate(t0 + 1e-7, b);
        expect(a[0]).toBe(1);
        expect((b[0] - a[0]) / 1e-7).toBeCloseTo(1, 5);
        stepper.interpolate(t1, a);
        expect(a[0]).toBeCloseTo(y[0], 15);
      },
    });
  });
});

describe('problems of Hairer, Norsett and Wanner', () => {
  it('[NUM-11] the Arenstorf orbit closes (section II.0, equation 0.1, period 17.065216560157965588917206249)', () => {
    const mu = 0.012277471;
    const mu1 = 1 - mu;
    const orbit: System = {
      size: 4,
      derivative(_t, [x, y, vx, vy], rates) {
        const d1 = ((x + mu) ** 2 + y * y) ** 1.5;
        const d2 = ((x - mu1) ** 2 + y * y) ** 1.5;
        rates[0] = vx;
        rates[1] = vy;
        rates[2] = x + 2 * vy - (mu1 * (x + mu)) / d1 - (mu * (x - mu1)) / d2;
        rates[3] = y - 2 * vx - (mu1 * y) / d1 - (mu * y) / d2;
      },
    };
    const start = [0.994, 0, 0, -2.0015851063790824];
    const y = end(orbit, start, 0, 17.06521656015796, { ...tight, relative: 1e-12 });
    // The orbit magnifies an error of a step by about 1e5: this is what a tolerance of 1e-12 leaves.
    expect(Math.abs(y[0] - 0.994)).toBeLessThan(1e-5);
    expect(Math.abs(y[1])).toBeLessThan(1e-4);
  });

  it('[NUM-11] a rigid body without torque keeps its energy and its momentum (section II.10, Euler equations)', () => {
    const [i1, i2, i3] = [0.5, 2, 3];
    const body: System = {
      size: 3,
      derivative(_t, [a, b, c], rates) {
        rates[0] = ((i2 - i3) / i1) * b * c;
        rates[1] = ((i3 - i1) / i2) * c * a;
        rates[2] = ((i1 - i2) / i3) * a * b;
      },
    };
    const energy = ([a, b, c]: number[]) => i1 * a * a + i2 * b * b + i3 * c * c;
    const start = [1, 0, 0.9];
    const y = end(body, start, 0, 20, tight);
    expect(energy(Array.from(y))).toBeCloseTo(energy(start), 8);
    const momentum = (v: number[]) => (i1 * v[0]) ** 2 + (i2 * v[1]) ** 2 + (i3 * v[2]) ** 2;
    expect(momentum(Array.from(y))).toBeCloseTo(momentum(start), 8);
  });

  it('[NUM-12] the error follows the tolerance', () => {
    const error = (tolerance: number) => {
      const control = { relative: tolerance, absolute: [tolerance, tolerance] };
      return Math.abs(end(oscillator, [1, 0], 0, 20, control)[0] - Math.cos(20));
    };
    expect(error(1e-6)).toBeLessThan(1e-4);
    expect(error(1e-9)).toBeLessThan(1e-7);
    expect(error(1e-9)).toBeLessThan(error(1e-6) / 100);
  });
});

describe('events', () => {
  const cosine = (direction: -1 | 0 | 1, terminal: boolean): StepEvent => ({
    direction,
    terminal,
    value: (_t, y) => y[0],
  });

  it('[NUM-13] a terminal event ends the run at its time, with the state of that time', () => {
    const stepper = new Stepper(2);
    const y = Float64Array.of(1, 0);
    const event = stepper.run(oscillator, 0, y, 100, tight, [cosine(0, true)]);
    expect(event).toBe(0);
    expect(stepper.t).toBeCloseTo(Math.PI / 2, 9);
    expect(Math.abs(y[0])).toBeLessThan(1e-13);
    expect(y[1]).toBeCloseTo(-1, 9);
  });

  it('[NUM-13] direction chooses among the crossings', () => {
    const stepper = new Stepper(2);
    const y = Float64Array.of(1, 0);
    stepper.run(oscillator, 0, y, 100, tight, [cosine(1, true)]);
    expect(stepper.t).toBeCloseTo(1.5 * Math.PI, 9);
  });

  it('[NUM-14] several events within one step come in order of time', () => {
    const seen: [number, number][] = [];
    const at = (time: number): StepEvent => ({ direction: 0, terminal: false, value: (t) => t - time });
    const times = [0.7, 0.2, 0.9, 0.5];
    new Stepper(1).run(still, 0, Float64Array.of(0), 1, fixed(1), times.map(at), {
      event: (index, t, y) => {
        seen.push([index, t]);
        expect(y[0]).toBeCloseTo(t, 12);
      },
    });
    expect(seen.map(([index]) => index)).toEqual([1, 3, 0, 2]);
    for (const [index, t] of seen) expect(t).toBeCloseTo(times[index], 12);
  });

  it('[NUM-14] what lies behind a terminal event in the same step is not told', () => {
    const seen: number[] = [];
    const at = (time: number, terminal: boolean): StepEvent => ({
      direction: 0,
      terminal,
      value: (t) => t - time,
    });
    const stepper = new Stepper(1);
    const events = [at(0.8, false), at(0.5, true), at(0.3, false)];
    expect(
      stepper.run(still, 0, Float64Array.of(0), 1, fixed(1), events, { event: (index) => seen.push(index) }),
    ).toBe(1);
    expect(seen).toEqual([2]);
  });

  it('[NUM-14] of several terminal events the first in time ends the run, whichever order they are given in', () => {
    const at = (time: number): StepEvent => ({ direction: 0, terminal: true, value: (t) => t - time });
    for (const times of [
      [0.8, 0.4, 0.6],
      [0.4, 0.6, 0.8],
      [0.8, 0.6, 0.4],
    ]) {
      const stepper = new Stepper(1);
      const event = stepper.run(still, 0, Float64Array.of(0), 1, fixed(1), times.map(at));
      expect(times[event]).toBe(0.4);
      expect(stepper.t).toBeCloseTo(0.4, 12);
    }
  });

  it('[NUM-14] events found roughly are found to what was asked for, with fewer looks', () => {
    const looks = (eventTime?: number): number => {
      let count = 0;
      const quarter: StepEvent = {
        direction: 0,
        terminal: true,
        value: (_t, y) => {
          count++;
          return y[0];
        },
      };
      const stepper = new Stepper(2);
      stepper.run(oscillator, 0, Float64Array.of(1, 0), 100, { ...tight, eventTime }, [quarter]);
      expect(Math.abs(stepper.t - Math.PI / 2)).toBeLessThan(eventTime === undefined ? 1e-9 : 2 * eventTime);
      return count;
    };
    expect(looks(1e-3)).toBeLessThan(looks());
  });

  it('[NUM-15] an event that is zero at the start waits for its next crossing', () => {
    const stepper = new Stepper(2);
    const y = Float64Array.of(0, 1);
    stepper.run(oscillator, 0, y, 100, tight, [cosine(0, true)]);
    expect(stepper.t).toBeCloseTo(Math.PI, 9);
  });

  it('[NUM-15] a function that jumps is located too', () => {
    const jump: StepEvent = { direction: 0, terminal: true, value: (t) => (t < 0.123456789 ? -1 : 1) };
    const stepper = new Stepper(1);
    stepper.run(swell, 0, Float64Array.of(1), 1, fixed(1), [jump]);
    expect(stepper.t).toBeCloseTo(0.123456789, 12);
  });
});

describe('the run', () => {
  it('[NUM-16] ends exactly at its end and counts its evaluations', () => {
    const stepper = new Stepper(1);
    let calls = 0;
    const counted: System = {
      size: 1,
      derivative(t, y, rates) {
        calls++;
        swell.derivative(t, y, rates);
      },
    };
    expect(stepper.run(counted, 0, Float64Array.of(1), 3.3, tight)).toBe(-1);
    expect(stepper.t).toBe(3.3);
    expect(stepper.evaluations).toBe(calls);
    expect(calls).toBe(2 + 6 * (stepper.accepted + stepper.rejected));
  });

  it('[NUM-17] says where the step vanished', () => {
    const burst: System = {
      size: 1,
      derivative(_t, y, rates) {
        rates[0] = y[0] * y[0];
      },
    };
    let failure: unknown;
    try {
      new Stepper(1).run(burst, 0, Float64Array.of(1), 2, tight);
    } catch (error) {
      failure = error;
    }
    expect(failure).toBeInstanceOf(StepFailure);
    expect((failure as StepFailure).t).toBeCloseTo(1, 6);
    expect((failure as StepFailure).message).toMatch(/^the step has vanished at t = /);
  });
});
