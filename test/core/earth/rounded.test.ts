import { describe, expect, it } from 'vitest';
import { direct, inverse, type Place } from '../../../src/core/earth/line.ts';
import { roundedTrack } from '../../../src/core/earth/rounded.ts';

const degree = Math.PI / 180;

/** Nodes on a circle round a centre, flown clockwise from one bearing to another, with the course at each. */
function circle(centre: Place, radiusM: number, bearings: readonly number[]) {
  const at = bearings.map((bearing) => direct(centre, bearing * degree, radiusM));
  return {
    timeS: bearings.map((_, i) => 30 * i),
    latitudeRad: at.map((place) => place.latitudeRad),
    longitudeRad: at.map((place) => place.longitudeRad),
    courseRad: at.map((place) => place.courseRad + Math.PI / 2),
    pressureAltitudeM: bearings.map((_, i) => 20_000 + 10 * i),
  };
}

describe('a track with its turns as arcs', () => {
  it.each([
    ['at 45 N', 45, -90],
    ['over the date line', -10, 179.9],
    ['round a place near the pole', 89.5, 20],
  ])(
    '[ROUND-1] %s: every point lies on the circle that the nodes lie on, and no chord far inside',
    (_name, lat, lon) => {
      const centre = { latitudeRad: lat * degree, longitudeRad: lon * degree };
      const nodes = circle(centre, 125_000, [10, 22, 34, 46]);
      const track = roundedTrack(nodes);
      const points = Array.from(track.timeS, (_, i) => ({
        latitudeRad: track.latitudeRad[i],
        longitudeRad: track.longitudeRad[i],
      }));
      expect(points.length).toBeGreaterThan(nodes.timeS.length * 4);
      points.forEach((point, i) => {
        // A sphere's arcs: 1 % of the 700 m by which a chord leaves its arc.
        expect(Math.abs(inverse(centre, point).distanceM - 125_000)).toBeLessThan(7);
        const next = points[i + 1];
        if (!next) return;
        const chord = inverse(point, next);
        const middle = direct(point, chord.initialCourseRad, chord.distanceM / 2);
        expect(125_000 - inverse(centre, middle).distanceM).toBeLessThan(17);
      });
    },
  );

  it('[ROUND-2] the nodes stay, time and altitude are linear between them', () => {
    const nodes = circle({ latitudeRad: 0.7, longitudeRad: 0.1 }, 125_000, [10, 22]);
    const { timeS, pressureAltitudeM, latitudeRad } = roundedTrack(nodes);
    expect(latitudeRad[0]).toBe(nodes.latitudeRad[0]);
    expect(latitudeRad[latitudeRad.length - 1]).toBe(nodes.latitudeRad[1]);
    const wanted = Array.from(timeS, (time) => 20_000 + time / 3);
    wanted.forEach((altitude, i) => {
      expect(pressureAltitudeM[i]).toBeCloseTo(altitude, 9);
    });
  });

  it('[ROUND-3] a geodesic stays as it is, over the pole too', () => {
    const from = { latitudeRad: 88 * degree, longitudeRad: 0.3 };
    const ends = [0, 150_000, 300_000, 600_000].map((distanceM) => direct(from, 0.02, distanceM));
    const track = {
      timeS: [0, 1, 2, 3],
      latitudeRad: ends.map((end) => end.latitudeRad),
      longitudeRad: ends.map((end) => end.longitudeRad),
      courseRad: ends.map((end) => end.courseRad),
      pressureAltitudeM: [1, 2, 3, 4],
    };
    expect(roundedTrack(track).timeS.length).toBe(4);
  });
});
