import { describe, expect, it } from 'vitest';
import { inletError, shockAngle } from '../../decks/sandmartin/generator/inlet-error.ts';

const degree = Math.PI / 180;

describe('the inlet of Sandmartin off its schedule', () => {
  // NACA Report 1135, chart 2 and its equations (from memory): wave angle of the weak shock by Mach and deflection.
  it.each([
    [2, 10, 39.31],
    [3, 20, 37.76],
    [2.5, 15, 36.94],
  ])('[SM-40] at Mach %d a turn of %d degrees needs a shock at %d degrees', (mach, turn, wave) => {
    expect(shockAngle(mach, turn * degree) / degree).toBeCloseTo(wave, 1);
  });

  it('[SM-41] has no attached shock beyond the greatest deflection, 22.97 degrees at Mach 2 (NACA Report 1135, from memory)', () => {
    expect(shockAngle(2, 22.9 * degree)).toBeGreaterThan(0);
    expect(shockAngle(2, 23.1 * degree)).toBeNaN();
  });

  it('[SM-42] loses recovery both ways, and turns air away only where the ramp is too high', () => {
    for (const mach of [1.5, 2, 2.6, 3]) {
      const low = inletError(mach, -1, 200);
      expect(low.recoveryRatio).toBeLessThan(1);
      expect(low.dragIncrement).toBe(0);
      expect(inletError(mach, 2.5, 200).recoveryRatio).toBeLessThan(1);
      expect(inletError(mach, 2.5, 200).dragIncrement).toBeGreaterThan(0);
    }
  });
});
