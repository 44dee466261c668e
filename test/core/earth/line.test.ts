import fc from 'fast-check';
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { direct, inverse, Line, newLinePoint } from '../../../src/core/earth/line.ts';
import { OutsideRange } from '../../../src/core/quantities/errors.ts';

const degree = Math.PI / 180;
const wgs84 = geographiclib.Geodesic.WGS84;
const place = (latitude: number, longitude: number) => ({
  latitudeRad: latitude * degree,
  longitudeRad: longitude * degree,
});

const angle = (limit: number) => fc.double({ min: -limit, max: limit, noNaN: true });

/** Ends of lines: at home, over the date line, over both poles, along the equator and a meridian, from a pole, nearly antipodal. */
const ends = [
  [45.5, -85, 48.1, -80],
  [10, 170, -20, -160],
  [60, 0, 60, 180],
  [-70, 30, -75, -150],
  [0, 10, 0, 100],
  [10, 20, -30, 20],
  [90, 0, 40, 77],
  [-10, 10, 9.5, -170.3],
  [45, 179.9, 45, -179.9],
] as const;

describe('a prepared line', () => {
  it.each(ends)(
    '[LINE-1] from %d, %d to %d, %d stays within 0.1 mm and 1e-8 rad of the geodesic',
    (...end) => {
      const line = new Line(place(end[0], end[1]), place(end[2], end[3]));
      const truth = wgs84.InverseLine(end[0], end[1], end[2], end[3]);
      const point = newLinePoint();
      for (let along = -400_000; along <= line.lengthM + 400_000; along += 13_333) {
        line.at(along, point);
        const exact = truth.Position(along);
        const [latitude, longitude] = [point.latitudeRad / degree, point.longitudeRad / degree];
        const gap = wgs84.Inverse(exact.lat2 as number, exact.lon2 as number, latitude, longitude);
        expect(gap.s12 as number).toBeLessThan(1e-4);
        // At a pole course and longitude turn as one; weighed by the cosine both are well defined.
        const turn = point.courseRad - (exact.azi2 as number) * degree;
        const error = Math.abs(Math.atan2(Math.sin(turn), Math.cos(turn))) * point.cosLatitude;
        expect(error).toBeLessThan(1e-8);
        expect(point.sinLatitude).toBeCloseTo(Math.sin(point.latitudeRad), 13);
        expect(point.cosCourse).toBeCloseTo(Math.cos(point.courseRad), 13);
        expect(point.sinCourse).toBeCloseTo(Math.sin(point.courseRad), 13);
      }
    },
  );

  it('[LINE-2] starts and ends at its places', () => {
    fc.assert(
      fc.property(
        angle(89),
        angle(180),
        angle(89),
        angle(180),
        (latitude1, longitude1, latitude2, longitude2) => {
          const [from, to] = [place(latitude1, longitude1), place(latitude2, longitude2)];
          if (inverse(from, to).distanceM < 1) return;
          const line = new Line(from, to);
          const point = newLinePoint();
          line.at(0, point);
          expect(inverse(point, from).distanceM).toBeLessThan(1e-4);
          line.at(line.lengthM, point);
          expect(inverse(point, to).distanceM).toBeLessThan(1e-4);
        },
      ),
    );
  });

  it.each(ends)('[LINE-3] from %d, %d to %d, %d sees places beside it', (...end) => {
    const line = new Line(place(end[0], end[1]), place(end[2], end[3]));
    const point = newLinePoint();
    for (const share of [-0.01, 0, 0.3, 0.77, 1]) {
      const along = share * line.lengthM;
      if (along < -300_000) continue;
      line.at(along, point);
      for (const right of [-300_000, -1000, -0.5, 0.5, 20_000, 300_000]) {
        const beside = direct(
          point,
          point.courseRad + (right < 0 ? -Math.PI / 2 : Math.PI / 2),
          Math.abs(right),
        );
        const seen = line.offset(beside);
        expect(Math.abs(seen.alongM - along)).toBeLessThan(1e-3);
        expect(Math.abs(seen.rightM - right)).toBeLessThan(1e-3);
        const quick = line.nearest(beside, along + 150_000);
        expect(Math.abs(quick.alongM - along)).toBeLessThan(5e-4 * Math.abs(right) + 1e-3);
        expect(Math.abs(quick.rightM - right)).toBeLessThan(5e-4 * Math.abs(right) + 1e-3);
      }
    }
  });

  it('[LINE-4] refuses what lies beyond its margins, and a line without direction', () => {
    const line = new Line(place(0, 0), place(1, 1));
    const point = newLinePoint();
    expect(() => line.at(-400_001, point)).toThrow(OutsideRange);
    expect(() => line.at(line.lengthM + 400_001, point)).toThrow(/distance along the line .* outside/);
    expect(() => line.at(Number.NaN, point)).toThrow(OutsideRange);
    expect(() => new Line(place(10, 10), place(10, 10))).toThrow(
      'distance between the ends 0 m is outside 1 to',
    );
    expect(() => new Line(place(Number.NaN, 10), place(10, 10))).toThrow(OutsideRange);
  });

  it('[LINE-5] takes +180 and -180 degrees for one meridian', () => {
    const a = inverse(place(10, 180), place(20, 170));
    const b = inverse(place(10, -180), place(20, 170));
    expect(a).toEqual(b);
    expect(inverse(place(90, 0), place(90, 120)).distanceM).toBe(0);
  });
});
