/** The run on the runway against closed forms of kinematics, and its energy. */
import { describe, expect, it } from 'vitest';
import type { Ground } from '../../../src/core/aircraft/aircraft.ts';
import { GroundRoll, type RunwayConditions } from '../../../src/core/phases/index.ts';
import { sandmartin } from '../../support/demo.ts';
import { idealJet } from '../../support/ideal-jet.ts';
import { gravity, seaLevel, smooth } from '../../support/runway.ts';

const areaM2 = 50;
const engines = 2;
const jet = (zeroLiftDrag: number, thrustOfOneN: number) =>
  idealJet({ areaM2, zeroLiftDrag, inducedFactor: 0, consumption: 0, fullThrustN: thrustOfOneN });
const roll = (
  zeroLiftDrag: number,
  thrustOfOneN: number,
  ground: Partial<Ground> = {},
  on: Partial<RunwayConditions> = {},
) => new GroundRoll(jet(zeroLiftDrag, thrustOfOneN), { ...smooth, ...ground }, { ...seaLevel, ...on });
const relative = (value: number, expected: number): number => Math.abs(value / expected - 1);

describe('acceleration', () => {
  it('[ROLL-1] of constant thrust without drag takes v^2/2a and v/a (kinematics)', () => {
    // 2 x 40 kN on 20 t: 4 m/s2; 80 m/s in 20 s and 800 m.
    const { distanceM, timeS } = roll(0, 40_000).accelerate(0, 80, engines);
    expect(distanceM).toBeCloseTo(800, 6);
    expect(timeS).toBeCloseTo(20, 8);
  });

  it('[ROLL-2] with friction and drag takes ln(A/(A - B v^2))/2B, a = A - B v^2 (closed form of the integral)', () => {
    const drag = 0.1;
    const friction = 0.03;
    const a = 80_000 / seaLevel.massKg - friction * gravity;
    const b = (0.5 * seaLevel.densityKgM3 * areaM2 * drag) / seaLevel.massKg;
    const run = roll(drag - 0.04, 40_000, { rollingFriction: friction, gearDrag: 0.04 }).accelerate(
      0,
      90,
      engines,
    );
    expect(relative(run.distanceM, Math.log(a / (a - b * 90 ** 2)) / (2 * b))).toBeLessThan(1e-7);
    const root = Math.sqrt(a * b);
    expect(relative(run.timeS, Math.atanh(90 * Math.sqrt(b / a)) / root)).toBeLessThan(1e-7);
  });

  it('[ROLL-3] takes friction of the weight that lift leaves on the wheels', () => {
    // L/W = (v/v0)^2 with v0 the speed at which all weight is carried: friction falls to 0 there, a = T/m - mu g (1 - v^2/v0^2).
    const friction = 0.05;
    const slope = 2;
    const angle = 0.1;
    const coefficient = slope * angle;
    const v0 = Math.sqrt((2 * seaLevel.massKg * gravity) / (seaLevel.densityKgM3 * areaM2 * coefficient));
    const aircraft = idealJet({
      areaM2,
      zeroLiftDrag: 0,
      inducedFactor: 0,
      liftSlope: slope,
      consumption: 0,
      fullThrustN: 40_000,
    });
    const ground = { ...smooth, rollingFriction: friction, angleOfAttackRad: angle };
    const run = new GroundRoll(aircraft, ground, seaLevel).accelerate(0, 60, engines);
    const a = 4 - friction * gravity;
    const c = (friction * gravity) / v0 ** 2;
    expect(60).toBeLessThan(v0);
    expect(relative(run.distanceM, Math.log((a + c * 60 ** 2) / a) / (2 * c))).toBeLessThan(1e-7);
  });

  it('[ROLL-4] loses g sin(slope) uphill and gains it downhill', () => {
    for (const slope of [0.02, -0.015]) {
      const a = 4 - gravity * Math.sin(Math.atan(slope));
      const { distanceM } = roll(0, 40_000, {}, { slopeFraction: slope }).accelerate(0, 80, engines);
      expect(distanceM).toBeCloseTo(80 ** 2 / (2 * a), 6);
    }
  });

  it('[ROLL-5] in a headwind has the drag of the airspeed and the distance of the ground speed', () => {
    // a = A - B (u + w)^2; with v = u + w: s = integral of (v - w)/(A - B v^2) dv from w to w + u.
    const wind = 12;
    const b = (0.5 * seaLevel.densityKgM3 * areaM2 * 0.1) / seaLevel.massKg;
    const primitive = (v: number): number =>
      -Math.log(4 - b * v * v) / (2 * b) - (wind * Math.atanh(v * Math.sqrt(b / 4))) / Math.sqrt(4 * b);
    const { distanceM } = roll(0.1, 40_000, {}, { headwindMS: wind }).accelerate(0, 70, engines);
    expect(relative(distanceM, primitive(wind + 70) - primitive(wind))).toBeLessThan(1e-6);
  });

  it('[ROLL-6] that drag ends before the speed is reached never ends', () => {
    const { distanceM, timeS } = roll(0.5, 20_000).accelerate(0, 90, engines);
    expect([distanceM, timeS]).toEqual([Infinity, Infinity]);
  });
});

