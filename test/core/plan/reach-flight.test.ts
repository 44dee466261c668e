/** Flights after a failure against textbook formulas: range at constant speed, the last return, equal times. */
import { describe, expect, it } from 'vitest';
import type { Aircraft } from '../../../src/core/aircraft/aircraft.ts';
import type { FailureCase } from '../../../src/core/aircraft/failures.ts';
import { newState } from '../../../src/core/flight/state.ts';
import { flightAfter } from '../../../src/core/plan/failures.ts';
import { type Goal, ReachFlight } from '../../../src/core/plan/reach-flight.ts';
import { equalTime, openings } from '../../../src/core/plan/reach-times.ts';
import { windyDay } from '../../support/benchmark.ts';
import { idealJet } from '../../support/ideal-jet.ts';

const gravity = 9.80665;
const knot = 1852 / 3600;
const mile = 1852;
/** Along the equator a degree of longitude is a degree of this circle (WGS 84). */
const equatorM = 6_378_137;

/** Standard atmosphere at 3000 m and 9000 m (ISO 2533 table: density, speed of sound). */
const AIR = { 3000: { density: 0.909254, sound: 328.578 }, 9000: { density: 0.466348, sound: 303.848 } };
type HeightM = keyof typeof AIR;

const jet = {
  areaM2: 170,
  zeroLiftDrag: 0.014,
  inducedFactor: 0.12,
  consumption: 2e-4,
  fullThrustN: 120_000,
};

function twoEngined(changes: Partial<Aircraft['propulsion']> = {}): Aircraft {
  const made = idealJet(jet);
  const engines = [
    { name: 'left', armM: -3 },
    { name: 'right', armM: 3 },
  ];
  const aerodynamics = { ...made.aerodynamics, warningAngleRad: () => null };
  const balance = { ...made.balance, emptyMassKg: 30_000, unusableFuelKg: 0 };
  return { ...made, balance, aerodynamics, propulsion: { ...made.propulsion, engines, ...changes } };
}

function failure(heightM: HeightM, speedMS: number, changes: Partial<FailureCase> = {}): FailureCase {
  const { density, sound } = AIR[heightM];
  return {
    key: 'none',
    name: 'Nothing failed',
    dragIncrement: 0,
    dragSpread: 0,
    enginesLeft: 2,
    greatestPower: 1,
    thrustFactor: 1,
    fuelFlowFactor: 1,
    mach: speedMS / sound,
    pressureAltitudesM: [heightM],
    bankRad: Math.PI / 3,
    climbCalibratedAirspeedMS: 180,
    descentEquivalentAirspeedMS: speedMS * Math.sqrt(density / 1.225),
    refuels: true,
    source: 'invented',
    ...changes,
  };
}

/** On the equator, flying east. */
function startAt(heightM: HeightM, eastM: number, speedMS: number, massKg: number) {
  return {
    ...newState(),
    timeS: 0,
    distanceM: 0,
    latitudeRad: 0,
    longitudeRad: eastM / equatorM,
    headingRad: Math.PI / 2,
    pressureAltitudeM: heightM,
    trueAirspeedMS: speedMS,
    massKg,
  };
}

function goalAt(eastM: number, pressureAltitudeM: number): Goal {
  return {
    latitudeRad: 0,
    longitudeRad: eastM / equatorM,
    pressureAltitudeM,
    calibratedAirspeedMS: null,
    approach: { fuelKg: 0, timeS: 0 },
  };
}

