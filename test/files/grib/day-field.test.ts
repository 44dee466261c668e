import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Air, newAir } from '../../../src/core/air/day.ts';
import { gridDay } from '../../../src/core/air/grid-day.ts';
import type { GridField } from '../../../src/core/air/grid-field.ts';
import { bytesOf, GribError } from '../../../src/files/grib/bytes.ts';
import { describeGrib, type GribRequest, readGrib } from '../../../src/files/grib/day-field.ts';
import { findFields } from '../../../src/files/grib/messages.ts';
import { valuesOf } from '../../../src/files/grib/values.ts';
import { type GribGrid, type GribMessage, writeGrib } from '../../support/grib-message.ts';

const here = dirname(fileURLToPath(import.meta.url));
const degree = Math.PI / 180;
const gfs = readFileSync(join(here, '../../published/data/gfs-2011-01-10T12Z-f120-2p5deg-simple.grib2'));
const parameters = ['t', 'gh', 'u', 'v'] as const;
const levels = [500, 100] as const;
/** 2020-03-01T00:00Z */
const run = 1583020800;

const north: GribGrid = { columns: 12, rows: 7, latitudesDeg: [90, -90], longitudesDeg: [0, 330], scan: 0 };

/** A smooth field with something of every direction. */
function waveOf(parameter: string, hPa: number, lat: number, lon: number, hours = 0): number {
  const base = { t: 220, gh: 16000, z: 160000, u: 20, v: -5 }[parameter] ?? Number.NaN;
  const wave = Math.cos(lat * degree) * Math.sin((lon + 10 * hours) * degree) + Math.sin(lat * degree) / 2;
  return base * (1 + 0.1 * wave) * (1 + (500 - hPa) / 4000);
}

/** Places of a grid in the order of its scan, worked out from flag table 3.4 by walking along it. */
function walk({ columns, rows, latitudesDeg, longitudesDeg, scan }: GribGrid): [number, number][] {
  const at = ([from, to]: readonly [number, number], i: number, count: number) =>
    from + ((to - from) * i) / (count - 1);
  const byColumn = (scan & 0x20) !== 0;
  const [lines, length] = byColumn ? [columns, rows] : [rows, columns];
  const places: [number, number][] = [];
  for (let line = 0; line < lines; line++) {
    for (let k = 0; k < length; k++) {
      const along = (scan & 0x10) !== 0 && line % 2 === 1 ? length - 1 - k : k;
      const [row, column] = byColumn ? [along, line] : [line, along];
      places.push([at(latitudesDeg, row, rows), at(longitudesDeg, column, columns)]);
    }
  }
  return places;
}

type Change = Partial<Omit<GribMessage, 'values' | 'grid'>>;

function message(
  parameter: GribMessage['parameter'],
  hPa: number,
  grid = north,
  change: Change = {},
): GribMessage {
  const hours = (change.hours ?? 0) + 24 * (change.member ?? 0);
  const values = walk(grid).map(([lat, lon]) => waveOf(parameter, hPa, lat, lon, hours));
  return { parameter, hPa, grid, values, ...change };
}

function wholeDay(grid = north, change: Change = {}): GribMessage[] {
  return levels.flatMap((hPa) => parameters.map((parameter) => message(parameter, hPa, grid, change)));
}

async function fieldOf(bytes: Uint8Array, request?: GribRequest): Promise<GridField> {
  return { ...(await readGrib(bytesOf(bytes), request)), title: 'test', attribution: [] };
}

async function sampler(bytes: Uint8Array, request?: GribRequest): Promise<(lat: number, lon: number) => Air> {
  const day = gridDay(await fieldOf(bytes, request), { time: 'hold', top: 'refuse', bottom: 'refuse' });
  return (lat, lon) => {
    const air = newAir();
    day.sample(lat * degree, lon * degree, 9000, 0, air);
    return air;
  };
}

async function fault(bytes: Uint8Array, request?: GribRequest): Promise<string> {
  try {
    await readGrib(bytesOf(bytes), request);
  } catch (error) {
    if (error instanceof GribError) return error.message;
    throw error;
  }
  throw new Error('was accepted');
}

