/**
 * The US Standard Atmosphere 1976 (the same as ISO 2533:1975 to 80 km) as a function of geopotential height, which is
 * pressure altitude by definition.
 *
 * Range: -5 to 86 km geometric, -5003.94 to 84 852 m geopotential; functions throw `OutsideRange` beyond it.
 * Temperature is the molecular-scale one: the kinetic temperature up to 80 km, 0.04 % above it at 86 km.
 * Layers: NOAA-S/T 76-1562, Table 4. Pressure: equations 33a and 33b of the same.
 */
import {
  gammaAir,
  gasConstant,
  geopotentialRadius,
  seaLevelPressure,
  seaLevelTemperature,
  standardGravity,
  sutherlandBeta,
  sutherlandTemperature,
} from '../quantities/constants.ts';
import { OutsideRange } from '../quantities/errors.ts';
import type { GeometricHeight, GeopotentialHeight, PressureAltitude } from '../quantities/kinds.ts';

/** Base of each layer in geopotential metres, and of the top. */
export const layerBaseM: readonly number[] = [0, 11000, 20000, 32000, 47000, 51000, 71000, 84852];
/** Temperature gradient of each layer, K per geopotential metre. */
export const layerLapseKM: readonly number[] = [-0.0065, 0, 0.001, 0.0028, 0, -0.0028, -0.002];

/** g0/R, K/m: the hydrostatic constant. */
const hydrostatic = standardGravity / gasConstant;

const baseTemperature = new Float64Array(layerBaseM.length);
const baseLogPressure = new Float64Array(layerBaseM.length);
baseTemperature[0] = seaLevelTemperature;
baseLogPressure[0] = Math.log(seaLevelPressure);
for (let layer = 0; layer < layerLapseKM.length; layer++) {
  const top = layerBaseM[layer + 1];
  baseTemperature[layer + 1] = baseTemperature[layer] + layerLapseKM[layer] * (top - layerBaseM[layer]);
  baseLogPressure[layer + 1] = logPressureInLayer(layer, top, baseTemperature[layer + 1]);
}

/** Lowest pressure altitude of the standard atmosphere: -5 km geometric. */
export const lowestAltitudeM = (geopotentialRadius * -5000) / (geopotentialRadius - 5000);
/** Highest pressure altitude of the standard atmosphere: 86 km geometric, 5 cm above the end of the table of layers. */
export const highestAltitudeM = (geopotentialRadius * 86000) / (geopotentialRadius + 86000);
const lowestLogPressure = logPressureInLayer(6, highestAltitudeM, temperatureInLayer(6, highestAltitudeM));
const highestLogPressure = logPressureInLayer(0, lowestAltitudeM, temperatureInLayer(0, lowestAltitudeM));

function temperatureInLayer(layer: number, heightM: number): number {
  return baseTemperature[layer] + layerLapseKM[layer] * (heightM - layerBaseM[layer]);
}

function logPressureInLayer(layer: number, heightM: number, temperatureK: number): number {
  const lapse = layerLapseKM[layer];
  if (lapse === 0) {
    return baseLogPressure[layer] - (hydrostatic * (heightM - layerBaseM[layer])) / baseTemperature[layer];
  }
  return baseLogPressure[layer] - (hydrostatic / lapse) * Math.log(temperatureK / baseTemperature[layer]);
}

/** Index of the layer that holds a pressure altitude; a boundary belongs to the layer above it. */
export function standardLayer(pressureAltitudeM: number): number {
  if (pressureAltitudeM < 20000) return pressureAltitudeM < 11000 ? 0 : 1;
  if (pressureAltitudeM < 32000) return 2;
  if (pressureAltitudeM < 47000) return 3;
  if (pressureAltitudeM < 51000) return 4;
  return pressureAltitudeM < 71000 ? 5 : 6;
}

function checkAltitude(pressureAltitudeM: number): void {
  if (!(pressureAltitudeM >= lowestAltitudeM && pressureAltitudeM <= highestAltitudeM)) {
    throw new OutsideRange(
      'pressure altitude',
      pressureAltitudeM,
      'm',
      lowestAltitudeM,
      highestAltitudeM,
      'the US Standard Atmosphere 1976',
    );
  }
}

