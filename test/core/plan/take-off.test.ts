/** The take-off of the day in the plan: its wind, what it leaves open, how it moves, and where it cannot be. */
import { describe, expect, it } from 'vitest';
import { newAir } from '../../../src/core/air/day.ts';
import type { Ground } from '../../../src/core/aircraft/aircraft.ts';
import { northAt } from '../../../src/core/plan/courses.ts';
import { draftOf, type PlanRequest } from '../../../src/core/plan/draft.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { RunwayToday } from '../../../src/core/plan/plan.ts';
import { takeOffOf } from '../../../src/core/plan/take-off.ts';
import { change, longLoopText, requestOf, sandmartin } from '../../support/demo.ts';

const knot = 1852 / 3600;
const base = change(
  longLoopText,
  [/runway: \{ name: "17"[^}]*\}/, 'runway: { name: "36", course: 360 deg, length: 2500 m }'],
  ['  to: 2026-02-23T17:00Z\n', '  to: 2026-02-23T17:00Z\n  wind: { from: 0 deg, speed: 0 kt }\n'],
  // A day without surprises, so that only what a test changes moves.
  [/weather:\n(?: {2}.*\n)+/, 'weather: { offset: 0 K }\n'],
);

function takeOff(request: PlanRequest) {
  return takeOffOf(draftOf(request), northAt(request.sortie.takeOff.timeS));
}

/** A run whose distances all have an end. */
function runOf(...changes: readonly (readonly [string | RegExp, string])[]) {
  const { run } = takeOff(requestOf(change(base, ...changes))).data;
  if (run === null) throw new Error('there is no run');
  const { accelerateGoM, criticalFieldM } = run;
  if (accelerateGoM === null || criticalFieldM === null) throw new Error('a distance has no end');
  return { ...run, accelerateGoM, criticalFieldM };
}

const wind = (from: number, speed: number) =>
  ['wind: { from: 0 deg, speed: 0 kt }', `wind: { from: ${from} deg, speed: ${speed} kt }`] as const;

describe('wind on the runway', () => {
  const windOf = (from: number, speed: number): RunwayToday => {
    const { runway } = takeOff(requestOf(change(base, wind(from, speed)))).data;
    if (runway === null) throw new Error('there is no runway');
    return runway;
  };

  it('[TO-1] from ahead is a headwind, of which half counts; from behind one and a half counts (14 CFR 25.105(d)(1))', () => {
    const ahead = windOf(360, 20);
    expect(ahead.headwindMS).toBeCloseTo(20 * knot, 9);
    expect(ahead.headwindCountedMS).toBeCloseTo(10 * knot, 9);
    expect(ahead.crosswindMS).toBeCloseTo(0, 9);
    const behind = windOf(180, 10);
    expect(behind.headwindMS).toBeCloseTo(-10 * knot, 9);
    expect(behind.headwindCountedMS).toBeCloseTo(-15 * knot, 9);
  });

  it('[TO-2] from the west comes from the left of a runway to the north, at 30 degrees with half its speed', () => {
    expect(windOf(270, 12).crosswindMS).toBeCloseTo(12 * knot, 9);
    expect(windOf(90, 12).crosswindMS).toBeCloseTo(-12 * knot, 9);
    const oblique = windOf(330, 20);
    expect(oblique.crosswindMS).toBeCloseTo(10 * knot, 9);
    expect(oblique.headwindMS).toBeCloseTo(20 * Math.cos(Math.PI / 6) * knot, 9);
  });

  it('[TO-3] is that of the day at the runway where the sortie states none', () => {
    const request = requestOf(longLoopText);
    const { runway, pressureAltitudeM } = takeOff(request).data;
    const { base: at, timeS } = request.sortie.takeOff;
    const air = newAir();
    request.day.sample(at.latitudeRad, at.longitudeRad, pressureAltitudeM, timeS, air);
    expect(air.geometricHeightM).toBeCloseTo(at.elevationM, 1);
    expect(runway?.windStated).toBe(false);
    const course = (172 * Math.PI) / 180;
    const { headwindMS, crosswindMS } = runway ?? { headwindMS: 0, crosswindMS: 0 };
    expect(-headwindMS * Math.sin(course) + crosswindMS * Math.cos(course)).toBeCloseTo(air.windEastMS, 9);
    expect(-headwindMS * Math.cos(course) - crosswindMS * Math.sin(course)).toBeCloseTo(air.windNorthMS, 9);
  });
});