describe('a day in a GRIB 2 file', () => {
  it('[GRIB-3] is the same whichever way the file scans and longitudes count', async () => {
    const wanted = await sampler(writeGrib(wholeDay()));
    const first = wanted(51, 7);
    expect(first.outside).toBe(0);
    const grids: GribGrid[] = [];
    for (let scan = 0; scan < 256; scan += 16) {
      for (const west of [0, -180, 180, -30]) {
        const lon = [west, west + 330] as const;
        grids.push({
          ...north,
          scan,
          latitudesDeg: scan & 0x40 ? [-90, 90] : [90, -90],
          longitudesDeg: scan & 0x80 ? [lon[1], lon[0]] : lon,
        });
      }
    }
    expect(grids).toHaveLength(64);
    for (const grid of grids) {
      const found = await sampler(writeGrib(wholeDay(grid)));
      for (const [lat, lon] of [
        [51, 7],
        [-33.3, 179.9],
        [12, -0.1],
        [90, 45],
        [-89.9, -100],
      ]) {
        const [a, b] = [wanted(lat, lon), found(lat, lon)];
        expect(b.outside).toBe(0);
        expect(b.temperatureK).toBeCloseTo(a.temperatureK, 4);
        expect(b.windEastMS).toBeCloseTo(a.windEastMS, 4);
        expect(b.geometricHeightM).toBeCloseTo(a.geometricHeightM, 2);
      }
    }
  });

  it('[GRIB-4] a forecast is continuous across the date line and Greenwich', async () => {
    const day = gridDay(await fieldOf(gfs), { time: 'hold', top: 'refuse', bottom: 'refuse' });
    const [west, east] = [newAir(), newAir()];
    const tiny = 1e-9;
    const property = fc.property(
      fc.double({ min: -90, max: 90, noNaN: true }),
      fc.constantFrom(0, 180, -180, 357.5, 360),
      fc.double({ min: 12000, max: 26000, noNaN: true }),
      (lat, lon, altitude) => {
        day.sample(lat * degree, lon * degree - tiny, altitude, 0, west);
        day.sample(lat * degree, lon * degree + tiny, altitude, 0, east);
        expect([west.outside, east.outside]).toEqual([0, 0]);
        expect(east.temperatureK).toBeCloseTo(west.temperatureK, 5);
        expect(east.windEastMS).toBeCloseTo(west.windEastMS, 5);
        expect(east.geometricHeightM).toBeCloseTo(west.geometricHeightM, 3);
      },
    );
    fc.assert(property, { numRuns: 300, seed: 5 });
  });

  it('[GRIB-4] at a pole a forecast is the same from every side', async () => {
    const day = gridDay(await fieldOf(gfs), { time: 'hold', top: 'refuse', bottom: 'refuse' });
    for (const pole of [90, -90]) {
      const seen = Array.from({ length: 36 }, (_, i) => {
        const air = newAir();
        day.sample(pole * degree, i * 10 * degree, 18000, 0, air);
        // The wind over the pole in a frame that does not turn with the meridian.
        const [u, v, turned] = [air.windEastMS, air.windNorthMS, i * 10 * degree * Math.sign(pole)];
        return {
          outside: air.outside,
          temperature: air.temperatureK,
          x: u * Math.cos(turned) - v * Math.sin(turned),
          y: u * Math.sin(turned) + v * Math.cos(turned),
        };
      });
      for (const each of seen) {
        expect(each.outside).toBe(0);
        expect(each.temperature).toBeCloseTo(seen[0].temperature, 4);
        // Winds are packed to 0.1 m/s.
        expect(Math.hypot(each.x - seen[0].x, each.y - seen[0].y)).toBeLessThan(0.2);
      }
    }
  });

  it('[GRIB-5] a window gives the same day as the whole file, also across Greenwich and the date line', async () => {
    const whole = gridDay(await fieldOf(gfs), { time: 'hold', top: 'refuse', bottom: 'refuse' });
    const [a, b] = [newAir(), newAir()];
    for (const [west, east] of [
      [-4, 6],
      [3, 9],
      [176, -174],
      [-181, -179],
      [350, 365],
      [352.6, 359.9],
    ]) {
      const sides = { westRad: west * degree, eastRad: east * degree };
      const window = { southRad: 41 * degree, northRad: 52 * degree, ...sides, fromS: 0, toS: 2e9 };
      const field = await fieldOf(gfs, { window });
      expect(field.longitudesRad.length).toBeLessThan(12);
      expect(field.latitudesRad.length).toBeLessThan(9);
      const part = gridDay(field, { time: 'hold', top: 'refuse', bottom: 'refuse' });
      const width = (east - west + 360) % 360;
      for (const share of [0, 0.07, 0.31, 0.57, 0.93, 1]) {
        const lon = (west + share * width) * degree;
        whole.sample(45 * degree, lon, 15000, 0, a);
        part.sample(45 * degree, lon, 15000, 0, b);
        expect(b.outside).toBe(0);
        expect(b.temperatureK).toBeCloseTo(a.temperatureK, 8);
        expect(b.windNorthMS).toBeCloseTo(a.windNorthMS, 8);
        // On a meridian of the grid the gradient is that of the cell on either side.
        if (share > 0 && share < 1) expect(b.eastward[1]).toBeCloseTo(a.eastward[1], 10);
      }
    }
  });

  it('[GRIB-6] sorts levels and times, whatever the order of the messages', async () => {
    const [six, zero, twelve] = [6, 0, 12].map((hours) => wholeDay(north, { hours }));
    const shuffled = [...six.reverse(), ...zero, ...twelve.reverse()];
    const field = await fieldOf(writeGrib(shuffled));
    expect(Array.from(field.timesS)).toEqual([run, run + 6 * 3600, run + 12 * 3600]);
    expect(Array.from(field.pressuresPa)).toEqual([50000, 10000]);
    const sheet = north.columns * north.rows;
    // Third time, second level, second row from the north, fourth column from the west.
    const at = (2 * 2 + 1) * sheet + north.columns + 3;
    expect(field.temperatureK[at]).toBeCloseTo(waveOf('t', 100, 60, 90, 12), 3);
    expect(field.geopotential[at]).toBeCloseTo(waveOf('gh', 100, 60, 90, 12) * 9.80665, 1);
    const window = {
      southRad: -1,
      northRad: 1,
      westRad: 0,
      eastRad: 1,
      fromS: run + 7 * 3600,
      toS: run + 9 * 3600,
    };
    expect((await fieldOf(writeGrib(shuffled), { window })).timesS).toContain(run + 12 * 3600);
  });

  it('[GRIB-6] reads geopotential where there is no height', async () => {
    const bytes = writeGrib(
      levels.flatMap((hPa) => (['t', 'z', 'u', 'v'] as const).map((parameter) => message(parameter, hPa))),
    );
    expect(describeGrib(bytesOf(bytes)).variables[1]).toEqual({
      role: 'geopotential',
      name: 'z',
      units: 'm2/s2',
    });
    expect((await fieldOf(bytes)).geopotential[0]).toBeCloseTo(waveOf('z', 500, 90, 0), 1);
  });

  it('[GRIB-7] reads the member that is asked for, and asks where there are several', async () => {
    const bytes = writeGrib([3, 1, 2].flatMap((member) => wholeDay(north, { member })));
    expect(describeGrib(bytesOf(bytes)).members).toEqual([1, 2, 3]);
    expect(await fault(bytes)).toBe('holds the members 1, 2, 3 of an ensemble; say which');
    expect(await fault(bytes, { member: 4 })).toBe('has no member 4, only 1, 2, 3');
    expect(await fault(writeGrib(wholeDay()), { member: 1 })).toBe('is of no ensemble');
    const field = await fieldOf(bytes, { member: 2 });
    expect(field.temperatureK[15]).toBeCloseTo(waveOf('t', 500, 60, 90, 48), 3);
    const alone = await readGrib(bytesOf(writeGrib(wholeDay(north, { member: 7 }))));
    expect(alone.member).toBe(7);
  });

  it('[GRIB-8] takes averages only where there is nothing else, at the middle of their interval', async () => {
    const interval = { toHours: 6, statistic: 0 };
    const averages = wholeDay(north, { interval });
    expect(Array.from((await fieldOf(writeGrib(averages))).timesS)).toEqual([run + 3 * 3600]);
    const members = wholeDay(north, { interval, member: 2 });
    expect(Array.from((await fieldOf(writeGrib(members))).timesS)).toEqual([run + 3 * 3600]);
    expect(Array.from((await fieldOf(writeGrib([...averages, ...wholeDay()]))).timesS)).toEqual([run]);
    const greatest = wholeDay(north, { interval: { toHours: 6, statistic: 2 } });
    expect(await fault(writeGrib(greatest))).toBe('no temperature on pressure levels (looked for t)');
  });

  it('[GRIB-9] says what a file lacks or holds twice', async () => {
    const day = wholeDay();
    const without = day.filter(({ parameter, hPa }) => !(parameter === 'v' && hPa === 100));
    expect(await fault(writeGrib(without))).toBe('lacks v at 100 hPa, 2020-03-01T00:00Z');
    expect(await fault(writeGrib(day.filter(({ parameter }) => parameter !== 'u')))).toBe(
      'no windEast on pressure levels (looked for u)',
    );
    expect(await fault(writeGrib([...day, day[2]]))).toBe(
      'message 9: holds u at 500 hPa, 2020-03-01T00:00Z again, after message 3',
    );
    const other: GribGrid = { ...north, columns: 6, longitudesDeg: [0, 300] };
    expect(await fault(writeGrib([...day.slice(1), message('t', 500, other)]))).toContain(
      'has 6 x 7 points from 90 to -90 N, 0 to 300 E, message',
    );
  });
});

