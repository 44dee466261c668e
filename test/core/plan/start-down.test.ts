/** Start-downs of the demonstration: energy against distance, places by a general-purpose library, and what it does to be late. */
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { speedOfSound, standardTemperature } from '../../../src/core/air/standard.ts';
import { crewOf, draft } from '../../../src/core/plan/draft.ts';
import { Log } from '../../../src/core/plan/log.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { flySortie } from '../../../src/core/plan/sortie-flyer.ts';
import { energyLost } from '../../../src/core/plan/start-down.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

const wgs84 = geographiclib.Geodesic.WGS84;
const request = requestOf(longLoopText);
const plan = makePlan(request);
const foot = 0.3048;
const nauticalMile = 1852;
const g0 = 9.80665;

describe('energy height against distance', () => {
  /** Pressure altitude for height, as in the hand calculation. */
  const energyHeight = (mach: number, ft: number): number =>
    ft * foot + (mach * speedOfSound(standardTemperature(ft * foot))) ** 2 / (2 * g0);

  it('[DOWN-1] M 3.1 at 78 000 ft to M 0.88 at 34 000 ft at a mean slope of 0.10 takes 288 nm', () => {
    // Worked out independently: 174 900 ft of energy height, 174 900 ft / 0.10 = 288 nm.
    const [fromM, toM] = [energyHeight(3.1, 78_000), energyHeight(0.88, 34_000)];
    expect(Math.abs((fromM - toM) / foot - 174_900)).toBeLessThan(100);
    const log = new Log([]);
    const seconds = [0, 400, 900];
    const speeds = [920, 650, 260];
    seconds.forEach((timeS, i) => {
      log.columns.timeS.push(timeS);
      log.columns.trueAirspeedMS.push(speeds[i]);
      log.columns.energyHeightM.push(fromM + ((toM - fromM) * i) / 2);
      log.columns.massKg.push(45_000);
      log.columns.dragN.push(0.1 * 45_000 * g0 + 20_000);
      log.columns.thrustN.push(20_000);
      log.columns.tailwindMS.push(10);
      log.distanceM.push(i);
    });
    const lost = energyLost(log, 0, 900);
    expect(lost.meanSlope).toBeCloseTo(0.1, 12);
    expect(lost.fromWindM).toBe(0);
    expect(lost.airDistanceM).toBeCloseTo(0.5 * 400 * (920 + 650) + 0.5 * 500 * (650 + 260), 6);
    expect(Math.abs((lost.fromM - lost.toM) / lost.meanSlope / nauticalMile - 288)).toBeLessThan(0.5);
  });

  it('[DOWN-2] coming into 10 m/s less tailwind at 300 m/s gives 306 m of energy height', () => {
    const log = new Log([]);
    [10, 0].forEach((tailwind, i) => {
      log.columns.timeS.push(100 * i);
      log.columns.tailwindMS.push(tailwind);
      for (const key of ['trueAirspeedMS', 'energyHeightM', 'massKg', 'dragN', 'thrustN'] as const)
        log.columns[key].push(300);
      log.distanceM.push(0);
    });
    // V dw / g = 300 x 10 / 9.80665.
    expect(energyLost(log, 0, 100).fromWindM).toBeCloseTo(305.9, 1);
  });

  it('[DOWN-3] on the way down energy lost and given over the mean slope is the way through the air, to 1 %', () => {
    expect(plan.startDowns).toHaveLength(2);
    for (const { energy } of plan.startDowns) {
      const way = (energy.fromM - energy.toM + energy.fromWindM) / energy.meanSlope;
      expect(Math.abs(way / energy.airDistanceM - 1)).toBeLessThan(0.01);
    }
  });
});

describe('the point', () => {
  it('[DOWN-4] lies beyond its waypoint by what is said, by another library to 100 m', () => {
    for (const { after, latitudeDeg, longitudeDeg } of plan.startDowns) {
      const waypoint = plan.places.find(({ name }) => name === after?.name);
      const { s12 } = wgs84.Inverse(
        waypoint?.latitudeDeg ?? 0,
        waypoint?.longitudeDeg ?? 0,
        latitudeDeg,
        longitudeDeg,
      );
      expect(Math.abs((s12 ?? 0) - (after?.distanceM ?? 0))).toBeLessThan(100);
    }
  });

  it('[DOWN-5] rows go down from the start to level, with Mach, altitude, distance and fuel falling', () => {
    for (const { rows, distanceToGoM, levelM, energy } of plan.startDowns) {
      expect(rows[0].distanceToGoM).toBe(distanceToGoM);
      expect(rows.slice(1, -1).map(({ mach }) => mach)).toEqual([2.5, 2, 1.5, 1]);
      for (let i = 1; i < rows.length; i++) {
        expect(rows[i].timeS).toBeGreaterThan(rows[i - 1].timeS);
        for (const key of ['mach', 'pressureAltitudeM', 'distanceToGoM', 'fuelKg'] as const)
          expect(rows[i][key]).toBeLessThan(rows[i - 1][key]);
      }
      expect(rows[rows.length - 1].distanceToGoM).toBeGreaterThan(levelM - 1);
      expect(distanceToGoM - rows[rows.length - 1].distanceToGoM).toBeCloseTo(energy.distanceM, 3);
    }
  });

  it('[DOWN-6] flown later by most of the level stretch, what is left of it is the rest', () => {
    const crew = crewOf(request);
    const { flown } = draft(crew);
    const table = plan.startDowns[0];
    const later = 0.8 * table.levelM;
    const held = flown.legs.map(({ decisions }, leg) => {
      const { startDown } = decisions;
      if (leg !== table.leg || startDown === null) return decisions;
      return { ...decisions, startDown: { ...startDown, distanceM: startDown.distanceM + later } };
    });
    const log = new Log(crew.flight.setup.aircraft.limits);
    expect(flySortie(crew, held, log).stopped).toBeNull();
    const level = log.phases.filter(({ leg, kind }) => leg === table.leg && kind === 'level');
    const left = level.reduce((sum, { distanceM }) => sum + distanceM, 0);
    // Begun further on, a little higher and lighter and in other air, the descent is as long to 0.6 %.
    expect(Math.abs(left - 0.2 * table.levelM)).toBeLessThan(0.006 * table.energy.distanceM);
  });
});
