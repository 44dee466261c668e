/** Stop or go against closed forms of constant acceleration, and the climb with an engine lost against its own equation. */
import { describe, expect, it } from 'vitest';
import type { Aircraft, Ground } from '../../../src/core/aircraft/aircraft.ts';
import {
  accelerateGoM,
  accelerateStop,
  climbOut,
  decide,
  GroundRoll,
} from '../../../src/core/phases/index.ts';
import { idealJet } from '../../support/ideal-jet.ts';
import { gravity, seaLevel, smooth } from '../../support/runway.ts';

const liftOffMS = 80;
/** Of 20 t: 4 m/s2 with two engines, 2 with one; the brakes give 0.3 g. */
const all = 4;
const one = 2;
const brakes = 0.3 * gravity;

function twoEngines(
  thrustOfOneN: number,
  change: Partial<{ zeroLiftDrag: number; inducedFactor: number }> = {},
): Aircraft {
  const jet = idealJet({
    areaM2: 50,
    zeroLiftDrag: 0,
    inducedFactor: 0,
    consumption: 0,
    fullThrustN: thrustOfOneN,
    ...change,
  });
  const engines = [
    { name: 'left', armM: -1 },
    { name: 'right', armM: 1 },
  ];
  return { ...jet, propulsion: { ...jet.propulsion, engines } };
}

const rollOf = (ground: Partial<Ground> = {}, thrustOfOneN = 40_000): GroundRoll =>
  new GroundRoll(twoEngines(thrustOfOneN), { ...smooth, ...ground }, seaLevel);
const open = { liftOffMS, runwayM: Infinity, minimumControlMS: 0, brakeEnergyJ: Infinity };

describe('accelerate-go and accelerate-stop', () => {
  it('[GO-1] are sums of v^2/2a of their parts (kinematics)', () => {
    const roll = rollOf();
    expect(accelerateGoM(roll, liftOffMS, 50)).toBeCloseTo(
      50 ** 2 / (2 * all) + (80 ** 2 - 50 ** 2) / (2 * one),
      6,
    );
    expect(accelerateStop(roll, 50, 1).distanceM).toBeCloseTo(
      50 ** 2 / (2 * all) + 50 ** 2 / (2 * brakes),
      6,
    );
  });

  it('[GO-2] the stop begins at the speed that the reaction time leads to', () => {
    const roll = rollOf({ reactionS: 3 });
    const stop = (acceleration: number): number => {
      const after = 50 + 3 * acceleration;
      return 50 ** 2 / (2 * all) + (after ** 2 - 50 ** 2) / (2 * acceleration) + after ** 2 / (2 * brakes);
    };
    expect(accelerateStop(roll, 50, 1).distanceM).toBeCloseTo(stop(one), 6);
    expect(accelerateStop(roll, 50, 2).distanceM).toBeCloseTo(stop(all), 6);
    expect(accelerateStop(roll, 50, 2).brakeEnergyJ).toBeCloseTo(0.5 * seaLevel.massKg * 62 ** 2, 3);
  });
});

