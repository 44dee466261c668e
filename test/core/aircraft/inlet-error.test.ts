import { describe, expect, it } from 'vitest';
import type { InletError } from '../../../src/core/aircraft/aircraft.ts';
import { newInletErrorPoint, withInletError } from '../../../src/core/aircraft/inlet-error.ts';
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
});
