import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Day, newAir } from '../../../src/core/air/day.ts';
import { gridDay } from '../../../src/core/air/grid-day.ts';
import { type GridField, type GridRules, usualGapS } from '../../../src/core/air/grid-field.ts';
import {
  geopotentialFromGeometric,
  standardLogPressure,
  standardTemperature,
} from '../../../src/core/air/standard.ts';

const degree = Math.PI / 180;
const refuse: GridRules = { time: 'refuse', top: 'refuse', bottom: 'refuse' };
const carryOn: GridRules = { time: 'hold', top: 'holdOffset', bottom: 'holdOffset' };

interface Shape {
  readonly hours: readonly number[];
  readonly hPa: readonly number[];
  readonly latitudes: readonly number[];
  readonly longitudes: readonly number[];
}

type Formula = (latitudeDeg: number, longitudeDeg: number, hPa: number, hour: number) => number;

/** A field whose values are formulas of latitude, longitude, pressure and hour. */
function fieldOf(shape: Shape, formulas: { t: Formula; u: Formula; v: Formula; z: Formula }): GridField {
  const { hours, hPa, latitudes, longitudes } = shape;
  const fill = (formula: Formula) =>
    Float32Array.from(
      hours.flatMap((hour) =>
        hPa.flatMap((p) => latitudes.flatMap((lat) => longitudes.map((lon) => formula(lat, lon, p, hour)))),
      ),
    );
  return {
    title: 'made for a test',
    attribution: [],
    timesS: Float64Array.from(hours, (hour) => hour * 3600),
    pressuresPa: Float64Array.from(hPa, (p) => p * 100),
    latitudesRad: Float64Array.from(latitudes, (lat) => lat * degree),
    longitudesRad: Float64Array.from(longitudes, (lon) => lon * degree),
    temperatureK: fill(formulas.t),
    windEastMS: fill(formulas.u),
    windNorthMS: fill(formulas.v),
    geopotential: fill(formulas.z),
  };
}

const shape: Shape = { hours: [0, 6], hPa: [200, 100, 50], latitudes: [50, 40, 30], longitudes: [0, 10, 20] };
const ln = Math.log;
/** Linear in each coordinate, so that the interpolation is exact but for float32. */
const linear = {
  t: ((lat, lon, p, hour) => 220 + 0.1 * lat - 0.2 * lon + 3 * ln(p) + 0.5 * hour) as Formula,
  u: ((lat, lon, p, hour) => 10 - 0.5 * lat + 0.25 * lon - 5 * ln(p) + hour) as Formula,
  v: ((lat, lon, p, hour) => -4 + 0.3 * lat + 0.1 * lon + 2 * ln(p) - 2 * hour) as Formula,
  z: ((lat, lon, p, hour) => 400000 - 60000 * ln(p) + 20 * lat + 10 * lon + 5 * hour) as Formula,
};

function at(day: Day, latitudeDeg: number, longitudeDeg: number, altitudeM: number, hour: number) {
  const air = newAir();
  day.sample(latitudeDeg * degree, longitudeDeg * degree, altitudeM, hour * 3600, air);
  return air;
}

const hPaOf = (altitudeM: number) => Math.exp(standardLogPressure(altitudeM)) / 100;
/** 11 784 m and 20 576 m are 200 and 50 hPa. */
const inside = {
  latitude: fc.double({ min: 30, max: 50, noNaN: true }),
  longitude: fc.double({ min: 0, max: 20, noNaN: true }),
  altitude: fc.double({ min: 11800, max: 20560, noNaN: true }),
  hour: fc.double({ min: 0, max: 6, noNaN: true }),
};

