import { describe, expect, test } from 'vitest';
import type { AirColumn } from '../../../src/core/plan/air-column.ts';
import { columnFigures, columnSentence } from '../../../src/present/chart/weather-column.ts';
import { PAPER } from '../../../src/present/theme.ts';
import { gaugesIn, plainSpaces } from '../../../src/present/units.ts';
import { windFrom } from '../../../src/present/weather-file.ts';
import { all, readXml } from '../../support/xml.ts';

const gauges = gaugesIn({});
const look = { theme: PAPER, width: 420 };

/** Five rows, invented: held at the ground, no data at the top. */
const column: AirColumn = {
  pressureAltitudeM: [0, 3048, 9144, 15_240, 21_336],
  temperatureK: [288.15, 270, 229.95, 218.15, Number.NaN],
  standardTemperatureK: [288.15, 268.34, 228.71, 216.65, 217.99],
  temperatureOffsetK: [0, 1.66, 1.24, 1.5, Number.NaN],
  windEastMS: [0, 10, 20, 0, Number.NaN],
  windNorthMS: [0, 0, 20, -30, Number.NaN],
  geometricHeightM: [0, 3060, 9200, 15_400, Number.NaN],
  basis: ['held', 'level', 'between', 'level', 'none'],
  tropopauseM: 10_973,
};

describe('the column of the weather', () => {
  const figures = columnFigures(column, 15_240, gauges, look);
  const fills = (svg: string) => all(readXml(svg)).map(({ attributes }) => attributes.fill);

  test('[COLUMNCHART-1] hatches where it is held wide and where there is no data close, and says so', () => {
    for (const { svg } of figures) {
      expect(fills(svg).filter((fill) => fill === 'url(#inHand)')).toHaveLength(1);
      expect(fills(svg).filter((fill) => fill === 'url(#land)')).toHaveLength(1);
      expect(svg).not.toContain('NaN');
    }
    expect(figures[0].note).toContain('Wide hatch');
    expect(figures[0].note).toContain('Close hatch: no data.');
  });

  test('[COLUMNCHART-2] marks the height flown and the tropopause', () => {
    for (const { svg } of figures) {
      const words = all(readXml(svg)).map(({ text }) => plainSpaces(text));
      expect(words).toContain('flown, 50 000 ft');
      expect(words).toContain('tropopause, 36 000 ft');
    }
  });

  test('[COLUMNCHART-3] has each row in its tables, in units of the gauges', () => {
    const [temperature, wind, height] = figures.map(({ table }) =>
      table.rows.map((row) => row.map(plainSpaces)),
    );
    // 229.95 K are -43.2 degC; 28.3 m/s are 55 kt; 56 m are 184 ft.
    expect(temperature[2]).toEqual(['30 000', '−43.2', '+1.2', 'between levels']);
    expect(wind[2]).toEqual(['30 000', '225', '55', 'between levels']);
    expect(height[2]).toEqual(['30 000', '30 200', '180', 'between levels']);
    expect(wind[4]).toEqual(['70 000', 'no data', 'no data', 'no data']);
    expect(wind[0]).toEqual(['0', '---', '0', 'held']);
  });

  test('[COLUMNCHART-4] says in a sentence what the flight meets', () => {
    expect(plainSpaces(columnSentence(column, 15_240, gauges))).toBe(
      'At the height flown, 50 000 ft: −55 °C, +1.5 K off standard, wind from 360° at 58 kt. The tropopause is at 36 000 ft.',
    );
    expect(plainSpaces(columnSentence(column, 0, gauges))).toContain('no wind');
    expect(plainSpaces(columnSentence(column, 21_336, gauges))).toContain(
      'There is no weather at the height flown, 70 000 ft.',
    );
    expect(plainSpaces(columnSentence({ ...column, tropopauseM: Number.NaN }, null, gauges))).toBe(
      'There is no tropopause between 500 and 50 hPa.',
    );
  });
});

test('[COLUMNCHART-5] a wind is named by where it comes from, 001 to 360', () => {
  expect(windFrom(10, 0)).toBe('270');
  expect(windFrom(0, -10)).toBe('360');
  expect(windFrom(-10, 0)).toBe('090');
  expect(windFrom(0, 10)).toBe('180');
  expect(windFrom(-0.1, -10)).toBe('001');
  expect(windFrom(0, 0)).toBe('---');
});
