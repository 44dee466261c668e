/** Soundings: what a file of fixed columns says, and heights by hydrostatic integration of its temperatures. */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Sounding, SoundingLevel } from '../../../src/core/air/sounding.ts';
import { thicknessM } from '../../../src/core/air/sounding.ts';
import { readTime } from '../../../src/core/quantities/time.ts';
import type { SoundingFile } from '../../../src/files/sounding-file.ts';
import { readSoundings } from '../../../src/files/soundings.ts';
import { MissingFile, PublishedTable, type Row } from './csv.ts';
import { type CheckResult, Tally, type Tolerance } from './tally.ts';

const here = dirname(fileURLToPath(import.meta.url));
const calm = 1e-9;
const exact = (reason: string): Tolerance => ({ mean: 1e-9, max: 1e-8, reason });

/** The sounding file that a table names in its head, beside the table or one folder up. */
function fileOf(directory: string, table: PublishedTable): SoundingFile {
  const name = /igra2-\S+?\.txt/.exec(table.comments.join('\n'))?.[0] ?? '';
  const folders = [directory, join(directory, '..'), join(here, '../data')];
  const found = folders.map((folder) => join(folder, name)).find((path) => existsSync(path));
  if (!found) throw new MissingFile(`the sounding file ${name} of ${table.name}.csv was not found`);
  return readSoundings(found);
}

function soundingOf(file: SoundingFile, row: Row): Sounding {
  return file.soundings[row.need('sounding') - 1];
}

function fromDeg({ windEastMS, windNorthMS }: SoundingLevel): number {
  return ((Math.atan2(-windEastMS, -windNorthMS) * 180) / Math.PI + 360) % 360;
}

/** The level of a row; a row about the levels without pressure has words where others have the time, and is the highest. */
function levelOf(sounding: Sounding, row: Row): SoundingLevel {
  const text = row.text('pressure');
  const level = row.text('time').startsWith('wind-only')
    ? windOnly(sounding).reduce((a, b) => (b.heightM > a.heightM ? b : a))
    : sounding.levels.find(({ pressurePa }) => Math.abs(pressurePa - Number(text) * 100) < calm);
  if (!level) throw new Error(`no level at ${text} hPa`);
  return level;
}

function windOnly(sounding: Sounding): SoundingLevel[] {
  return sounding.levels.filter(({ pressurePa }) => Number.isNaN(pressurePa));
}

export function checkSoundingSamples(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'sounding-samples');
  const file = fileOf(directory, table);
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const sounding = soundingOf(file, row);
    const place = `sounding ${row.text('sounding')}, ${row.text('pressure')} hPa`;
    const level = () => levelOf(sounding, row);
    const counts = /(\d+) of (\d+)/.exec(row.text('time'));
    if (counts) {
      tally.absolute('wind-only levels', '1', Number(counts[1]), () => windOnly(sounding).length, place);
      tally.absolute('levels', '1', Number(counts[2]), () => sounding.levels.length, place);
    } else {
      tally.absolute('time', 's', readTime(row.text('time')), () => sounding.timeS, place);
      tally.absolute('pressure', 'Pa', row.si('pressure'), () => level().pressurePa, place);
    }
    tally.absolute('height', 'm', row.si('geopotentialHeight'), () => level().heightM, place);
    const celsius = row.raw('temperature');
    tally.absolute('temperature', 'degC', celsius, () => level().temperatureK - 273.15, place);
    const speed = () => Math.hypot(level().windEastMS, level().windNorthMS);
    tally.absolute('windSpeed', 'm/s', row.si('windSpeed'), speed, place);
    tally.absolute('windFrom', 'deg', row.raw('windFrom'), () => fromDeg(level()), place);
  }
  const same = exact('the same digits');
  const there = exact('through the components and back');
  return tally.results(
    {
      pressure: same,
      time: same,
      height: same,
      temperature: same,
      windSpeed: there,
      windFrom: there,
      'wind-only levels': same,
      levels: same,
    },
    table,
  );
}

export function checkSoundingHydrostatic(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'sounding-hydrostatic');
  const file = fileOf(directory, table);
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const sounding = soundingOf(file, row);
    const place = `sounding ${row.text('sounding')}`;
    const levels = sounding.levels.filter(
      ({ pressurePa, temperatureK }) => !Number.isNaN(pressurePa + temperatureK),
    );
    const [base, top] = [levels[0], levels[levels.length - 1]];
    const heights = integrated(levels);
    const apart = () =>
      Math.max(
        ...levels.map(({ heightM }, i) => (Number.isNaN(heightM) ? 0 : Math.abs(heightM - heights[i]))),
      );
    tally.absolute('basePressure', 'Pa', row.si('basePressure'), () => base.pressurePa, place);
    tally.absolute('baseHeight', 'm', row.si('baseHeight'), () => base.heightM, place);
    tally.absolute('topPressure', 'Pa', row.si('topPressure'), () => top.pressurePa, place);
    tally.absolute('reportedTopHeight', 'm', row.si('reportedTopHeight'), () => top.heightM, place);
    tally.absolute(
      'integratedTopHeight',
      'm',
      row.si('integratedTopHeight'),
      () => heights[heights.length - 1],
      place,
    );
    tally.absolute('largestDifference', 'm', row.si('largestDifference'), apart, place);
  }
  const same = exact('the same digits');
  const decimal = { mean: 0.05, max: 0.06, reason: 'the file prints 1 decimal' };
  return tally.results(
    {
      basePressure: same,
      baseHeight: same,
      topPressure: same,
      reportedTopHeight: same,
      integratedTopHeight: decimal,
      largestDifference: { mean: 0.09, max: 0.1, reason: 'the file prints 1 decimal, rounded up' },
    },
    table,
  );
}

function integrated(levels: readonly SoundingLevel[]): number[] {
  const heights = [levels[0].heightM];
  for (let i = 1; i < levels.length; i++) {
    const [low, high] = [levels[i - 1], levels[i]];
    heights.push(
      heights[i - 1] + thicknessM(low.pressurePa, high.pressurePa, low.temperatureK, high.temperatureK),
    );
  }
  return heights;
}
