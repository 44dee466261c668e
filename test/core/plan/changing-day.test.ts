import { expect, it } from 'vitest';
import { gridDay } from '../../../src/core/air/grid-day.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { readWeather } from '../../../src/files/weather.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

it('[UNS-4] a sortie on a day of two equal times is that on the day of one time, held', async () => {
  const field = await readWeather('examples/weather/era5-2020-02-23T16Z-30N54N-100W75W.nc');
  const twice = (values: Float32Array) => {
    const both = new Float32Array(2 * values.length);
    both.set(values);
    both.set(values, values.length);
    return both;
  };
  const firstS = Date.UTC(2026, 1, 23, 14) / 1000;
  const changing = gridDay(
    {
      ...field,
      timesS: Float64Array.of(firstS, firstS + 6 * 3600),
      temperatureK: twice(field.temperatureK),
      geopotential: twice(field.geopotential),
      windEastMS: twice(field.windEastMS),
      windNorthMS: twice(field.windNorthMS),
    },
    { time: 'refuse', top: 'refuse', bottom: 'holdOffset', maximumGapS: 6 * 3600 },
  );
  const request = requestOf(longLoopText);
  const [held, other] = [request.day, changing].map((day) => makePlan({ ...request, day }));
  expect(changing.steady).toBe(false);
  expect(other.phases.map(({ name }) => name)).toEqual(held.phases.map(({ name }) => name));
  held.phases.forEach(({ endS, fuelKg }, i) => {
    expect(Math.abs(other.phases[i].endS - endS)).toBeLessThan(0.01);
    expect(Math.abs(other.phases[i].fuelKg - fuelKg)).toBeLessThan(0.05);
  });
});