describe('a flight after each failure', () => {
  const speedMS = 210;
  const distanceM = 900_000;
  const fuelKg = 15_000;
  const cases: readonly (readonly [FailureCase['key'], HeightM, Partial<FailureCase>])[] = [
    ['none', 9000, {}],
    ['oneEngine', 3000, { dragIncrement: 0.003, enginesLeft: 1 }],
    ['inletNotStarted', 9000, { dragIncrement: 0.002, thrustFactor: 0.93 }],
    ['noAfterburner', 9000, { greatestPower: 0.3, fuelFlowFactor: 1.05 }],
    ['noCabin', 3000, { fuelFlowFactor: 1.02 }],
  ];

  // Level at a speed V burns c D: with D = a + b m^2 the mass falls from m1 to m2 in a time t by
  // atan(m2 sqrt(b/a)) = atan(m1 sqrt(b/a)) - c sqrt(a b) t (integral of dm/(a + b m^2), by hand). East along the equator at V the
  // weight is less by the curve of the path, (V + 465 m/s)^2/R - (465)^2/R.
  it.each(cases)(
    '[REACH-1] %s arrives with the fuel of the integral by hand, to 0.5 % of what is burnt',
    (key, heightM, changes) => {
      const one = failure(heightM, speedMS, { key, ...changes });
      const aircraft = twoEngined();
      const flight = flightAfter(
        one,
        aircraft,
        windyDay(() => [0, 0]),
      );
      const emptyKg = aircraft.balance.emptyMassKg;
      const startKg = emptyKg + fuelKg;
      const pressure = 0.5 * AIR[heightM].density * speedMS ** 2 * jet.areaM2;
      const lighter = ((speedMS + 465) ** 2 - 465 ** 2) / equatorM;
      const a = pressure * (jet.zeroLiftDrag + one.dragIncrement);
      const b = (jet.inducedFactor * (gravity - 0.0337 + 0.0264 - lighter) ** 2) / pressure;
      const c = (jet.consumption / gravity) * (one.fuelFlowFactor / one.thrustFactor);
      const timeS = distanceM / speedMS;
      const root = Math.sqrt(b / a);
      const endKg = Math.tan(Math.atan(startKg * root) - c * Math.sqrt(a * b) * timeS) / root;
      const arrival = new ReachFlight(flight, one).slow(
        startAt(heightM, 0, speedMS, startKg),
        goalAt(distanceM, heightM),
      );
      expect(arrival.reason).toBe('arrived');
      expect(arrival.timeS / timeS).toBeCloseTo(1, 2);
      expect(Math.abs(arrival.fuelKg - (endKg - emptyKg))).toBeLessThan(0.005 * (startKg - endKg));
    },
  );

  it('[REACH-2] goes lower where the thrust that is left does not carry the first height, and nowhere where none does', () => {
    const speed = 210;
    const heavy = twoEngined().balance.emptyMassKg + fuelKg;
    const one = failure(3000, speed, { pressureAltitudesM: [9000, 3000], greatestPower: 0.1 });
    const reach = new ReachFlight(
      flightAfter(
        one,
        twoEngined(),
        windyDay(() => [0, 0]),
      ),
      one,
    );
    const arrival = reach.slow(startAt(3000, 0, speed, heavy), goalAt(300_000, 3000));
    // Full thrust of two engines 240 kN: a tenth is 24 kN. Drag by hand above that at both heights, or it arrives.
    const drag = (heightM: HeightM) => {
      const pressure = 0.5 * AIR[heightM].density * (one.mach * AIR[heightM].sound) ** 2 * jet.areaM2;
      return pressure * jet.zeroLiftDrag + (jet.inducedFactor * (heavy * gravity) ** 2) / pressure;
    };
    const carried = [9000, 3000].some((height) => drag(height as HeightM) < 24_000);
    expect(arrival.reason === 'arrived').toBe(carried);
    const none = failure(3000, speed, { greatestPower: 0.005 });
    const short = new ReachFlight(
      flightAfter(
        none,
        twoEngined(),
        windyDay(() => [0, 0]),
      ),
      none,
    );
    expect(short.slow(startAt(3000, 0, speed, heavy), goalAt(300_000, 3000))).toMatchObject({
      fuelKg: Number.NaN,
      reason: 'heights',
    });
  });
});

describe('the wind of a flight after a failure', () => {
  it('[REACH-16] is that of the height at which the failure is flown, not of the one it comes from', () => {
    const speedMS = 210;
    const windMS = 60;
    const wayM = 900_000;
    const low = failure(3000, speedMS);
    const aircraft = twoEngined();
    const start = { ...startAt(9000, 0, speedMS, aircraft.balance.emptyMassKg + 15_000), headingRad: 0 };
    // North along a meridian; a degree of it at the equator is a degree of a circle of 6 335 439 m (WGS 84), 0.2 % less than over the way.
    const goal = { ...goalAt(0, 3000), latitudeRad: wayM / 6_335_439 };
    const takesS = (above: number, below: number): number => {
      const day = windyDay((heightM) => [heightM > 6000 ? above : below, 0]);
      return new ReachFlight(flightAfter(low, aircraft, day), low).slow(start, goal).timeS;
    };
    const stillS = takesS(0, 0);
    // By hand: the whole way is shorter by D (1/V - 1/(V + w)), but for the ten minutes at most that the way down lasts.
    const wholeS = wayM / speedMS - wayM / (speedMS + windMS);
    const downS = (600 * windMS) / (speedMS + windMS);
    expect(stillS - takesS(0, windMS)).toBeGreaterThan(wholeS - downS);
    expect(stillS - takesS(0, windMS)).toBeLessThan(wholeS * 1.005);
    expect(stillS - takesS(windMS, 0)).toBeGreaterThan(0);
    expect(stillS - takesS(windMS, 0)).toBeLessThan(downS);
  });
});