describe('what moves the take-off', () => {
  const calm = runOf();

  it('[TO-4] airspeeds stand as they are in any wind, ground speeds are less by the headwind that counts', () => {
    const still = takeOff(requestOf(base)).data;
    const inWind = takeOff(requestOf(change(base, wind(360, 20)))).data;
    expect(inWind.liftOff.trueAirspeedMS).toBeCloseTo(still.liftOff.trueAirspeedMS, 9);
    expect(inWind.liftOff.groundSpeedMS).toBeCloseTo(still.liftOff.groundSpeedMS - 10 * knot, 9);
  });

  it.each([
    ['more fuel', runOf([/fuel: 14000 kg/, 'fuel: 18000 kg'])],
    ['a warmer day', runOf(['offset: 0 K', 'offset: 20 K'])],
    ['a tailwind', runOf(wind(180, 10))],
    ['an uphill runway', runOf(['length: 2500 m', 'length: 2500 m, slope: 1 %'])],
    ['a higher base', runOf(['elevation: 310 ft', 'elevation: 3000 ft'])],
  ])('[TO-5] %s makes every distance longer', (_, worse) => {
    expect(worse.groundRunM).toBeGreaterThan(calm.groundRunM);
    expect(worse.criticalFieldM).toBeGreaterThan(calm.criticalFieldM);
    expect(worse.accelerateGoM).toBeGreaterThan(calm.accelerateGoM);
  });

  it('[TO-6] a headwind makes every distance shorter', () => {
    const ahead = runOf(wind(0, 20));
    expect(ahead.groundRunM).toBeLessThan(calm.groundRunM);
    expect(ahead.criticalFieldM).toBeLessThan(calm.criticalFieldM);
  });

  it('[TO-7] a wet runway lowers the critical speed and leaves the ground run as it is', () => {
    const wet = runOf(['length: 2500 m', 'length: 2500 m, condition: wet']);
    expect(wet.critical.groundSpeedMS).toBeLessThan(calm.critical.groundSpeedMS);
    expect(wet.criticalFieldM).toBeGreaterThan(calm.criticalFieldM);
    expect(wet.groundRunM).toBeCloseTo(calm.groundRunM, 9);
  });

  it('[TO-8] more mass and a warmer day climb worse with an engine lost', () => {
    const heavy = runOf([/fuel: 14000 kg/, 'fuel: 18000 kg']).climbGradient.gearDown ?? Number.NaN;
    const warm = runOf(['offset: 0 K', 'offset: 20 K']).climbGradient.gearDown ?? Number.NaN;
    expect(heavy).toBeLessThan(calm.climbGradient.gearDown ?? 0);
    expect(warm).toBeLessThan(calm.climbGradient.gearDown ?? 0);
    expect(calm.climbGradient.gearUp).toBeGreaterThan(calm.climbGradient.gearDown ?? 0);
  });

  it('[TO-9] the climb-out is the ratio of the deck faster than lift-off, through the air', () => {
    const { data } = takeOff(requestOf(base));
    expect(calm.climbOut.trueAirspeedMS / data.liftOff.trueAirspeedMS).toBeCloseTo(1.1, 9);
  });
});

describe('what is left open', () => {
  const request = requestOf(base);
  const without = (ground: Partial<Ground> | null): PlanRequest => {
    const { ground: whole } = sandmartin;
    return { ...request, aircraft: { ...sandmartin, ground: whole && ground && { ...whole, ...ground } } };
  };

  it('[TO-10] without ground data the speeds of the table stay, and a sentence says what is missing', () => {
    const { data, missing } = takeOff(without(null));
    expect(data.run).toBeNull();
    expect(data.liftOff.groundSpeedMS).toBeGreaterThan(50);
    expect(data.tableGroundRunM).toBeGreaterThan(500);
    expect(missing).toEqual(['decision speed, stopping and climb-out: the deck has no ground data']);
  });

  it('[TO-11] without a runway it is computed level, dry and without wind, and a sentence says so', () => {
    const { data, missing } = takeOff(requestOf(change(base, [/\n {4}runway: \{ name: "36".*/, ''])));
    expect(data.runway).toBeNull();
    expect(data.run?.decisionFits).toBe(true);
    expect(data.run?.criticalFieldM).toBeCloseTo(runOf().criticalFieldM, 6);
    expect(missing).toEqual(['take-off against the runway: the sortie states none at Harrow Flat']);
  });

  it('[TO-12] without limits of brakes, tyres and rudder these bound nothing', () => {
    const open = { brakeEnergyJ: null, tyreSpeedMS: null, minimumControlSpeedMS: null };
    const { run } = takeOff(without(open)).data;
    expect([run?.brakeEnergyLimitJ, run?.tyreSpeedMS]).toEqual([null, null]);
    expect(['runway', 'none']).toContain(run?.leastBy);
    expect(['runway', 'liftOff']).toContain(run?.greatestBy);
  });
});

describe('a take-off that cannot be', () => {
  it('[TO-13] on a runway shorter than the ground run is told before all else, by how much, and freed by less fuel', () => {
    const { groundRunM } = runOf();
    const lengthM = Math.floor(groundRunM) - 20;
    const request = requestOf(change(base, ['length: 2500 m', `length: ${lengthM} m`]));
    const run = (fuelKg: number): number => runOf([/fuel: 14000 kg/, `fuel: ${fuelKg} kg`]).groundRunM;
    const { flyable, failure } = makePlan(request);
    expect(flyable).toBe(false);
    expect(failure?.limit).toBe('runway');
    expect(failure?.phase).toBe('Take-off from Harrow Flat');
    expect(failure?.excess).toBeCloseTo(groundRunM - lengthM, 3);
    const freed = failure?.freedBy;
    expect(freed?.lever).toBe('aircraft.fuel');
    expect(freed?.marginAfter).toBeCloseTo(lengthM - run(freed?.to ?? Number.NaN), 6);
    const to = freed?.to ?? Number.NaN;
    expect(run(to)).toBeLessThanOrEqual(lengthM);
    expect(run(to + 100)).toBeGreaterThan(lengthM);
  });

  it('[TO-14] is refused where lift-off is faster than the tyres', () => {
    const request = requestOf(base);
    const { liftOff } = takeOff(request).data;
    const ground = sandmartin.ground && { ...sandmartin.ground, tyreSpeedMS: liftOff.groundSpeedMS - 2 };
    const { failure } = makePlan({ ...request, aircraft: { ...sandmartin, ground } });
    expect(failure?.limit).toBe('tyreSpeed');
    expect(failure?.excess).toBeCloseTo(2, 6);
  });

  it('[TO-15] on a runway between the ground run and the critical field length is flyable, with no decision speed', () => {
    const { groundRunM, criticalFieldM } = runOf();
    const lengthM = Math.round((groundRunM + criticalFieldM) / 2);
    const plan = makePlan(requestOf(change(base, ['length: 2500 m', `length: ${lengthM} m`])));
    expect(plan.failure?.limit).not.toBe('runway');
    expect(plan.takeOffData.run?.decisionFits).toBe(false);
  });
});
