/** What the hot loops leave on the heap. It depends on what else the engine has compiled, so that this file has a process of its own. */
import { expect, it } from 'vitest';
import { Line } from '../../src/core/earth/line.ts';
import { ROTATING_EARTH } from '../../src/core/flight/earth-model.ts';
import { Leg } from '../../src/core/flight/leg.ts';
import { constantEquivalentAirspeed } from '../../src/core/flight/speed-law.ts';
import { type StepEvent, Stepper, type System } from '../../src/core/numerics/stepper.ts';
import { benchmarkAircraft, exactFlight, stateAt } from '../support/benchmark.ts';
import { bytesPerRound } from '../support/garbage.ts';

it('[NUM-18] a step makes no object: what it leaves are numbers passed between functions', () => {
  const stepper = new Stepper(2);
  const oscillator: System = {
    size: 2,
    derivative(_t, y, rates) {
      rates[0] = y[1];
      rates[1] = -y[0];
    },
  };
  const fixed = {
    relative: 1e9,
    absolute: new Float64Array(8).fill(1e9),
    first: 0.1,
    longest: 0.1,
  };
  const y = Float64Array.of(1, 0);
  const events: StepEvent[] = [{ direction: 0, terminal: false, value: (_t, state) => state[0] }];
  const observer = { event: () => undefined };
  const bytes = bytesPerRound((count) => {
    y[0] = 1;
    y[1] = 0;
    stepper.run(oscillator, 0, y, 0.1 * count, fixed, events, observer);
  });
  // The engine boxes a number, 16 bytes, where it crosses a call that is not inlined.
  expect(bytes).toBeLessThan(100);
});

it('[FLY-4] a derivative makes no object: what it leaves are numbers passed between functions', () => {
  const flight = exactFlight(benchmarkAircraft(), ROTATING_EARTH);
  const line = new Line({ latitudeRad: 0.7, longitudeRad: 0 }, { latitudeRad: 0.8, longitudeRad: 0.3 });
  const law = constantEquivalentAirspeed(200);
  const state = stateAt(9000, 300, 18_000);
  const leg = new Leg(flight, line, state, { altitude: true }, 1, (at) =>
    flight.climbInBalance(law, at.massKg, 1),
  );
  const y = Float64Array.of(0, 18_000, 9000);
  const rates = new Float64Array(3);
  let calls = 0;
  const bytes = bytesPerRound((count) => {
    for (let i = 0; i < count; i++) {
      y[2] = 9000 + 0.1 * i;
      leg.derivative(0, y, rates);
      calls++;
    }
  });
  // The engine boxes a number, 16 bytes, where it crosses a call that is not inlined: about 20 of them do.
  expect(bytes).toBeLessThan(400);
  expect(flight.evaluations).toBe(calls);
});
