/** The light, the fuel of the day, magnetic courses and held weather in words and on the charts. */
import { describe, expect, test } from 'vitest';
import type { FuelToday, Plan, PlanLight, WeatherGap } from '../../src/core/plan/plan.ts';
import { fuelTodayCards } from '../../src/present/card/fuel-today.ts';
import { limitCards } from '../../src/present/card/limits.ts';
import { skyCards } from '../../src/present/card/sky.ts';
import { newFrame } from '../../src/present/chart/frame.ts';
import { lightStrip } from '../../src/present/chart/light-strip.ts';
import { courseWords, firstCourse, magneticNotes } from '../../src/present/course.ts';
import { footLines, magneticLine, weatherLine } from '../../src/present/foot.ts';
import { fuelTodaySentences } from '../../src/present/fuel-today.ts';
import { bodySentences, lightSentences, sunHeight } from '../../src/present/light.ts';
import { heldWeatherSentences } from '../../src/present/sentences.ts';
import { summary } from '../../src/present/summary.ts';
import { PAPER } from '../../src/present/theme.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { testPlan } from '../support/plan.ts';
import { readXml } from '../support/xml.ts';

const base: Plan = { ...testPlan(), areas: [] };
const gap: WeatherGap = {
  side: 'above',
  edgeM: 20_576,
  edgePa: 5000,
  spreads: [],
  flownBeyondM: 2600,
  spreadK: 5.2,
};
const heldAbove = (changes: Partial<WeatherGap>): Plan => ({
  ...base,
  weather: { ...base.weather, continuedBy: ['top: holdOffset'], gaps: [{ ...gap, ...changes }] },
});
const fuel: FuelToday = {
  grade: 'kerosene',
  temperatureK: 313.15,
  densityKgM3: 781.3,
  density15KgM3: 800,
  measured: false,
  fullKg: 37_977,
  fullFromKg: 36_668,
  fullToKg: 38_500,
  capacityKg: 38_500,
  shortFraction: 0.01358,
  tankVolumeM3: 48.608,
  fullVolumeM3: 48.608,
  takeOffKg: 14_000,
  takeOffVolumeM3: 17.919,
};
const dusk: PlanLight = {
  ...(base.light as PlanLight),
  changes: [
    {
      timeS: 6000,
      latitudeDeg: 39.95,
      longitudeDeg: -80.36,
      geometricHeightM: 7000,
      from: 'day',
      to: 'civil twilight',
      brighter: false,
    },
    {
      timeS: 8000,
      latitudeDeg: 41,
      longitudeDeg: -85,
      geometricHeightM: 19_000,
      from: 'civil twilight',
      to: 'day',
      brighter: true,
    },
  ],
};

describe('weather that ends below the flight', () => {
  test('[GND-1] the foot says beyond which edge, how far, and how far off; the figures to the safe side', () => {
    expect(plainSpaces(weatherLine(heldAbove({})))).toContain('offset held above 50 hPa for 8 600 ft: ± 6 K');
    expect(plainSpaces(weatherLine(heldAbove({ spreadK: null })))).toContain(
      'offset held above 50 hPa for 8 600 ft: how far it may be off is not known',
    );
    expect(plainSpaces(weatherLine(heldAbove({ flownBeyondM: 0 })))).toContain(
      'offset held above 50 hPa, not flown',
    );
  });
});

test('[GND-12] a margin says how much of its spread is held weather', () => {
  const limits = base.limits.map((limit) =>
    limit.key === 'inletTemperature' ? { ...limit, weatherSpread: 11.6 } : limit,
  );
  const plan = { ...base, limits };
  const said = 'Inlet temperature: ± 12 K of its spread is weather held beyond its data.';
  expect(heldWeatherSentences(plan).map(plainSpaces)).toEqual([said]);
  expect(plainSpaces(summary(plan))).toContain(said);
  expect(limitCards(plan).flatMap(({ notes }) => notes.map(plainSpaces))).toContain(said);
  expect(heldWeatherSentences(base)).toEqual([]);
});

describe('magnetic courses', () => {
  test('[GND-2] stand before the true ones, with what a compass is worth', () => {
    const at = { courseDeg: 60, magneticDeg: 359.7 } as const;
    expect(courseWords({ ...at, compass: 'good' })).toBe('360° magnetic (060° true)');
    expect(courseWords({ ...at, compass: 'caution' })).toBe(
      '360° magnetic (060° true), compass poor so near the magnetic pole',
    );
    expect(courseWords({ ...at, compass: 'blackout' })).toMatch(/compass useless so near/);
    expect(courseWords({ courseDeg: 60, magneticDeg: null, compass: null })).toBe('060° true');
  });

  test('[GND-3] name their model below them and in the summary; without one nothing is claimed', () => {
    expect(magneticLine(base)).toBe('Magnetic courses by WMM2025 at take-off.');
    const turns = [
      { name: 'Alder', compass: 'good' },
      { name: 'Polar', compass: 'blackout' },
    ] as const;
    expect(magneticNotes(base, turns)).toEqual([
      'Magnetic courses by WMM2025 at take-off.',
      'Polar: compass useless so near the magnetic pole.',
    ]);
    expect(summary(base).replace(/\s+/g, ' ')).toContain('Magnetic courses by WMM2025 at take-off.');
    expect(firstCourse(base)).toEqual([
      'First course 042° magnetic (040° true). Magnetic courses by WMM2025 at take-off.',
    ]);
    const without = { ...base, magnetic: null };
    expect(firstCourse(without)).toEqual([]);
    expect(magneticNotes(without, turns)).toEqual([]);
    expect(summary(without)).not.toContain('agnetic');
  });
});

