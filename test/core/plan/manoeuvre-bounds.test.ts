/** What bounds a manoeuvre, against closed forms on a jet of textbook simplicity and against the tables of the demonstration's deck. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import { pressureAltitudeOf } from '../../../src/core/air/standard.ts';
import type { Aircraft } from '../../../src/core/aircraft/aircraft.ts';
import { ROTATING_EARTH } from '../../../src/core/flight/earth-model.ts';
import { ENGINEERING } from '../../../src/core/flight/flight.ts';
import { levelTurn, ManoeuvreBounds, onsetOfRoll, pullTo } from '../../../src/core/plan/manoeuvre-bounds.ts';
import { pushAt } from '../../../src/core/plan/manoeuvre-table.ts';
import type { ManoeuvreRules } from '../../../src/core/plan/sortie.ts';
import { sandmartin } from '../../support/demo.ts';
import { idealJet } from '../../support/ideal-jet.ts';

const g = 9.80665;
const degree = Math.PI / 180;
const foot = 0.3048;
const rules: ManoeuvreRules = {
  loadFactors: [1.4],
  banksRad: [40 * degree],
  push: null,
  clearanceM: 0,
  heldTo: [],
};

/** One lift slope and one angle of warning at every Mach. */
function jet(inducedFactor = 0): Aircraft {
  const base = idealJet({
    areaM2: 100,
    zeroLiftDrag: 0.02,
    inducedFactor,
    liftSlope: 3,
    fullThrustN: 1e5,
    consumption: 0,
  });
  const { aerodynamics } = base;
  return {
    ...base,
    rates: { onsetPerS: 0.25, rollRadPerS: 4 * degree, angleOfAttackLagS: 0, warningLeadS: 0.6 },
    aerodynamics: { ...aerodynamics, warningAngleRad: () => 0.2, pushAngleRad: () => 0.25 },
  };
}

function boundsOf(
  aircraft: Aircraft,
  pressureAltitudeM: number,
  fuelKg: number,
  of = rules,
): ManoeuvreBounds {
  const setup = {
    aircraft,
    day: standardDay,
    earth: ROTATING_EARTH,
    tolerance: ENGINEERING,
    zeroFuelMassKg: aircraft.balance.emptyMassKg,
  };
  const bounds = new ManoeuvreBounds(setup, of);
  bounds.placeIn(pressureAltitudeM, (air) => standardDay.sample(0, 0, pressureAltitudeM, 0, air));
  bounds.load(fuelKg);
  return bounds;
}

describe('least speeds at one lift coefficient', () => {
  const bounds = boundsOf(jet(), 3000, 15_000);
  const eas = (named: ReturnType<typeof pullTo>) =>
    bounds.speedsFor(named).warning?.equivalentAirspeedMS ?? 0;

  it('[MAN-1] go with sqrt(n): 1.183 at 1.4 g, 1.143 at 40 deg of bank (V = sqrt(2 n W / rho S CL))', () => {
    expect(eas(pullTo(1.4)) / eas(levelTurn(0))).toBeCloseTo(1.183, 3);
    expect(eas(levelTurn(40 * degree)) / eas(levelTurn(0))).toBeCloseTo(1.143, 3);
  });

  it('[MAN-2] at 1.4 g are those of a level turn at 44.4 deg of bank (n = 1 / cos(bank))', () => {
    expect(pullTo(1.4).bankRad / degree).toBeCloseTo(44.4, 1);
    expect(eas(levelTurn(44.4153 * degree))).toBeCloseTo(eas(pullTo(1.4)), 3);
  });

  it('[MAN-3] are sqrt(2 W / rho0 S CL) of equivalent airspeed, pushed at CL 0.75, warned at 0.6 (lift equation)', () => {
    const weight = bounds.inputs.massKg * g;
    const speed = (lift: number) => Math.sqrt((2 * weight) / (1.225 * 100 * lift));
    expect(eas(levelTurn(0))).toBeCloseTo(speed(0.6), 2);
    expect(bounds.speedsFor(levelTurn(0)).push?.equivalentAirspeedMS).toBeCloseTo(speed(0.75), 2);
  });

  it("[MAN-4] entered at a rate keep the lead of the warning: n + lead n' (alpha + lead alpha')", () => {
    const pulled = bounds.speedsFor(pullTo(1.4)).entered?.equivalentAirspeedMS ?? 0;
    expect(pulled / eas(levelTurn(0))).toBeCloseTo(Math.sqrt(1.4 + 0.6 * 0.25), 3);
    const rolled = bounds.speedsFor(levelTurn(40 * degree)).entered?.equivalentAirspeedMS ?? 0;
    const onset = (4 * degree * Math.sin(40 * degree)) / Math.cos(40 * degree) ** 2;
    expect(onsetOfRoll(40 * degree, 4 * degree)).toBeCloseTo(onset, 12);
    expect(rolled / eas(levelTurn(0))).toBeCloseTo(Math.sqrt(1 / Math.cos(40 * degree) + 0.6 * onset), 3);
  });
});

