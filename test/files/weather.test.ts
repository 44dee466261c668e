import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import h5wasm, { type File } from 'h5wasm/node';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newAir } from '../../src/core/air/day.ts';
import { gridDay } from '../../src/core/air/grid-day.ts';
import { describeWeather, readWeather, WeatherError } from '../../src/files/weather.ts';

const here = dirname(fileURLToPath(import.meta.url));
const era5 = join(here, '../../examples/weather/era5-2020-02-23T16Z-30N54N-100W75W.nc');
const hourly = join(here, '../published/data/era5-2022-10-13-hourly-39N40N-9W8W.nc');
const degree = Math.PI / 180;
const folder = mkdtempSync(join(tmpdir(), 'ramrise-weather-'));
const rules = { time: 'hold', top: 'holdOffset', bottom: 'holdOffset' } as const;

beforeAll(async () => {
  await h5wasm.ready;
});
afterAll(() => rmSync(folder, { recursive: true }));

interface Recipe {
  readonly temperatureUnit?: string;
  readonly levelUnit?: string;
  readonly timeUnit?: string;
  readonly windName?: string;
  readonly packed?: boolean;
  readonly heights?: boolean;
  readonly order?: readonly string[];
}

/** Writes a small NetCDF-4-like file: 1 time, 2 levels, 2 latitudes, 3 longitudes. */
function write(name: string, recipe: Recipe = {}): string {
  const path = join(folder, name);
  const file = new h5wasm.File(path, 'w');
  const axes: Record<string, { data: number[]; units: string; standard: string }> = {
    time: { data: [12], units: recipe.timeUnit ?? 'hours since 2020-01-01', standard: 'time' },
    level: { data: [100, 50], units: recipe.levelUnit ?? 'hPa', standard: 'air_pressure' },
    latitude: { data: [40, 41], units: 'degrees_north', standard: 'latitude' },
    longitude: { data: [5, 6, 7], units: 'degrees_east', standard: 'longitude' },
  };
  for (const [axis, { data, units, standard }] of Object.entries(axes)) {
    const scale = file.create_dataset({ name: axis, data: Float64Array.from(data), shape: [data.length] });
    scale.create_attribute('units', units);
    scale.create_attribute('standard_name', standard);
    scale.make_scale(axis);
  }
  const field = (variable: string, units: string, standard: string, values: number[]) =>
    addField(file, { variable, units, standard, values, recipe, axes });
  field(
    't',
    recipe.temperatureUnit ?? 'K',
    'air_temperature',
    constant(recipe.temperatureUnit === 'degC' ? -53.15 : 220),
  );
  field('z', recipe.heights ? 'm' : 'm**2 s**-2', recipe.heights ? 'geopotential_height' : 'geopotential', [
    ...new Array<number>(6).fill(recipe.heights ? 16000 : 156906.4),
    ...new Array<number>(6).fill(recipe.heights ? 20500 : 201036.325),
  ]);
  field(recipe.windName ?? 'u', 'm s**-1', recipe.windName ? 'nothing' : 'eastward_wind', constant(10));
  field('v', 'm s**-1', 'northward_wind', constant(-5));
  file.close();
  return path;
}

const constant = (value: number) => new Array<number>(12).fill(value);

interface Field {
  readonly variable: string;
  readonly units: string;
  readonly standard: string;
  readonly values: number[];
  readonly recipe: Recipe;
  readonly axes: Record<string, { data: number[] }>;
}

function addField(file: File, { variable, units, standard, values, recipe, axes }: Field): void {
  const order = recipe.order ?? ['time', 'level', 'latitude', 'longitude'];
  const shape = order.map((axis) => axes[axis].data.length);
  const packed = recipe.packed && variable === 't';
  // Packed: 220 K = 4000 * 0.005 + 200, one value missing.
  const data = packed
    ? Int16Array.from(values, (_, i) => (i === 11 ? -32767 : 4000))
    : Float32Array.from(values);
  const dataset = file.create_dataset({ name: variable, data, shape });
  dataset.create_attribute('units', units);
  dataset.create_attribute('standard_name', standard);
  if (packed) {
    dataset.create_attribute('scale_factor', 0.005);
    dataset.create_attribute('add_offset', 200);
    dataset.create_attribute('_FillValue', -32767, [], '<h');
  }
  order.forEach((axis, i) => {
    dataset.attach_scale(i, axis);
  });
}

async function fault(path: string): Promise<WeatherError> {
  try {
    await readWeather(path);
  } catch (error) {
    if (error instanceof WeatherError) return error;
    throw error;
  }
  throw new Error('was accepted');
}

