/** A take-off and a landing for tests of what is shown; their speeds belong together, distances are invented. */
import { calibratedAirspeed, equivalentAirspeed } from '../../src/core/air/airdata.ts';
import { speedOfSound } from '../../src/core/air/standard.ts';
import type { LandingData, RunSpeed, TakeOffData } from '../../src/core/plan/plan.ts';

const temperatureK = 283.15;
const headwindCountedMS = 2;

/** A ground speed at sea level. */
export function runSpeed(groundSpeedMS: number): RunSpeed {
  const trueAirspeedMS = groundSpeedMS + headwindCountedMS;
  const mach = trueAirspeedMS / speedOfSound(temperatureK);
  return {
    groundSpeedMS,
    trueAirspeedMS,
    mach,
    equivalentAirspeedMS: equivalentAirspeed(mach, 101_325),
    calibratedAirspeedMS: calibratedAirspeed(mach, 101_325),
  };
}

export const testTakeOff: TakeOffData = {
  base: 'Larkmoor',
  massKg: 43_000,
  pressureAltitudeM: 0,
  temperatureK,
  temperatureOffsetK: -5,
  runway: {
    name: '04',
    courseDeg: 40,
    magneticDeg: null,
    compass: null,
    lengthM: 2740,
    slopeFraction: -0.003,
    condition: 'wet',
    headwindMS: 4,
    crosswindMS: -3,
    headwindCountedMS,
    windStated: true,
  },
  liftOff: runSpeed(88),
  tableGroundRunM: 905,
  run: {
    groundRunM: 881.2,
    groundRunS: 19.4,
    climbOut: runSpeed(97),
    climbGradient: { gearDown: 0.0617, gearUp: 0.1288 },
    critical: runSpeed(63),
    criticalFieldM: 1503.4,
    least: runSpeed(55),
    leastBy: 'minimumControlSpeed',
    greatest: runSpeed(81),
    greatestBy: 'brakeEnergy',
    decisionFits: true,
    decision: runSpeed(63),
    accelerateGoM: 1503.4,
    accelerateStopM: 1503.4,
    allEnginesStopM: 1688.1,
    brakeEnergyJ: 118.23e6,
    brakeEnergyLimitJ: 192e6,
    tyreSpeedMS: 122.4,
  },
};

export const testLanding: LandingData = {
  worstCase: null,
  timeS: 13_140,
  base: 'Larkmoor',
  massKg: 31_240,
  fuelKg: 4237,
  reserveKg: 2000,
  pressureAltitudeM: 0,
  temperatureK,
  temperatureOffsetK: -5,
  runway: testTakeOff.runway,
  approach: runSpeed(80),
  tableGroundRunM: 1402.2,
  stop: { distanceM: 1211.7, brakeEnergyJ: 61.04e6, brakeEnergyLimitJ: 192e6, tyreSpeedMS: 122.4 },
  longestM: 1402.2,
};
