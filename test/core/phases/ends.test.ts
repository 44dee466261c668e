/** How phases end: stops, limits, thrust, fuel and the ends of tables, each met exactly. */
import { describe, expect, it } from 'vitest';
import type { Limit } from '../../../src/core/aircraft/aircraft.ts';
import { Line } from '../../../src/core/earth/line.ts';
import { flatEarth, ROTATING_EARTH } from '../../../src/core/flight/earth-model.ts';
import { constantEquivalentAirspeed, constantMach } from '../../../src/core/flight/speed-law.ts';
import {
  accelerate,
  climb,
  climbToLevel,
  cruise,
  hold,
  pushover,
  refuel,
  turn,
} from '../../../src/core/phases/index.ts';
import { benchmarkAircraft, exactFlight, flatTrack, stateAt, windyDay } from '../../support/benchmark.ts';
import { flatLine } from '../../support/flat-line.ts';
import { idealJet } from '../../support/ideal-jet.ts';

const degree = Math.PI / 180;
const jet = { areaM2: 170, zeroLiftDrag: 0.01, inducedFactor: 0.6, consumption: 0.0005 };

function limitOn(key: 'mach' | 'indicatedInletTemperatureK', bound: number): Limit {
  return {
    key: 'test',
    name: 'Test',
    quantity: key,
    side: 'upper',
    spread: 0,
    value: (at) => at[key],
    bound: () => bound,
    source: 'here',
  };
}