describe('reaction', () => {
  it('[ROLL-7] goes v t + a t^2/2 at constant acceleration (kinematics)', () => {
    // One of two engines: 2 m/s2 for 3 s from 60 m/s.
    const after = roll(0, 40_000, { reactionS: 3 }).react(60, 1);
    expect(after.distanceM).toBeCloseTo(189, 8);
    expect(after.speedMS).toBeCloseTo(66, 8);
  });

  it('[ROLL-8] without an engine left near rest comes to rest and does not roll back', () => {
    const after = roll(0, 40_000, { reactionS: 3, rollingFriction: 0.05 }).react(0.5, 0);
    expect(after.speedMS).toBe(0);
    // v^2/2a with a = 0.05 g is 0.25 m; the steps are of 0.75 s.
    expect(after.distanceM).toBeGreaterThanOrEqual(0);
    expect(after.distanceM).toBeLessThan(0.5);
  });
});

describe('braking', () => {
  it('[ROLL-9] of constant friction stops in v^2/2 mu g, twice as far on half the friction (kinematics)', () => {
    for (const [condition, friction] of [
      ['dry', 0.3],
      ['wet', 0.15],
    ] as const) {
      const stop = roll(0, 40_000, {}, { condition }).stop(70, engines);
      expect(stop.distanceM).toBeCloseTo(70 ** 2 / (2 * friction * gravity), 6);
      expect(stop.timeS).toBeCloseTo(70 / (friction * gravity), 8);
    }
  });

  it('[ROLL-10] turns all energy of motion into work of the brakes where nothing else slows (energy)', () => {
    const { brakeEnergyJ } = roll(0, 40_000).stop(70, engines);
    expect(relative(brakeEnergyJ, 0.5 * seaLevel.massKg * 70 ** 2)).toBeLessThan(1e-12);
  });

  it('[ROLL-11] with a parachute and uphill leaves the brakes the energy less the work of both', () => {
    const slope = 0.01;
    const drag = 0.3;
    const stop = roll(0.02, 40_000, { brakingDrag: drag - 0.02 }, { slopeFraction: slope }).stop(80, engines);
    const weight = seaLevel.massKg * gravity;
    const cos = 1 / Math.sqrt(1 + slope * slope);
    const a = (0.3 * weight * cos + weight * slope * cos) / seaLevel.massKg;
    const b = (0.5 * seaLevel.densityKgM3 * areaM2 * drag) / seaLevel.massKg;
    const distance = Math.log((a + b * 80 ** 2) / a) / (2 * b);
    expect(relative(stop.distanceM, distance)).toBeLessThan(1e-7);
    expect(relative(stop.brakeEnergyJ, 0.3 * weight * cos * distance)).toBeLessThan(1e-7);
  });

  it('[ROLL-12] steeper downhill than the brakes hold never ends', () => {
    const stop = roll(
      0,
      40_000,
      { brakingFriction: { dry: 0.02, wet: 0.02 } },
      { slopeFraction: -0.05 },
    ).stop(50, engines);
    expect(stop.distanceM).toBe(Infinity);
  });
});

