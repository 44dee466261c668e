import { describe, expect, it } from 'vitest';
import { offsetDay, standardDay } from '../../../src/core/air/offset-day.ts';
import type { Sounding } from '../../../src/core/air/sounding.ts';
import { type SoundingRules, soundingDay } from '../../../src/core/air/sounding-day.ts';
import { airColumn } from '../../../src/core/plan/air-column.ts';

const place = { latitudeRad: 0.7, longitudeRad: -1.5 };

/** An invented ascent from 900 to 30 hPa that is 5 K warmer than standard, with 20 m/s from the west. */
function ascent(rules: SoundingRules) {
  // USSA 1976, geopotential heights and temperatures of 900, 500, 250, 100 and 30 hPa, to 1 m and 0.01 K.
  const levels = [
    [90_000, 988, 281.73],
    [50_000, 5574, 251.92],
    [25_000, 10363, 220.79],
    [10_000, 16180, 216.65],
    [3_000, 23849, 220.5],
  ].map(([pressurePa, heightM, standardK]) => ({
    pressurePa,
    heightM,
    temperatureK: standardK + 5,
    windEastMS: 20,
    windNorthMS: 0,
  }));
  const sounding: Sounding = { station: 'invented', timeS: 0, ...place, levels };
  return soundingDay(sounding, rules);
}

describe('a column of air', () => {
  it('[COLUMN-1] of the standard day is that of US Standard Atmosphere 1976', () => {
    const column = airColumn(standardDay, place, 0, 21_000, [11_000, 20_000]);
    const at = (metres: number) => column.pressureAltitudeM.indexOf(metres);
    // USSA 1976, table 4: 216.65 K from 11 to 20 km, 288.15 K at 0.
    expect(column.temperatureK[at(0)]).toBeCloseTo(288.15, 9);
    expect(column.temperatureK[at(11_000)]).toBeCloseTo(216.65, 9);
    expect(column.temperatureK[at(20_000)]).toBeCloseTo(216.65, 9);
    expect(column.tropopauseM).toBe(11_000);
    expect(new Set(column.basis)).toEqual(new Set(['rule']));
    expect(column.pressureAltitudeM.at(-1)).toBe(21_000);
  });

  it('[COLUMN-2] of a warm day stands higher than its pressure altitudes', () => {
    const column = airColumn(offsetDay(10), place, 0, 12_000, []);
    expect(column.temperatureOffsetK.every((offset) => Math.abs(offset - 10) < 1e-9)).toBe(true);
    const last = column.pressureAltitudeM.length - 1;
    expect(column.geometricHeightM[last]).toBeGreaterThan(column.pressureAltitudeM[last] + 300);
  });

  it('[COLUMN-3] says of each row whether it is a level, between two, or held beyond them', () => {
    const day = ascent({ top: 'holdOffset', bottom: 'holdOffset' });
    const column = airColumn(day, place, 0, 26_000, []);
    const [lowest, highest] = [day.levelsM[0], day.levelsM[day.levelsM.length - 1]];
    column.pressureAltitudeM.forEach((altitude, i) => {
      const beyond = altitude < lowest || altitude > highest;
      const here = day.levelsM.includes(altitude) ? 'level' : 'between';
      expect(column.basis[i]).toBe(beyond ? 'held' : here);
    });
    expect(column.basis.filter((basis) => basis === 'level')).toHaveLength(5);
    expect(column.temperatureOffsetK.at(-1)).toBeCloseTo(5, 1);
    expect(column.windEastMS.every((wind) => Math.abs(wind - 20) < 1e-9)).toBe(true);
  });

  it('[COLUMN-4] has no numbers where the day has no data', () => {
    const day = ascent({ top: 'refuse', bottom: 'refuse' });
    const column = airColumn(day, place, 0, 26_000, []);
    expect(column.basis[0]).toBe('none');
    expect(column.temperatureK[0]).toBeNaN();
    expect(column.geometricHeightM[0]).toBeNaN();
    expect(column.basis.at(-1)).toBe('none');
    expect(column.standardTemperatureK[0]).toBeCloseTo(288.15, 9);
  });

  it('[COLUMN-5] has a row at every altitude asked for, and none beside it', () => {
    const column = airColumn(standardDay, place, 0, 20_000, [9_150]);
    const near = column.pressureAltitudeM.filter((altitude) => Math.abs(altitude - 9_150) < 60);
    expect(near).toEqual([9_150]);
    expect([...column.pressureAltitudeM].sort((a, b) => a - b)).toEqual(column.pressureAltitudeM);
  });
});
