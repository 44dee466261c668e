/** Take-off and landing from a deck's tables. */
import { OutsideRange } from '../quantities/errors.ts';
import type { Landing, TakeOff, TakeOffPoint } from './aircraft.ts';
import { columnOf, type Grid, gridValue } from './grid.ts';

/** Axes of the tables of the runway, in this order. */
export const fieldAxes = ['mass', 'pressureAltitude', 'temperatureOffset'] as const;

/** Ground roll and what it takes, linear between the points of the table. */
export function takeOffOf(grid: Grid): TakeOff {
  const roll = columnOf(grid, 'groundRoll');
  const time = columnOf(grid, 'time');
  const fuel = columnOf(grid, 'fuel');
  const speed = columnOf(grid, 'liftOffSpeed');
  const [mass, altitude, temperature] = grid.axes;
  function at(
    massKg: number,
    pressureAltitudeM: number,
    temperatureOffsetK: number,
    out: TakeOffPoint,
  ): void {
    out.outside =
      Math.abs(mass.find(massKg)) +
      2 * Math.abs(altitude.find(pressureAltitudeM)) +
      4 * Math.abs(temperature.find(temperatureOffsetK));
    out.groundRollM = gridValue(grid, roll);
    out.timeS = gridValue(grid, time);
    out.fuelKg = gridValue(grid, fuel);
    out.liftOffSpeedMS = gridValue(grid, speed);
  }
  return { at };
}

/** Approach speed by mass and ground roll after touch-down; throws `OutsideRange` beyond the tables. */
export function landingOf(approach: Grid, groundRoll: Grid, maximumMassKg: number | null): Landing {
  const speed = columnOf(approach, 'approachSpeed');
  const roll = columnOf(groundRoll, 'groundRoll');
  function find(grid: Grid, index: number, value: number, quantity: string, unit: string): void {
    const axis = grid.axes[index];
    if (axis.find(value) !== 0)
      throw new OutsideRange(quantity, value, unit, axis.first, axis.last, grid.file);
  }
  return {
    maximumMassKg,
    approachSpeedMS(massKg) {
      find(approach, 0, massKg, 'mass', 'kg');
      return gridValue(approach, speed);
    },
    groundRollM(massKg, pressureAltitudeM, temperatureOffsetK) {
      find(groundRoll, 0, massKg, 'mass', 'kg');
      find(groundRoll, 1, pressureAltitudeM, 'pressure altitude', 'm');
      find(groundRoll, 2, temperatureOffsetK, 'temperature offset', 'K');
      return gridValue(groundRoll, roll);
    },
  };
}