describe('a GRIB file with a fault', () => {
  /** The bytes of a whole day with one octet of a section of the first message changed. */
  function changed(section: number, octet: number, value: number): Uint8Array {
    const bytes = writeGrib(wholeDay());
    let at = 16;
    while (bytes[at + 4] !== section) at += bytes[at + 2] * 256 + bytes[at + 3];
    bytes[at + octet - 1] = value;
    return bytes;
  }

  it.each([
    ['another grid', 3, 14, 40, 'message 1: grid template 3.40; 3.0 (latitude and longitude) is read'],
    ['a reduced grid', 3, 11, 2, 'message 1: rows of different length (a reduced grid) are not read'],
    ['offset rows', 3, 72, 8, 'message 1: rows or points offset against each other are not read'],
    ['another count', 3, 10, 83, 'message 1: a grid of 12 x 7 points that says it has 83'],
    ['latitudes the wrong way', 3, 72, 64, 'message 1: latitudes from 90 to -90 deg in 7 rows'],
    ['another product', 4, 9, 2, 'message 1: product template 4.2 of t; 4.0, 4.1, 4.8 and 4.11 are read'],
    ['months', 4, 18, 3, 'message 1: unit of time 3 of code table 4.4 is not read'],
    [
      'a packing not known',
      5,
      11,
      61,
      'message 1: data template 5.61; read are 5.0, 5.2, 5.3, 5.4, 5.40, 5.41, 5.42',
    ],
    [
      'quadruple precision',
      5,
      12,
      3,
      'message 1: IEEE values of precision 3 of code table 5.7; 1 and 2 are read',
    ],
    [
      'a bitmap of its centre',
      6,
      6,
      7,
      'message 1: has the predefined bitmap 7 of its centre, which is not known',
    ],
    ['no earlier bitmap', 6, 6, 254, 'message 1: refers to an earlier bitmap, and has none'],
    ['more values than data', 5, 12, 2, 'message 1: data that cannot be decoded'],
    ['no date', 1, 15, 13, 'message 1: section 1 has the time 2020-13-1 0:0:0, which is not in the calendar'],
    ['an odd section', 5, 5, 9, 'message 1: has a section of number 9'],
  ])('[GRIB-10] %s is refused by name', async (_, section, octet, value, text) => {
    expect(await fault(changed(section, octet, value))).toContain(text);
  });

  it('[GRIB-11] a file cut short is refused wherever it is cut', async () => {
    const bytes = writeGrib(wholeDay());
    const size = bytes.length / 8;
    expect(await fault(bytes.subarray(0, bytes.length - 1))).toBe(
      `message 8: is cut short: it ends at byte ${bytes.length}, the file at byte ${bytes.length - 1}`,
    );
    expect(await fault(bytes.subarray(0, 7 * size + 10))).toBe('message 8: is cut short in section 0');
    expect(await fault(new Uint8Array(100))).toBe('holds no GRIB message');
  });

  it('[GRIB-11] bytes between messages are passed over', async () => {
    const bytes = writeGrib(wholeDay());
    const half = bytes.length / 2;
    const gap = Uint8Array.from([...bytes.subarray(0, half), 1, 71, 82, 3, ...bytes.subarray(half), 0, 0]);
    expect((await fieldOf(gap)).temperatureK).toEqual((await fieldOf(bytes)).temperatureK);
  });

  it('[GRIB-12] damaged data are decoded or refused, never left to fail in some other way', async () => {
    const bytes = readFileSync(join(here, 'packings.grib2'));
    const property = fc.asyncProperty(
      fc.array(fc.tuple(fc.nat(bytes.length - 1), fc.nat(255)), { minLength: 1, maxLength: 4 }),
      async (changes) => {
        const damaged = Uint8Array.from(bytes);
        for (const [at, value] of changes) damaged[at] = value;
        await expect(decodeAll(damaged)).resolves.toBe('read or refused');
      },
    );
    await fc.assert(property, { numRuns: 150, seed: 11 });
  });
});

async function decodeAll(bytes: Uint8Array): Promise<string> {
  try {
    const source = bytesOf(bytes);
    for (const field of findFields(source)) await valuesOf(source, field);
  } catch (error) {
    if (!(error instanceof GribError)) throw error;
  }
  return 'read or refused';
}
