import { describe, expect, it } from 'vitest';
import { gridDay } from '../../../src/core/air/grid-day.ts';
import type { PlanRequest } from '../../../src/core/plan/draft.ts';
import { rulesOf } from '../../../src/core/plan/rules.ts';
import { slipOf, slipped } from '../../../src/core/plan/slip.ts';
import { readWeather } from '../../../src/files/weather.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const hour = 3600;
const takeOffS = Date.UTC(2026, 1, 23, 15, 30) / 1000;
const request = requestOf(longLoopText);
const field = await readWeather('examples/weather/era5-2020-02-23T16Z-30N54N-100W75W.nc');

/** The analysis at some hours after take-off, warmer by so many kelvin at each, linear between them. */
function warming(hours: readonly (readonly [hour: number, warmerK: number])[]): PlanRequest {
  const repeat = (values: Float32Array, byHour: readonly number[] | null) => {
    const all = new Float32Array(hours.length * values.length);
    hours.forEach((_, i) => {
      all.set(byHour === null ? values : values.map((value) => value + byHour[i]), i * values.length);
    });
    return all;
  };
  const day = gridDay(
    {
      ...field,
      timesS: Float64Array.from(hours, ([at]) => takeOffS + at * hour),
      temperatureK: repeat(
        field.temperatureK,
        hours.map(([, warmer]) => warmer),
      ),
      geopotential: repeat(field.geopotential, null),
      windEastMS: repeat(field.windEastMS, null),
      windNorthMS: repeat(field.windNorthMS, null),
    },
    { time: 'refuse', top: 'refuse', bottom: 'holdOffset', maximumGapS: 24 * hour },
  );
  return { ...request, day };
}

const minutes = (first: number, last: number, step: number): number[] =>
  Array.from({ length: (last - first) / step + 1 }, (_, i) => (first + i * step) * 60);

describe('a later take-off', () => {
  it('[SLP-1] moves the take-off and its validity, and nothing else', () => {
    const { takeOff, ...rest } = slipped(request.sortie, 600);
    const { takeOff: before, ...restBefore } = request.sortie;
    expect([takeOff.timeS, takeOff.fromS, takeOff.toS]).toEqual(
      [before.timeS, before.fromS, before.toS].map((time) => time + 600),
    );
    expect(rest).toEqual(restBefore);
  });

  it('[SLP-2] costs nothing on a day whose weather is held', () => {
    const { rows, steady, worst } = slipOf(request, minutes(0, 60, 20));
    expect(steady).toBe(true);
    expect(worst).toBe(null);
    expect(rows.map(({ takeOff }) => takeOff)).toEqual([
      '2026-02-23T15:30Z',
      '2026-02-23T15:50Z',
      '2026-02-23T16:10Z',
      '2026-02-23T16:30Z',
    ]);
    for (const { landingFuelKg, worst: least, flyable } of rows) {
      expect(flyable).toBe(true);
      expect(landingFuelKg).toBeCloseTo(rows[0].landingFuelKg ?? Number.NaN, 1);
      expect(least?.inHandKg).toBeCloseTo(rows[0].worst?.inHandKg ?? Number.NaN, 1);
    }
  });

  /**
   * The sortie takes less than 3.5 h. Between 8 h and 11.6 h after the first take-off every place is 8 K warmer, outside 7.6 h
   * to 12 h no place is: of take-offs each 4 h only the one after 8 h meets the warm air, and it meets nothing else. Warm air
   * takes thrust from the climb and so costs fuel.
   */
  it('[SLP-3] is worst where the air is warm, by construction after 480 min, and as planned where it is not', () => {
    const warm = warming([[-1, 0], [7.6, 0], [8, 8], [11.6, 8], [12, 0], [24, 0]]); // biome-ignore format: pairs
    const { rows, worst, steady } = slipOf(warm, minutes(0, 960, 240));
    expect(steady).toBe(false);
    expect(rows.map(({ slipS }) => slipS / 60)).toEqual([0, 240, 480, 720, 960]);
    expect(worst).toBe(2);
    const inHand = rows.map((row) => row.worst?.inHandKg ?? Number.NaN);
    expect(inHand[0] - inHand[2]).toBeGreaterThan(50);
    for (const i of [1, 3, 4]) expect(Math.abs(inHand[i] - inHand[0])).toBeLessThan(0.5);
  });

  it('[SLP-4] beyond the last time of the weather says why it is not planned, and plans the others', () => {
    const { rows } = slipOf(warming([[-1, 0], [4.5, 0]]), minutes(0, 120, 60)); // biome-ignore format: pairs
    expect(rows.map(({ cannot }) => cannot === null)).toEqual([true, true, false]);
    expect(rows[2].cannot).toMatch(/the day covers 2026-02-23T14:30Z to 2026-02-23T20:00Z/);
    expect([rows[2].flyable, rows[2].worst, rows[2].landingFuelKg]).toEqual([null, null, null]);
  });

  it('[SLP-5] one that cannot be flown says what binds', () => {
    const short = requestOf(change(longLoopText, ['take: 17000 kg', 'take: 9000 kg']));
    const { rows } = slipOf(short, minutes(0, 10, 10));
    expect(rows.map(({ flyable }) => flyable)).toEqual([false, false]);
    expect(rows[0].failure?.limit).toBe('fuelRequired');
  });

  /**
   * Sunset at 33.2 N 93.6 W on 23 February is near 00:00 UTC (18.2 h of local mean time, from memory): a take-off at 15:30 is
   * in daylight, one eleven hours later in the night.
   */
  it('[SLP-6] carries the light at take-off, contacts and landing', () => {
    const { rows } = slipOf(request, [0, 11 * hour]);
    expect(rows[0].places.map(({ kind }) => kind)).toEqual(['take-off', 'contact', 'contact', 'landing']);
    expect(rows[0].places.map(({ light }) => light)).toEqual(['day', 'day', 'day', 'day']);
    expect(rows[1].places[0].light).toBe('night');
  });

  /** By construction every place is warmer by 6.5 K after 13 h, 1/12 K each ten minutes; its costs are those of a degree in that part. */
  it('[SLP-7] costs, on a day that warms everywhere, what the warmth meanwhile costs, and ends by the duty of the crew all the same', () => {
    const { drivers, gates } = rulesOf(warming([[-1, 0], [12, 6.5]])); // biome-ignore format: pairs
    const of = (key: string) => {
      const found = drivers.find((driver) => driver.key === key);
      if (!found) throw new Error(`no rule for ${key}`);
      return found;
    };
    const later = of('takeOffSlip');
    of('temperature').costs.forEach(({ perStepKg }, gate) => {
      const kg = (perStepKg ?? Number.NaN) / 12;
      expect(Math.abs((later.costs[gate].perStepKg ?? Number.NaN) - kg)).toBeLessThan(0.1 * kg + 1);
    });
    const [{ passes, limit }] = later.edges;
    const leftS = (9 - 3 - 0.75) * hour - (gates[2].timeS ?? Number.NaN);
    expect(limit).toBe('duty');
    // The flight itself is a little longer in warmer air.
    expect(Math.abs((passes ?? Number.NaN) / leftS - 1)).toBeLessThan(0.02);
  });
});
