/** What energy is worth in fuel, so that a slow exchange of height for speed does not look like a fuel error. */
import { standardGravity } from '../quantities/constants.ts';

/** Heat of combustion of a kerosene, J/kg (typical net value of MIL-DTL-83133, from memory). */
const heatOfCombustion = 43.1e6;
/** Overall efficiency at which fuel becomes energy of flight (common practice for a supersonic cruise). */
const overallEfficiency = 0.45;

/**
 * Fuel on board plus the fuel that its energy height [m] is worth above sea level, kg, for a mass [kg]. Two moments are
 * compared at equal energy by this number; its absolute value means nothing.
 */
export function fuelAtEqualEnergy(fuelKg: number, massKg: number, energyHeightM: number): number {
  return fuelKg + (massKg * standardGravity * energyHeightM) / (overallEfficiency * heatOfCombustion);
}
