import { Body, Equator, Horizon, MakeTime, Observer } from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import { draftOf } from '../../../src/core/plan/draft.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { skyOf } from '../../../src/core/plan/sky.ts';
import { readTime } from '../../../src/core/quantities/time.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

/** The demonstration, taken off at 21:30Z: the sun sets on the way and comes up again over the second climb. */
const duskText = change(
  longLoopText,
  ['time: 2026-02-23T15:30Z', 'time: 2026-02-23T21:30Z'],
  ['to: 2026-02-23T17:00Z', 'to: 2026-02-23T23:00Z'],
);
const takeOffS = readTime('2026-02-23T21:30Z');
const plan = makePlan(requestOf(duskText));
const { columns } = plan.trace;

/** Elevation and azimuth [deg] by astronomy-engine, an independent general-purpose library. */
function sunByLibrary(latitudeDeg: number, longitudeDeg: number, timeS: number) {
  const time = MakeTime(new Date((takeOffS + timeS) * 1000));
  const observer = new Observer(latitudeDeg, longitudeDeg, 0);
  const { ra, dec } = Equator(Body.Sun, time, observer, true, true);
  return Horizon(time, observer, ra, dec);
}

describe('the sky of a plan', () => {
  it('[SKY-1] has the sun of an almanac within 0.1 deg at every event', () => {
    const ground = plan.events.filter(({ kind }) => kind === 'take-off' || kind === 'landing');
    expect(ground).toHaveLength(2);
    for (const event of plan.events) {
      const node = columns.timeS.findIndex((time) => time >= event.timeS - 1e-6);
      // Take-off and landing are at Harrow Flat, before and after the trace.
      const [latitude, longitude] = ground.includes(event)
        ? [33.2, -93.6]
        : [columns.latitudeDeg[node], columns.longitudeDeg[node]];
      const theirs = sunByLibrary(latitude, longitude, event.timeS);
      expect(Math.abs((event.sunElevationDeg ?? 99) - theirs.altitude), event.name).toBeLessThan(0.1);
      expect(Math.abs((event.sunBearingDeg ?? 999) - theirs.azimuth), event.name).toBeLessThan(0.1);
    }
  });

  it('[SKY-2] each light begins where the last ended, and an event has the light of its time', () => {
    const { start, changes } = plan.light ?? { start: 'night', changes: [] };
    expect(start).toBe('day');
    expect(changes.map(({ to }) => to)).toContain('civil twilight');
    // The second climb brings the sun up again.
    expect(changes.some(({ to, brighter }) => to === 'day' && brighter)).toBe(true);
    changes.forEach((at, i) => {
      expect(at.from).toBe(i === 0 ? start : changes[i - 1].to);
      expect(at.timeS).toBeGreaterThan(i === 0 ? 0 : changes[i - 1].timeS);
    });
    for (const event of plan.events.filter(({ kind }) => kind !== 'take-off' && kind !== 'landing')) {
      const last = changes.filter(({ timeS }) => timeS <= event.timeS).at(-1);
      expect(event.light, event.name).toBe(last?.to ?? start);
    }
  });

  it('[SKY-3] the dip of the horizon is that of the greatest height', () => {
    const { horizon } = plan.light ?? { horizon: { geometricHeightM: 0, dipDeg: 0 } };
    expect(horizon.geometricHeightM).toBe(Math.max(...columns.geometricHeightM));
    // Without air acos(R/(R+h)); the air takes 3 to 9 % of it (horizon.ts).
    const geometric = (Math.acos(6371 / (6371 + horizon.geometricHeightM / 1000)) * 180) / Math.PI;
    expect(horizon.dipDeg / geometric).toBeGreaterThan(0.95);
    expect(horizon.dipDeg / geometric).toBeLessThan(0.98);
  });

  it('[SKY-4] on the ground the sun sets as at the sea: a high field sees no further over the land around', () => {
    // At 3000 ft above the sea the horizon would dip by 0.97 deg, and it would be day until the sun is 1.9 deg down.
    const edge = change(
      duskText,
      [/(name: Harrow Flat[\s\S]*?elevation: )310 ft/, '$13000 ft'],
      ['time: 2026-02-23T21:30Z', 'time: 2026-02-24T00:09Z'],
      ['to: 2026-02-23T23:00Z', 'to: 2026-02-24T02:00Z'],
    );
    const [takeOff] = skyOf(draftOf(requestOf(edge))).events;
    expect(takeOff.sunElevationDeg).toBeLessThan(-0.9);
    expect(takeOff.sunElevationDeg).toBeGreaterThan(-1.8);
    expect(takeOff.light).toBe('civil twilight');
  });

  it('[SKY-5] beyond the years of the almanac there is no light, and the plan says why', () => {
    const late = makePlan(requestOf(change(longLoopText, [/2026-02-23T1/g, '2061-02-23T1'])));
    expect(late.light).toBe(null);
    expect(late.events.length).toBeGreaterThan(10);
    expect(
      late.events.every(({ light, sunElevationDeg }) => light === null && sunElevationDeg === null),
    ).toBe(true);
    expect(late.notComputed).toContain(
      "light: year 2061 is outside 1950 to 2050 of the almanac's formulas for the sun",
    );
  });

  it('[SKY-6] counts the time above 62 800 ft, where water boils at 37 degC', () => {
    const { body } = plan;
    // 62 800 ft +- 200, 6.27 kPa: common practice.
    expect(Math.abs(body.boilingAltitudeM / 0.3048 - 62_800)).toBeLessThan(200);
    const { timeS, pressureAltitudeM } = columns;
    // By whole segments: one that begins above counts.
    const above = timeS
      .slice(1)
      .reduce(
        (sum, time, i) => sum + (pressureAltitudeM[i] > body.boilingAltitudeM ? time - timeS[i] : 0),
        0,
      );
    expect(Math.abs(body.aboveS - above)).toBeLessThan(60);
    expect(body.aboveS).toBeGreaterThan(3600);
    expect(body.leastPressurePa).toBeLessThan(body.boilingPressurePa);
  });
});
