/**
 * Dry air as a thermally perfect gas: specific heat depends on temperature, pressure times volume is R T.
 *
 * Mixture and coefficients: `glenn.ts`. Enthalpy and entropy count from 298.15 K, entropy at constant pressure.
 * Range 150 to 6000 K. Below 200 K, where the coefficients end, cp keeps its value at 200 K: rotation is fully excited and
 * vibration frozen there, and cp of the mixture changes by less than 0.1 % to 150 K. Above about 1800 K real air begins
 * to dissociate, which is not modelled.
 */
import { gammaAir, gasConstant } from '../quantities/constants.ts';
import { OutsideRange } from '../quantities/errors.ts';
import type { Mach, StaticTemperature, TotalTemperature, TrueAirspeed } from '../quantities/kinds.ts';
import { dryAir, molarGasConstantGlenn } from './glenn.ts';

/** Molar mass of the mixture, kg/mol. */
const molarMass = dryAir.reduce((sum, species) => sum + species.moleFraction * species.molarMass, 0) / 1000;
/** Gas constant of the mixture, 287.052537 J/(kg K); it differs from that of USSA 1976 by 1.9e-6. */
export const mixtureGasConstant = molarGasConstantGlenn / molarMass;

const lowest = 150;
const coldEnd = 200;
const split = 1000;
const highest = 6000;
const reference = 298.15;

const cold = mix('cold');
const hot = mix('hot');

/** The species' coefficients weighted by mole fraction: the mixture's own, since all share the same intervals. */
function mix(interval: 'cold' | 'hot'): number[] {
  const sum = new Array<number>(9).fill(0);
  for (const species of dryAir) {
    species[interval].forEach((coefficient, i) => {
      sum[i] += species.moleFraction * coefficient;
    });
  }
  return sum;
}

function polynomialHeat(c: readonly number[], t: number): number {
  return c[0] / (t * t) + c[1] / t + c[2] + t * (c[3] + t * (c[4] + t * (c[5] + t * c[6])));
}

function polynomialEnthalpy(c: readonly number[], t: number): number {
  const powers = t * (c[2] + t * (c[3] / 2 + t * (c[4] / 3 + t * (c[5] / 4 + (t * c[6]) / 5))));
  return -c[0] / t + c[1] * Math.log(t) + powers + c[7];
}

function polynomialEntropy(c: readonly number[], t: number): number {
  const powers = t * (c[3] + t * (c[4] / 2 + t * (c[5] / 3 + (t * c[6]) / 4)));
  return -c[0] / (2 * t * t) - c[1] / t + c[2] * Math.log(t) + powers + c[8];
}

const coldHeat = polynomialHeat(cold, coldEnd);
const coldEnthalpy = polynomialEnthalpy(cold, coldEnd);
const coldEntropy = polynomialEntropy(cold, coldEnd);
const referenceEnthalpy = polynomialEnthalpy(cold, reference);
const referenceEntropy = polynomialEntropy(cold, reference);

function check(temperatureK: number): void {
  if (!(temperatureK >= lowest && temperatureK <= highest)) {
    throw new OutsideRange('temperature', temperatureK, 'K', lowest, highest, 'thermally perfect dry air');
  }
}

/** Specific heat at constant pressure [J/(kg K)] at a temperature [K]. */
export function specificHeat(temperatureK: number): number {
  check(temperatureK);
  if (temperatureK < coldEnd) return mixtureGasConstant * coldHeat;
  return mixtureGasConstant * polynomialHeat(temperatureK < split ? cold : hot, temperatureK);
}

/** Ratio of specific heats at a temperature [K]. */
export function heatRatio(temperatureK: number): number {
  const cp = specificHeat(temperatureK);
  return cp / (cp - mixtureGasConstant);
}

/** Enthalpy above that at 298.15 K [J/kg]. */
export function enthalpy(temperatureK: number): number {
  check(temperatureK);
  let overR: number;
  if (temperatureK < coldEnd) overR = coldEnthalpy + coldHeat * (temperatureK - coldEnd);
  else overR = polynomialEnthalpy(temperatureK < split ? cold : hot, temperatureK);
  return mixtureGasConstant * (overR - referenceEnthalpy);
}

/** Entropy at constant pressure above that at 298.15 K [J/(kg K)]: the integral of cp/T. */
export function entropy(temperatureK: number): number {
  check(temperatureK);
  let overR: number;
  if (temperatureK < coldEnd) overR = coldEntropy + coldHeat * Math.log(temperatureK / coldEnd);
  else overR = polynomialEntropy(temperatureK < split ? cold : hot, temperatureK);
  return mixtureGasConstant * (overR - referenceEntropy);
}