describe('light', () => {
  test('[GND-4] is told at take-off, at its changes, and with the sun at contacts and on the ground', () => {
    const [along, suns, horizon] = lightSentences({ ...base, light: dusk });
    expect(along).toBe(
      'Light: day at take-off; civil twilight from 1:40 (17:20Z), darker, at 39.95N 80.36W; day from 2:13 (17:53Z), brighter, at 41.00N 85.00W.',
    );
    expect(suns.match(/30° up on 200° true/g)).toHaveLength(
      base.events.filter(({ kind }) => /take-off|contact|disconnect|landing/.test(kind)).length,
    );
    expect(plainSpaces(horizon)).toBe('From 73 200 ft (1:20) the horizon is seen 4.6° below the horizontal.');
    expect(lightSentences(base)[0]).toBe('Light: day from take-off to landing.');
    expect(lightSentences({ ...base, light: null })).toEqual([]);
    expect([-4.4, -0.3, 0.2, 29.6].map(sunHeight)).toEqual(['4° down', 'level', 'level', '30° up']);
  });

  test('[GND-11] says for how long a body needs its suit; nothing below', () => {
    expect(bodySentences(base).map(plainSpaces)).toEqual([
      'Above 62 800 ft for 1:11: outside below 6.3 kPa, at which water boils at 37 °C; least 3.7 kPa.',
    ]);
    expect(bodySentences({ ...base, body: { ...base.body, aboveS: 0 } })).toEqual([]);
  });

  test('[GND-5] a card has a row for each contact and each end of the flight', () => {
    const [card] = skyCards({ ...base, light: dusk });
    expect(card.table?.rows).toHaveLength(5);
    expect(card.answer).toContain('Day from 2:13 (17:53Z), brighter, at 41.00N 85.00W.');
    expect(skyCards({ ...base, light: null })).toEqual([]);
  });

  test('[GND-6] the strip has more strokes the darker it is, none by day, and words where they have room', () => {
    const frame = newFrame({ ...base, light: dusk }, PAPER, 1000);
    const { markup, height } = lightStrip(frame, 0);
    expect(readXml(`<g>${markup}</g>`).name).toBe('g');
    expect(height).toBeGreaterThan(10);
    const stroked = [
      ...markup.matchAll(/<line x1="([\d.]+)"[^>]* x2="([\d.]+)"[^>]*stroke-dasharray="([^"]+)"/g),
    ];
    expect(stroked).toHaveLength(1);
    expect(Number(stroked[0][1])).toBeCloseTo(frame.x(6000), 0);
    expect(Number(stroked[0][2])).toBeCloseTo(frame.x(8000), 0);
    expect(markup.match(/>day</g)).toHaveLength(2);
    expect(markup).toContain('>civil twilight<');
    const dark = { ...dusk, start: 'night', changes: [] } as const;
    expect(lightStrip(newFrame({ ...base, light: dark }, PAPER, 1000), 0).markup).toContain('>night<');
    expect(lightStrip(newFrame({ ...base, light: null }, PAPER, 1000), 0)).toEqual({ markup: '', height: 0 });
  });

  test('[GND-7] a part of a sortie shows the light of that part only', () => {
    const part = { startS: 8500, endS: 9500 };
    const { markup } = lightStrip(newFrame({ ...base, light: dusk }, PAPER, 1000, { part }), 0);
    expect(markup).not.toContain('civil');
    expect(markup.match(/>day</g)).toHaveLength(1);
  });
});

describe('fuel today', () => {
  test('[GND-8] what is missing is rounded up, what is there down', () => {
    const [sentence] = fuelTodaySentences({ ...base, fuelToday: fuel });
    expect(plainSpaces(sentence)).toBe(
      'Full tanks today: 37 970 kg, 1.4 % short of 38 500 kg by mass; kerosene at 40 °C, 781 kg/m³ (from 800 kg/m³ at 15 °C, usual for it); 36 660 kg with the lightest fuel of the grade, 38 500 kg with the heaviest. At take-off 17 920 L.',
    );
    const measured = { ...fuel, measured: true, fullKg: 38_500, shortFraction: 0 };
    const [full] = fuelTodaySentences({ ...base, fuelToday: measured });
    expect(plainSpaces(full)).toContain('38 500 kg, all that the tanks take by mass');
    expect(full).toContain('as measured');
    expect(full).not.toContain('lightest');
  });

  test('[GND-9] a card begins with the one number; there is none where it was not computed', () => {
    const [card] = fuelTodayCards({ ...base, fuelToday: fuel });
    expect(plainSpaces(card.answer[0])).toBe('Full is 37 970 kg, 1.4 % short of 38 500 kg by mass.');
    expect(card.table?.rows).toHaveLength(3);
    expect(fuelTodayCards(base)).toEqual([]);
    expect(fuelTodaySentences(base)).toEqual([]);
  });
});

test('[GND-10] the foot of a chart carries the edge of the weather', () => {
  expect(plainSpaces(footLines(heldAbove({})).join('\n'))).toContain('offset held above 50 hPa');
});
