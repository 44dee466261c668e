import { describe, expect, it } from 'vitest';
import { magneticField } from '../../../src/core/earth/magnetic.ts';
import { northAt } from '../../../src/core/plan/courses.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { readTime } from '../../../src/core/quantities/time.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const degree = Math.PI / 180;
const plan = makePlan(requestOf(longLoopText));
const takeOffS = readTime('2026-02-23T15:30Z');
const placeAt = (latitudeDeg: number, longitudeDeg: number) => ({
  latitudeRad: latitudeDeg * degree,
  longitudeRad: longitudeDeg * degree,
});
/** Within (-180, 180]. */
const difference = (a: number, b: number) => a - b - 360 * Math.round((a - b) / 360);

describe('magnetic courses', () => {
  it('[MAGC-1] of a refuelling track is the true course less the declination at the contact point', () => {
    const [one, two] = plan.refuellings;
    expect([one.track.courseDeg, two.track.courseDeg].map((deg) => Number(deg.toFixed(9)))).toEqual([
      60, 215,
    ]);
    // Charts of declination for 2025 show about half a degree west by Ewer One and 9 degrees west by Ewer Two (from memory).
    expect(Math.abs(difference(one.track.magneticDeg ?? 0, 60.5))).toBeLessThan(0.7);
    expect(Math.abs(difference(two.track.magneticDeg ?? 0, 224))).toBeLessThan(0.7);
    const field = magneticField(placeAt(39.6, -80.2), 24_000 * 0.3048, takeOffS);
    expect(two.track.magneticDeg).toBeCloseTo(215 - field.declinationRad / degree, 9);
    expect(two.track.compass).toBe('good');
  });

  it('[MAGC-2] of a turn are read where its bank begins and where its wings are level', () => {
    const { timeS, latitudeDeg, longitudeDeg, geometricHeightM } = plan.trace.columns;
    expect(plan.turns.length).toBeGreaterThan(4);
    for (const turn of plan.turns) {
      for (const [atS, courseDeg, magneticDeg] of [
        [turn.rollInS, turn.courseFromDeg, turn.magneticFromDeg],
        [turn.endS, turn.courseToDeg, turn.magneticToDeg],
      ]) {
        const node = timeS.findIndex((time) => time >= (atS ?? 0) - 1e-6);
        const place = placeAt(latitudeDeg[node], longitudeDeg[node]);
        const east = magneticField(place, geometricHeightM[node], takeOffS).declinationRad / degree;
        // A node may be 30 s away, in which the declination changes by less.
        expect(Math.abs(difference((courseDeg ?? 0) - east, magneticDeg ?? 0))).toBeLessThan(0.3);
      }
      expect(turn.compass).toBe('good');
    }
  });

  it('[MAGC-3] tells the edition of the date and the course off the runway', () => {
    expect(plan.magnetic?.edition).toBe('WMM2025');
    const { courseDeg, magneticDeg } = plan.magnetic?.takeOff ?? { courseDeg: 0, magneticDeg: 0 };
    const east = magneticField(placeAt(33.2, -93.6), 310 * 0.3048, takeOffS).declinationRad / degree;
    expect(difference(courseDeg - east, magneticDeg ?? 0)).toBeCloseTo(0, 9);
  });

  it('[MAGC-4] outside the years of the models there are true courses only, and the plan says why', () => {
    const late = makePlan(requestOf(change(longLoopText, [/2026-02-23T1/g, '2031-02-23T1'])));
    expect(late.magnetic).toBe(null);
    expect(late.turns.every((turn) => turn.magneticToDeg === null && turn.compass === null)).toBe(true);
    expect(late.refuellings[1].track).toEqual({
      courseDeg: late.refuellings[1].track.courseDeg,
      magneticDeg: null,
      compass: null,
    });
    expect(late.notComputed.join('\n')).toMatch(
      /magnetic courses: magnetic north: 2031-02-23T15:30Z is outside 2020-01-01 to 2030-01-01, .* \(WMM2020, WMM2025\)/,
    );
  });

  it('[MAGC-5] near the magnetic poles says what a compass is worth', () => {
    const north = northAt(takeOffS);
    // The model puts its north dip pole of 2025 at 85.8 N 139.3 E (from memory).
    const read = (latitude: number, longitude: number) =>
      north.read(90, { ...placeAt(latitude, longitude), geometricHeightM: 22_000 }).compass;
    expect([read(85.8, 139.3), read(76, -100), read(45, -85)]).toEqual(['blackout', 'caution', 'good']);
  });
});
