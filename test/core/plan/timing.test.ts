/** Seconds by speed and by path against closed forms. */
import { describe, expect, it } from 'vitest';
import { speedOfSound, standardTemperature } from '../../../src/core/air/standard.ts';
import { draftOf } from '../../../src/core/plan/draft.ts';
import { doglegExtra, secondsBySpeed, timingsOf } from '../../../src/core/plan/timing.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

const mile = 1852;
const knot = mile / 3600;
const degree = Math.PI / 180;

describe('time on target', () => {
  /** On the standard day at 80 000 ft, between Mach 3.1 and 3.2: d/v - d/(v + 0.1 a). */
  it('[TIM-1] a tenth of Mach is 58 kt and 63 s over 1000 nm', () => {
    const sound = speedOfSound(standardTemperature(80_000 * 0.3048));
    expect((0.1 * sound) / knot).toBeCloseTo(58, 0);
    expect(Math.abs(secondsBySpeed(1000 * mile, 3.1 * sound, 3.2 * sound) - 63)).toBeLessThan(1);
  });

  /** 1 / cos 20 deg = 1.06418. */
  it('[TIM-2] a dogleg of 20 degrees is 6.4 % longer', () => {
    expect(100 * doglegExtra(20 * degree)).toBeCloseTo(6.418, 3);
  });

  it('[TIM-3] before each descent of the demonstration both ways are open, and the limits are kept', () => {
    const timings = timingsOf(draftOf(requestOf(longLoopText)));
    expect(timings.map(({ to }) => to)).toEqual(['Ewer Two', 'Harrow Flat']);
    for (const timing of timings) {
      // The deck's greatest Mach is 3.0.
      expect(timing.mach + timing.fasterMach).toBeLessThanOrEqual(3.0 + 1e-6);
      expect(timing.earlierS).toBeGreaterThan(0);
      const straightS = timing.toS - timing.fromS;
      expect(timing.laterByPathS / straightS).toBeCloseTo(0.06418, 4);
      // By hand: a part x less speed takes x / (1 - x) of the time more; 0.1 of 2.85 is 3.64 %, with 10 % of wind 3.2 to 4.1 %.
      expect(timing.laterBySpeedS / straightS).toBeGreaterThan(0.032);
      expect(timing.laterBySpeedS / straightS).toBeLessThan(0.041);
    }
  });
});
