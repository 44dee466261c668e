import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { columnOf } from '../../src/core/air/sounding.ts';
import { faultText } from '../../src/files/faults.ts';
import { readIgra } from '../../src/files/igra.ts';
import { readSoundingCsv } from '../../src/files/sounding-csv.ts';
import { isSoundingFile, readSoundings, soundingAt } from '../../src/files/soundings.ts';

const data = join(dirname(fileURLToPath(import.meta.url)), '../published/data');
const igraPath = join(data, 'igra2-USM00070026-2010.txt');
const igraText = readFileSync(igraPath, 'utf8');
const csvPath = join(data, 'sounding-USM00070026-2010-06-01T12Z.csv');
const folder = mkdtempSync(join(tmpdir(), 'ramrise-soundings-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('IGRA 2', () => {
  it('[SND-1] delivers what is whole of a truncated file and reports the rest with its line', () => {
    const file = readIgra(igraText, 'igra.txt');
    expect(file.soundings.map(({ levels }) => levels.length)).toEqual([158, 157]);
    expect(file.remarks.list.map(faultText)).toEqual([
      'igra.txt:318: the sounding of 2010-06-02T00:00Z promises 147 levels and has 0; the file ends there: left out',
    ]);
    expect(file.attribution.join()).toContain('10.7289/V5X63K0Q');
  });

  it('[SND-2] leaves out a sounding cut off within its levels and keeps those before and after', () => {
    const lines = igraText.split('\n');
    const cut = [...lines.slice(0, 40), ...lines.slice(159)].join('\n');
    const file = readIgra(cut, 'igra.txt');
    expect(file.soundings.map(({ timeS }) => new Date(timeS * 1000).getUTCHours())).toEqual([12]);
    expect(file.remarks.list[0].message).toContain('promises 158 levels and has 39');
    expect(file.remarks.list[0].place.line).toBe(1);
  });

  it('[SND-3] takes -9999 and -8888 as missing, and what cannot be as missing with a remark', () => {
    const line = '10    12 100000    90B   -7B  936     9   194    46 ';
    const head = '#USM00070026 2010 06 01 00 2303    3 ncdc6301 ncdc6301  712889 -1567833';
    const removed = line.replace('   -7B', '-8888 ').replace(' 194', '9999').replace('    90B', ' -9999 ');
    const wild = line.replace('   -7B', '-2900B');
    const file = readIgra([head, line, removed, wild].join('\n'), 'igra.txt');
    const [whole, holes, cold] = file.soundings[0].levels;
    expect(whole.temperatureK).toBeCloseTo(272.45, 10);
    expect(whole.heightM).toBe(90);
    // 194 deg at 4.6 m/s goes to 14 deg: sin and cos by hand.
    expect(whole.windEastMS).toBeCloseTo(4.6 * 0.24192189559967, 10);
    expect(whole.windNorthMS).toBeCloseTo(4.6 * 0.97029572627599, 10);
    expect(holes).toMatchObject({ temperatureK: Number.NaN, heightM: Number.NaN, windEastMS: Number.NaN });
    expect(cold.temperatureK).toBeNaN();
    expect(file.remarks.list.map(faultText)).toEqual([
      'igra.txt:3: wind direction 9999 deg is outside 0 to 360 deg: left out',
      'igra.txt:4: temperature -16.85 K is outside 130 to 340 K: left out',
    ]);
  });

  it('[SND-4] uses the release time where the nominal hour is missing', () => {
    const text = igraText.replace('2010 06 01 00 2303', '2010 06 01 99 2303');
    expect(readIgra(text, 'igra.txt').soundings[0].timeS).toBe(Date.UTC(2010, 5, 1, 23, 3) / 1000);
  });

  it('[SND-5] throws with every line where nothing is whole', () => {
    const text = igraText.split('\n').slice(0, 100).join('\n');
    expect(() => readIgra(text, 'igra.txt')).toThrow(
      /promises 158 levels and has 99[\s\S]*no sounding that is whole/,
    );
  });
});