/** Temperature [K] at a pressure altitude [m]. */
export function standardTemperature(pressureAltitudeM: PressureAltitude): number {
  checkAltitude(pressureAltitudeM);
  return temperatureInLayer(standardLayer(pressureAltitudeM), pressureAltitudeM);
}

/** ln(p / 1 Pa) at a pressure altitude [m]. */
export function standardLogPressure(pressureAltitudeM: PressureAltitude): number {
  checkAltitude(pressureAltitudeM);
  const layer = standardLayer(pressureAltitudeM);
  return logPressureInLayer(layer, pressureAltitudeM, temperatureInLayer(layer, pressureAltitudeM));
}

/** Pressure [Pa] at a pressure altitude [m]. */
export function standardPressure(pressureAltitudeM: PressureAltitude): number {
  return Math.exp(standardLogPressure(pressureAltitudeM));
}

/** Pressure altitude [m] at which the standard atmosphere has a pressure [Pa]: the inverse of `standardPressure`. */
export function pressureAltitudeOf(pressurePa: number): PressureAltitude {
  const logPressure = Math.log(pressurePa);
  const slack = 1e-12;
  if (!(logPressure >= lowestLogPressure - slack && logPressure <= highestLogPressure + slack)) {
    throw new OutsideRange(
      'pressure',
      pressurePa,
      'Pa',
      Math.exp(lowestLogPressure),
      Math.exp(highestLogPressure),
      'the US Standard Atmosphere 1976',
    );
  }
  let layer = 0;
  while (layer < 6 && logPressure <= baseLogPressure[layer + 1]) layer++;
  const fall = baseLogPressure[layer] - logPressure;
  const lapse = layerLapseKM[layer];
  const base = baseTemperature[layer];
  if (lapse === 0) return layerBaseM[layer] + (fall * base) / hydrostatic;
  return layerBaseM[layer] + (base * Math.expm1((fall * lapse) / hydrostatic)) / lapse;
}

/** Density [kg/m3] of air as an ideal gas, rho = p/(R T). */
export function density(pressurePa: number, temperatureK: number): number {
  return pressurePa / (gasConstant * temperatureK);
}

/** Speed of sound [m/s] by the air-data convention, sqrt(1.4 R T). */
export function speedOfSound(temperatureK: number): number {
  return Math.sqrt(gammaAir * gasConstant * temperatureK);
}

/** Dynamic viscosity [Pa s] by Sutherland's law, USSA 1976 equation 51; stated there for 100 to 1900 K. */
export function dynamicViscosity(temperatureK: number): number {
  return (sutherlandBeta * temperatureK * Math.sqrt(temperatureK)) / (temperatureK + sutherlandTemperature);
}

/** Geopotential [m] to geometric height [m], USSA 1976 equation 19: Z = r0 H / (r0 - H), with one r0 for every latitude. */
export function geometricFromGeopotential(geopotentialM: GeopotentialHeight): GeometricHeight {
  return (geopotentialRadius * geopotentialM) / (geopotentialRadius - geopotentialM);
}

/** Geometric [m] to geopotential height [m], USSA 1976 equation 18: H = r0 Z / (r0 + Z). */
export function geopotentialFromGeometric(geometricM: GeometricHeight): GeopotentialHeight {
  return (geopotentialRadius * geometricM) / (geopotentialRadius + geometricM);
}

/**
 * Geopotential height [m] of a pressure surface on a day warmer than standard by one offset [K] at every pressure
 * altitude: H = Hp + dT integral(dHp/T) = Hp - dT (R/g0) ln(p/p0), exact, with both heights equal at 1013.25 hPa.
 */
export function offsetGeopotential(
  pressureAltitudeM: PressureAltitude,
  logPressure: number,
  offsetK: number,
): GeopotentialHeight {
  return pressureAltitudeM + (offsetK * (baseLogPressure[0] - logPressure)) / hydrostatic;
}