describe('Sandmartin', () => {
  const { ground, takeOff } = sandmartin;
  if (!ground || !takeOff) throw new Error('the deck has no take-off');
  const point = { groundRollM: 0, timeS: 0, fuelKg: 0, liftOffSpeedMS: 0, outside: 0 };

  it('[ROLL-13] runs as far and as long as its take-off table says, level and in still air, to 1 %', () => {
    // The table is the cycle integrated at one Mach of lift and drag, untrimmed; the tables of thrust are linear between Machs.
    for (const massKg of [40_000, 52_000, 64_000]) {
      for (const pressureAltitudeM of [0, 1828.8]) {
        for (const temperatureOffsetK of [-20, 0, 20]) {
          takeOff.at(massKg, pressureAltitudeM, temperatureOffsetK, point);
          const on = standardRunway(massKg, pressureAltitudeM, temperatureOffsetK);
          const run = new GroundRoll(sandmartin, ground, on).accelerate(0, point.liftOffSpeedMS, 2);
          expect(relative(run.distanceM, point.groundRollM)).toBeLessThan(0.01);
          expect(relative(run.timeS, point.timeS)).toBeLessThan(0.01);
        }
      }
    }
  });

  it('[ROLL-15] runs as far as with the mean force at 0.7 of the lift-off speed, to 2 % (the rule of textbooks, from memory)', () => {
    const on = standardRunway(52_000, 0, 0);
    takeOff.at(52_000, 0, 0, point);
    const mean = 0.7 * point.liftOffSpeedMS;
    const { distanceM } = new GroundRoll(sandmartin, ground, on).accelerate(0, point.liftOffSpeedMS, 2);
    const aero = { liftSlope: 0, zeroLiftAngleRad: 0, zeroLiftDrag: 0, inducedFactor: 0, outside: 0 };
    const engine = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };
    const mach = mean / on.speedOfSoundMS;
    sandmartin.aerodynamics.at(mach, 0, 0, on.cgFraction, aero);
    sandmartin.propulsion.at(sandmartin.propulsion.maximum, mach, 0, 0, 0, engine);
    const lift = aero.liftSlope * (ground.angleOfAttackRad - aero.zeroLiftAngleRad);
    const pressureArea = 0.5 * on.densityKgM3 * mean ** 2 * sandmartin.aerodynamics.wingAreaM2;
    const drag = pressureArea * (aero.zeroLiftDrag + ground.gearDrag + aero.inducedFactor * lift ** 2);
    const friction = ground.rollingFriction * (on.massKg * gravity - pressureArea * lift);
    const acceleration = (2 * engine.thrustN - drag - friction) / on.massKg;
    expect(relative(distanceM, point.liftOffSpeedMS ** 2 / (2 * acceleration))).toBeLessThan(0.02);
  });

  it('[ROLL-14] leaves no table on the runway, and tells where one is left', () => {
    const low = new GroundRoll(sandmartin, ground, standardRunway(50_000, 0, 0));
    low.accelerate(0, 95, 2);
    expect(low.outside).toBe(0);
    const below = new GroundRoll(sandmartin, ground, standardRunway(50_000, -400, 0));
    below.accelerate(0, 95, 2);
    expect(below.outside).not.toBe(0);
  });
});

/** Density by the gas law and the standard atmosphere's own formula below 11 km (USSA 1976). */
function standardRunway(massKg: number, pressureAltitudeM: number, offsetK: number): RunwayConditions {
  const standard = 288.15 - 0.0065 * pressureAltitudeM;
  const pressure = 101_325 * (standard / 288.15) ** 5.255876;
  const temperature = standard + offsetK;
  return {
    ...seaLevel,
    massKg,
    cgFraction: sandmartin.balance.cgFraction(massKg - sandmartin.balance.emptyMassKg),
    pressureAltitudeM,
    geometricHeightM: pressureAltitudeM,
    temperatureOffsetK: offsetK,
    densityKgM3: pressure / (287.053072 * temperature),
    speedOfSoundMS: Math.sqrt(1.4 * 287.053072 * temperature),
  };
}
