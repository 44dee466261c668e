import { describe, expect, it } from 'vitest';
import { readPosition } from '../../src/core/quantities/place.ts';
import { aroundTurn } from '../../src/files/grid-file.ts';
import { reachOf } from '../../src/files/sortie-reach.ts';

const degree = Math.PI / 180;

/** The box [deg] of bases at the given positions. */
function box(...positions: string[]) {
  const bases = positions.map((text, i) => ({ name: `Base ${i}`, at: readPosition(text), elevation: 0 }));
  const window = reachOf({ bases, tankers: [], legs: [] });
  return {
    south: window.southRad / degree,
    north: window.northRad / degree,
    west: window.westRad / degree,
    east: window.eastRad / degree,
  };
}

describe('the reach of a sortie', () => {
  it('[WX-9] is the box of its places, 4 degrees wider', () => {
    const { south, north, west, east } = box('10N 20E', '14N 20E');
    expect(south).toBeCloseTo(6, 9);
    expect(north).toBeCloseTo(18, 9);
    // 4 degrees of arc at 18 N
    expect(east - 20).toBeCloseTo(4 / Math.cos(18 * degree), 9);
    expect(20 - west).toBeCloseTo(4 / Math.cos(18 * degree), 9);
  });

  it('[WX-10] holds the bulge of a great circle towards the pole', () => {
    // Highest point between two places on one parallel: tan(max) = tan(lat) / cos(half the difference of longitude)
    const highest = Math.atan(Math.tan(50 * degree) / Math.cos(30 * degree)) / degree;
    expect(box('50N 10E', '50N 70E').north).toBeCloseTo(highest + 4, 6);
  });

  it('[WX-11] passes the date line without a jump, and is the whole turn around a pole', () => {
    const { west, east } = box('10N 178E', '10N 178W');
    expect(east - west).toBeCloseTo(4 + 8 / Math.cos(14 * degree), 2);
    expect(west).toBeLessThan(178);
    expect(east).toBeGreaterThan(182);
    expect(box('80N 0E', '82N 170E')).toMatchObject({ north: 90, west: -180, east: 180 });
  });
});

describe('the longitudes of a window', () => {
  const axis = (first: number, step: number, count: number) =>
    Float64Array.from({ length: count }, (_, i) => (first + i * step) * degree);
  const cut = (values: Float64Array, west: number, east: number) =>
    aroundTurn(values, west * degree, east * degree);

  it('[WX-12] end with the axis of a region, whatever turn it counts in', () => {
    // -100 to -75 every 5: a window from -110 to -93 needs -100, -95 and the two beyond
    expect(cut(axis(-100, 5, 6), -110, -93)).toEqual([0, 4]);
    expect(cut(axis(260, 5, 6), -110, -93)).toEqual([0, 4]);
  });

  it('[WX-13] are the whole axis where the window passes the seam of a whole turn', () => {
    const turn = axis(0, 10, 36);
    expect(cut(turn, -20, 20)).toBeNull();
    expect(cut(turn, 351, 359)).toBeNull();
    expect(cut(turn, 31, 39)).toEqual([2, 6]);
  });
});
