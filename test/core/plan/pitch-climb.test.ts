/** The pitch of a climb: what is printed against the trace, and the attitude held against the full equations of motion. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import { flatEarth } from '../../../src/core/flight/earth-model.ts';
import { ENGINEERING, Flight } from '../../../src/core/flight/flight.ts';
import { Leg } from '../../../src/core/flight/leg.ts';
import { constantEquivalentAirspeed } from '../../../src/core/flight/speed-law.ts';
import { newState } from '../../../src/core/flight/state.ts';
import { holdPitch } from '../../../src/core/phases/hold-pitch.ts';
import { fly } from '../../../src/core/phases/run.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { flatTrack } from '../../support/benchmark.ts';
import { longLoopText, requestOf, sandmartin } from '../../support/demo.ts';

const degrees = 180 / Math.PI;
const knot = 1852 / 3600;
const plan = makePlan(requestOf(longLoopText));
const { columns } = plan.trace;

describe('the pitch table', () => {
  it('[PITCH-1] goes from the start of each supersonic climb to its end without a gap, in stretches of at most 0.3 Mach', () => {
    expect(plan.pitches.map(({ leg }) => leg)).toEqual([1, 2]);
    for (const { rows } of plan.pitches) {
      expect(rows.length).toBeGreaterThan(4);
      rows.forEach(({ fromMach, toMach }, i) => {
        expect(toMach - fromMach).toBeGreaterThan(0);
        expect(toMach - fromMach).toBeLessThan(0.3 + 0.038);
        if (i > 0) expect(fromMach).toBe(rows[i - 1].toMach);
      });
      expect(rows[rows.length - 1].toMach).toBeGreaterThan(2.7);
    }
  });

  it('[PITCH-2] no speed drifts by more than 10 kt where the stretch is longer than the shortest', () => {
    for (const { rows, driftMS } of plan.pitches) {
      expect(driftMS).toBeCloseTo(10 * knot, 5);
      for (const { fromMach, toMach, slowestMS, fastestMS } of rows) {
        if (toMach - fromMach < 0.12) continue;
        expect(slowestMS).toBeGreaterThanOrEqual(-driftMS);
        expect(fastestMS).toBeLessThanOrEqual(driftMS);
      }
    }
  });

  it('[PITCH-3] is path angle and angle of attack of the trace between both ends, to 0.25 degrees', () => {
    for (const { rows } of plan.pitches) {
      for (const { timeS, durationS, pitchDeg } of rows) {
        const inside = columns.timeS.flatMap((time, i) =>
          time > timeS + 1 && time < timeS + durationS ? [i] : [],
        );
        const pitches = inside.map(
          (i) =>
            columns.angleOfAttackDeg[i] +
            Math.asin(columns.climbRateMS[i] / columns.trueAirspeedMS[i]) * degrees,
        );
        expect(pitchDeg).toBeGreaterThan(Math.min(...pitches) - 0.25);
        expect(pitchDeg).toBeLessThan(Math.max(...pitches) + 0.25);
      }
    }
  });
});

describe('a pitch held', () => {
  const zeroFuelMassKg = sandmartin.balance.emptyMassKg;
  const setup = {
    aircraft: sandmartin,
    day: standardDay,
    earth: flatEarth(),
    tolerance: ENGINEERING,
    zeroFuelMassKg,
  };
  const flight = new Flight(setup);
  const { maximum } = sandmartin.propulsion;

  /** On 430 KEAS in balance at an altitude, and the pitch there. */
  function onSchedule(feet: number) {
    const state = { ...newState(), timeS: 0, distanceM: 0, massKg: zeroFuelMassKg + 20_000, bankRad: 0 };
    state.pressureAltitudeM = feet * 0.3048;
    flight.placeOnTrack(flatTrack, 0, state.pressureAltitudeM, 0);
    flight.climbInBalance(constantEquivalentAirspeed(430 * knot), state.massKg, maximum);
    state.trueAirspeedMS = flight.speedMS;
    state.pathAngleRad = Math.asin(flight.frame.sinPath);
    return { state, pitchRad: state.pathAngleRad + flight.forces.angleRad };
  }

  const after = (seconds: number) => ({ at: 'time', timeS: seconds }) as const;

  it.each([44_000, 52_000, 60_000])(
    '[PITCH-4] at %d ft the path in balance is within 2.2 kt true and 100 ft of the full equations after a minute and a half',
    (feet) => {
      const { state, pitchRad } = onSchedule(feet);
      const full = { ...state };
      const quasi = holdPitch(flight, state, flatTrack, { pitchRad, power: maximum, stops: [after(90)] });
      const leg = new Leg(flight, flatTrack, full, { altitude: true, speed: true, path: true }, 1, (at) => {
        flight.atAngle(at.speedMS, at.massKg, maximum, at.pathRad, pitchRad - at.pathRad);
      });
      const exact = fly(flight, leg, full, { stops: [after(90)] });
      expect([quasi.reason, exact.reason]).toEqual(['time', 'time']);
      expect(Math.abs(state.trueAirspeedMS - full.trueAirspeedMS)).toBeLessThan(knot * 2.2);
      expect(Math.abs(state.pressureAltitudeM - full.pressureAltitudeM)).toBeLessThan(100 * 0.3048);
    },
  );

  it('[PITCH-5] the higher the pitch the slower and higher the aircraft', () => {
    const { pitchRad } = onSchedule(52_000);
    const held = (offDeg: number) => {
      const { state } = onSchedule(52_000);
      holdPitch(flight, state, flatTrack, {
        pitchRad: pitchRad + offDeg / degrees,
        power: maximum,
        stops: [after(60)],
      });
      return state;
    };
    const off = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(off, off, (a, b) => {
        fc.pre(Math.abs(a - b) > 0.01);
        const [low, high] = [held(Math.min(a, b)), held(Math.max(a, b))];
        expect(high.trueAirspeedMS).toBeLessThan(low.trueAirspeedMS);
        expect(high.pressureAltitudeM).toBeGreaterThan(low.pressureAltitudeM);
      }),
      { numRuns: 40, seed: 1 },
    );
  });
});
