/**
 * Thrust and fuel flow of one engine from a deck's table: linear in Mach, altitude and temperature offset, and between
 * neighbouring settings. Eight weights are made once for a point and shared by every setting and column.
 */
import type { EnginePoint, Propulsion } from './aircraft.ts';
import type { PropulsionData } from './deck.ts';
import { axisOf, columnOf, type Grid } from './grid.ts';

/** Marks in `EnginePoint.outside`. */
export const OUTSIDE_MACH = 1;
export const OUTSIDE_ALTITUDE = 2;
export const OUTSIDE_TEMPERATURE = 4;

/** Numbers of one cell of the packed table. */
const perCell = 2;

export function propulsionOf(data: PropulsionData, grid: Grid): Propulsion {
  const names = data.settings.map((setting) => setting.name);
  const continuousAbove = data.settings.map((setting) => setting.continuousAbove);
  const indexOf = (name: string): number => names.indexOf(name);
  const top = names.length - 1;

  const mach = grid.axes[0];
  const altitude = grid.axes[1];
  const geometric = grid.names[1] === 'geometricAltitude';
  const temperature = axisOf(grid, 'temperatureOffset');

  // Without an axis of temperature there is no next cell on it: its step and its weight are 0.
  const temperatureStep = temperature === null ? 0 : perCell;
  const altitudeStep = (temperature?.points.length ?? 1) * perCell;
  const machStep = altitude.points.length * altitudeStep;
  const settingCells = mach.points.length * machStep;

  const thrusts = columnOf(grid, 'thrust');
  const flows = columnOf(grid, 'fuelFlow');
  const packed = new Float64Array(thrusts.length * perCell);
  for (let cell = 0; cell < thrusts.length; cell++) {
    packed[cell * perCell] = thrusts[cell];
    packed[cell * perCell + 1] = flows[cell];
  }

  // The point last located, the offset of its lowest corner, and the weights of the eight corners: arrays, since a number
  // that a closure keeps is made anew at each change.
  const point = new Float64Array(3).fill(Number.NaN);
  const weights = new Float64Array(8);
  let base = 0;
  let outside = 0;

  function locate(m: number, pressureAltitudeM: number, geometricHeightM: number, offsetK: number): void {
    const heightM = geometric ? geometricHeightM : pressureAltitudeM;
    if (point[0] === m && point[1] === heightM && point[2] === offsetK) return;
    point[0] = m;
    point[1] = heightM;
    point[2] = offsetK;
    outside = mach.find(m) === 0 ? 0 : OUTSIDE_MACH;
    if (altitude.find(heightM) !== 0) outside |= OUTSIDE_ALTITUDE;
    base = mach.cell * machStep + altitude.cell * altitudeStep;
    const fm = mach.weight;
    const fa = altitude.weight;
    let ft = 0;
    if (temperature !== null) {
      if (temperature.find(offsetK) !== 0) outside |= OUTSIDE_TEMPERATURE;
      base += temperature.cell * perCell;
      ft = temperature.weight;
    }
    const low = 1 - fm;
    const b = low * fa;
    const a = low - b;
    const d = fm * fa;
    const c = fm - d;
    weights[1] = a * ft;
    weights[0] = a - weights[1];
    weights[3] = b * ft;
    weights[2] = b - weights[3];
    weights[5] = c * ft;
    weights[4] = c - weights[5];
    weights[7] = d * ft;
    weights[6] = d - weights[7];
  }

  function look(setting: number, column: number): number {
    const k = setting * settingCells + base + column;
    const ka = k + altitudeStep;
    const km = k + machStep;
    const kma = km + altitudeStep;
    const t = temperatureStep;
    return (
      weights[0] * packed[k] +
      weights[1] * packed[k + t] +
      weights[2] * packed[ka] +
      weights[3] * packed[ka + t] +
      weights[4] * packed[km] +
      weights[5] * packed[km + t] +
      weights[6] * packed[kma] +
      weights[7] * packed[kma + t]
    );
  }

  function at(
    power: number,
    m: number,
    pressureAltitudeM: number,
    geometricHeightM: number,
    temperatureOffsetK: number,
    out: EnginePoint,
  ): void {
    locate(m, pressureAltitudeM, geometricHeightM, temperatureOffsetK);
    const below = power >= top ? top : Math.floor(power);
    const part = power - below;
    let thrust = look(below, 0);
    let flow = look(below, 1);
    if (part > 0 && below < top) {
      thrust += part * (look(below + 1, 0) - thrust);
      flow += part * (look(below + 1, 1) - flow);
    }
    out.thrustN = thrust;
    out.fuelFlowKgS = flow;
    out.power = power;
    out.outside = outside;
  }

  function powerFor(
    thrustN: number,
    m: number,
    pressureAltitudeM: number,
    geometricHeightM: number,
    temperatureOffsetK: number,
    out: EnginePoint,
  ): void {
    locate(m, pressureAltitudeM, geometricHeightM, temperatureOffsetK);
    out.outside = outside;
    let setting = 0;
    let here = look(0, 0);
    let before = here;
    while (here < thrustN && setting < top) {
      before = here;
      setting++;
      here = look(setting, 0);
    }
    const flow = look(setting, 1);
    if (here < thrustN || setting === 0 || !continuousAbove[setting - 1]) {
      out.power = here < thrustN ? Number.NaN : setting;
      out.thrustN = here;
      out.fuelFlowKgS = flow;
      return;
    }
    const part = (thrustN - before) / (here - before);
    const flowBefore = look(setting - 1, 1);
    out.power = setting - 1 + part;
    out.thrustN = thrustN;
    out.fuelFlowKgS = flowBefore + part * (flow - flowBefore);
  }

  return {
    names,
    continuousAbove,
    military: indexOf(data.military),
    minimumAfterburner: data.minimumAfterburner === null ? null : indexOf(data.minimumAfterburner),
    maximum: top,
    descent: indexOf(data.descent),
    lightUp: data.lightUp,
    engines: data.engines,
    at,
    powerFor,
  };
}
