import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { meridianRadius, primeVerticalRadius, radiusOnCourse } from '../../../src/core/earth/ellipsoid.ts';
import { gravityDown, gravityNorth, normalGravity, surfaceGravity } from '../../../src/core/earth/gravity.ts';

const latitudes = fc.double({ min: -Math.PI / 2, max: Math.PI / 2, noNaN: true });
const heights = fc.double({ min: -1000, max: 40000, noNaN: true });

describe('gravity', () => {
  it('[GRAV-1] the quick form is within 3e-8 of the closed one from -1 to 40 km', () => {
    fc.assert(
      fc.property(latitudes, heights, (latitude, height) => {
        const error = gravityDown(Math.sin(latitude) ** 2, height) - normalGravity(latitude, height).down;
        expect(Math.abs(error)).toBeLessThan(3e-8);
      }),
      { numRuns: 1000 },
    );
  });

  it('[GRAV-2] the northward part is within 3e-7 to 30 km and changes sign with the hemisphere', () => {
    fc.assert(
      fc.property(latitudes, fc.double({ min: 0, max: 30000, noNaN: true }), (latitude, height) => {
        const exact = normalGravity(latitude, height).north;
        expect(Math.abs(gravityNorth(latitude, height) - exact)).toBeLessThan(3e-7);
        expect(normalGravity(-latitude, height).north).toBeCloseTo(-exact, 14);
      }),
    );
  });

  it('[GRAV-3] has no curl: going round a small cell in the meridian gains nothing', () => {
    // d(g_north r)/dh = -d(g_down)/dlatitude for a potential: (M + h) north per height against down per angle.
    const [latitude, height] = [0.8, 20000];
    const radius = meridianRadius(Math.sin(latitude) ** 2) + height;
    const dh = 10;
    const angle = 1e-4;
    const north = (h: number) => normalGravity(latitude, height + h).north * (radius + h);
    const perHeight = (north(dh) - north(-dh)) / (2 * dh);
    const down = (l: number) => normalGravity(latitude + l, height).down;
    const perAngle = (down(angle) - down(-angle)) / (2 * angle);
    expect(perHeight).toBeCloseTo(-perAngle, 6);
  });

  it('[GRAV-4] published end values (TR8350.2 table 3.4)', () => {
    expect(surfaceGravity(0)).toBeCloseTo(9.7803253359, 9);
    expect(surfaceGravity(1)).toBeCloseTo(9.8321849378, 9);
  });
});

describe('radii of curvature', () => {
  it('[ELL-1] published values (TR8350.2 table 3.3: polar radius of curvature 6399593.6258 m)', () => {
    expect(meridianRadius(1)).toBeCloseTo(6399593.6258, 3);
    expect(primeVerticalRadius(1)).toBeCloseTo(6399593.6258, 3);
    expect(primeVerticalRadius(0)).toBe(6378137);
  });

  it('[ELL-2] on a course lies between the two', () => {
    expect(radiusOnCourse(0.4, 0)).toBeCloseTo(meridianRadius(0.4), 6);
    expect(radiusOnCourse(0.4, Math.PI / 2)).toBeCloseTo(primeVerticalRadius(0.4), 6);
  });
});
