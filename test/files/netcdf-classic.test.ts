import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { NetCDFReader } from 'netcdfjs';
import { afterAll, describe, expect, it } from 'vitest';
import { newAir, OUTSIDE_ABOVE } from '../../src/core/air/day.ts';
import { gridDay } from '../../src/core/air/grid-day.ts';
import type { GridRules } from '../../src/core/air/grid-field.ts';
import { pressureAltitudeOf, standardTemperature } from '../../src/core/air/standard.ts';
import { openNetcdfClassic } from '../../src/files/netcdf-classic.ts';
import { describeWeather, readWeather } from '../../src/files/weather.ts';

const here = dirname(fileURLToPath(import.meta.url));
const era5 = join(here, '../published/data/era5-2020-02-22-netcdf3-600to1000hPa.nc');
const folder = mkdtempSync(join(tmpdir(), 'ramrise-classic-'));
const degree = Math.PI / 180;
const refuse: GridRules = { time: 'refuse', top: 'refuse', bottom: 'refuse' };
afterAll(() => rmSync(folder, { recursive: true }));

function name(text: string): Buffer {
  const padded = Buffer.alloc(4 * Math.ceil(text.length / 4));
  padded.write(text);
  return Buffer.concat([int(text.length), padded]);
}

function int(...values: number[]): Buffer {
  const bytes = Buffer.alloc(4 * values.length);
  values.forEach((value, i) => {
    bytes.writeInt32BE(value, 4 * i);
  });
  return bytes;
}

interface RecordVariable {
  readonly title: string;
  readonly type: 3 | 6;
  /** The record dimension is 0; `x`, of three, is 1. */
  readonly dimensions: readonly number[];
  readonly records: readonly (readonly number[])[];
}

/** A NetCDF classic file of record variables, by the grammar of the specification: two records, a second dimension x of three. */
function recordFile(variables: readonly RecordVariable[]): Buffer {
  const pieces = variables.map(({ type, records }) =>
    records.map((values) => {
      const bytes = Buffer.alloc(values.length * (type === 3 ? 2 : 8));
      values.forEach((value, i) => {
        if (type === 3) bytes.writeInt16BE(value, 2 * i);
        else bytes.writeDoubleBE(value, 8 * i);
      });
      // A lone record variable is not padded to four bytes.
      if (variables.length === 1) return bytes;
      return Buffer.concat([bytes, Buffer.alloc((4 - (bytes.length % 4)) % 4)]);
    }),
  );
  const head = (offsets: readonly number[]) =>
    Buffer.concat([
      Buffer.from('CDF\u0001'),
      int(2, 10, 2),
      name('time'),
      int(0),
      name('x'),
      int(3),
      int(0, 0),
      int(11, variables.length),
      ...variables.map(({ title, type, dimensions }, i) =>
        Buffer.concat([
          name(title),
          int(dimensions.length, ...dimensions),
          int(0, 0, type, 4 * Math.ceil(pieces[i][0].length / 4), offsets[i]),
        ]),
      ),
    ]);
  let at = head(variables.map(() => 0)).length;
  const offsets = pieces.map(([first]) => {
    const offset = at;
    at += first.length;
    return offset;
  });
  const records = [0, 1].flatMap((record) => pieces.map((piece) => piece[record]));
  return Buffer.concat([head(offsets), ...records]);
}

