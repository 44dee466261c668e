import { describe, expect, it } from 'vitest';
import {
  geometricDip,
  horizonDip,
  horizonLowering,
  sunsetElevation,
} from '../../../src/core/earth/horizon.ts';

const degree = Math.PI / 180;
const foot = 0.3048;

describe('horizon', () => {
  it('[HORIZON-1] dips 5.0 deg at 80 000 ft: common practice', () => {
    expect(geometricDip(80_000 * foot) / degree).toBeCloseTo(5.0, 1);
    // The sun sets later by the dip over 15 deg an hour: 20 min at the equator at equinox, 28 min at 45 deg (common practice).
    const minutes = geometricDip(80_000 * foot) / degree / 0.25;
    expect(minutes).toBeCloseTo(20, 0);
    expect(minutes / Math.cos(45 * degree)).toBeCloseTo(28, 0);
  });

  it("[HORIZON-2] near the sea it is seen where the nautical almanac has it, 1.76' for the root of a metre (from memory)", () => {
    for (const height of [4, 25, 100, 400]) {
      const almanac = (1.76 / 60) * Math.sqrt(height);
      expect(horizonDip(height) / degree / almanac).toBeGreaterThan(0.98);
      expect(horizonDip(height) / degree / almanac).toBeLessThan(1.02);
    }
  });

  it("[HORIZON-3] at the sea the sun sets at -50', the almanacs' value", () => {
    expect(sunsetElevation(0) / degree).toBeCloseTo(-50 / 60, 6);
    expect(horizonLowering(0)).toBeCloseTo(0, 8);
  });

  it("[HORIZON-4] with height the sun sets lower by 2.076' for the root of a metre, within 0.1 deg (sunrise equation, from memory)", () => {
    for (let height = 100; height <= 25_000; height += 100) {
      const rule = -50 / 60 - (2.076 / 60) * Math.sqrt(height);
      expect(Math.abs(sunsetElevation(height) / degree - rule)).toBeLessThan(0.1);
    }
  });

  it('[HORIZON-5] refuses heights below the sea and above 50 km', () => {
    expect(() => geometricDip(-1)).toThrow('height -1 m is outside 0 to 50000 m of the horizon');
    expect(() => horizonDip(50_001)).toThrow(/outside/);
    expect(() => sunsetElevation(Number.NaN)).toThrow(/NaN/);
  });
});
