/**
 * Formulas may not care in which units their constants are given: with the base units rescaled by odd factors a result
 * changes by its own dimension only. The modules are loaded anew over rescaled constants.
 */
import { afterAll, describe, expect, it, vi } from 'vitest';
import * as plain from '../../../src/core/quantities/constants.ts';

/** Units in one of the new: metre, second, kilogram, kelvin. */
const m = 1.7;
const s = 0.6;
const kg = 2.3;
const kelvin = 3.1;
const velocity = m / s;
const pressure = kg / m / s ** 2;

const constantsModule = '../../../src/core/quantities/constants.ts';
vi.doMock(constantsModule, () => ({
  ...plain,
  gasConstant: (plain.gasConstant * velocity ** 2) / kelvin,
  standardGravity: (plain.standardGravity * m) / s ** 2,
  seaLevelPressure: plain.seaLevelPressure * pressure,
  seaLevelTemperature: plain.seaLevelTemperature * kelvin,
  seaLevelDensity: (plain.seaLevelDensity * kg) / m ** 3,
  seaLevelSpeedOfSound: plain.seaLevelSpeedOfSound * velocity,
  geopotentialRadius: plain.geopotentialRadius * m,
  sutherlandBeta: (plain.sutherlandBeta * kg) / (m * s * Math.sqrt(kelvin)),
  sutherlandTemperature: plain.sutherlandTemperature * kelvin,
  equatorialRadius: plain.equatorialRadius * m,
  gravitationalParameter: (plain.gravitationalParameter * m ** 3) / s ** 2,
  earthRate: plain.earthRate / s,
}));
vi.resetModules();
const scaledAir = await import('../../../src/core/air/airdata.ts');
const scaledStandard = await import('../../../src/core/air/standard.ts');
const scaledGravity = await import('../../../src/core/earth/gravity.ts');
const scaledRotation = await import('../../../src/core/earth/rotation.ts');
const scaledEllipsoid = await import('../../../src/core/earth/ellipsoid.ts');
const scaledTurn = await import('../../../src/core/flight/turn-kinematics.ts');
vi.doUnmock(constantsModule);
vi.resetModules();
const air = await import('../../../src/core/air/airdata.ts');
const standard = await import('../../../src/core/air/standard.ts');
const gravity = await import('../../../src/core/earth/gravity.ts');
const rotation = await import('../../../src/core/earth/rotation.ts');
const ellipsoid = await import('../../../src/core/earth/ellipsoid.ts');
const turn = await import('../../../src/core/flight/turn-kinematics.ts');

afterAll(() => vi.resetModules());

const p = 3034.7;
const t = 221;
const cases: readonly [name: string, scaled: number, expected: number, dimension: number][] = [
  [
    'calibrated airspeed',
    scaledAir.calibratedAirspeed(3.2, p * pressure),
    air.calibratedAirspeed(3.2, p),
    velocity,
  ],
  [
    'equivalent airspeed',
    scaledAir.equivalentAirspeed(3.2, p * pressure),
    air.equivalentAirspeed(3.2, p),
    velocity,
  ],
  [
    'Mach of CAS',
    scaledAir.machFromCalibrated(220 * velocity, p * pressure),
    air.machFromCalibrated(220, p),
    1,
  ],
  [
    'Mach of EAS',
    scaledAir.machFromEquivalent(220 * velocity, p * pressure),
    air.machFromEquivalent(220, p),
    1,
  ],
  ['dynamic pressure', scaledAir.dynamicPressure(2, p * pressure), air.dynamicPressure(2, p), pressure],
  ['impact pressure', scaledAir.impactPressure(2, p * pressure), air.impactPressure(2, p), pressure],
  [
    'total temperature',
    scaledAir.totalTemperatureConstantCp(2, t * kelvin),
    air.totalTemperatureConstantCp(2, t),
    kelvin,
  ],
  [
    'EAS meets Mach',
    scaledAir.pressureWhereEquivalentMeets(200 * velocity, 2),
    air.pressureWhereEquivalentMeets(200, 2),
    pressure,
  ],
  [
    'CAS meets Mach',
    scaledAir.pressureWhereCalibratedMeets(200 * velocity, 2),
    air.pressureWhereCalibratedMeets(200, 2),
    pressure,
  ],
  ['density', scaledStandard.density(p * pressure, t * kelvin), standard.density(p, t), kg / m ** 3],
  ['speed of sound', scaledStandard.speedOfSound(t * kelvin), standard.speedOfSound(t), velocity],
  ['viscosity', scaledStandard.dynamicViscosity(t * kelvin), standard.dynamicViscosity(t), kg / m / s],
  [
    'geometric height',
    scaledStandard.geometricFromGeopotential(2e4 * m),
    standard.geometricFromGeopotential(2e4),
    m,
  ],
  [
    'gravity',
    scaledGravity.normalGravity(0.8, 2e4 * m).down,
    gravity.normalGravity(0.8, 2e4).down,
    m / s ** 2,
  ],
  ['surface gravity', scaledGravity.surfaceGravity(0.3), gravity.surfaceGravity(0.3), m / s ** 2],
  ['meridian radius', scaledEllipsoid.meridianRadius(0.3), ellipsoid.meridianRadius(0.3), m],
  [
    'curvature',
    scaledRotation.curvatureRelief(300 * velocity, 800 * velocity, 0.3, 2e4 * m),
    rotation.curvatureRelief(300, 800, 0.3, 2e4),
    m / s ** 2,
  ],
  [
    'Coriolis',
    scaledRotation.coriolisRelief(800 * velocity, 0.7),
    rotation.coriolisRelief(800, 0.7),
    m / s ** 2,
  ],
  [
    'turn radius',
    scaledTurn.levelTurn(900 * velocity, 0.5, (9.7 * m) / s ** 2).radiusM,
    turn.levelTurn(900, 0.5, 9.7).radiusM,
    m,
  ],
];

describe('dimensions', () => {
  it.each(cases)('[DIM-1] %s changes by its own dimension only', (_name, scaled, expected, dimension) => {
    expect(scaled / (expected * dimension)).toBeCloseTo(1, 11);
  });

  it('[DIM-2] the constants were rescaled: the same numbers do not come out', () => {
    expect(scaledStandard.speedOfSound(t)).not.toBeCloseTo(standard.speedOfSound(t), 3);
  });
});