describe('decision speed', () => {
  it('[GO-3] stop and go are equal at V sqrt(d/(b + d)) with acceleration b on one engine and braking d (algebra)', () => {
    const { criticalMS, criticalFieldM, speedMS, fits } = decide({ ...open, roll: rollOf() });
    const expected = liftOffMS * Math.sqrt(brakes / (one + brakes));
    expect(criticalMS).toBeCloseTo(expected, 2);
    expect(criticalFieldM).toBeCloseTo(expected ** 2 / (2 * all) + expected ** 2 / (2 * brakes), 0);
    expect(speedMS).toBe(criticalMS);
    expect(fits).toBe(true);
  });

  it('[GO-4] the refusal speed is where accelerate-stop, the least where accelerate-go is the runway (algebra)', () => {
    const runwayM = 1300;
    const found = decide({ ...open, roll: rollOf(), runwayM });
    expect(found.greatestMS).toBeCloseTo(Math.sqrt((2 * runwayM) / (1 / all + 1 / brakes)), 2);
    // L = v^2/2a + (V^2 - v^2)/2b.
    expect(found.leastMS).toBeCloseTo(
      Math.sqrt((liftOffMS ** 2 / one - 2 * runwayM) / (1 / one - 1 / all)),
      2,
    );
    expect([found.leastBy, found.greatestBy, found.fits]).toEqual(['runway', 'runway', true]);
  });

  it('[GO-5] on a runway of the critical field length there is one decision speed, on a shorter none', () => {
    const roll = rollOf({ reactionS: 2, rollingFriction: 0.02 });
    const { criticalMS, criticalFieldM } = decide({ ...open, roll });
    const just = decide({ ...open, roll, runwayM: criticalFieldM + 0.5 });
    expect(just.fits).toBe(true);
    expect(just.greatestMS - just.leastMS).toBeLessThan(0.05);
    expect(just.speedMS).toBeCloseTo(criticalMS, 1);
    const short = decide({ ...open, roll, runwayM: criticalFieldM - 50 });
    expect(short.fits).toBe(false);
    expect(short.leastMS).toBeGreaterThan(criticalMS);
    expect(short.greatestMS).toBeLessThan(criticalMS);
    expect(short.speedMS).toBe(short.criticalMS);
  });

  it('[GO-6] a long runway leaves all speeds from rest to lift-off', () => {
    const found = decide({ ...open, roll: rollOf(), runwayM: 5000 });
    expect([found.leastMS, found.greatestMS]).toEqual([0, liftOffMS]);
    expect([found.leastBy, found.greatestBy]).toEqual(['none', 'liftOff']);
  });

  it('[GO-7] the brakes bound it where m v^2/2 is their limit, and pull the decision speed down', () => {
    const brakeEnergyJ = 0.5 * seaLevel.massKg * 40 ** 2;
    const found = decide({ ...open, roll: rollOf(), brakeEnergyJ });
    expect(found.greatestMS).toBeCloseTo(40, 2);
    expect(found.greatestBy).toBe('brakeEnergy');
    expect(found.criticalMS).toBeGreaterThan(40);
    expect(found.speedMS).toBe(found.greatestMS);
  });

  it('[GO-8] the least control speed bounds it from below, also where the critical speed is lower', () => {
    const found = decide({ ...open, roll: rollOf(), minimumControlMS: 70 });
    expect(found.criticalMS).toBeLessThan(70);
    expect([found.speedMS, found.leastMS, found.leastBy]).toEqual([70, 70, 'minimumControlSpeed']);
    expect(decide({ ...open, roll: rollOf(), minimumControlMS: 81 }).fits).toBe(false);
  });

  it('[GO-9] that cannot go on with one engine goes only from lift-off, and only where it could still stop', () => {
    const roll = rollOf({ engineOutDrag: 1 });
    const runwayM = 80 ** 2 / (2 * all) + 80 ** 2 / (2 * brakes) + 10;
    const long = decide({ ...open, roll, runwayM });
    expect(long.leastMS).toBeGreaterThan(75);
    expect(long.fits).toBe(true);
    expect(decide({ ...open, roll, runwayM: 1500 }).fits).toBe(false);
  });

  it('[GO-10] on a runway shorter than the run none fits', () => {
    expect(decide({ ...open, roll: rollOf(), runwayM: 700 }).fits).toBe(false);
  });
});

describe('climb-out', () => {
  it('[GO-11] has the root of s = T/W - q S CD0/W - K W (1 - s^2)/(q S), thrust along the path (algebra)', () => {
    const k = 0.2;
    const zeroLift = 0.03;
    const aircraft = twoEngines(40_000, { zeroLiftDrag: zeroLift - 0.01, inducedFactor: k });
    const weight = seaLevel.massKg * gravity;
    const pressureArea = 0.5 * seaLevel.densityKgM3 * 90 ** 2 * 50;
    const c = (k * weight) / pressureArea;
    const d = 40_000 / weight - (pressureArea * zeroLift) / weight - c;
    // c s^2 - s + d = 0.
    const s = (1 - Math.sqrt(1 - 4 * c * d)) / (2 * c);
    const { gradient } = climbOut(aircraft, seaLevel, 90, 1, 0.01);
    expect(gradient).toBeCloseTo(s / Math.sqrt(1 - s * s), 6);
  });

  it('[GO-12] is negative where one engine gives less than drag, and not a number where the wing cannot carry it', () => {
    const weak = twoEngines(10_000, { zeroLiftDrag: 0.05, inducedFactor: 0.2 });
    expect(climbOut(weak, seaLevel, 90, 1, 0).gradient).toBeLessThan(0);
    expect(climbOut(weak, seaLevel, 5, 1, 0).gradient).toBeNaN();
  });
});