describe('a weather file', () => {
  it('[WX-1] says what it holds', async () => {
    // Axes as the data's README lists them; the time is 2020-02-23 16:00 UTC.
    const what = await describeWeather(era5);
    expect(what.timesS).toEqual([1582473600]);
    expect(what.pressuresPa).toHaveLength(37);
    expect([what.pressuresPa[0], what.pressuresPa[36]]).toEqual([100000, 100]);
    expect(what.latitudesDeg).toHaveLength(97);
    expect(what.latitudesDeg[0]).toBeCloseTo(54, 10);
    expect(what.longitudesDeg[100]).toBeCloseTo(-75, 10);
    expect(what.variables.map(({ name, units }) => `${name} ${units}`)).toEqual([
      't K',
      'z m**2 s**-2',
      'u m s**-1',
      'v m s**-1',
    ]);
    expect(what.attribution[0]).toContain('Copernicus Climate Change Service');
  });

  it('[WX-2] a window gives the same day as the whole file', async () => {
    const window = {
      southRad: 38.1 * degree,
      northRad: 41.3 * degree,
      westRad: -91.4 * degree,
      eastRad: -88.2 * degree,
      fromS: 1582473600,
      toS: 1582480000,
    };
    const [whole, part] = [await readWeather(era5), await readWeather(era5, window)];
    expect(part.temperatureK.length).toBeLessThan(whole.temperatureK.length / 20);
    const [a, b] = [newAir(), newAir()];
    for (const [lat, lon] of [
      [38.1, -91.4],
      [41.3, -88.2],
      [39.7, -90.01],
    ]) {
      gridDay(whole, rules).sample(lat * degree, lon * degree, 21000, 0, a);
      gridDay(part, rules).sample(lat * degree, lon * degree, 21000, 0, b);
      expect(b.outside).toBe(0);
      expect(b.temperatureK).toBeCloseTo(a.temperatureK, 9);
      expect(b.windEastMS).toBeCloseTo(a.windEastMS, 9);
    }
  });

  it('[WX-3] a window of times keeps the neighbours', async () => {
    const whole = await readWeather(hourly);
    const at = whole.timesS[5] + 600;
    const box = { southRad: -2, northRad: 2, westRad: -1, eastRad: 1 };
    const part = await readWeather(hourly, { ...box, fromS: at, toS: at + 60 });
    expect(part.timesS.length).toBeLessThan(6);
    const [a, b] = [newAir(), newAir()];
    const refuse = { time: 'refuse', top: 'refuse', bottom: 'refuse' } as const;
    gridDay(whole, refuse).sample(39.4 * degree, -8.3 * degree, 18000, at, a);
    gridDay(part, refuse).sample(39.4 * degree, -8.3 * degree, 18000, at, b);
    expect(b).toEqual(a);
  });

  it('[WX-4] unpacks, converts and leaves holes as holes', async () => {
    const field = await readWeather(write('packed.nc', { packed: true }));
    expect(field.temperatureK[0]).toBeCloseTo(220, 4);
    expect(field.temperatureK[11]).toBeNaN();
    expect(field.timesS[0]).toBe(Date.UTC(2020, 0, 1, 12) / 1000);
    const celsius = await readWeather(
      write('celsius.nc', { temperatureUnit: 'degC', levelUnit: 'millibars', heights: true }),
    );
    expect(celsius.temperatureK[0]).toBeCloseTo(220, 4);
    expect(celsius.pressuresPa[1]).toBe(5000);
    expect(celsius.geopotential[0]).toBeCloseTo(16000 * 9.80665, 1);
  });

  it.each([
    ['unit', { temperatureUnit: 'furlong' }, 'variable t: unit "furlong" where K or its like is needed'],
    ['level', { levelUnit: 'm' }, 'variable level: unit "m" where Pa or its like is needed'],
    ['time', { timeUnit: 'moons since 2020-01-01' }, 'variable time: unit "moons since 2020-01-01"'],
    [
      'wind',
      { windName: 'w' },
      'no windEast on pressure levels (looked for standard_name eastward_wind, u, ua)',
    ],
    [
      'order',
      { order: ['time', 'level', 'longitude', 'latitude'] },
      'has the dimensions time, level, longitude, latitude',
    ],
  ] as const)('[WX-5] refuses a file with a wrong %s and names it', async (name, recipe, text) => {
    const error = await fault(write(`${name}.nc`, recipe));
    expect(error.message).toContain(`${name}.nc`);
    expect(error.message).toContain(text);
  });

  it('[WX-6] says what a file is that it does not read', async () => {
    const cases = [
      ['classic.nc', 'CDF\u0002', 'has a damaged NetCDF header'],
      [
        'a.grib',
        'GRIB\u0000\u0000\u0080\u0001\u0000\u0000\u0000\u0000\u0000\u0000\u0000\u0000',
        'message 1: is GRIB edition 1; edition 2 is read',
      ],
      ['a.txt', 'hello, world', 'is no weather file'],
    ] as const;
    for (const [name, start, text] of cases) {
      writeFileSync(join(folder, name), start, 'latin1');
      expect((await fault(join(folder, name))).message).toContain(`${name}: ${text}`);
    }
    expect((await fault(join(folder, 'absent.nc'))).message).toBe('absent.nc: no such file');
  });
});
