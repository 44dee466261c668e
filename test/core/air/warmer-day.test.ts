import { describe, expect, it } from 'vitest';
import { newAir } from '../../../src/core/air/day.ts';
import { offsetDay, standardDay } from '../../../src/core/air/offset-day.ts';
import { warmerDay } from '../../../src/core/air/warmer-day.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

const { day: demoDay } = requestOf(longLoopText);
const degree = Math.PI / 180;
const timeS = Date.UTC(2026, 1, 23, 16) / 1000;

describe('a day made warmer', () => {
  it('[WARM-1] the standard day made warmer is the offset day, in every value and gradient', () => {
    const [warmed, offset] = [warmerDay(warmerDay(standardDay, 12), -5), offsetDay(7)];
    for (const altitude of [-1000, 0, 5000, 11_000, 24_000, 40_000]) {
      const [a, b] = [newAir(), newAir()];
      warmed.sample(0.7, -1.5, altitude, 0, a);
      offset.sample(0.7, -1.5, altitude, 0, b);
      for (const key of ['temperatureK', 'densityKgM3', 'speedOfSoundMS'] as const) {
        expect(a[key] / b[key], key).toBeCloseTo(1, 12);
      }
      expect(a.geometricHeightM).toBeCloseTo(b.geometricHeightM, 6);
      expect(a.temperatureOffsetK).toBeCloseTo(7, 9);
      expect([...a.upward]).toEqual([...b.upward].map((value) => expect.closeTo(value, 12)));
    }
  });

  it('[WARM-2] an analysis keeps winds and pressures; its column stays hydrostatic', () => {
    const warmed = warmerDay(demoDay, 10);
    const [a, b, low, high] = [newAir(), newAir(), newAir(), newAir()];
    for (const altitude of [8000, 15_000, 22_000]) {
      demoDay.sample(45 * degree, -88 * degree, altitude, timeS, a);
      warmed.sample(45 * degree, -88 * degree, altitude, timeS, b);
      expect(b.temperatureK - a.temperatureK).toBeCloseTo(10, 9);
      expect([b.windEastMS, b.windNorthMS, b.pressurePa]).toEqual([
        a.windEastMS,
        a.windNorthMS,
        a.pressurePa,
      ]);
      warmed.sample(45 * degree, -88 * degree, altitude - 5, timeS, low);
      warmed.sample(45 * degree, -88 * degree, altitude + 5, timeS, high);
      // What is added to the height grows by 10 K over the standard temperature for each metre of pressure altitude.
      expect((high.geometricHeightM - low.geometricHeightM) / 10 / b.upward[3]).toBeCloseTo(1, 5);
      expect(b.upward[3]).toBeGreaterThan(a.upward[3]);
    }
  });

  it('[WARM-3] more than 30 K is refused', () => {
    expect(() => warmerDay(standardDay, 31)).toThrow('temperature offset 31 K is outside -30 to 30 K');
  });
});