describe('the lead of the warning', () => {
  it('[MAN-5] sounds exactly the lead earlier in a ramp of constant rate', () => {
    const bounds = boundsOf(jet(), 3000, 15_000);
    const warning = bounds.stall('warning', 0.5) ?? 0;
    const onset = 0.25;
    const steadyS = (warning - 1) / onset;
    const ledS = (warning - bounds.lead(onset) - 1) / onset;
    expect(steadyS - ledS).toBeCloseTo(0.6, 12);
    // The same by the angle itself: alpha + lead alpha' at the moment found.
    const angle = (t: number) => bounds.angleFor(0.5, 1 + onset * t);
    const rate = (angle(ledS + 1e-3) - angle(ledS - 1e-3)) / 2e-3;
    expect(angle(ledS) + 0.6 * rate).toBeCloseTo(0.2, 9);
  });
});

describe('load factors at a speed', () => {
  it('[MAN-6] are sustained where T = q S (CD0 + k CL^2) (drag polar)', () => {
    const k = 0.1;
    const base = jet(k);
    const slender = { ...base, aerodynamics: { ...base.aerodynamics } };
    const { at } = base.aerodynamics;
    // Lift at hardly any angle, so that thrust acts along the way.
    slender.aerodynamics.at = (...of) => {
      at(...of);
      of[4].liftSlope = 1e7;
    };
    const bounds = boundsOf(slender, 5000, 15_000);
    const force = 0.7 * bounds.air.pressurePa * 0.6 ** 2 * 100;
    const lift = Math.sqrt((1e5 / force - 0.02) / k);
    expect(bounds.sustained(0.6)).toBeCloseTo((force * lift) / (bounds.inputs.massKg * g), 5);
  });

  it('[MAN-7] of the structure are those of its tables, with and without roll (load-factor.csv, load-factor-rolling.csv)', () => {
    const bounds = boundsOf(sandmartin, 8000, 20_000);
    expect([bounds.structural(1, false), bounds.structural(1, true)]).toEqual([2.6, 2.1]);
    bounds.load(41_000);
    expect([bounds.structural(0, false), bounds.structural(0, true)]).toEqual([2.3, 1.9]);
  });

  it('[MAN-8] keep warning, push, structure and what the sortie asks apart, none hidden by a lesser', () => {
    const heldTo = [
      { fromFuelKg: 30_000, loadFactor: 1.5, source: 'common practice' },
      { fromFuelKg: 0, loadFactor: 2, source: 'common practice' },
    ];
    const bounds = boundsOf(sandmartin, 24_000 * foot, 36_000, { ...rules, heldTo });
    const { warning, push, symmetric, rolling, held, sustained } = bounds.at(0.747);
    expect(new Set([warning, push, symmetric, rolling, held, sustained]).size).toBe(6);
    expect(held).toBe(1.5);
    bounds.load(20_000);
    expect(bounds.at(0.747).held).toBe(2);
  });

  it('[MAN-9] without a stall table or beyond the tables are null', () => {
    const none = { ...sandmartin, aerodynamics: { ...sandmartin.aerodynamics, warningAngleRad: () => null } };
    expect(boundsOf(none, 8000, 20_000).at(0.8).warning).toBeNull();
    expect(boundsOf(sandmartin, 8000, 20_000).at(4).warning).toBeNull();
  });
});

