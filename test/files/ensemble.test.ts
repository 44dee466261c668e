import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import h5wasm from 'h5wasm/node';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { describeWeather, readWeather } from '../../src/files/weather.ts';

const folder = mkdtempSync(join(tmpdir(), 'ramrise-ensemble-'));
const axes: Record<string, { data: number[]; units: string }> = {
  number: { data: [0, 3, 7], units: '1' },
  valid_time: { data: [0, 3600], units: 'seconds since 1970-01-01' },
  pressure_level: { data: [100, 50], units: 'hPa' },
  latitude: { data: [40, 41], units: 'degrees_north' },
  longitude: { data: [5, 6, 7], units: 'degrees_east' },
};
const units = { t: 'K', z: 'm**2 s**-2', u: 'm s**-1', v: 'm s**-1' };

beforeAll(async () => {
  await h5wasm.ready;
});
afterAll(() => rmSync(folder, { recursive: true }));

/** An ensemble whose values tell their member, time and level: 1000 * field + 100 * member + 10 * time + level. */
function write(file: string, order: readonly string[]): string {
  const path = join(folder, file);
  const out = new h5wasm.File(path, 'w');
  for (const [axis, { data, units }] of Object.entries(axes)) {
    const scale = out.create_dataset({ name: axis, data: Float64Array.from(data), shape: [data.length] });
    scale.create_attribute('units', units);
    scale.make_scale(axis);
  }
  const shape = order.map((axis) => axes[axis].data.length);
  const total = shape.reduce((a, b) => a * b, 1);
  Object.entries(units).forEach(([name, unit], field) => {
    const data = Float32Array.from({ length: total }, (_, flat) => {
      const index: Record<string, number> = {};
      let rest = flat;
      for (let i = order.length - 1; i >= 0; i--) {
        index[order[i]] = rest % shape[i];
        rest = Math.floor(rest / shape[i]);
      }
      return 1000 * field + 100 * index.number + 10 * index.valid_time + index.pressure_level;
    });
    const dataset = out.create_dataset({ name, data, shape });
    dataset.create_attribute('units', unit);
    order.forEach((axis, i) => {
      dataset.attach_scale(i, axis);
    });
  });
  out.close();
  return path;
}

const inner = ['pressure_level', 'latitude', 'longitude'];
const memberFirst = ['number', 'valid_time', ...inner];
const timeFirst = ['valid_time', 'number', ...inner];

describe('an ensemble', () => {
  it('[ENS-1] says which members it has', async () => {
    expect((await describeWeather(write('a.nc', memberFirst))).members).toEqual([0, 3, 7]);
  });

  it.each([
    ['member, time', memberFirst],
    ['time, member', timeFirst],
  ])('[ENS-2] gives the member of a number, its dimensions beginning with %s', async (title, order) => {
    const path = write(`${title.length}-${order[0]}.nc`, order);
    const field = await readWeather(path, undefined, 7);
    // Six points on each of two levels at each of two times, of the third member.
    const values = [0, 1, 10, 11].flatMap((value) => new Array<number>(6).fill(200 + value));
    expect(Array.from(field.temperatureK)).toEqual(values);
    expect(Array.from(field.windNorthMS)).toEqual(values.map((value) => 3000 + value));
    expect(field.title).toContain('member 7');
  });

  it('[ENS-3] refuses to choose, and a member that is not there', async () => {
    const path = write('b.nc', memberFirst);
    await expect(readWeather(path)).rejects.toThrow('b.nc: say which member; it has 0, 3, 7');
    await expect(readWeather(path, undefined, 2)).rejects.toThrow('there is no member 2; it has 0, 3, 7');
  });
});
