/** A push and its recovery against the closed forms of a path of constant load factor. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import type { Aircraft } from '../../../src/core/aircraft/aircraft.ts';
import { ROTATING_EARTH } from '../../../src/core/flight/earth-model.ts';
import { ENGINEERING, Flight } from '../../../src/core/flight/flight.ts';
import { type PushFrom, PushRecovery } from '../../../src/core/flight/push-recovery.ts';
import { idealJet } from '../../support/ideal-jet.ts';

const g = 9.80665;
const instant = {
  onsetPerS: Number.POSITIVE_INFINITY,
  rollRadPerS: Number.POSITIVE_INFINITY,
  angleOfAttackLagS: 0,
  warningLeadS: 0,
};

/** Without drag and thrust, and without a stall unless `warningRad` says one. */
function glider(changes: Partial<Aircraft> = {}, warningRad: number | null = null): Aircraft {
  const jet = idealJet({
    areaM2: 100,
    zeroLiftDrag: 0,
    inducedFactor: 0,
    liftSlope: 4,
    fullThrustN: 1e-9,
    consumption: 0,
  });
  return {
    ...jet,
    rates: instant,
    ...changes,
    aerodynamics: { ...jet.aerodynamics, warningAngleRad: () => warningRad, pushAngleRad: () => 0.3 },
  };
}

const from: PushFrom = {
  trueAirspeedMS: 150,
  pressureAltitudeM: 5000,
  temperatureOffsetK: 0,
  massKg: 30_000,
  bankRad: 0,
  angleOfAttackRad: 0.2,
  most: { symmetric: 1.4, rolling: 1.4 },
};

function recover(aircraft: Aircraft, change: Partial<PushFrom> = {}, pusher = { loadFactor: 0.4, holdS: 3 }) {
  const setup = {
    aircraft,
    day: standardDay,
    earth: ROTATING_EARTH,
    tolerance: ENGINEERING,
    zeroFuelMassKg: 0,
  };
  return new PushRecovery(new Flight(setup).forces, pusher).fly({ ...from, ...change });
}

describe('a push and its recovery', () => {
  it('[PSH-1] without drag and thrust keeps V (n - cos gamma) at each load factor, and its energy (point mass)', () => {
    // dV/dgamma = -V sin(gamma) / (n - cos(gamma)), hence V (n - cos(gamma)) is constant while n is.
    const { lostM, steepestRad, trueAirspeedMS } = recover(glider());
    const bottom = (from.trueAirspeedMS * (1 - 0.4)) / (Math.cos(steepestRad) - 0.4);
    const level = (bottom * (1.4 - Math.cos(steepestRad))) / (1.4 - 1);
    expect(trueAirspeedMS / level).toBeCloseTo(1, 3);
    expect(lostM / ((level ** 2 - from.trueAirspeedMS ** 2) / (2 * g))).toBeCloseTo(1, 2);
  });

  it('[PSH-2] loses (1-n) g t^2/2 (1 + (1-n)/(pull-1)) where it is fast and shallow (uniform acceleration)', () => {
    const { lostM } = recover(glider(), { trueAirspeedMS: 900 });
    const pushed = 0.5 * (1 - 0.4) * g * 3 ** 2;
    expect(lostM / (pushed * (1 + (1 - 0.4) / (1.4 - 1)))).toBeCloseTo(1, 2);
  });

  it('[PSH-3] an onset adds what the load factor takes to fall and to rise (uniform change of acceleration)', () => {
    // With n falling and rising at k, speeds and heights of each stretch in turn, fast and shallow.
    const k = 0.5;
    const rates = { ...instant, onsetPerS: k };
    const aircraft = glider({ rates });
    const massKg = 1e5;
    const { lostM } = recover(aircraft, {
      trueAirspeedMS: 900,
      massKg,
      angleOfAttackRad: angleOf(1, 900, massKg),
    });
    let [t, v, h, n] = [0, 0, 0, 1];
    const dt = 1e-4;
    const fallS = (1 - 0.4) / k;
    while (!(t > fallS + 3 && v >= 0)) {
      n = t < fallS ? 1 - k * t : t < fallS + 3 ? 0.4 : Math.min(n + Math.min(k, (1.4 - n) / 0.25) * dt, 1.4);
      v += (n - 1) * g * dt;
      h += v * dt;
      t += dt;
    }
    expect(lostM / -h).toBeCloseTo(1, 2);
  });

  it('[PSH-4] loses more the longer the push, the weaker the pull, the slower the wings are levelled', () => {
    const rolling = { ...instant, rollRadPerS: 0.1 };
    const banked = { bankRad: 0.7 };
    fc.assert(
      fc.property(fc.double({ min: 1, max: 4, noNaN: true }), (holdS) => {
        const lost = recover(glider(), {}, { loadFactor: 0.4, holdS }).lostM;
        const longer = recover(glider(), {}, { loadFactor: 0.4, holdS: holdS + 0.2 }).lostM;
        const weaker = recover(
          glider(),
          { most: { symmetric: 1.3, rolling: 1.3 } },
          { loadFactor: 0.4, holdS },
        ).lostM;
        const slower = recover(glider({ rates: rolling }), banked, { loadFactor: 0.4, holdS }).lostM;
        expect(longer).toBeGreaterThan(lost);
        expect(weaker).toBeGreaterThan(lost);
        expect(slower).toBeGreaterThan(lost);
      }),
      { numRuns: 40 },
    );
  });

  it('[PSH-5] pulls no more than the warning allows, and says so where the aircraft is never level', () => {
    const mild = recover(glider({}, angleOf(1.1, 150, from.massKg))).lostM;
    expect(mild).toBeGreaterThan(recover(glider()).lostM);
    expect(recover(glider(), { most: { symmetric: 0.9, rolling: 0.9 } }).lostM).toBeNaN();
  });
});

/** Angle of attack of a load factor at 5000 m, where the air has 0.7361 kg/m3 (US Standard Atmosphere 1976). */
function angleOf(loadFactor: number, speedMS: number, massKg: number): number {
  return (loadFactor * massKg * g) / (0.5 * 0.7361 * speedMS ** 2 * 100 * 4);
}