describe('what must be monotone', () => {
  const fuel = fc.integer({ min: 0, max: 36_000 });
  const altitude = fc.integer({ min: 0, max: 9_000 });

  it('[MAN-10] more fuel: less load factor to warning, push and structure, faster least speeds', () => {
    fc.assert(
      fc.property(
        fuel,
        altitude,
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        (fuelKg, altitudeM, bankRad) => {
          const light = boundsOf(sandmartin, altitudeM, fuelKg);
          const heavy = boundsOf(sandmartin, altitudeM, fuelKg + 2000);
          for (const key of ['warning', 'push', 'symmetric', 'rolling'] as const) {
            expect(heavy.at(0.6)[key]).toBeLessThan(light.at(0.6)[key] ?? 0);
          }
          const [slow, fast] = [light, heavy].map((bounds) => bounds.speedsFor(levelTurn(bankRad)));
          expect(fast.warning?.mach ?? 9).toBeGreaterThan(slow.warning?.mach ?? 9);
          expect(fast.push?.mach ?? 9).toBeGreaterThan(slow.push?.mach ?? 9);
        },
      ),
      { numRuns: 100 },
    );
  });

  it('[MAN-11] more bank or more height: a faster least speed', () => {
    fc.assert(
      fc.property(
        fuel,
        altitude,
        fc.double({ min: 0, max: 0.8, noNaN: true }),
        (fuelKg, altitudeM, bankRad) => {
          const low = boundsOf(sandmartin, altitudeM, fuelKg);
          const high = boundsOf(sandmartin, altitudeM + 500, fuelKg);
          const mach = low.slowest('warning', levelTurn(bankRad).loadFactor) ?? 9;
          expect(low.slowest('warning', levelTurn(bankRad + 0.05).loadFactor) ?? 9).toBeGreaterThan(mach);
          expect(high.slowest('warning', levelTurn(bankRad).loadFactor) ?? 9).toBeGreaterThan(mach);
        },
      ),
      { numRuns: 100 },
    );
  });

  it('[MAN-12] height lost in a push grows with height above 3000 m, and high up with fuel, wings level', () => {
    const lostAt = (altitudeM: number, fuelKg: number) =>
      pushAt(boundsOf(sandmartin, altitudeM, fuelKg), 0)?.lostM ?? Number.NaN;
    const byFuel = [6_000, 16_000, 26_000, 36_000].map((fuelKg) => lostAt(24_000 * foot, fuelKg));
    const byHeight = [3000, 6000, 9000].map((altitudeM) => lostAt(altitudeM, 30_000));
    for (const lost of [byFuel, byHeight]) {
      for (let i = 1; i < lost.length; i++) expect(lost[i]).toBeGreaterThan(lost[i - 1]);
    }
  });

  it('[MAN-13] the least Mach falls as pressure rises: at twice the pressure sqrt(1/2) of it (q = 0.7 p M^2)', () => {
    const low = boundsOf(jet(), 0, 15_000);
    const halfM = pressureAltitudeOf(101_325 / 2);
    const high = boundsOf(jet(), halfM, 15_000);
    const ratio = (low.slowest('warning', 1) ?? 0) / (high.slowest('warning', 1) ?? 1);
    expect(ratio).toBeCloseTo(Math.SQRT1_2, 4);
  });
});