describe('NetCDF classic', () => {
  it('[NCL-1] gives the stored values that a general-purpose reader gives, of every variable', async () => {
    const second = new NetCDFReader(readFileSync(era5));
    const file = await openNetcdfClassic(era5);
    expect(file.variables.map((variable) => variable.name)).toEqual(second.variables.map(({ name }) => name));
    for (const variable of file.variables) {
      const stored = second.getDataVariable(variable.name).flat();
      expect(Array.from(variable.read() ?? [])).toEqual(stored);
    }
    file.close();
  });

  it('[NCL-2] reads a part as it is in the whole', async () => {
    const file = await openNetcdfClassic(era5);
    const temperature = file.variables.find((variable) => variable.name === 't');
    const [times, levels, rows, columns] = temperature?.shape ?? [];
    const whole = temperature?.read() ?? [];
    const ranges = [[1, 3], [4, 6], null, [2, 5]] as const;
    const part = Array.from(temperature?.read(ranges) ?? []);
    const wanted: number[] = [];
    for (let time = 1; time < 3; time++) {
      for (let level = 4; level < 6; level++) {
        for (let row = 0; row < rows; row++) {
          for (let x = 2; x < 5; x++)
            wanted.push(whole[((time * levels + level) * rows + row) * columns + x]);
        }
      }
    }
    expect([times, levels, rows, columns]).toEqual([5, 14, 9, 9]);
    expect(part).toEqual(wanted);
    file.close();
  });

  it.each([
    ['two variables, the first of them padded', 2],
    ['one variable alone, not padded', 1],
  ])('[NCL-3] reads records of %s', async (_, count) => {
    const variables: RecordVariable[] = [
      {
        title: 'packed',
        type: 3,
        dimensions: [0, 1],
        records: [
          [1, -2, 3],
          [4, 5, -32767],
        ],
      },
      { title: 'moment', type: 6, dimensions: [0], records: [[0.25], [1e9]] },
    ];
    const path = join(folder, `records-${count}.nc`);
    writeFileSync(path, recordFile(variables.slice(0, count)));
    const file = await openNetcdfClassic(path);
    const [packed, moment] = file.variables;
    expect(packed.shape).toEqual([2, 3]);
    expect(packed.dimensions).toEqual(['time', 'x']);
    expect(Array.from(packed.read() ?? [])).toEqual([1, -2, 3, 4, 5, -32767]);
    expect(Array.from(packed.read([[1, 2], null]) ?? [])).toEqual([4, 5, -32767]);
    if (count === 2) expect(Array.from(moment.read() ?? [])).toEqual([0.25, 1e9]);
    file.close();
  });

  it('[NCL-4] says that a file ends within its values or its header', async () => {
    const bytes = readFileSync(era5);
    const values = join(folder, 'values.nc');
    writeFileSync(values, bytes.subarray(0, bytes.length - 100));
    await expect(readWeather(values)).rejects.toThrow(
      /values\.nc: variable \w+: the file ends within its values/,
    );
    const header = join(folder, 'header.nc');
    writeFileSync(header, bytes.subarray(0, 300));
    await expect(readWeather(header)).rejects.toThrow('header.nc: has a damaged NetCDF header');
  });

  it('[NCL-5] ends at 600 hPa: refused above, unless the offset is held there', async () => {
    const what = await describeWeather(era5);
    expect([what.timesS.length, what.pressuresPa.length]).toEqual([5, 14]);
    const field = await readWeather(era5);
    const [closed, held] = [gridDay(field, refuse), gridDay(field, { ...refuse, top: 'holdOffset' })];
    const [edge, high] = [newAir(), newAir()];
    const topM = pressureAltitudeOf(60_000);
    const at = [47 * degree, 9 * degree] as const;
    closed.sample(...at, topM, field.timesS[0], edge);
    closed.sample(...at, 20_000, field.timesS[0], high);
    expect([edge.outside, high.outside]).toEqual([0, OUTSIDE_ABOVE]);
    held.sample(...at, 20_000, field.timesS[0], high);
    expect(high.outside).toBe(0);
    expect(high.temperatureK - standardTemperature(20_000)).toBeCloseTo(edge.temperatureOffsetK, 6);
    const [gap] = held.description.gaps ?? [];
    expect(gap.side).toBe('above');
    expect(gap.edgeM).toBeCloseTo(topM, 6);
    expect(gap.spreads.every(({ spreadK }) => spreadK > 0)).toBe(true);
  });
});
