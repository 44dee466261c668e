/**
 * Total temperature for the inside of a step: the relations of thermally-perfect.ts from two tables of cubic Hermite
 * pieces, enthalpy against temperature and back. Within 1e-5 K of the full relations from 150 to 1500 K; beyond, the full
 * relations answer.
 */
import type { StaticTemperature, TotalTemperature, TrueAirspeed } from '../quantities/kinds.ts';
import { enthalpy, specificHeat, temperatureOfEnthalpy, totalTemperature } from './thermally-perfect.ts';

const cells = 512;
const coldest = 150;
const hottest = 1500;
const temperatureStep = (hottest - coldest) / cells;
const lowestEnthalpy = enthalpy(coldest);
const enthalpyStep = (enthalpy(hottest) - lowestEnthalpy) / cells;

/** Enthalpy and its change over one step, node by node. */
const enthalpyOfTemperature = new Float64Array(2 * (cells + 1));
/** Temperature and its change over one step, node by node. */
const temperatureOfHeat = new Float64Array(2 * (cells + 1));
for (let node = 0; node <= cells; node++) {
  const temperature = coldest + node * temperatureStep;
  enthalpyOfTemperature[2 * node] = enthalpy(temperature);
  enthalpyOfTemperature[2 * node + 1] = specificHeat(temperature) * temperatureStep;
  // The last node may pass the end by a rounding of the sum.
  const inverse = Math.min(temperatureOfEnthalpy(lowestEnthalpy + node * enthalpyStep), hottest);
  temperatureOfHeat[2 * node] = inverse;
  temperatureOfHeat[2 * node + 1] = enthalpyStep / specificHeat(inverse);
}

function hermite(table: Float64Array, position: number): number {
  const cell = Math.min(Math.floor(position), cells - 1);
  const t = position - cell;
  const i = 2 * cell;
  const rise = table[i + 2] - table[i];
  const bend = table[i + 1] - rise;
  const turn = rise - table[i + 3];
  return table[i] + t * (rise + (1 - t) * (bend * (1 - t) + turn * t));
}

/** Total temperature [K] of air at T [K] brought to rest from V [m/s], as `totalTemperature`. */
export function quickTotalTemperature(
  temperatureK: StaticTemperature,
  speedMS: TrueAirspeed,
): TotalTemperature {
  const position = (temperatureK - coldest) / temperatureStep;
  if (position >= 0 && position <= cells) {
    const total = hermite(enthalpyOfTemperature, position) + 0.5 * speedMS * speedMS;
    const place = (total - lowestEnthalpy) / enthalpyStep;
    if (place <= cells) return hermite(temperatureOfHeat, place);
  }
  return totalTemperature(temperatureK, speedMS);
}
