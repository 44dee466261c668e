import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { newAir } from '../../../src/core/air/day.ts';
import { offsetDay, standardDay } from '../../../src/core/air/offset-day.ts';
import {
  geometricFromGeopotential,
  geopotentialFromGeometric,
  highestAltitudeM,
  layerBaseM,
  lowestAltitudeM,
  pressureAltitudeOf,
  standardPressure,
  standardTemperature,
} from '../../../src/core/air/standard.ts';
import { OutsideRange } from '../../../src/core/quantities/errors.ts';

const altitudes = fc.double({ min: lowestAltitudeM, max: highestAltitudeM, noNaN: true });

describe('the standard atmosphere', () => {
  it.each(layerBaseM.slice(1, -1))('[AIR-1] temperature and pressure are continuous at %d m', (base) => {
    const [below, above] = [base - 1e-6, base + 1e-6];
    expect(Math.abs(standardTemperature(above) - standardTemperature(below))).toBeLessThan(1e-8);
    const step = standardPressure(below) / standardPressure(above) - 1;
    // Over 2e-6 m the hydrostatic fall is below 4e-10.
    expect(step).toBeGreaterThan(0);
    expect(step).toBeLessThan(4e-10);
  });

  it('[AIR-2] pressure altitude of a pressure is the inverse', () => {
    fc.assert(
      fc.property(altitudes, (altitude) => {
        expect(Math.abs(pressureAltitudeOf(standardPressure(altitude)) - altitude)).toBeLessThan(1e-7);
      }),
    );
  });

  it('[AIR-3] the column is hydrostatic: dp/dH = -g0 p/(R T)', () => {
    fc.assert(
      fc.property(fc.double({ min: -4900, max: 84800, noNaN: true }), (altitude) => {
        const step = 0.5;
        if (layerBaseM.some((base) => Math.abs(base - altitude) < 1)) return;
        const slope =
          (Math.log(standardPressure(altitude + step)) - Math.log(standardPressure(altitude - step))) /
          (2 * step);
        const expected = -9.80665 / ((8314.32 / 28.9644) * standardTemperature(altitude));
        expect(slope / expected - 1).toBeCloseTo(0, 7);
      }),
    );
  });

  it.each([Number.NaN, -5004, 84853, Infinity])('[AIR-4] refuses a pressure altitude of %d m', (altitude) => {
    expect(() => standardTemperature(altitude)).toThrow(OutsideRange);
    expect(() => standardPressure(altitude)).toThrow(/is outside .* of the US Standard Atmosphere 1976/);
  });

  it.each([Number.NaN, 0, -1, 1.8e5, 0.1])('[AIR-4] refuses a pressure of %d Pa', (pressure) => {
    expect(() => pressureAltitudeOf(pressure)).toThrow(OutsideRange);
  });

  it('[AIR-5] takes -0 as 0', () => {
    expect(standardPressure(-0)).toBeCloseTo(101325, 9);
    expect(standardTemperature(-0)).toBe(288.15);
    expect(geometricFromGeopotential(-0)).toBe(-0);
  });

  it('[AIR-6] geopotential and geometric height are inverse', () => {
    fc.assert(
      fc.property(fc.double({ min: -5000, max: 86000, noNaN: true }), (height) => {
        expect(Math.abs(geometricFromGeopotential(geopotentialFromGeometric(height)) - height)).toBeLessThan(
          1e-9,
        );
      }),
    );
  });
});

describe('the offset day', () => {
  const air = newAir();

  it('[DAY-1] keeps pressure and warms by its offset', () => {
    offsetDay(5).sample(0.7, 1, 20000, 0, air);
    expect(air.pressurePa).toBe(standardPressure(20000));
    expect(air.temperatureK).toBeCloseTo(221.65, 10);
    expect(air.temperatureOffsetK).toBe(5);
    expect(air.densityKgM3).toBeCloseTo(air.pressurePa / ((8314.32 / 28.9644) * 221.65), 10);
  });

  it('[DAY-2] its height is the integral of the hydrostatic relation', () => {
    for (const offset of [-20, 0, 5, 25]) {
      const day = offsetDay(offset);
      for (const top of [500, 11000, 15240, 24384, 40000, 60000]) {
        day.sample(0, 0, top, 0, air);
        const geopotential = geopotentialFromGeometric(air.geometricHeightM);
        expect(Math.abs(geopotential - thickness(offset, top))).toBeLessThan(1e-5);
      }
    }
  });

  it('[DAY-3] its gradients are those of its values', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -4900, max: 84700, noNaN: true }),
        fc.integer({ min: -30, max: 30 }),
        (at, offset) => {
          if (layerBaseM.some((base) => Math.abs(base - at) < 1)) return;
          const day = offsetDay(offset);
          const [low, middle, high] = [at - 0.5, at, at + 0.5].map((altitude) => {
            const sample = newAir();
            day.sample(0, 0, altitude, 0, sample);
            return sample;
          });
          expect(middle.upward[0]).toBeCloseTo(high.temperatureK - low.temperatureK, 9);
          expect(middle.upward[3]).toBeCloseTo(high.geometricHeightM - low.geometricHeightM, 7);
        },
      ),
    );
  });

  it('[DAY-4] marks what is outside and gives the edge', () => {
    standardDay.sample(0, 0, 90000, 0, air);
    expect(air.outside).toBe(2);
    expect(air.temperatureK).toBe(standardTemperature(highestAltitudeM));
    standardDay.sample(0, 0, -6000, 0, air);
    expect(air.outside).toBe(1);
    standardDay.sample(0, 0, Number.NaN, 0, air);
    expect(air.outside).toBe(1);
    expect(air.temperatureK).toBe(standardTemperature(lowestAltitudeM));
  });

  it('[DAY-5] leaves nothing of another day in the air', () => {
    air.eastward.fill(7);
    air.northward.fill(7);
    air.upward.fill(7);
    air.perSecond.fill(7);
    standardDay.sample(0, 0, 11000, 0, air);
    expect([...air.eastward, ...air.northward, ...air.perSecond]).toEqual(new Array(12).fill(0));
    expect([...air.upward.slice(0, 3)]).toEqual([0, 0, 0]);
  });

  it('[DAY-6] refuses an offset that no day has', () => {
    expect(() => offsetDay(60)).toThrow('temperature offset 60 K is outside -50 to 50 K of an offset day');
    expect(() => offsetDay(Number.NaN)).toThrow(OutsideRange);
  });
});

/** Geopotential height of a pressure altitude on an offset day by Simpson's rule over each layer. */
function thickness(offset: number, top: number): number {
  let sum = 0;
  const edges = [...layerBaseM.filter((base) => base < top), top];
  for (let layer = 0; layer + 1 < edges.length; layer++) {
    const steps = 2000;
    const width = (edges[layer + 1] - edges[layer]) / steps;
    for (let i = 0; i < steps; i++) {
      const at = edges[layer] + i * width;
      const stretch = (altitude: number) => 1 + offset / standardTemperature(altitude);
      sum += (width / 6) * (stretch(at) + 4 * stretch(at + width / 2) + stretch(at + width));
    }
  }
  return sum;
}
