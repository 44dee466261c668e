/** A runway at sea level on the standard day, and an aircraft on its wheels without friction or drag, to be changed. */
import type { Ground } from '../../src/core/aircraft/aircraft.ts';
import type { RunwayConditions } from '../../src/core/phases/index.ts';

export const gravity = 9.80665;

export const seaLevel: RunwayConditions = {
  massKg: 20_000,
  cgFraction: 0.25,
  gravityMS2: gravity,
  pressureAltitudeM: 0,
  geometricHeightM: 0,
  temperatureOffsetK: 0,
  densityKgM3: 1.225,
  speedOfSoundMS: 340.294,
  headwindMS: 0,
  slopeFraction: 0,
  condition: 'dry',
};

export const smooth: Ground = {
  angleOfAttackRad: 0,
  gearDrag: 0,
  brakingDrag: 0,
  engineOutDrag: 0,
  rollingFriction: 0,
  brakingFriction: { dry: 0.3, wet: 0.15 },
  reactionS: 0,
  climbOutRatio: 1.1,
  minimumControlSpeedMS: null,
  tyreSpeedMS: null,
  brakeEnergyJ: null,
};
