/**
 * Thermally perfect air and combustion products of a kerosene-type fuel.
 *
 * cp of air and of the products at a fuel-air ratio of 0.0676 are seventh-order polynomials in temperature; a mixture
 * between them is cp = (cp_air + f cp_products)/(1 + f). Source: Mattingly and others, Aircraft Engine Design,
 * 2nd ed. (AIAA 2002), Table 2.2 and equations 2.62 to 2.67; coefficients after McKinney, Air Force Aero Propulsion Laboratory,
 * compared with several public copies of the table; the air side is checked against NASA/TP-2002-211556 in the tests. Range 300
 * to 4 000 R (167 to 2 222 K); dissociation is not modelled, which is within 1 % up to 2 000 K (from memory).
 *
 * Units: K, J/kg, J/(kg K); fuel-air ratio by mass.
 */

const kelvinToRankine = 1.8;
const btuPerPound = 2326;
const btuPerPoundRankine = 4186.8;

/** cp in Btu/(lbm R) = sum A_i T^i, T in Rankine. */
const air = [
  2.5020051e-1, -5.1536879e-5, 6.5519486e-8, -6.7178376e-12, -1.5128259e-14, 7.6215767e-18, -1.452677e-21,
  1.011554e-25,
];
const airEnthalpy = -1.7558886;
const airEntropy = 0.0454323;

const products = [
  7.3816638e-2, 1.225863e-3, -1.3771901e-6, 9.9686793e-10, -4.2051104e-13, 1.0212913e-16, -1.3335668e-20,
  7.267871e-25,
];
const productsEnthalpy = 30.58153;
const productsEntropy = 0.6483398;

function cpSum(a: readonly number[], t: number): number {
  let sum = 0;
  for (let i = 7; i >= 0; i--) sum = sum * t + a[i];
  return sum;
}

function enthalpySum(a: readonly number[], t: number): number {
  let sum = 0;
  for (let i = 7; i >= 0; i--) sum = sum * t + a[i] / (i + 1);
  return sum * t;
}

function entropySum(a: readonly number[], t: number): number {
  let sum = 0;
  for (let i = 7; i >= 1; i--) sum = sum * t + a[i] / i;
  return a[0] * Math.log(t) + sum * t;
}

/** cp [J/(kg K)] at a temperature [K] and fuel-air ratio. */
export function specificHeat(temperatureK: number, fuelAir: number): number {
  const t = temperatureK * kelvinToRankine;
  return ((cpSum(air, t) + fuelAir * cpSum(products, t)) / (1 + fuelAir)) * btuPerPoundRankine;
}

/** Enthalpy [J/kg] at a temperature [K] and fuel-air ratio, on the datum of the source. */
export function enthalpy(temperatureK: number, fuelAir: number): number {
  const t = temperatureK * kelvinToRankine;
  const ofAir = airEnthalpy + enthalpySum(air, t);
  const ofProducts = productsEnthalpy + enthalpySum(products, t);
  return ((ofAir + fuelAir * ofProducts) / (1 + fuelAir)) * btuPerPound;
}

/** Integral of cp dT/T [J/(kg K)] at a temperature [K] and fuel-air ratio, on the datum of the source. */
export function entropyAtPressure(temperatureK: number, fuelAir: number): number {
  const t = temperatureK * kelvinToRankine;
  const ofAir = airEntropy + entropySum(air, t);
  const ofProducts = productsEntropy + entropySum(products, t);
  return ((ofAir + fuelAir * ofProducts) / (1 + fuelAir)) * btuPerPoundRankine;
}

/** Gas constant [J/(kg K)]: 1.9857117/(28.97 - 0.946186 f) Btu/(lbm R). */
export function gasConstantOf(fuelAir: number): number {
  return (1.9857117 / (28.97 - 0.946186 * fuelAir)) * btuPerPoundRankine;
}

/** Ratio of specific heats at a temperature [K] and fuel-air ratio. */
export function gammaOf(temperatureK: number, fuelAir: number): number {
  const cp = specificHeat(temperatureK, fuelAir);
  return cp / (cp - gasConstantOf(fuelAir));
}

/** Temperature [K] of an enthalpy [J/kg] by Newton's method from a first guess [K]. */
export function temperatureOfEnthalpy(enthalpyJKg: number, fuelAir: number, guessK: number): number {
  let t = guessK;
  for (let i = 0; i < 30; i++) {
    const step = (enthalpy(t, fuelAir) - enthalpyJKg) / specificHeat(t, fuelAir);
    t -= step;
    if (Math.abs(step) < 1e-8) return t;
  }
  throw new Error(`no temperature has the enthalpy ${enthalpyJKg} J/kg at fuel-air ratio ${fuelAir}`);
}

/** Temperature [K] of an entropy function [J/(kg K)] by Newton's method from a first guess [K]. */
export function temperatureOfEntropy(entropyJKgK: number, fuelAir: number, guessK: number): number {
  let t = guessK;
  for (let i = 0; i < 30; i++) {
    const step = ((entropyAtPressure(t, fuelAir) - entropyJKgK) * t) / specificHeat(t, fuelAir);
    t -= step;
    if (Math.abs(step) < 1e-8) return t;
  }
  throw new Error(`no temperature has the entropy ${entropyJKgK} J/(kg K) at fuel-air ratio ${fuelAir}`);
}
