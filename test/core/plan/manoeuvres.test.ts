/** Turns and level-offs of the demonstration, their places by a general-purpose library. */
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { TraceColumn } from '../../../src/core/plan/plan.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

const wgs84 = geographiclib.Geodesic.WGS84;
const plan = makePlan(requestOf(longLoopText));
const { columns } = plan.trace;

function at(column: TraceColumn, timeS: number): number {
  const high = Math.max(
    1,
    columns.timeS.findIndex((time) => time >= timeS - 1e-6),
  );
  const [before, after] = [columns.timeS[high - 1], columns.timeS[high]];
  const part = after > before ? (timeS - before) / (after - before) : 1;
  return columns[column][high - 1] + part * (columns[column][high] - columns[column][high - 1]);
}

describe('turns', () => {
  const turns = plan.turns.filter(({ name }) => plan.places.some((place) => place.name === name));

  it('[TURN-CARD-1] roll-in lies the lead before the waypoint, wings level the roll-out beyond it, to 100 m', () => {
    expect(turns.length).toBeGreaterThanOrEqual(4);
    for (const turn of turns) {
      const { latitudeDeg, longitudeDeg } = plan.places.find(({ name }) => name === turn.name) ?? {
        latitudeDeg: 0,
        longitudeDeg: 0,
      };
      const away = (timeS: number): number =>
        wgs84.Inverse(latitudeDeg, longitudeDeg, at('latitudeDeg', timeS), at('longitudeDeg', timeS)).s12 ??
        Number.NaN;
      expect(Math.abs(away(turn.rollInS) - turn.leadM), turn.name).toBeLessThan(100);
      expect(Math.abs(away(turn.endS) - turn.rollOutM), turn.name).toBeLessThan(100);
    }
  });

  it('[TURN-CARD-2] the lead as time is the lead over the speed on the ground before it', () => {
    for (const { leadM, leadS, groundSpeedMS, rollInS } of turns) {
      expect(leadS).toBeCloseTo(leadM / groundSpeedMS, 9);
      // Over the ellipsoid it is slower than at height by 0.4 % at the most.
      const aloft = at('groundSpeedMS', rollInS);
      expect(groundSpeedMS / aloft).toBeGreaterThan(0.995);
      expect(groundSpeedMS / aloft).toBeLessThan(1.001);
    }
  });

  it('[TURN-CARD-3] radius and load factor are those of the bank, less what the Earth carries', () => {
    for (const { bankDeg, radiusM, loadFactor, rollInS } of turns) {
      const bank = (bankDeg * Math.PI) / 180;
      const radius = at('trueAirspeedMS', rollInS) ** 2 / (9.80665 * Math.tan(bank));
      // V^2 / (g tan bank) within 5 %: curvature and rotation take up to 2.9 % of the weight, height 0.8 %, wind changes the mean.
      expect(Math.abs(radiusM / radius - 1)).toBeLessThan(0.05);
      expect(Math.abs(loadFactor * Math.cos(bank) - 1)).toBeLessThan(0.05);
    }
  });

  it('[TURN-CARD-4] Mach and altitude change by what the trace says between roll-in and wings level', () => {
    for (const { machChange, pressureAltitudeChangeM, rollInS, endS } of turns) {
      expect(machChange).toBeCloseTo(at('mach', endS) - at('mach', rollInS), 9);
      const climbed = at('pressureAltitudeM', endS) - at('pressureAltitudeM', rollInS);
      expect(pressureAltitudeChangeM).toBeCloseTo(climbed, 6);
    }
  });
});

describe('level-offs', () => {
  it('[LEVEL-CARD-1] the load factor begins to change the lead before the altitude, to 2 m', () => {
    expect(plan.levelOffs.length).toBeGreaterThanOrEqual(6);
    for (const { fromS, timeS, leadM, pressureAltitudeM, climbRateMS } of plan.levelOffs) {
      expect(timeS).toBeGreaterThan(fromS);
      const begun = at('pressureAltitudeM', fromS);
      expect(Math.abs(Math.abs(pressureAltitudeM - begun) - leadM)).toBeLessThan(2);
      expect(Math.sign(climbRateMS)).toBe(Math.sign(pressureAltitudeM - begun));
    }
  });

  it('[LEVEL-CARD-2] the lead is about an arc of the load factor: V^2 times the square of the path angle over 2 g (1 - n)', () => {
    for (const { fromS, leadM, climbRateMS, loadFactor } of plan.levelOffs) {
      const speed = at('trueAirspeedMS', fromS);
      const path = climbRateMS / speed;
      const arc = (speed * path) ** 2 / (2 * 9.80665 * Math.abs(1 - loadFactor));
      // The build-up of the load factor adds to it, a wind or speed that changes takes from it or adds.
      expect(leadM / arc).toBeGreaterThan(0.6);
      expect(leadM / arc).toBeLessThan(3);
    }
  });
});
