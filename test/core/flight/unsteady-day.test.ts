import { describe, expect, it } from 'vitest';
import { type Day, newAir, WIND_EAST } from '../../../src/core/air/day.ts';
import { gridDay } from '../../../src/core/air/grid-day.ts';
import type { GridField, GridRules } from '../../../src/core/air/grid-field.ts';
import { newLinePoint } from '../../../src/core/earth/line.ts';
import { ChangingAir } from '../../../src/core/flight/changing-air.ts';
import { flatEarth } from '../../../src/core/flight/earth-model.ts';
import { constantMach } from '../../../src/core/flight/speed-law.ts';
import { cruise } from '../../../src/core/phases/cruise.ts';
import { exactFlight, parallelTrack, stateAt } from '../../support/benchmark.ts';
import { idealJet } from '../../support/ideal-jet.ts';

const degree = Math.PI / 180;
const refuse: GridRules = { time: 'refuse', top: 'refuse', bottom: 'refuse' };
const jet = idealJet({ areaM2: 50, zeroLiftDrag: 0.02, inducedFactor: 0.1, consumption: 1e-4 });
const track = parallelTrack(35 * degree, 1);
const temperatureK = 220;

/** An air that is the same everywhere, with a wind to the east of its own at each time. */
function field(hours: readonly number[], windEastMS: readonly number[]): GridField {
  const [levels, points] = [[300, 150, 70], 9];
  const each = levels.length * points;
  const fill = (value: (time: number, level: number) => number) =>
    Float32Array.from({ length: hours.length * each }, (_, i) =>
      value(Math.floor(i / each), Math.floor((i % each) / points)),
    );
  const grid = (middleDeg: number) => Float64Array.of(-5, 0, 5).map((step) => (middleDeg + step) * degree);
  return {
    title: 'made for a test',
    attribution: [],
    timesS: Float64Array.from(hours, (hour) => hour * 3600),
    pressuresPa: Float64Array.from(levels, (hPa) => 100 * hPa),
    latitudesRad: grid(35),
    longitudesRad: grid(0),
    temperatureK: fill(() => temperatureK),
    windEastMS: fill((time) => windEastMS[time]),
    windNorthMS: fill(() => 0),
    geopotential: fill((_, level) => -287.053 * temperatureK * Math.log(levels[level] / 1013.25)),
  };
}

function flown(day: Day, timeS: number) {
  const state = stateAt(12_000, 0.8 * Math.sqrt(1.4 * 287.053072 * temperatureK), 20_000);
  const stops = [{ at: 'time', timeS }] as const;
  const end = cruise(exactFlight(jet, flatEarth(), { day }), state, track, {
    law: constantMach(0.8),
    altitude: 'hold',
    stops,
  });
  return { end, state };
}

describe('a day that changes with time', () => {
  it('[UNS-0] has no rate of change where it is held, also after a look between its times', () => {
    const day = gridDay(field([0, 2], [0, 36]), { ...refuse, time: 'hold' });
    const prepared = new ChangingAir(day, track, day.timesS);
    const point = newLinePoint();
    track.at(0, point);
    const air = newAir();
    const layer = prepared.layerOf(12_000);
    prepared.sample(0, point, layer, 12_000, 3600, air);
    expect(air.perSecond[WIND_EAST]).toBeCloseTo(36 / 7200, 9);
    for (const timeS of [-600, 7800]) {
      prepared.sample(0, point, layer, 12_000, timeS, air);
      expect([...air.perSecond]).toEqual([0, 0, 0, 0]);
    }
  });

  it('[UNS-1] carries the flight with a wind that grows: x = V t + w t^2/2', () => {
    const day = gridDay(field([0, 2], [0, 36]), refuse);
    expect(day.steady).toBe(false);
    const { end, state } = flown(day, 5400);
    expect(end.reason).toBe('time');
    // Speed of sound sqrt(1.4 R T) with R = 8314.32/28.9644 (US Standard Atmosphere 1976); w = 36 m/s in 7200 s.
    const speed = 0.8 * Math.sqrt(1.4 * (8314.32 / 28.9644) * temperatureK);
    expect(Math.abs(state.distanceM - (speed * 5400 + (0.5 * 36 * 5400 ** 2) / 7200))).toBeLessThan(0.01);
  });

  it('[UNS-2] with equal times is the steady day', () => {
    const changing = flown(gridDay(field([0, 2], [25, 25]), refuse), 5400).state;
    const held = flown(gridDay(field([1], [25]), { ...refuse, time: 'hold' }), 5400).state;
    expect(Math.abs(changing.distanceM - held.distanceM)).toBeLessThan(1e-3);
    expect(Math.abs(changing.massKg - held.massKg)).toBeLessThan(1e-5);
  });

  it('[UNS-3] ends the flight where its times end and in a gap that is too long, with what it covers', () => {
    const past = flown(gridDay(field([0, 1], [0, 0]), refuse), 5400);
    expect(past.end.reason).toBe('outside:day');
    expect(past.state.timeS).toBeGreaterThanOrEqual(3600);
    const gap = flown(gridDay(field([0, 1, 5], [0, 0, 0]), { ...refuse, maximumGapS: 3 * 3600 }), 5400);
    expect(gap.end.reason).toBe('outside:day');
    expect(gap.end.text).toContain('without 1970-01-01T01:00Z to 1970-01-01T05:00Z (gaps of more than 3 h)');
  });
});