describe('CSV soundings', () => {
  it('[SND-6] agrees with the IGRA sounding it was made from, level by level', () => {
    const [made] = readSoundings(csvPath).soundings;
    const [, source] = readSoundings(igraPath).soundings;
    const levels = source.levels.filter((level) => !Number.isNaN(level.pressurePa));
    expect(made.levels).toHaveLength(63);
    made.levels.forEach((level, i) => {
      for (const key of ['pressurePa', 'heightM', 'temperatureK', 'windEastMS', 'windNorthMS'] as const) {
        if (Number.isNaN(levels[i][key])) expect(level[key]).toBeNaN();
        else expect(level[key]).toBeCloseTo(levels[i][key], 6);
      }
    });
    // The balloon left at 11:00 for the sounding of 12 UTC.
    expect(made.timeS).toBe(Date.UTC(2010, 5, 1, 11) / 1000);
    expect(made.latitudeRad * (180 / Math.PI)).toBeCloseTo(71.2889, 10);
  });

  it('[SND-7] reads units in brackets, parts of the wind, several soundings, blank cells', () => {
    const text = [
      '# made for a test',
      'time,pressure [kPa],temperature [degF],wind east [kt],wind north [m/s]',
      '2026-01-01T00:00Z,100,32,10,-2',
      '2026-01-01T00:00Z,50,-40,,',
      '2026-01-01T06:00Z,90,50,0,0',
      '2026-01-01T06:01Z,40,-40,20,5',
    ].join('\n');
    const { soundings } = readSoundingCsv(text, 'two.csv');
    expect(soundings.map(({ timeS }) => timeS)).toEqual([1767225600, 1767247200]);
    expect(soundings[0].levels[0].pressurePa).toBe(100000);
    expect(soundings[0].levels[0].temperatureK).toBeCloseTo(273.15, 10);
    expect(soundings[0].levels[0].windEastMS).toBeCloseTo(5.1444444, 6);
    expect(soundings[0].levels[1].windEastMS).toBeNaN();
    expect(soundings[1].levels[1].temperatureK).toBeCloseTo(233.15, 10);
  });

  it('[SND-8] names every fault with its line', () => {
    const heads = 'pressure,temperature [F],wind speed [m/s]\n1,2,3';
    expect(() => readSoundingCsv(heads, 'bad.csv')).toThrow(
      /bad\.csv:1: pressure: the column names no unit; it may be Pa, hPa[\s\S]*"F" is no unit of it[\s\S]*there is no wind/,
    );
    const cells =
      'pressure_hPa,temperature_C,wind direction_degree,wind speed_m/s\n1000,20,400,5\n900,warm,10,5';
    expect(() => readSoundingCsv(cells, 'bad.csv')).toThrow(
      /bad\.csv:2: windFrom: wind direction 400 deg is outside 0 to 360 deg[\s\S]*bad\.csv:3: temperature: "warm" is not a number/,
    );
  });
});

describe('sounding files', () => {
  it('[SND-9] are told from others by how they begin', () => {
    const other = join(folder, 'drag.csv');
    writeFileSync(other, 'mach [1],cd [1]\n1,2\n');
    expect([igraPath, csvPath, other].map(isSoundingFile)).toEqual([true, true, false]);
    expect(() => isSoundingFile(join(folder, 'none.txt'))).toThrow('no such file');
  });

  it('[SND-10] say which soundings there are when the one asked for is not', () => {
    const file = readSoundings(igraPath);
    expect(soundingAt(file, Date.UTC(2010, 5, 1, 12) / 1000).levels).toHaveLength(157);
    const message = 'has no sounding of 1970-01-01T00:00Z; it has 2010-06-01T00:00Z, 2010-06-01T12:00Z';
    expect(() => soundingAt(file, 0)).toThrow(message);
    expect(() => soundingAt(file, null)).toThrow('has 2 soundings');
  });

  it('[SND-11] make a column of every level with temperature and of winds well apart from them', () => {
    for (const sounding of readSoundings(igraPath).soundings) {
      const { pressuresPa, heightsM } = columnOf(sounding);
      const thermal = sounding.levels.filter(({ pressurePa }) => !Number.isNaN(pressurePa));
      for (const { pressurePa } of thermal) expect(pressuresPa).toContain(pressurePa);
      expect(pressuresPa.length).toBeGreaterThan(thermal.length + 80);
      for (let i = 1; i < heightsM.length; i++) expect(heightsM[i]).toBeGreaterThan(heightsM[i - 1]);
    }
  });
});
