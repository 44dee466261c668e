/**
 * Density of aviation fuel against temperature: the volume correction of ASTM D1250-80 / API MPMS 11.1 (ISO 91-1),
 * table 54B, unrounded,
 *
 *     density(T) = density15 exp(-alpha dt (1 + 0.8 alpha dt)),   dt = T - 15 degC,
 *
 * with alpha, the expansion at 15 degC, from the density there. No correction for pressure (0.1 % for 10 bar, from memory)
 * or for the glass of a hydrometer. The printed tables round alpha and the factor: they differ by up to 1e-4.
 */
import { brent } from '../numerics/roots.ts';
import { OutsideRange } from '../quantities/errors.ts';

const source = 'the fuel of ASTM D1250 table 54B';
const referenceK = 288.15;
/** Where the table ends, -18 and 90 degC. Beyond lies extrapolation, which needs a table of the fuel itself. */
export const coldestFuelK = 255.15;
export const hottestFuelK = 363.15;
/** Wide-cut and kerosene fuels at 15 degC; the specifications ask for 751 to 840 kg/m3 (from memory). */
const lightestKgM3 = 750;
const heaviestKgM3 = 840;

/** alpha15 [1/K] = K0/rho^2 + K1/rho + A, by the density at 15 degC up to which a group of products reaches. */
const groups = [
  // Gasolines and the heavy end of fuel oils: from memory; each meets its neighbour within 0.3 %.
  { below: 770, k0: 346.4228, k1: 0.4388, a: 0 },
  { below: 787.5, k0: 2680.3206, k1: 0, a: -0.00336312 },
  { below: 838.5, k0: 594.5418, k1: 0, a: 0 },
  { below: Number.POSITIVE_INFINITY, k0: 186.9696, k1: 0.4862, a: 0 },
];

/** Expansion for each kelvin at 15 degC [1/K] of a fuel of a density there [kg/m3]; throws `OutsideRange` beyond 750 to 840. */
export function expansionAt15(density15KgM3: number): number {
  if (!(density15KgM3 >= lightestKgM3 && density15KgM3 <= heaviestKgM3)) {
    throw new OutsideRange(
      'fuel density at 15 degC',
      density15KgM3,
      'kg/m3',
      lightestKgM3,
      heaviestKgM3,
      source,
    );
  }
  const group = groups.find(({ below }) => density15KgM3 < below) ?? groups[groups.length - 1];
  return group.k0 / density15KgM3 ** 2 + group.k1 / density15KgM3 + group.a;
}

/** Density over density at 15 degC; throws `OutsideRange` beyond -18 to 90 degC. */
export function volumeCorrection(density15KgM3: number, temperatureK: number): number {
  // Kelvin made from whole degrees may miss the ends by its last bit.
  const slack = 1e-9;
  if (!(temperatureK >= coldestFuelK - slack && temperatureK <= hottestFuelK + slack)) {
    throw new OutsideRange('fuel temperature', temperatureK, 'K', coldestFuelK, hottestFuelK, source);
  }
  const expansion = expansionAt15(density15KgM3) * (temperatureK - referenceK);
  return Math.exp(-expansion * (1 + 0.8 * expansion));
}

/** Density [kg/m3] at a temperature of a fuel of a density at 15 degC. */
export function fuelDensity(density15KgM3: number, temperatureK: number): number {
  return density15KgM3 * volumeCorrection(density15KgM3, temperatureK);
}

/** The density at 15 degC [kg/m3] of a fuel whose density was measured at another temperature. */
export function density15Of(densityKgM3: number, temperatureK: number): number {
  const lightest = fuelDensity(lightestKgM3, temperatureK);
  const heaviest = fuelDensity(heaviestKgM3, temperatureK);
  if (!(densityKgM3 >= lightest && densityKgM3 <= heaviest)) {
    throw new OutsideRange(
      'fuel density',
      densityKgM3,
      'kg/m3',
      lightest,
      heaviest,
      `${source} at ${temperatureK} K`,
    );
  }
  const excess = (density15: number) => fuelDensity(density15, temperatureK) - densityKgM3;
  return brent(excess, lightestKgM3, heaviestKgM3, 1e-9).x;
}

/** Volume [m3] of a mass of fuel [kg]. */
export function fuelVolume(massKg: number, density15KgM3: number, temperatureK: number): number {
  return massKg / fuelDensity(density15KgM3, temperatureK);
}

/** Mass [kg] that tanks of a volume [m3] hold today. */
export function fuelMass(volumeM3: number, density15KgM3: number, temperatureK: number): number {
  return volumeM3 * fuelDensity(density15KgM3, temperatureK);
}
