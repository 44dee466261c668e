/** Every check against values from outside. A new one is added here, its data in ../data with their source at the head. */
import { checkAirspeeds } from './airspeeds.ts';
import { checkBodyAndSky } from './body-and-sky.ts';
import { checkBreguet } from './breguet.ts';
import { checkCompressibleFlow } from './compressible-flow.ts';
import { checkGeodesics, checkGravity, checkRotation } from './earth.ts';
import { checkFuelDensity } from './fuel-density.ts';
import { checkGrid2020, checkGrid2022, checkGridClassic } from './grid-samples.ts';
import { checkGfs, checkGfsPackings, checkGfsSimple } from './grid-samples-gfs.ts';
import { checkNesc } from './nesc.ts';
import { checkNonStandardDays } from './non-standard-days.ts';
import { checkPhases } from './phases.ts';
import { checkSoundingHydrostatic, checkSoundingSamples } from './soundings.ts';
import { checkByGeometric, checkByPressureAltitude, checkLayers } from './standard-atmosphere.ts';
import { checkSun } from './sun.ts';
import type { Check } from './tally.ts';
import { checkTextbook } from './textbook.ts';
import { checkGlennCoefficients, checkThermallyPerfect, checkTotalTemperature } from './thermally-perfect.ts';
import { checkTurns } from './turns.ts';
import { checkMagneticField } from './wmm2025.ts';

export const checks: readonly Check[] = [
  { name: 'us-standard-atmosphere-1976-layers', check: checkLayers },
  { name: 'us-standard-atmosphere-1976', check: checkByGeometric },
  { name: 'pressure-altitude', check: checkByPressureAltitude },
  { name: 'non-standard-days', check: checkNonStandardDays },
  { name: 'naca-1135', check: checkCompressibleFlow },
  { name: 'airspeed', check: checkAirspeeds },
  { name: 'textbook-air-data', check: checkTextbook },
  { name: 'nasa-glenn-coefficients', check: checkGlennCoefficients },
  { name: 'thermally-perfect-air', check: checkThermallyPerfect },
  { name: 'total-temperature', check: checkTotalTemperature },
  { name: 'geodesics', check: checkGeodesics },
  { name: 'wgs84-gravity', check: checkGravity },
  { name: 'earth-rotation', check: checkRotation },
  { name: 'turns', check: checkTurns },
  { name: 'phases', check: checkPhases },
  { name: 'nesc-check-cases', check: checkNesc },
  { name: 'breguet', check: checkBreguet },
  { name: 'fuel-density', check: checkFuelDensity },
  { name: 'grid-samples-era5-2020', check: checkGrid2020 },
  { name: 'grid-samples-era5-2022', check: checkGrid2022 },
  { name: 'grid-samples-era5-netcdf3', check: checkGridClassic },
  { name: 'grid-samples-gfs-2011', check: checkGfs },
  { name: 'grid-samples-gfs-2011-simple', check: checkGfsSimple },
  { name: 'grid-samples-gfs-2011-packings', check: checkGfsPackings },
  { name: 'sounding-samples', check: checkSoundingSamples },
  { name: 'sounding-hydrostatic', check: checkSoundingHydrostatic },
  { name: 'wmm2025', check: checkMagneticField },
  { name: 'sun', check: checkSun },
  { name: 'body-and-sky', check: checkBodyAndSky },
];