describe('a gridded day', () => {
  const day = gridDay(fieldOf(shape, linear), refuse);

  it('[GRID-1] gives a field that is linear in latitude, longitude, ln p and time exactly', () => {
    fc.assert(
      fc.property(
        inside.latitude,
        inside.longitude,
        inside.altitude,
        inside.hour,
        (lat, lon, altitude, hour) => {
          const air = at(day, lat, lon, altitude, hour);
          const p = hPaOf(altitude);
          expect(air.outside).toBe(0);
          expect(air.temperatureK).toBeCloseTo(linear.t(lat, lon, p, hour), 3);
          expect(air.windEastMS).toBeCloseTo(linear.u(lat, lon, p, hour), 4);
          expect(air.windNorthMS).toBeCloseTo(linear.v(lat, lon, p, hour), 4);
          const geopotential = geopotentialFromGeometric(air.geometricHeightM) * 9.80665;
          expect(Math.abs(geopotential - linear.z(lat, lon, p, hour))).toBeLessThan(0.1);
        },
      ),
    );
  });

  it('[GRID-2] gives gradients that are those of its values', () => {
    const bent = gridDay(
      fieldOf(shape, {
        t: (lat, lon, p, hour) =>
          215 + 5 * Math.sin(lat) * Math.cos(lon) + 3 * Math.sin(p) + hour * Math.sin(lon),
        u: (lat, lon, p) => 20 * Math.cos(lat + lon + p),
        v: (lat, lon, p, hour) => 15 * Math.sin(lat * lon + p) * hour,
        z: (lat, lon, p, hour) => 400000 - 60000 * ln(p) + 900 * Math.sin(lat + 2 * lon) + 50 * hour,
      }),
      refuse,
    );
    const names = ['temperatureK', 'windEastMS', 'windNorthMS', 'geometricHeightM'] as const;
    // One metre on WGS 84 at height 0, from the radii of curvature.
    const squash = 0.0066943799901413165;
    fc.assert(
      fc.property(
        inside.latitude,
        inside.longitude,
        inside.altitude,
        inside.hour,
        (lat, lon, altitude, hour) => {
          const nearNode = [lat, lon].some((x) => Math.abs(x / 10 - Math.round(x / 10)) < 1e-4);
          if (nearNode || Math.abs(altitude - 16180) < 5 || hour < 0.01 || hour > 5.99) return;
          const w = 1 - squash * Math.sin(lat * degree) ** 2;
          const north = (6378137 * (1 - squash)) / w ** 1.5;
          const east = (6378137 / Math.sqrt(w)) * Math.cos(lat * degree);
          const air = at(bent, lat, lon, altitude, hour);
          const angle = 1e-4;
          const pairs = [
            [
              air.upward,
              at(bent, lat, lon, altitude + 0.5, hour),
              at(bent, lat, lon, altitude - 0.5, hour),
              1,
            ],
            [
              air.eastward,
              at(bent, lat, lon + angle, altitude, hour),
              at(bent, lat, lon - angle, altitude, hour),
              2 * angle * degree * east,
            ],
            [
              air.northward,
              at(bent, lat + angle, lon, altitude, hour),
              at(bent, lat - angle, lon, altitude, hour),
              2 * angle * degree * north,
            ],
            [
              air.perSecond,
              at(bent, lat, lon, altitude, hour + 0.001),
              at(bent, lat, lon, altitude, hour - 0.001),
              7.2,
            ],
          ] as const;
          for (const [gradient, high, low, span] of pairs) {
            names.forEach((name, field) => {
              const slope = (high[name] - low[name]) / span;
              // The metre of the grid is linear between latitudes: 0.4 % of a 10 degree cell at most.
              expect(Math.abs(slope - gradient[field])).toBeLessThan(0.01 * Math.abs(slope) + 1e-8);
            });
          }
        },
      ),
    );
  });

  it('[GRID-3] reads the same from either order of latitudes and levels', () => {
    const turned: Shape = { ...shape, hPa: [50, 100, 200], latitudes: [30, 40, 50] };
    const other = gridDay(fieldOf(turned, linear), refuse);
    for (const [lat, lon, altitude, hour] of [
      [31, 3, 12000, 1],
      [44, 19, 18000, 5],
      [50, 20, 16000, 0],
    ]) {
      const [a, b] = [at(day, lat, lon, altitude, hour), at(other, lat, lon, altitude, hour)];
      expect(a.temperatureK).toBeCloseTo(b.temperatureK, 4);
      expect(a.northward[0]).toBeCloseTo(b.northward[0], 10);
      expect(a.upward[1]).toBeCloseTo(b.upward[1], 7);
    }
  });

  it('[GRID-4] crosses the date line, whether its longitudes jump there or not', () => {
    const wave = { ...linear, t: (lat: number, lon: number) => 210 + lat / 10 + ((lon + 360) % 360) / 100 };
    const jumping = gridDay(fieldOf({ ...shape, longitudes: [170, 180, -170] }, wave), refuse);
    const running = gridDay(fieldOf({ ...shape, longitudes: [170, 180, 190] }, wave), refuse);
    for (const lon of [171, 179.999, 180, -180, 185, -175, -170, 190]) {
      for (const east of [jumping, running]) {
        const air = at(east, 40, lon, 15000, 0);
        expect(air.outside).toBe(0);
        expect(air.temperatureK).toBeCloseTo(210 + 4 + ((lon + 360) % 360) / 100, 3);
      }
    }
    expect(at(running, 40, 0, 15000, 0).outside).toBe(4);
  });

  it('[GRID-5] closes round the globe and reaches over the poles', () => {
    const longitudes = Array.from({ length: 36 }, (_, i) => i * 10);
    const globe = gridDay(
      fieldOf(
        { ...shape, latitudes: [90, 80, 0, -80, -90], longitudes },
        { ...linear, t: (lat, lon) => 220 + Math.cos(lat * degree) * 10 * Math.cos(lon * degree) },
      ),
      refuse,
    );
    expect(at(globe, 0, 355, 15000, 0).temperatureK).toBeCloseTo(220 + 5 * (Math.cos(350 * degree) + 1), 3);
    expect(at(globe, 0, -5, 15000, 0).temperatureK).toBeCloseTo(at(globe, 0, 355, 15000, 0).temperatureK, 9);
    for (const pole of [90, -90]) {
      for (const lon of [0, 123, -180, 180]) {
        const air = at(globe, pole, lon, 15000, 0);
        expect(air.outside).toBe(0);
        expect(air.temperatureK).toBeCloseTo(220, 4);
        expect(air.eastward.every(Number.isFinite)).toBe(true);
      }
    }
  });

  it('[GRID-6] marks each way out and gives the nearest edge', () => {
    const edge = at(day, 50, 20, 15000, 6);
    const out = at(day, 51, 25, 15000, 6);
    expect(out.outside).toBe(4);
    expect(out.temperatureK).toBe(edge.temperatureK);
    expect(out.eastward[0]).toBeCloseTo(0, 15);
    expect(at(day, 40, -3, 15000, 1).temperatureK).toBe(at(day, 40, 0, 15000, 1).temperatureK);
    expect(at(day, 40, 10, 15000, 7).outside).toBe(8);
    expect(at(day, 40, 10, 15000, 7).perSecond[0]).toBeCloseTo(0, 15);
    expect(at(day, 40, 10, 21000, 1).outside).toBe(2);
    expect(at(day, 40, 10, 11000, 1).outside).toBe(1);
    expect(at(day, 60, 10, 21000, -1).outside).toBe(2 + 4 + 8);
    expect(at(day, Number.NaN, 10, 15000, 1).outside).toBe(4);
    expect(at(day, 40, Infinity, 15000, 1).outside).toBe(4);
  });

  it('[GRID-7] goes on above the top by the offset, hydrostatically, where the rule says so', () => {
    const held = gridDay(fieldOf(shape, linear), carryOn);
    expect(held.description.continuedBy).toEqual(['time: hold', 'top: holdOffset', 'bottom: holdOffset']);
    const top = at(held, 40, 10, 20576.2, 3);
    const above = at(held, 40, 10, 26000, 3);
    expect(above.outside).toBe(0);
    expect(above.temperatureOffsetK).toBeCloseTo(top.temperatureOffsetK, 3);
    expect(above.windEastMS).toBeCloseTo(top.windEastMS, 3);
    expect(above.upward[1]).toBe(0);
    // Simpson over the layer above: dH = T/Tstd dHp.
    const steps = 200;
    const width = (26000 - 20576.2) / steps;
    let sum = geopotentialFromGeometric(top.geometricHeightM);
    for (let i = 0; i < steps; i++) {
      const stretch = (h: number) => 1 + above.temperatureOffsetK / standardTemperature(h);
      const h = 20576.2 + i * width;
      sum += (width / 6) * (stretch(h) + 4 * stretch(h + width / 2) + stretch(h + width));
    }
    expect(Math.abs(geopotentialFromGeometric(above.geometricHeightM) - sum)).toBeLessThan(0.05);
    const slope =
      at(held, 40, 10, 26000.5, 3).geometricHeightM - at(held, 40, 10, 25999.5, 3).geometricHeightM;
    expect(above.upward[3]).toBeCloseTo(slope, 6);
  });

  it('[GRID-8] holds one time for ever where the rule says so, and nowhere else', () => {
    const one: Shape = { ...shape, hours: [6] };
    const held = gridDay(fieldOf(one, linear), carryOn);
    expect(held.description.title).toBe('made for a test, held');
    expect(at(held, 40, 10, 15000, 1000).temperatureK).toBe(at(held, 40, 10, 15000, 6).temperatureK);
    expect(at(held, 40, 10, 15000, 1000).outside).toBe(0);
    expect(at(gridDay(fieldOf(one, linear), refuse), 40, 10, 15000, 7).outside).toBe(8);
  });

  it('[GRID-9] marks a hole and gives the standard atmosphere there, and only there', () => {
    const holed = gridDay(
      fieldOf(shape, {
        ...linear,
        u: (lat, lon, p, hour) => (lat === 50 ? Number.NaN : linear.u(lat, lon, p, hour)),
      }),
      refuse,
    );
    const hole = at(holed, 45, 5, 15000, 1);
    expect(hole.outside).toBe(16);
    expect(hole.temperatureK).toBe(standardTemperature(15000));
    expect(hole.windEastMS).toBe(0);
    expect(at(holed, 35, 5, 15000, 1).outside).toBe(0);
  });

  it('[GRID-10] refuses axes that turn back and fields that do not fit them', () => {
    expect(() => gridDay(fieldOf({ ...shape, latitudes: [30, 50, 40] }, linear), refuse)).toThrow(
      'do not run one way',
    );
    expect(() => gridDay(fieldOf({ ...shape, hPa: [100] }, linear), refuse)).toThrow('two levels');
    const field = { ...fieldOf(shape, linear), windEastMS: new Float32Array(5) };
    expect(() => gridDay(field, refuse)).toThrow('a field has 5 values where its axes ask for 54');
  });

  it('[GRID-11] says what it covers', () => {
    expect(day.covers).toBe(
      '1970-01-01T00:00Z to 1970-01-01T06:00Z, 30.00N 000.00E to 50.00N 020.00E, 200 to 50 hPa',
    );
  });
});