describe('last return and equal times', () => {
  const speedMS = 480 * knot;
  const windMS = 60 * knot;
  const onMS = 540 * knot;
  const backMS = 420 * knot;
  const flowKgS = 1;
  const reserveKg = 1000;
  const enduranceS = 3 * 3600;
  const one = failure(3000, speedMS);
  /** One kilogram a second whatever the thrust. */
  const constant = (() => {
    const made = twoEngined();
    const { at, powerFor } = made.propulsion;
    return twoEngined({
      at: (...asked) => {
        at(...asked);
        asked[5].fuelFlowKgS = flowKgS / 2;
      },
      powerFor: (...asked) => {
        powerFor(...asked);
        asked[5].fuelFlowKgS = flowKgS / 2;
      },
    });
  })();
  const emptyKg = constant.balance.emptyMassKg;
  /** Half a circle at 60 degrees of bank: pi V/(g tan 60) (textbook). */
  const turnS = (Math.PI * speedMS) / (gravity * Math.tan(Math.PI / 3));

  /** Minute by minute out to the east, back to a base at the start or on to another. */
  function flownFrom(eastWindMS: number, baseM: number, towardsM: number, groundMS: number) {
    const reach = new ReachFlight(
      flightAfter(
        one,
        constant,
        windyDay(() => [0, 0], eastWindMS),
      ),
      one,
    );
    const minutes = Array.from({ length: 24 }, (_, i) => 2700 + 180 * i);
    const arrivals = minutes.map((minute) => {
      const massKg = emptyKg + reserveKg + flowKgS * (enduranceS - minute);
      const start = startAt(3000, groundMS * minute, speedMS, massKg);
      return {
        back: reach.slow(start, goalAt(baseM, 3000)),
        on: reach.slow(start, goalAt(towardsM, 3000)),
        minute,
      };
    });
    return {
      minutes,
      backKg: arrivals.map(({ back }) => back.fuelKg),
      backS: arrivals.map(({ back, minute }) => back.timeS + minute),
      onS: arrivals.map(({ on, minute }) => on.timeS + minute),
    };
  }

  it('[REACH-3] without wind the last return is at half the endurance, less the turn', () => {
    const { minutes, backKg } = flownFrom(0, 0, 1500 * mile, speedMS);
    const [{ toS }] = openings(minutes, backKg, reserveKg);
    // Out t, half a circle (the way back is tangent to it and as long as the way out), back t.
    expect(toS / ((enduranceS - turnS) / 2)).toBeCloseTo(1, 3);
  });

  it('[REACH-4] with 540 kt out and 420 kt back three hours last to 708.8 nm (common practice), less the turn', () => {
    const { minutes, backKg } = flownFrom(windMS, 0, 1500 * mile, onMS);
    const [{ toS }] = openings(minutes, backKg, reserveKg);
    const classicalM = (enduranceS * backMS * onMS) / (backMS + onMS);
    expect(classicalM / mile).toBeCloseTo(708.75, 2);
    expect((onMS * toS) / classicalM).toBeGreaterThan(0.99);
    // In the turn the wind carries on: t + turn + (t on + turn wind)/back = endurance.
    const byHandS = (enduranceS - turnS * (1 + windMS / backMS)) / (1 + onMS / backMS);
    expect(toS / byHandS).toBeCloseTo(1, 2);
    expect(Math.abs(toS - byHandS)).toBeLessThan(10);
  });

  it('[REACH-5] between places 1500 nm apart it takes as long back as on at 656.3 nm (common practice), less the turn', () => {
    const { minutes, backS, onS } = flownFrom(windMS, 0, 1500 * mile, onMS);
    const timeS = equalTime(minutes, backS, onS, 0, Number.POSITIVE_INFINITY) ?? Number.NaN;
    const classicalM = (1500 * mile * backMS) / (onMS + backMS);
    expect(classicalM / mile).toBeCloseTo(656.25, 2);
    expect((onMS * timeS) / classicalM).toBeGreaterThan(0.99);
    // (D - x)/on = turn + (x + turn wind)/back.
    const byHandM = ((1500 * mile) / onMS - turnS * (1 + windMS / backMS)) / (1 / onMS + 1 / backMS);
    expect(Math.abs(onMS * timeS - byHandM) / mile).toBeLessThan(1.5);
    expect((onMS * timeS) / mile).toBeLessThan(656.25);
  });

  it('[REACH-5] without wind that is the middle, 750 nm, less half of what is flown in the turn', () => {
    const { minutes, backS, onS } = flownFrom(0, 0, 1500 * mile, speedMS);
    const timeS = equalTime(minutes, backS, onS, 0, Number.POSITIVE_INFINITY) ?? Number.NaN;
    // D - x = turn V + x.
    const byHandM = 750 * mile - (turnS * speedMS) / 2;
    expect(Math.abs(speedMS * timeS - byHandM) / mile).toBeLessThan(0.5);
  });

  it('[REACH-14] burns what a flow of 1 kg/s makes of the time, down, level, up and to the goal, to 0.1 kg', () => {
    const tanker = { ...goalAt(-700_000, 5000), calibratedAirspeedMS: 150 };
    const ends = [goalAt(0, 200), goalAt(1_200_000, 200), tanker];
    const reach = new ReachFlight(
      flightAfter(
        one,
        constant,
        windyDay(() => [0, 0], windMS),
      ),
      one,
    );
    for (const heightM of [3000, 9000] as const) {
      const start = startAt(heightM, 500_000, speedMS, emptyKg + 20_000);
      for (const goal of ends) {
        const { fuelKg, timeS, reason } = reach.slow(start, goal);
        expect(reason).toBe('arrived');
        expect(Math.abs(20_000 - fuelKg - flowKgS * (timeS - start.timeS))).toBeLessThan(0.1);
      }
    }
  });
});
