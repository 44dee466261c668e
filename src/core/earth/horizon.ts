/**
 * The horizon seen from a height above the sea, and how low the sun can stand and still be seen over it. Heights are metres
 * above the sea, 0 to 50 km; the Earth is a sphere.
 *
 * Without air the horizon dips by acos(R / (R + h)). Air bends a grazing ray twice: between the sun and the point where
 * it grazes the sea by 34', the almanac's horizontal refraction, and again between there and the eye. With a density
 * falling as exp(-h/H), that second part is 34' erf(sqrt(h/H)). The horizon is seen where Bouguer's invariant
 * n r cos(dip) has its value at the sea, n - 1 being proportional to the density of the standard atmosphere.
 */
import { density, standardPressure, standardTemperature } from '../air/standard.ts';
import { seaLevelDensity } from '../quantities/constants.ts';
import { OutsideRange } from '../quantities/errors.ts';

const degree = Math.PI / 180;
/** Mean radius (2a + b)/3 of WGS 84. */
const radiusM = 6371009;
const highestM = 50_000;
/** Refraction on the horizon and the sun's semi-diameter, as the almanacs take them for sunrise and sunset. */
const refractionRad = (34 / 60) * degree;
const semiDiameterRad = (16 / 60) * degree;
/** n - 1 of air at sea level, 15 degC, for visible light (Edlen's formula, from memory). */
const refractivity = 2.77e-4;
/** Height over which the density falls by a factor e, a mean from the sea to 25 km. */
const scaleHeightM = 8500;

function requireHeight(heightM: number): void {
  if (!(heightM >= 0 && heightM <= highestM)) {
    throw new OutsideRange('height', heightM, 'm', 0, highestM, 'the horizon');
  }
}

/** Dip of the horizon [rad] without refraction: 5.0 degrees at 80 000 ft. */
export function geometricDip(heightM: number): number {
  requireHeight(heightM);
  return Math.acos(radiusM / (radiusM + heightM));
}

/** Dip [rad] at which the horizon is seen through the air: 9 % less near the sea, 3 % less at 80 000 ft. */
export function horizonDip(heightM: number): number {
  requireHeight(heightM);
  const air = density(standardPressure(heightM), standardTemperature(heightM));
  const lost = refractivity * (1 - air / seaLevelDensity);
  return Math.acos(((1 + lost) * radiusM) / (radiusM + heightM));
}

/** Elevation [rad, negative] of the sun's centre, without refraction, at which its upper limb is on the horizon. */
export function sunsetElevation(heightM: number): number {
  return -(refractionRad + semiDiameterRad + horizonLowering(heightM));
}

/** By how much later [rad of elevation] the sun sets for an eye at a height than for one at the sea: dip and the second bending. */
export function horizonLowering(heightM: number): number {
  return horizonDip(heightM) + refractionRad * erf(Math.sqrt(heightM / scaleHeightM));
}

/** The error function of x >= 0, within 1.5e-7: Abramowitz and Stegun, equation 7.1.26. */
function erf(x: number): number {
  const t = 1 / (1 + 0.3275911 * x);
  const series =
    t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return 1 - series * Math.exp(-x * x);
}
