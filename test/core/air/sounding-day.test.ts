import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  HEIGHT,
  newAir,
  OUTSIDE_ABOVE,
  OUTSIDE_BELOW,
  TEMPERATURE,
  WIND_EAST,
} from '../../../src/core/air/day.ts';
import { columnOf, type Sounding, type SoundingLevel } from '../../../src/core/air/sounding.ts';
import { type SoundingRules, soundingDay } from '../../../src/core/air/sounding-day.ts';
import {
  pressureAltitudeOf,
  standardLogPressure,
  standardTemperature,
} from '../../../src/core/air/standard.ts';

const none = Number.NaN;
const refuse: SoundingRules = { top: 'refuse', bottom: 'refuse' };
const hold: SoundingRules = { top: 'holdOffset', bottom: 'holdOffset' };
/** R/g0 of the US Standard Atmosphere 1976. */
const scale = 8314.32 / 28.9644 / 9.80665;

function level(
  hPa: number,
  heightM: number,
  temperatureK: number,
  east: number,
  north: number,
): SoundingLevel {
  return { pressurePa: hPa * 100, heightM, temperatureK, windEastMS: east, windNorthMS: north };
}

function sounding(...levels: SoundingLevel[]): Sounding {
  return { station: 'test', timeS: 1e9, latitudeRad: 1, longitudeRad: -2, levels };
}

const three = sounding(
  level(1000, 100, 290, 0, 5),
  level(300, 9300, 230, 30, -5),
  level(30, 23800, 220, 10, 0),
);
const day = soundingDay(three, refuse);
const air = newAir();

function at(altitudeM: number, on = day) {
  on.sample(0.3, 2, altitudeM, 0, air);
  return air;
}

describe('a sounding as a day', () => {
  it('[SND-20] is linear in ln p in temperature, both winds and geopotential', () => {
    fc.assert(
      fc.property(fc.double({ min: 150, max: 9150, noNaN: true }), (altitude) => {
        const part = (Math.log(100000) - standardLogPressure(altitude)) / Math.log(1000 / 300);
        at(altitude);
        expect(air.outside).toBe(0);
        expect(air.temperatureK).toBeCloseTo(290 - 60 * part, 6);
        expect(air.windEastMS).toBeCloseTo(30 * part, 6);
        expect(air.windNorthMS).toBeCloseTo(5 - 10 * part, 6);
        const height = (6356766 * air.geometricHeightM) / (6356766 + air.geometricHeightM);
        expect(height).toBeCloseTo(100 + 9200 * part, 4);
      }),
    );
  });

  it('[SND-21] gives gradients that are those of its values, inside and beyond', () => {
    const held = soundingDay(three, hold);
    for (const altitude of [-300, 1000, 8000, 12000, 20000, 27000]) {
      const { temperatureK, windEastMS, geometricHeightM } = { ...at(altitude - 1, held) };
      at(altitude + 1, held);
      const [t, u, h] = [air.temperatureK, air.windEastMS, air.geometricHeightM];
      at(altitude, held);
      expect(air.upward[TEMPERATURE]).toBeCloseTo((t - temperatureK) / 2, 6);
      expect(air.upward[WIND_EAST]).toBeCloseTo((u - windEastMS) / 2, 6);
      expect(air.upward[HEIGHT]).toBeCloseTo((h - geometricHeightM) / 2, 5);
    }
  });

  it('[SND-22] refuses below and above its levels, and meets both ends', () => {
    const [lowest, , highest] = day.levelsM;
    expect(lowest).toBeCloseTo(pressureAltitudeOf(100000), 6);
    expect(at(lowest).outside + at(highest).outside).toBe(0);
    expect(at(lowest - 1).outside).toBe(OUTSIDE_BELOW);
    expect(at(highest + 1).outside).toBe(OUTSIDE_ABOVE);
    expect(at(none).outside).toBe(OUTSIDE_BELOW);
    expect(at(95000, soundingDay(three, hold)).outside).toBe(OUTSIDE_ABOVE);
  });

  it('[SND-23] holds the offset and wind of its top where that is stated, with the spread of the gap', () => {
    const held = soundingDay(three, { top: 'holdOffset', bottom: 'refuse' });
    const top = held.levelsM[2];
    const offset = 220 - standardTemperature(top);
    at(top + 4000, held);
    expect(air.outside).toBe(0);
    expect(air.temperatureK).toBeCloseTo(standardTemperature(top + 4000) + offset, 8);
    expect(air.windEastMS).toBe(10);
    expect(held.description.continuedBy).toEqual(['place: everywhere', 'time: hold', 'top: holdOffset']);
    expect(held.description.gaps?.map(({ side, edgeM }) => [side, edgeM])).toEqual([['above', top]]);
    expect(day.description.gaps).toEqual([]);
  });

  it('[SND-24] the spread of a gap is the change of offset over as great a height within the data', () => {
    // An offset that grows by 2 K/km: over d km it changes by 2 d everywhere.
    const levels = Array.from({ length: 41 }, (_, i) => {
      const altitude = 500 * i;
      const hPa = Math.exp(standardLogPressure(altitude)) / 100;
      return level(hPa, altitude, standardTemperature(altitude) + 0.002 * altitude, 0, 0);
    });
    const [gap] =
      soundingDay(sounding(...levels), { top: 'holdOffset', bottom: 'refuse' }).description.gaps ?? [];
    expect(gap.spreads.map(({ beyondM }) => beyondM)).toEqual([500, 1000, 2000, 5000, 10000]);
    for (const { beyondM, spreadK } of gap.spreads) expect(spreadK).toBeCloseTo(0.002 * beyondM, 2);
  });

  it('[SND-25] needs no time and no place: it is steady, and says so', () => {
    expect(day.steady).toBe(true);
    expect(day.description.title).toBe('Sounding test, 2001-09-09T01:46:40Z, 57.30N 114.59W');
    expect(day.covers).toBe('any place and time, 1000 to 30 hPa');
  });
});