describe('stops and limits', () => {
  it('[PHASE-20] a limit ends the phase where its value meets bound less pad', () => {
    const flight = exactFlight(benchmarkAircraft(), flatEarth());
    const state = stateAt(10_000, 250, 18_000);
    const limits = [{ limit: limitOn('mach', 1.2), pad: 0.05 }];
    const end = accelerate(flight, state, flatTrack, {
      power: 'full',
      stops: [{ at: 'mach', mach: 1.4 }],
      limits,
    });
    expect(end.reason).toBe('limit:test');
    expect(flight.forces.mach).toBeCloseTo(1.15, 7);
    expect(end.text).toContain('Test was met: 1.15000 against 1.20000 with a pad of 0.05');
  });

  it('[PHASE-20] an inlet temperature is met as the gauge reads it', () => {
    const base = benchmarkAircraft();
    const gauges = { ...base.gauges, inletTemperatureRecovery: 0.9 };
    const flight = exactFlight({ ...base, gauges }, flatEarth());
    const state = stateAt(12_000, 300, 18_000);
    const limits = [{ limit: limitOn('indicatedInletTemperatureK', 280), pad: 0 }];
    const end = accelerate(flight, state, flatTrack, {
      power: 'full',
      stops: [{ at: 'mach', mach: 1.8 }],
      limits,
    });
    expect(end.reason).toBe('limit:test');
    // T (1 + 0.9 * 0.2 M^2) = 280 with constant cp, within its 0.1 % of the real one at this temperature.
    const mach = Math.sqrt((280 / 216.65 - 1) / 0.18);
    expect(Math.abs(flight.forces.mach / mach - 1)).toBeLessThan(2e-3);
  });

  it('[PHASE-21] gates are passed exactly, in order, and do not end the phase', () => {
    const flight = exactFlight(benchmarkAircraft(), flatEarth());
    const state = stateAt(10_000, 250, 18_000);
    const machs = [1.3, 1, 1.1];
    const passed: [number, number][] = [];
    const recorder = {
      everyS: 1e9,
      moment: () => undefined,
      gate: (index: number, at: { mach: number }) => passed.push([index, at.mach]),
    };
    const gates = machs.map((mach) => ({ at: 'mach', mach }) as const);
    accelerate(flight, state, flatTrack, {
      power: 'full',
      stops: [{ at: 'mach', mach: 1.4 }],
      gates,
      recorder,
    });
    expect(passed.map(([index]) => index)).toEqual([1, 2, 0]);
    for (const [index, mach] of passed) expect(mach).toBeCloseTo(machs[index], 8);
  });

  it('[PHASE-22] a stop that is met already ends the phase at once', () => {
    const flight = exactFlight(benchmarkAircraft(), flatEarth());
    const state = stateAt(10_000, 250, 18_000);
    const end = accelerate(flight, state, flatTrack, {
      power: 'full',
      stops: [{ at: 'distance', distanceM: -5 }],
    });
    expect(end).toMatchObject({ reason: 'distance', stop: 0 });
    expect(state.timeS).toBe(0);
    expect(state.massKg).toBe(18_000);
  });

  it('[PHASE-23] a speed that the thrust cannot reach ends by thrust, at the speed where none is left', () => {
    const flight = exactFlight(idealJet({ ...jet, fullThrustN: 60_000 }), flatEarth());
    const state = stateAt(10_000, 180, 30_000);
    const end = accelerate(flight, state, flatTrack, { power: 'full', stops: [{ at: 'mach', mach: 3 }] });
    expect(end.reason).toBe('thrust');
    expect(Math.abs(flight.accelerationMS2)).toBeLessThan(1.01e-3);
    expect(flight.forces.dragN / 60_000).toBeCloseTo(1, 2);
  });

  it('[PHASE-23] a ceiling ends a climb by thrust', () => {
    const flight = exactFlight(idealJet({ ...jet, consumption: 1e-9, fullThrustN: 60_000 }), flatEarth());
    const state = stateAt(10_000, 250, 30_000);
    const stops = [{ at: 'altitude', pressureAltitudeM: 40_000 }] as const;
    const end = climb(flight, state, flatTrack, { law: constantMach(0.85), power: 'full', stops });
    expect(end.reason).toBe('thrust');
    expect(flight.frame.altitudeRate).toBeCloseTo(0.05, 4);
  });

  it('[PHASE-24] fuel ends a phase at what cannot be used', () => {
    const base = idealJet(jet);
    const aircraft = { ...base, balance: { ...base.balance, unusableFuelKg: 300, fuelCapacityKg: 10_000 } };
    const flight = exactFlight(aircraft, flatEarth(), { zeroFuelMassKg: 25_000 });
    const state = stateAt(10_000, 250, 27_000);
    const end = cruise(flight, state, flatTrack, { law: constantMach(0.8), altitude: 'hold', stops: [] });
    expect(end).toMatchObject({ reason: 'fuel', text: 'fuel is down to the 300 kg that cannot be used' });
    expect(state.massKg).toBeCloseTo(25_300, 6);
  });

  it('[PHASE-25] the end of a table is named, and the flight ends there', () => {
    const flight = exactFlight(benchmarkAircraft(), flatEarth());
    const state = stateAt(12_000, 400, 15_000);
    const end = accelerate(flight, state, flatTrack, { power: 'full', stops: [{ at: 'mach', mach: 2.5 }] });
    expect(end.reason).toBe('outside:aerodynamics');
    expect(end.text).toContain('Mach 1.800 at');
    expect(flight.forces.mach).toBeCloseTo(1.8, 6);
  });

  it('[PHASE-25] so is the end of the day', () => {
    const flight = exactFlight(idealJet({ ...jet, inducedFactor: 0 }), flatEarth());
    const state = stateAt(80_000, 900, 15_000);
    const stops = [{ at: 'altitude', pressureAltitudeM: 90_000 }] as const;
    const end = climb(flight, state, flatTrack, { law: constantMach(5), power: 'full', stops });
    expect(end.reason).toBe('outside:day');
    expect(state.pressureAltitudeM).toBeCloseTo(84_852, 0);
  });
});

