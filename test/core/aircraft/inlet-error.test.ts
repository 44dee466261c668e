import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import { pressureAltitudeOf } from '../../../src/core/air/standard.ts';
import type { InletError } from '../../../src/core/aircraft/aircraft.ts';
import { newInletErrorPoint, withInletError } from '../../../src/core/aircraft/inlet-error.ts';
import { Line } from '../../../src/core/earth/line.ts';
import { ROTATING_EARTH } from '../../../src/core/flight/earth-model.ts';
import { ENGINEERING, Flight } from '../../../src/core/flight/flight.ts';
import { constantMach } from '../../../src/core/flight/speed-law.ts';
import { sandmartin } from '../../support/demo.ts';
import { idealJet } from '../../support/ideal-jet.ts';

/** A tenth of the thrust, a twentieth of the flow and 0.001 of drag for each unit of error. */
const straight: InletError = {
  schedule: 'ramp',
  leastRad: -1,
  mostRad: 1,
  at(_mach, errorRad, out) {
    out.thrustRatio = 1 - 0.1 * Math.abs(errorRad);
    out.fuelFlowRatio = 1 - 0.05 * Math.abs(errorRad);
    out.dragIncrement = 0.001 * Math.abs(errorRad);
    out.shockMarginRad = 1 - errorRad;
  },
};
const jet = {
  ...idealJet({ areaM2: 100, zeroLiftDrag: 0.01, inducedFactor: 0.1, consumption: 3e-4 }),
  inletError: straight,
};
const engine = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };
const aero = { liftSlope: 0, zeroLiftAngleRad: 0, zeroLiftDrag: 0, inducedFactor: 0, outside: 0 };

describe('an inlet off its schedule', () => {
  it('[INL-1] takes thrust and flow at a power by its ratios and adds its drag', () => {
    const off = withInletError(jet, -0.5);
    off.propulsion.at(0.8, 2, 0, 0, 0, engine);
    expect(engine.thrustN).toBeCloseTo(0.8e6 * 0.95, 6);
    expect(engine.fuelFlowKgS).toBeCloseTo(((0.8e6 * 3e-4) / 9.80665) * 0.975, 9);
    off.aerodynamics.at(2, 0, 0, 0, aero);
    expect(aero.zeroLiftDrag).toBeCloseTo(0.0105, 12);
  });

  it('[INL-2] needs more power for the same thrust: that of so much more without the error', () => {
    const off = withInletError(jet, 1);
    off.propulsion.powerFor(0.45e6, 2, 0, 0, 0, engine);
    expect(engine.power).toBeCloseTo(0.5, 12);
    expect(engine.thrustN).toBeCloseTo(0.45e6, 6);
    off.propulsion.powerFor(0.95e6, 2, 0, 0, 0, engine);
    expect(engine.power).toBeNaN();
  });

  it('[INL-3] does half of it where one of two inlets is off', () => {
    withInletError(jet, 1, 0.5).propulsion.at(1, 2, 0, 0, 0, engine);
    expect(engine.thrustN).toBeCloseTo(0.95e6, 6);
    expect(withInletError(jet, 0)).toBe(jet);
  });

  it('[INL-4] Sandmartin loses thrust and margin with each step away from the schedule, and nothing on it', () => {
    const { inletError } = sandmartin;
    const point = newInletErrorPoint();
    for (const mach of [1.3, 1.6, 2, 2.4, 2.85, 3, 3.2]) {
      const at = (deg: number) => {
        inletError?.at(mach, (deg * Math.PI) / 180, point);
        return { ...point };
      };
      expect(at(0).thrustRatio).toBe(1);
      expect(at(0).dragIncrement).toBe(0);
      for (const side of [-1, 1]) {
        for (let deg = 0; deg < 3; deg += 0.25) {
          const [near, far] = [at(side * deg), at(side * (deg + 0.25))];
          expect(far.thrustRatio).toBeLessThanOrEqual(near.thrustRatio);
          expect(far.dragIncrement).toBeGreaterThanOrEqual(near.dragIncrement);
          // The shock is expelled by a ramp too high, one degree for one degree.
          expect(far.shockMarginRad - near.shockMarginRad).toBeCloseTo((-side * 0.25 * Math.PI) / 180, 9);
        }
      }
    }
  });

  it('[INL-5] costs no less thrust, drag and fuel in level flight the further it is off, on either side, at any Mach', () => {
    const { inletError } = sandmartin;
    if (inletError === null) throw new Error('the deck has a table of it');
    const { leastRad, mostRad } = inletError;
    const off = fc.record({
      mach: fc.double({ min: 1.3, max: 3, noNaN: true }),
      fuelKg: fc.double({ min: 2000, max: 38_500, noNaN: true }),
      side: fc.constantFrom(leastRad, mostRad),
      near: fc.double({ min: 0, max: 1, noNaN: true }),
      beyond: fc.double({ min: 0, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(off, ({ mach, fuelKg, side, near, beyond }) => {
        const [less, more] = [near, near + beyond * (1 - near)].map((part) => part * side);
        const [a, b] = [less, more].map((errorRad) => {
          const point = newInletErrorPoint();
          inletError.at(mach, errorRad, point);
          return point;
        });
        expect(a.thrustRatio).toBeLessThanOrEqual(1);
        expect(a.dragIncrement).toBeGreaterThanOrEqual(0);
        expect(b.thrustRatio).toBeLessThanOrEqual(a.thrustRatio + 1e-12);
        expect(b.dragIncrement).toBeGreaterThanOrEqual(a.dragIncrement - 1e-12);
        // Too high moves toward expelling the shock, too low away from it, degree for degree.
        expect(b.shockMarginRad - a.shockMarginRad).toBeCloseTo(less - more, 9);
        const [none, least, most] = [0, less, more].map((errorRad) => flowIn(mach, fuelKg, errorRad));
        // Below minimum afterburner, which then gives more than is needed, the engine burns what it swallows.
        fc.pre(none > 0);
        expect(least).toBeGreaterThanOrEqual(none * (1 - NEAR));
        expect(most).toBeGreaterThanOrEqual(least * (1 - NEAR));
      }),
    );
  });
});

/** The search for an angle of attack ends within a ten millionth. */
const NEAR = 1e-6;

/**
 * Fuel flow in level flight at the height of 400 KEAS [kg/s]: infinite where the thrust is not there, 0 where it lies between military
 * power and minimum afterburner.
 */
function flowIn(mach: number, fuelKg: number, errorRad: number): number {
  const aircraft = withInletError(sandmartin, errorRad);
  const zeroFuelMassKg = aircraft.balance.emptyMassKg;
  const flight = new Flight({
    aircraft,
    day: standardDay,
    earth: ROTATING_EARTH,
    tolerance: ENGINEERING,
    zeroFuelMassKg,
  });
  // q = gamma / 2 p M^2 = rho0 / 2 EAS^2, and 400 kt are 205.78 m/s.
  const pressurePa = (1.225 * 205.78 ** 2) / (1.4 * mach * mach);
  const track = new Line({ latitudeRad: 0.8, longitudeRad: 0 }, { latitudeRad: 0.8, longitudeRad: 0.02 });
  flight.placeOnTrack(track, 0, pressureAltitudeOf(pressurePa), 0);
  flight.levelOnLaw(constantMach(mach), zeroFuelMassKg + fuelKg);
  if (flight.short) return Number.POSITIVE_INFINITY;
  const { minimumAfterburner, military } = aircraft.propulsion;
  const { power, fuelFlowKgS } = flight.forces;
  return power > military && power <= (minimumAfterburner ?? military) ? 0 : fuelFlowKgS;
}
