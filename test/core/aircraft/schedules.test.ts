/** Scheduled positions against the rows of the deck's own tables, read here a second time. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CheckRule, Schedule } from '../../../src/core/aircraft/aircraft.ts';
import { ruleFor } from '../../../src/core/aircraft/schedules.ts';
import { loadDeck } from '../../../src/files/deck.ts';
import { deckFolder } from '../../../src/files/deck-folder.ts';

const { aircraft } = loadDeck(deckFolder('decks/sandmartin'));
const schedule = (key: string): Schedule => {
  const found = aircraft.schedules.find((candidate) => candidate.key === key);
  if (found === undefined) throw new Error(`the deck has no schedule ${key}`);
  return found;
};
const nozzle = schedule('nozzle');
const ramp = schedule('ramp');

function rows(file: string): string[][] {
  return readFileSync(`decks/sandmartin/${file}`, 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .slice(1)
    .map((line) => line.split(','));
}

const settings = ['idle', 'part', 'military', 'minimumAfterburner', 'maximumAfterburner'];
const foot = 0.3048;

describe('scheduled positions', () => {
  it('[SCHED-1] a nozzle is that of its table at every point of the grid', () => {
    const points = rows('propulsion.csv');
    expect(points.length).toBeGreaterThan(1000);
    for (const [mach, ft, offset, setting, , , percent] of points) {
      const altitude = Number(ft) * foot;
      const read = nozzle.at(settings.indexOf(setting), Number(mach), altitude, altitude, Number(offset));
      expect(Math.abs(read - Number(percent) / 100)).toBeLessThan(1e-12);
    }
  });

  it('[SCHED-2] half way between points on every axis it is the mean of the sixteen corners', () => {
    const corner = (mach: number, ft: number, offset: number, setting: string): number => {
      const row = rows('propulsion.csv').find(
        ([m, h, t, s]) => Number(m) === mach && Number(h) === ft && Number(t) === offset && s === setting,
      );
      return Number(row?.[6]) / 100;
    };
    const points = rows('propulsion.csv');
    const axis = (column: number): number[] =>
      [...new Set(points.map((row) => Number(row[column])))].sort((a, b) => a - b);
    const pair = (values: number[], from: number): [number, number] => {
      const first = values.findIndex((value) => value >= from);
      return [values[first], values[first + 1]];
    };
    const [machs, feet, offsets] = [pair(axis(0), 1.9), pair(axis(1), 48_000), pair(axis(2), -10)];
    const corners = machs.flatMap((mach) =>
      feet.flatMap((ft) =>
        offsets.flatMap((offset) =>
          ['minimumAfterburner', 'maximumAfterburner'].map((setting) => corner(mach, ft, offset, setting)),
        ),
      ),
    );
    const mean = ([a, b]: [number, number]): number => (a + b) / 2;
    const altitude = mean(feet) * foot;
    const expected = corners.reduce((sum, value) => sum + value, 0) / corners.length;
    expect(nozzle.at(3.5, mean(machs), altitude, altitude, mean(offsets))).toBeCloseTo(expected, 12);
  });

  it('[SCHED-3] a ramp is that of its table and never falls with Mach', () => {
    for (const [mach, , degrees] of rows('inlet.csv')) {
      expect(ramp.at(0, Number(mach), 0, 0, 0)).toBeCloseTo((Number(degrees) * Math.PI) / 180, 12);
    }
    let before = ramp.at(0, 0, 0, 0, 0);
    for (let mach = 0.01; mach <= 3.2; mach += 0.01) {
      const now = ramp.at(0, mach, 0, 0, 0);
      expect(now).toBeGreaterThanOrEqual(before - 1e-15);
      before = now;
    }
  });

  it('[SCHED-4] a ramp starts at the last Mach of the table that has its first angle', () => {
    const first = rows('inlet.csv')[0][2];
    const resting = rows('inlet.csv').filter(([, , degrees]) => degrees === first);
    expect(ramp.startMach).toBe(Number(resting[resting.length - 1][0]));
    expect(nozzle.startMach).toBeNull();
  });

  it('[SCHED-5] outside its table, or between no settings, there is no position', () => {
    const inside = [2, 1.5, 15_000, 15_000, 0] as const;
    expect(nozzle.at(...inside)).toBeGreaterThan(0);
    for (const [place, value] of [
      [0, -0.1],
      [0, 4.1],
      [0, Number.NaN],
      [1, 9],
      [2, 40_000],
      [4, 80],
    ]) {
      const outside = [...inside] as [number, number, number, number, number];
      outside[place] = value;
      expect(nozzle.at(...outside), `${place} at ${value}`).toBeNaN();
    }
    expect(ramp.at(2, 9, 0, 0, 0)).toBeNaN();
  });

  it('[SCHED-6] a deck without scheduled positions has none', () => {
    expect(loadDeck(deckFolder('decks/benchmark-interceptor')).aircraft.schedules).toEqual([]);
  });
});

describe('tolerances and actions', () => {
  const rule = (more: Partial<CheckRule>): CheckRule => ({
    of: 'fuelFlow',
    at: null,
    within: null,
    action: null,
    ...more,
  });
  const four = { value: 0.04, partOfExpected: true };
  const deck = [rule({ within: four, action: 'all' }), rule({ at: 'burner', action: 'there' })];

  it('[SCHED-7] a rule for a moment goes before one for every moment, each part by itself', () => {
    expect(ruleFor([deck], 'fuelFlow', 'burner', 10)).toEqual({ tolerance: 0.4, action: 'there' });
    expect(ruleFor([deck], 'fuelFlow', 'gate', -10)).toEqual({ tolerance: 0.4, action: 'all' });
  });

  it('[SCHED-8] what the first source states goes before the second; what none states is null', () => {
    const sortie = [rule({ within: { value: 0.5, partOfExpected: false } })];
    expect(ruleFor([sortie, deck], 'fuelFlow', 'burner', 10)).toEqual({ tolerance: 0.5, action: 'there' });
    expect(ruleFor([sortie, deck], 'nozzle', 'burner', 10)).toEqual({ tolerance: null, action: null });
  });
});