describe('times of a gridded day', () => {
  const hours = [0, 1, 2, 12, 13];
  const night = fieldOf({ ...shape, hours }, linear);

  it('[GRID-20] are linear up to the greatest gap allowed and marked within a longer one, but not at its ends', () => {
    const day = gridDay(night, refuse);
    const outside = (hour: number) => at(day, 40, 10, 15000, hour).outside;
    expect([0, 0.5, 2, 12, 12.9].map(outside)).toEqual([0, 0, 0, 0, 0]);
    expect([2.001, 7, 11.999].map(outside)).toEqual([8, 8, 8]);
    expect(at(gridDay(night, { ...refuse, maximumGapS: 36000 }), 40, 10, 15000, 7).outside).toBe(0);
    expect(at(gridDay(night, { ...refuse, maximumGapS: 1800 }), 40, 10, 15000, 0.5).outside).toBe(8);
  });

  it('[GRID-21] are within the step of the data where nothing is said, at least 3 h and at most 6 h', () => {
    const times = (...every: number[]) => Float64Array.from(every, (hour) => hour * 3600);
    expect(usualGapS(times(5))).toBe(10800);
    expect(usualGapS(times(...hours))).toBe(10800);
    expect(usualGapS(times(18, 12, 6, 0))).toBe(21600);
    expect(usualGapS(times(0, 24, 48))).toBe(21600);
  });

  it('[GRID-22] say their gaps where they say what they cover', () => {
    const told = 'without 1970-01-01T02:00Z to 1970-01-01T12:00Z (gaps of more than 3 h)';
    expect(gridDay(night, refuse).covers).toContain(told);
    expect(gridDay(night, { ...refuse, maximumGapS: 36000 }).covers).not.toContain('without');
  });
});