describe('captures and turns', () => {
  it.each([
    ['climb', 6000, 10_000, 0.45, 0.8],
    ['descent', 11_000, 7000, 'idle', 1.15],
  ] as const)(
    '[PHASE-30] a %s is captured exactly at the altitude, level, the speed law held',
    (_name, from, to, power, loadFactor) => {
      const flight = exactFlight(benchmarkAircraft(), flatEarth());
      const state = stateAt(from, 240, 18_000);
      const law = constantMach(0.85);
      const level = { pressureAltitudeM: to, loadFactor, onsetPerS: 0.1 };
      const end = climbToLevel(flight, state, flatTrack, { law, power, stops: [] }, level);
      expect(end.reason).toBe('level');
      expect(state.pressureAltitudeM).toBe(to);
      expect(flight.frame.pressureAltitudeM).toBeCloseTo(to, 3);
      expect(flight.frame.sinPath).toBeCloseTo(0, 9);
      expect(flight.forces.mach).toBeCloseTo(0.85, 9);
      expect(end.leadM).toBeGreaterThan(10);
    },
  );

  it('[PHASE-46] an altitude nearer than the lead is captured at once with more load factor, or not at all', () => {
    const fly = (below: number) => {
      const flight = exactFlight(benchmarkAircraft(), flatEarth());
      const state = stateAt(9000 - below, 240, 18_000);
      const level = { pressureAltitudeM: 9000, loadFactor: 0.9, onsetPerS: 0.1 };
      const options = { law: constantMach(0.85), power: 0.45, stops: [] } as const;
      return { end: climbToLevel(flight, state, flatTrack, options, level), state };
    };
    const { leadM, loadFactor } = fly(1500).end;
    expect(loadFactor).toBe(0.9);
    const near = fly(0.6 * leadM);
    expect(near.end.reason).toBe('level');
    // An arc is as long as its bend is weak, so that less room takes more of it.
    expect(near.end.loadFactor).toBeGreaterThan(0.9 - 0.3);
    expect(near.end.loadFactor).toBeLessThan(0.88);
    expect(near.state.pressureAltitudeM).toBe(9000);
    expect(near.state.pathAngleRad).toBe(0);
    expect(fly(0.02 * leadM).end.reason).toBe('manoeuvre');
  });

  it('[PHASE-31] a pushover that cannot be flown says so and leaves the state alone', () => {
    const flight = exactFlight(benchmarkAircraft(), flatEarth());
    const state = stateAt(10_000, 270, 18_000);
    const options = {
      power: 'full',
      pushLoadFactor: 0.9,
      pathAngleRad: -8 * degree,
      pullLoadFactor: 1.3,
      bottomPressureAltitudeM: 9900,
      rule: 'instant',
    } as const;
    const result = pushover(flight, state, flatTrack, options);
    expect(result.reason).toBe('manoeuvre');
    expect(result.text).toMatch(
      /^the pushover cannot be flown: the path angle is reached \d+ m below the bottom$/,
    );
    expect(state.pressureAltitudeM).toBe(stateAt(10_000, 0, 1).pressureAltitudeM);
    expect(state.massKg).toBe(18_000);
  });

  it('[PHASE-32] angle of attack that lags by half a second makes the push half a second longer', () => {
    const steady = idealJet({ ...jet, liftSlope: 3 });
    const push = (lag: number) => {
      const flight = exactFlight(steady, flatEarth(), { variation: { dragFactor: 0 } });
      const state = stateAt(11_000, 270, 18_000);
      return pushover(flight, state, flatTrack, {
        power: 'idle',
        pushLoadFactor: 0.6,
        pathAngleRad: -8 * degree,
        pullLoadFactor: 1.4,
        bottomPressureAltitudeM: 9500,
        rule: 'onset',
        onsetPerS: 0.2,
        angleOfAttackLagS: lag,
      });
    };
    const [crisp, soft] = [push(0), push(0.5)];
    expect(soft.reason).toBe('bottom');
    expect(Math.abs(soft.push.timeS - crisp.push.timeS - 0.5)).toBeLessThan(0.08);
    expect(soft.pullStartPressureAltitudeM).toBeGreaterThan(crisp.pullStartPressureAltitudeM);
  });

  it.each([
    [47, -84],
    [45, -81.5],
    [46.8, -84.5],
  ])(
    '[PHASE-33] a turn in wind on the turning Earth rolls out on the next line (corner to %f, %f)',
    (latitude, longitude) => {
      const place = (lat: number, lon: number) => ({ latitudeRad: lat * degree, longitudeRad: lon * degree });
      const corner = place(46, -83);
      const from = new Line(place(44, -87), corner);
      const to = new Line(corner, place(latitude, longitude));
      const flight = exactFlight(benchmarkAircraft(), ROTATING_EARTH, { day: windyDay(() => [20, 0], 15) });
      const state = stateAt(9144, 270, 17_000);
      state.distanceM = from.lengthM - 240_000;
      const law = constantMach(0.9);
      const result = turn(flight, state, from, to, { law, bankRad: 30 * degree, rollRadPerS: 3 * degree });
      expect(result.reason).toBe('rolledOut');
      expect(Math.abs(result.missM)).toBeLessThan(1);
      const seen = to.offset(state);
      expect(Math.abs(seen.alongM - state.distanceM)).toBeLessThan(1e-3);
      // Straight on from there the heading stays, which it would not with a drift unheld.
      const before = state.headingRad;
      cruise(flight, state, to, {
        law,
        altitude: 'hold',
        stops: [{ at: 'distance', distanceM: state.distanceM + 100 }],
      });
      expect(Math.abs(Math.sin(state.headingRad - before))).toBeLessThan(1e-4);
    },
  );

  it('[PHASE-34] a bank that the thrust does not carry is made less, and said', () => {
    const from = flatLine(0, 0, 0, 500_000);
    const to = flatLine(0, 500_000, 60 * degree, 300_000);
    const flown = (fullThrustN: number) => {
      const flight = exactFlight(idealJet({ ...jet, fullThrustN }), flatEarth());
      const state = stateAt(20_000, 850, 40_000);
      return turn(flight, state, from, to, {
        law: constantMach(2.9),
        bankRad: 40 * degree,
        rollRadPerS: 0.1,
      });
    };
    expect(flown(1e6)).toMatchObject({ reason: 'rolledOut', bankLimitedBy: null, bankRad: 40 * degree });
    const weak = flown(77_000);
    expect(weak).toMatchObject({ reason: 'rolledOut', bankLimitedBy: 'thrust' });
    expect(weak.bankRad).toBeLessThan(35 * degree);
    expect(weak.radiusM).toBeGreaterThan(1.2 * flown(1e6).radiusM);
    expect(flown(40_000)).toMatchObject({ reason: 'thrust' });
  });
});

