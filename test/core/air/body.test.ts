import { describe, expect, it } from 'vitest';
import { bodyBoilingAltitudeM, bodyVapourPressurePa, timeAbove } from '../../../src/core/air/body.ts';
import { standardPressure } from '../../../src/core/air/standard.ts';

const foot = 0.3048;

describe('body', () => {
  it('[BODY-1] water boils at 37 degC at 62 800 ft within 200 ft, 6.27 kPa (common practice)', () => {
    expect(Math.abs(bodyBoilingAltitudeM / foot - 62_800)).toBeLessThan(200);
    expect(bodyVapourPressurePa / 1000).toBeCloseTo(6.27, 2);
  });

  it("[BODY-2] the vapour pressure agrees with Buck's equation (1996, from memory) within 0.3 %", () => {
    const buck = 611.21 * Math.exp((18.678 - 37 / 234.5) * (37 / (257.14 + 37)));
    expect(Math.abs(bodyVapourPressurePa / buck - 1)).toBeLessThan(0.003);
  });

  it('[BODY-3] 80 000 ft has 2.76 kPa (US Standard Atmosphere 1976)', () => {
    expect(standardPressure(80_000 * foot) / 1000).toBeCloseTo(2.76, 2);
  });

  it('[BODY-4] time above an altitude counts the parts of a climb and a descent', () => {
    expect(timeAbove(100, [0, 10, 30, 50], [0, 200, 200, 50])).toBeCloseTo(5 + 20 + (20 * 100) / 150, 12);
    expect(timeAbove(100, [0, 10], [100, 100])).toBe(0);
    expect(timeAbove(300, [0, 10, 30], [0, 200, 200])).toBe(0);
  });
});