/** Speed of sound [m/s] with the gamma and R of the mixture; air data use `speedOfSound` of standard.ts instead. */
export function soundSpeedOfMixture(temperatureK: number): number {
  return Math.sqrt(heatRatio(temperatureK) * mixtureGasConstant * temperatureK);
}

/** Newton's method from `start` for a monotone property whose derivative is given; to 1e-12 relative. */
function solve(
  property: (temperatureK: number) => number,
  slope: (temperatureK: number) => number,
  target: number,
  start: number,
): number {
  let temperature = Math.min(Math.max(start, lowest), highest);
  for (let iteration = 0; iteration < 60; iteration++) {
    const step = (property(temperature) - target) / slope(temperature);
    temperature = Math.min(Math.max(temperature - step, lowest), highest);
    if (Math.abs(step) < 1e-12 * temperature) break;
  }
  return temperature;
}

/** Temperature [K] at which enthalpy above 298.15 K is `enthalpyJKg`: the inverse of `enthalpy`. */
export function temperatureOfEnthalpy(enthalpyJKg: number): number {
  if (!(enthalpyJKg >= enthalpy(lowest) && enthalpyJKg <= enthalpy(highest))) {
    const range = [enthalpy(lowest), enthalpy(highest)] as const;
    throw new OutsideRange('enthalpy', enthalpyJKg, 'J/kg', range[0], range[1], 'thermally perfect dry air');
  }
  return solve(enthalpy, specificHeat, enthalpyJKg, reference + enthalpyJKg / 1050);
}

/** Temperature [K] at which entropy at constant pressure is `entropyJKgK`: the inverse of `entropy`. */
export function temperatureOfEntropy(entropyJKgK: number): number {
  if (!(entropyJKgK >= entropy(lowest) && entropyJKgK <= entropy(highest))) {
    const range = [entropy(lowest), entropy(highest)] as const;
    throw new OutsideRange(
      'entropy',
      entropyJKgK,
      'J/(kg K)',
      range[0],
      range[1],
      'thermally perfect dry air',
    );
  }
  const start = reference * Math.exp(entropyJKgK / 1050);
  return solve(entropy, (temperature) => specificHeat(temperature) / temperature, entropyJKgK, start);
}

/** Total temperature [K] of air at T [K] brought to rest from V [m/s] without loss of heat: h(Tt) = h(T) + V^2/2. */
export function totalTemperature(temperatureK: StaticTemperature, speedMS: TrueAirspeed): TotalTemperature {
  return temperatureOfEnthalpy(enthalpy(temperatureK) + (speedMS * speedMS) / 2);
}

/**
 * Change of the total temperature Tt for each kelvin of static temperature T at constant Mach by the air-data convention:
 * (cp(T) + gamma R M^2 / 2) / cp(Tt), from h(Tt) = h(T) + gamma R T M^2 / 2.
 */
export function totalTemperatureSlope(
  temperatureK: StaticTemperature,
  totalK: TotalTemperature,
  mach: Mach,
): number {
  return (specificHeat(temperatureK) + (gammaAir * gasConstant * mach * mach) / 2) / specificHeat(totalK);
}

/** Total over static pressure of the same process without loss: exp((s(Tt) - s(T)) / R). */
export function totalPressureRatio(temperatureK: StaticTemperature, totalK: TotalTemperature): number {
  return Math.exp((entropy(totalK) - entropy(temperatureK)) / mixtureGasConstant);
}

/** Static temperature [K] of air whose total temperature is Tt [K] at a Mach number by the air-data convention. */
export function staticTemperature(totalK: TotalTemperature, mach: Mach): StaticTemperature {
  const halfSquare = (gammaAir * gasConstant * mach * mach) / 2;
  return solve(
    (temperature) => enthalpy(temperature) + halfSquare * temperature,
    (temperature) => specificHeat(temperature) + halfSquare,
    enthalpy(totalK),
    Math.max(totalK / (1 + 0.2 * mach * mach), lowest),
  );
}

/** Mach by the air-data convention at which air at T [K] has the total temperature Tt [K]: where a limit is met. */
export function machOfTotalTemperature(temperatureK: StaticTemperature, totalK: TotalTemperature): Mach {
  const rise = enthalpy(totalK) - enthalpy(temperatureK);
  if (!(rise >= 0)) {
    throw new OutsideRange(
      'total temperature',
      totalK,
      'K',
      temperatureK,
      highest,
      'air at this static temperature',
    );
  }
  return Math.sqrt((2 * rise) / (gammaAir * gasConstant * temperatureK));
}

/** Temperature [K] that a probe of recovery factor r indicates: T + r (Tt - T). */
export function indicatedTemperature(
  temperatureK: StaticTemperature,
  totalK: TotalTemperature,
  recoveryFactor: number,
): number {
  return temperatureK + recoveryFactor * (totalK - temperatureK);
}