describe('contact and hold', () => {
  const wash = { increment: 0.002, spread: 0 };
  const base = idealJet({ ...jet, fullThrustN: 200_000 });
  const tanked = {
    ...base,
    aerodynamics: { ...base.aerodynamics, washDrag: wash },
    balance: { ...base.balance, fuelCapacityKg: 40_000, unusableFuelKg: 200 },
  };
  const options = { calibratedAirspeedMS: 164.6, rateKgS: 20, sharing: 'alike', stops: [] } as const;

  it('[PHASE-40] what is taken less what is burnt is the gain of mass', () => {
    const flight = exactFlight(tanked, flatEarth(), { zeroFuelMassKg: 30_000 });
    const state = stateAt(7315, 0, 35_000);
    const result = refuel(flight, state, flatTrack, { ...options, takeKg: 12_000 });
    expect(result.reason).toBe('taken');
    expect(result.timeS).toBeCloseTo(600, 6);
    expect(result.takenKg - result.burntKg).toBeCloseTo(state.massKg - 35_000, 9);
    // By the jet's own formula: thrust (drag with the wash on) times consumption, at the mean of start and end.
    expect(result.burntKg).toBeGreaterThan(500);
    expect(flight.forces.washDrag).toBe(0);
  });

  it('[PHASE-41] full tanks end the contact', () => {
    const flight = exactFlight(tanked, flatEarth(), { zeroFuelMassKg: 30_000 });
    const state = stateAt(7315, 0, 65_000);
    const result = refuel(flight, state, flatTrack, { ...options, takeKg: 12_000 });
    expect(result.reason).toBe('full');
    expect(state.massKg).toBeCloseTo(70_000, 5);
  });

  it('[PHASE-42] the offload stops at the mass where the thrust margin is gone', () => {
    const flight = exactFlight(idealJetInWash(75_000), flatEarth(), { zeroFuelMassKg: 30_000 });
    const state = stateAt(7315, 0, 40_000);
    const result = refuel(flight, state, flatTrack, { ...options, takeKg: 30_000 });
    expect(result.reason).toBe('thrust');
    expect(result.leastThrustMargin).toBeCloseTo(0, 6);
    expect(flight.forces.dragN).toBeCloseTo(75_000, 1);
  });

  function idealJetInWash(fullThrustN: number) {
    const weak = idealJet({ ...jet, fullThrustN });
    return { ...tanked, aerodynamics: { ...weak.aerodynamics, washDrag: wash }, propulsion: weak.propulsion };
  }

  it('[PHASE-43] one engine in afterburner carries what the other cannot, and no more', () => {
    const single = tanked.propulsion;
    // Settings 0 idle, 1 military, 2 least and 3 full afterburner, at 0, 30, 40 and 110 kN of each engine.
    const thrusts = [0, 30_000, 40_000, 110_000];
    const propulsion = {
      ...single,
      names: ['idle', 'military', 'minimum afterburner', 'maximum'],
      continuousAbove: [true, false, true],
      military: 1,
      minimumAfterburner: 2,
      maximum: 3,
      engines: [
        { name: 'left', armM: -1 },
        { name: 'right', armM: 1 },
      ],
      at: (power: number, _m: number, _h: number, _z: number, _o: number, out: { thrustN: number }) => {
        const below = Math.min(2, Math.floor(power));
        const thrustN = thrusts[below] + (power - below) * (thrusts[below + 1] - thrusts[below]);
        Object.assign(out, { thrustN, fuelFlowKgS: 1e-5 * thrustN * (power > 1 ? 3 : 1), power, outside: 0 });
      },
      powerFor: (thrustN: number, _m: number, _h: number, _z: number, _o: number, out: { power: number }) => {
        const above = 2 + Math.max(0, thrustN - 40_000) / 70_000;
        const power = thrustN <= 30_000 ? Math.max(0, thrustN) / 30_000 : above;
        const fuelFlowKgS = 1e-5 * thrustN * (power > 1 ? 3 : 1);
        Object.assign(out, { thrustN, fuelFlowKgS, power: power <= 3 ? power : Number.NaN, outside: 0 });
      },
    };
    const flight = exactFlight({ ...tanked, propulsion }, flatEarth(), { zeroFuelMassKg: 30_000 });
    const state = stateAt(7315, 0, 40_000);
    const powers: number[][] = [];
    const recorder = {
      everyS: 30,
      moment: (at: { enginePowers: Float64Array; thrustN: number }) => {
        powers.push([...at.enginePowers, at.thrustN]);
      },
    };
    refuel(flight, state, flatTrack, { ...options, takeKg: 26_000, sharing: 'oneAfterburner', recorder });
    for (const [left, right, thrust] of powers) {
      const given = (power: number) => {
        const below = Math.min(2, Math.floor(power));
        return thrusts[below] + (power - below) * (thrusts[below + 1] - thrusts[below]);
      };
      expect(left).toBeGreaterThanOrEqual(2);
      expect(right).toBeLessThanOrEqual(1);
      expect(given(left) + given(right)).toBeCloseTo(thrust, 5);
    }
    // At the start the burner stands at its least and the other engine modulates; at the end the other way round.
    expect(powers[0][0]).toBe(2);
    expect(powers[0][1]).toBeLessThan(1);
    expect(powers[powers.length - 1][0]).toBeGreaterThan(2);
    expect(powers[powers.length - 1][1]).toBe(1);
  });

  it("[PHASE-44] best endurance is Breguet's: (1/c)(L/D) ln(m0/m1) at the greatest L/D", () => {
    const flight = exactFlight(idealJet(jet), flatEarth());
    const state = stateAt(9000, 0, 40_000);
    const end = hold(flight, state, flatTrack, { timeS: 3600, speed: 'endurance' });
    expect(end.reason).toBe('time');
    const liftToDrag = 1 / (2 * Math.sqrt(0.01 * 0.6));
    expect(40_000 / state.massKg).toBeCloseTo(Math.exp((3600 * 0.0005) / liftToDrag), 4);
    expect(state.distanceM).toBe(0);
  });

  it('[PHASE-45] a flight that is described costs no other answer', () => {
    const fly = (recorded: boolean) => {
      const flight = exactFlight(benchmarkAircraft(), flatEarth());
      const state = stateAt(3000, 0, 18_000);
      const recorder = recorded ? { everyS: 1, moment: () => undefined } : undefined;
      const stops = [{ at: 'altitude', pressureAltitudeM: 9000 }] as const;
      climb(flight, state, flatTrack, {
        law: constantEquivalentAirspeed(180),
        power: 'full',
        stops,
        recorder,
      });
      return state;
    };
    // A described instant leaves another start for the next search of the path angle, which ends within its tolerance.
    expect(fly(true).massKg).toBeCloseTo(fly(false).massKg, 8);
  });
});