describe('the column of a sounding', () => {
  it('[SND-30] integrates missing heights and fits them to those that are reported', () => {
    const layer = (t1: number, t2: number, p1: number, p2: number) =>
      ((scale * (t1 + t2)) / 2) * Math.log(p1 / p2);
    const open = columnOf(
      sounding(level(1000, none, 290, 0, 0), level(500, 5500, 250, 0, 0), level(200, none, 220, 0, 0)),
    );
    expect(open.heightsM[0]).toBeCloseTo(5500 - layer(290, 250, 1000, 500), 3);
    expect(open.heightsM[2]).toBeCloseTo(5500 + layer(250, 220, 500, 200), 3);
    const [a, b] = [layer(290, 250, 1000, 500), layer(250, 220, 500, 200)];
    const fitted = columnOf(
      sounding(level(1000, 0, 290, 0, 0), level(500, none, 250, 0, 0), level(200, 1.01 * (a + b), 220, 0, 0)),
    );
    expect(fitted.heightsM[1]).toBeCloseTo(1.01 * a, 3);
  });

  it('[SND-31] takes the pressure height of the lowest level where no height is reported, and says so', () => {
    const column = columnOf(sounding(level(900, none, 280, 0, 0), level(100, none, 210, 0, 0)));
    expect(column.heightsM[0]).toBeCloseTo(pressureAltitudeOf(90000), 6);
    expect(column.remarks.join()).toContain('no heights');
  });

  it('[SND-32] brings levels of wind only in by their height, at the pressure that belongs to it', () => {
    const column = columnOf(
      sounding(level(1000, 0, 290, 0, 0), level(none, 2500, none, 40, 8), level(500, 5000, 250, 0, 0)),
    );
    expect(Array.from(column.windsEastMS)).toEqual([0, 40, 0]);
    expect(column.pressuresPa[1]).toBeCloseTo(100000 * Math.sqrt(0.5), 6);
    expect(column.temperaturesK[1]).toBeCloseTo(270, 9);
  });

  it('[SND-33] gives a level without wind the wind of its height, and one near a level only its wind', () => {
    const column = columnOf(
      sounding(
        level(1000, 0, 290, 10, 0),
        level(700, 3000, 270, none, none),
        level(none, 3010, none, 40, 0),
        level(500, 5000, 250, 0, 0),
      ),
    );
    expect(column.pressuresPa).toHaveLength(3);
    expect(column.windsEastMS[1]).toBeCloseTo(10 + (30 * 3000) / 3010, 9);
  });

  it('[SND-34] holds the last wind over 2 km at most, and says so', () => {
    const near = [level(1000, 0, 290, 1, 0), level(300, 9000, 230, 7, 0)];
    const held = columnOf(sounding(...near, level(230, 10900, 220, none, none)));
    expect(held.windsEastMS[2]).toBe(7);
    expect(held.windHeld).toEqual(['wind: held above 9000 m']);
    const cut = columnOf(sounding(...near, level(200, 11800, 220, none, none)));
    expect(cut.pressuresPa).toHaveLength(2);
    expect(cut.windHeld).toEqual([]);
    expect(cut.remarks.join()).toContain('2000 m beyond the last wind');
  });

  it('[SND-35] refuses what makes no column', () => {
    expect(() => columnOf(sounding(level(1000, 0, 290, 0, 0)))).toThrow(
      '1 levels with pressure and temperature',
    );
    expect(() =>
      columnOf(sounding(level(1000, 0, 290, none, none), level(900, none, 280, none, none))),
    ).toThrow('has no wind');
  });

  it('[SND-36] leaves out a height that does not rise and a pressure that comes twice', () => {
    const column = columnOf(
      sounding(
        level(1000, 0, 290, 0, 0),
        level(700, 3000, 270, 1, 0),
        level(700, 3000, 200, 9, 0),
        level(500, 2000, 250, 2, 0),
        level(300, 9200, 230, 3, 0),
      ),
    );
    expect(column.temperaturesK).toHaveLength(4);
    expect(column.temperaturesK[1]).toBe(270);
    expect(column.heightsM[2]).toBeGreaterThan(5000);
    expect(column.remarks).toHaveLength(2);
  });
});
