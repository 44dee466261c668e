/**
 * The pushover against closed forms, and the search against what it must not miss. Relations: energy E = h + V^2/2g; path
 * gamma' = g (n - cos gamma) / V; both on the US Standard Atmosphere 1976, worked out independently of this project.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { equivalentAirspeed } from '../../../src/core/air/airdata.ts';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import { speedOfSound, standardPressure, standardTemperature } from '../../../src/core/air/standard.ts';
import { flatEarth } from '../../../src/core/flight/earth-model.ts';
import { ENGINEERING, Flight } from '../../../src/core/flight/flight.ts';
import type { Moment } from '../../../src/core/flight/moment.ts';
import { constantEquivalentAirspeed } from '../../../src/core/flight/speed-law.ts';
import {
  type AccelerationQuestion,
  levelPath,
  type PushoverShape,
  pushoverPath,
} from '../../../src/core/optimise/acceleration-path.ts';
import { bestLevel, bestPushover } from '../../../src/core/optimise/pushover-best.ts';
import { pushover } from '../../../src/core/phases/index.ts';
import { exactFlight, flatTrack, stateAt } from '../../support/benchmark.ts';
import { sandmartin } from '../../support/demo.ts';
import { idealJet } from '../../support/ideal-jet.ts';

const degree = Math.PI / 180;
const foot = 0.3048;
const knot = 1852 / 3600;

/** A state at a pressure altitude on the standard day. */
function stateOf(feet: number, mach: number, massKg: number) {
  const speed = mach * speedOfSound(standardTemperature(feet * foot));
  return { ...stateAt(0, speed, massKg), pressureAltitudeM: feet * foot };
}

describe('a pushover without thrust surplus', () => {
  const glider = idealJet({ areaM2: 170, zeroLiftDrag: 0, inducedFactor: 0, consumption: 0 });
  const dive = (pullLoadFactor: number) => {
    const state = stateOf(36_000, 0.92, 30_000);
    const result = pushover(exactFlight(glider, flatEarth()), state, flatTrack, {
      power: 'idle',
      pushLoadFactor: 0.7,
      pathAngleRad: -8 * degree,
      pullLoadFactor,
      bottomPressureAltitudeM: 31_500 * foot,
      rule: 'instant',
    });
    expect(result.reason).toBe('bottom');
    return result;
  };

  it('[PUSH-1] by energy alone M 0.92 at 36 000 ft becomes M 1.053, 367 KEAS, level at 31 500 ft', () => {
    const { endMach } = dive(1.4).pull;
    const eas = equivalentAirspeed(endMach, standardPressure(31_500 * foot)) / knot;
    // Geometric height, which is flown, falls 0.3 % more than pressure altitude: 0.0005 Mach.
    expect(Math.abs(endMach - 1.053)).toBeLessThan(0.001);
    expect(Math.abs(eas - 367)).toBeLessThan(0.6);
  });

  it('[PUSH-2] at 0.7 g built up at once 8 degrees take 13.2 s', () => {
    expect(Math.abs(dive(1.4).push.timeS - 13.2)).toBeLessThan(0.06);
  });

  it.each([
    [1.4, 32_290],
    [1.25, 32_740],
  ])('[PUSH-3] at %f g levelling at 31 500 ft starts at %d ft', (loadFactor, feet) => {
    expect(Math.abs(dive(loadFactor).pullStartPressureAltitudeM / foot - feet)).toBeLessThan(50);
  });
});

const zeroFuelMassKg = sandmartin.balance.emptyMassKg;
const heavyKg = zeroFuelMassKg + 36_000;
const flight = new Flight({
  aircraft: sandmartin,
  day: standardDay,
  earth: flatEarth(),
  tolerance: ENGINEERING,
  zeroFuelMassKg,
});

function questionFrom(
  feet: number,
  mach: number,
  more: Partial<AccelerationQuestion> = {},
): AccelerationQuestion {
  return {
    flight,
    track: flatTrack,
    from: stateOf(feet, mach, heavyKg),
    power: 'full',
    reference: {
      law: constantEquivalentAirspeed(430 * knot),
      atLaw: { at: 'equivalentAirspeed', speedMS: 430 * knot },
      mach: 1.6,
      power: 'full',
    },
    pushLoadFactor: 0.6,
    pullLoadFactor: 1.3,
    limits: sandmartin.limits.map((limit) => ({ limit, pad: 0 })),
    ...more,
  };
}

