import { describe, expect, it } from 'vitest';
import type { Day, DayGap } from '../../../src/core/air/day.ts';
import { spreadBeyond } from '../../../src/core/air/gap-spread.ts';
import { offsetDay } from '../../../src/core/air/offset-day.ts';
import { totalTemperature } from '../../../src/core/air/thermally-perfect.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

const gap: DayGap = {
  side: 'above',
  edgeM: 19_000,
  spreads: [
    { beyondM: 1000, spreadK: 2 },
    { beyondM: 5000, spreadK: 6 },
  ],
};
const warm = offsetDay(3);
/** A day whose data are said to end at an edge; its air does not matter here. */
const endingAt = (...gaps: DayGap[]): Day => ({
  ...warm,
  sample: warm.sample.bind(warm),
  description: { ...warm.description, gaps },
});
const planOn = (day: Day) => makePlan({ ...requestOf(longLoopText), day });

describe('weather that ends below the flight', () => {
  it('[GAP-1] a spread is linear between the heights where it is known, and holds further on', () => {
    const values = [0, 500, 1000, 3000, 5000, 9000].map((beyondM) => spreadBeyond(gap, beyondM));
    expect(values).toEqual([0, 1, 2, 4, 6, 6]);
    expect(spreadBeyond({ ...gap, spreads: [] }, 100)).toBeNaN();
  });

  it('[GAP-2] says how far the flight went beyond the edge, and how far the temperature may be off there', () => {
    const plan = planOn(endingAt(gap));
    const highest = Math.max(...plan.trace.columns.pressureAltitudeM);
    const [found] = plan.weather.gaps;
    expect(found.flownBeyondM).toBeCloseTo(highest - 19_000, 9);
    expect(found.spreadK).toBeCloseTo(2 + (highest - 20_000) / 1000, 9);
    // US Standard Atmosphere 1976: 226.32 hPa at 11 000 m, isothermal above with a scale height of 6341.62 m.
    expect(found.edgePa / 100).toBeCloseTo(226.32 * Math.exp(-8000 / 6341.62), 2);
    expect(plan.notComputed.join()).toContain('what held weather does to thrust, fuel and time');
  });

  it('[GAP-3] adds to the spread of the inlet temperature, at constant Mach and with the recovery of its probe', () => {
    const plan = planOn(endingAt(gap));
    const of = (key: string) => plan.limits.find((limit) => limit.key === key);
    const inlet = of('inletTemperature');
    const { timeS, temperatureK, trueAirspeedMS, pressureAltitudeM } = plan.trace.columns;
    const node = timeS.findIndex((time) => time >= (inlet?.timeS ?? 0));
    // By difference over 1 K, the speed growing with the root of the temperature as Mach is held.
    const total = (changeK: number) => {
      const speed = trueAirspeedMS[node] * Math.sqrt(1 + changeK / temperatureK[node]);
      return totalTemperature(temperatureK[node] + changeK, speed);
    };
    const slope = 0.01 + 0.99 * (total(0.5) - total(-0.5));
    const offset = spreadBeyond(gap, pressureAltitudeM[node] - 19_000);
    expect(offset).toBeGreaterThan(1);
    expect(inlet?.weatherSpread).toBeCloseTo(offset * slope, 4);
    // The deck states 2 K.
    expect(inlet?.spread).toBeCloseTo(Math.sqrt(4 + (offset * slope) ** 2), 4);
    expect(of('mach')).toMatchObject({ spread: 0.005, weatherSpread: 0 });
  });

  it('[GAP-4] adds nothing where the flight stays within the data, or to a margin that is least within them', () => {
    const within = planOn(endingAt({ ...gap, edgeM: 30_000 }));
    expect(within.weather.gaps[0]).toMatchObject({ flownBeyondM: 0, spreadK: 0 });
    expect(within.limits.every(({ weatherSpread }) => weatherSpread === 0)).toBe(true);
    expect(within.notComputed.join()).not.toContain('held weather');
    const below = planOn(endingAt({ ...gap, side: 'below', edgeM: 3000 }));
    expect(below.weather.gaps[0].flownBeyondM).toBeGreaterThan(2500);
    expect(below.limits.find(({ key }) => key === 'inletTemperature')).toMatchObject({
      spread: 2,
      weatherSpread: 0,
    });
  });

  it('[GAP-5] says so where the data are too thin to tell', () => {
    const [found] = planOn(endingAt({ ...gap, spreads: [] })).weather.gaps;
    expect(found.flownBeyondM).toBeGreaterThan(0);
    expect(found.spreadK).toBe(null);
  });
});
