import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { describeWeather, readWeather } from '../../src/files/weather.ts';
import { attributionOfGrid, type Origin } from '../../src/files/weather-attribution.ts';

const hourly = fileURLToPath(
  new URL('../published/data/era5-2022-10-13-hourly-39N40N-9W8W.nc', import.meta.url),
);

/** A file of 2021 that names nothing; no file lies beside it. */
const unnamed: Origin = {
  producers: [],
  history: [],
  hasExpver: false,
  firstS: Date.UTC(2021, 5, 1) / 1000,
};

describe('attribution', () => {
  it('[WX-7] of ERA5 follows from the attributes where no text lies beside the file', async () => {
    const text = 'Contains modified Copernicus Climate Change Service information 2022 (ERA5';
    expect((await describeWeather(hourly)).attribution[0]).toContain(text);
    expect((await readWeather(hourly)).attribution).toHaveLength(1);
  });

  it('[WX-8] tells ERA5 from other data of the same centre, and leaves the rest alone', () => {
    const of = (origin: Partial<Origin>) => attributionOfGrid('w.nc', { ...unnamed, ...origin }).join('\n');
    const centre = ['European Centre for Medium-Range Weather Forecasts'];
    expect(of({ producers: ['ecmf'], hasExpver: true })).toContain('information 2021 (ERA5');
    expect(of({ history: ['grib_to_netcdf -o /cache/adaptor.mars.internal-16.nc'] })).toContain('(ERA5');
    expect(of({ producers: centre })).toContain('(ECMWF, www.ecmwf.int)');
    expect(of({ producers: centre })).not.toContain('ERA5');
    expect(of({ producers: ['kwbc'], hasExpver: true })).toBe('');
  });
});