describe('a pushover inside the limits of a deck', () => {
  const shape: PushoverShape = {
    mach: 0.84,
    pathAngleRad: -5 * degree,
    bottomPressureAltitudeM: 31_500 * foot,
  };

  it('[PUSH-4] 1.4 g is refused while the stall warning forbids it, and flown where the aircraft is faster', () => {
    const slow = questionFrom(33_000, 0.84, { pullLoadFactor: 1.4 });
    const gentle = pushoverPath({ ...slow, pullLoadFactor: 1.2 }, shape);
    expect(pushoverPath(slow, shape).refused?.reason).toBe('limit:stallWarning');
    expect(gentle.refused).toBeNull();
    const fast = pushoverPath(questionFrom(33_000, 0.95, { pullLoadFactor: 1.4 }), { ...shape, mach: 0.95 });
    expect(fast.refused).toBeNull();
  });

  it('[PUSH-5] a push below the least load factor for fuel and oil feed is refused', () => {
    const { refused } = pushoverPath(questionFrom(33_000, 0.92, { pushLoadFactor: 0.1 }), {
      ...shape,
      mach: 0.92,
      pathAngleRad: -12 * degree,
      bottomPressureAltitudeM: 26_500 * foot,
    });
    expect(refused?.reason).toBe('limit:minimumLoadFactor');
  });

  it('[PUSH-6] a dive to the greatest airspeed is refused in the recovery', () => {
    const deep = { ...shape, mach: 0.92, bottomPressureAltitudeM: 24_000 * foot };
    const { refused } = pushoverPath(questionFrom(33_000, 0.92), deep);
    expect(refused?.reason).toBe('limit:maximumEquivalentAirspeed');
  });
});

describe('the search', () => {
  const question = questionFrom(33_000, 0.9);
  const found = bestPushover(question);
  const best = found.best;
  if (best === null) throw new Error('no pushover can be flown');

  it('[PUSH-7] burns no more than the best level acceleration, nor than one at the height of the start', () => {
    const level = bestLevel(question);
    if (level === null) throw new Error('no level acceleration can be flown');
    expect(best.fuelKg).toBeLessThanOrEqual(level.fuelKg);
    expect(level.fuelKg).toBeLessThanOrEqual(levelPath(question, question.from.pressureAltitudeM).fuelKg);
  });

  it('[PUSH-8] burns no more than any of 150 pushovers drawn from its range, by more than a kilogram', () => {
    const shapes = fc.record({
      mach: fc.double({ min: 0.9, max: 1, noNaN: true }),
      pathAngleRad: fc.double({ min: -15 * degree, max: -1 * degree, noNaN: true }),
      bottomPressureAltitudeM: fc.double({ min: 26_000 * foot, max: 32_000 * foot, noNaN: true }),
    });
    let flown = 0;
    fc.assert(
      fc.property(shapes, (shape) => {
        const path = pushoverPath(question, shape);
        if (path.refused !== null) return;
        flown++;
        expect(path.fuelKg).toBeGreaterThan(best.fuelKg - 1);
      }),
      { numRuns: 150, seed: 1 },
    );
    expect(flown).toBeGreaterThan(30);
  });

  it('[PUSH-9] stops where a step of any variable burns more or is refused by name', () => {
    expect(found.neighbours).toHaveLength(6);
    for (const { moreKg, heldBy } of found.neighbours) {
      if (heldBy === null) expect(moreKg).toBeGreaterThan(-0.1);
      else expect(heldBy).toMatch(/^(limit:\w+|range|manoeuvre|thrust)$/);
    }
  });

  it('[PUSH-10] passes no limit on the way, and comes to its reference', () => {
    let last = { mach: 0, equivalentAirspeedMS: 0 };
    const least = new Map<string, number>();
    const recorder = {
      everyS: 1,
      moment(at: Moment) {
        const { mach, equivalentAirspeedMS } = at;
        last = { mach, equivalentAirspeedMS };
        for (const limit of sandmartin.limits) {
          const [value, bound] = [limit.value(at.limitInputs), limit.bound(at.limitInputs)];
          const margin = limit.side === 'upper' ? bound - value : value - bound;
          least.set(limit.key, Math.min(least.get(limit.key) ?? Infinity, margin / Math.abs(bound)));
        }
      },
    };
    expect(pushoverPath(question, best.shape, recorder).fuelKg).toBeCloseTo(best.fuelKg, 1);
    for (const [key, margin] of least) expect(margin, key).toBeGreaterThan(-1e-8);
    expect(last.mach).toBeCloseTo(1.6, 8);
    expect(last.equivalentAirspeedMS / knot).toBeCloseTo(430, 4);
  });

  it('[PUSH-11] says what refused every way where none can be flown', () => {
    const hopeless = bestPushover({
      ...question,
      limits: question.limits.map(({ limit }) => ({
        limit,
        pad: limit.key === 'maximumEquivalentAirspeed' ? 200 * knot : 0,
      })),
    });
    expect(hopeless.best).toBeNull();
    expect(hopeless.refusals).toContain('limit:maximumEquivalentAirspeed');
  });
});
