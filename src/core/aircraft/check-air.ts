/** Sanity of lift, drag and inlet. */
import type { DeckGrids } from './compile.ts';
import type { Deck, FaultSink } from './deck.ts';
import { axisOf, cellPlace, columnOf, type Grid, gridValue } from './grid.ts';

/** A column's cells that break a rule, each told at its line. */
export function everyCell(
  grid: Grid,
  column: string,
  holds: (value: number) => boolean,
  message: (value: number) => string,
  faults: FaultSink,
): void {
  columnOf(grid, column).forEach((value, cell) => {
    if (!holds(value)) faults.add(cellPlace(grid, cell), column, message(value));
  });
}

/** A number as messages show it. */
export function shown(value: number): string {
  return String(Number(value.toPrecision(4)));
}

export function checkAerodynamics(deck: Deck, grids: DeckGrids, faults: FaultSink): void {
  const { lift, drag, trim, stall } = grids;
  const above0 = (value: number): boolean => value > 0;
  everyCell(
    lift,
    'liftSlope',
    above0,
    (v) => `a lift slope of ${shown(v)} per radian cannot be: it must be above 0`,
    faults,
  );
  everyCell(
    lift,
    'dragDueToLift',
    above0,
    (v) => `drag due to lift of ${shown(v)} cannot be: it must be above 0`,
    faults,
  );
  everyCell(
    drag,
    'zeroLiftDrag',
    above0,
    (v) => `a drag coefficient of ${shown(v)} cannot be: it must be above 0`,
    faults,
  );
  if (stall !== null) {
    everyCell(stall, 'warningAngle', above0, () => 'the warning angle must be above 0', faults);
    const push = columnOf(stall, 'pushAngle');
    columnOf(stall, 'warningAngle').forEach((warning, cell) => {
      if (warning >= push[cell]) {
        faults.add(
          cellPlace(stall, cell),
          'pushAngle',
          'the pusher must act at a greater angle than the warning',
        );
      }
    });
  }
  const { wash } = deck.aerodynamics;
  for (const key of ['increment', 'spread'] as const) {
    if (wash !== null && wash[key] < 0) {
      const name = key === 'increment' ? 'dragIncrement' : key;
      faults.add(
        deck.place(['aerodynamics', 'wash', name]),
        `aerodynamics.wash.${name}`,
        'cannot be negative',
      );
    }
  }
  if (trim !== null) checkTrim(lift, trim, faults);
  checkLiftToDrag(grids, faults);
}

/** eta/CLalpha at a Mach. */
function inducedFactor(lift: Grid, mach: number): number {
  lift.axes[0].find(mach);
  return gridValue(lift, columnOf(lift, 'dragDueToLift')) / gridValue(lift, columnOf(lift, 'liftSlope'));
}

function checkTrim(lift: Grid, trim: Grid, faults: FaultSink): void {
  const factors = columnOf(trim, 'trimFactor');
  const width = trim.axes[1].points.length;
  factors.forEach((factor, cell) => {
    const mach = trim.axes[0].points[Math.floor(cell / width)];
    if (inducedFactor(lift, mach) + factor <= 0) {
      faults.add(cellPlace(trim, cell), 'trimFactor', `with ${shown(factor)} for trim, drag falls with lift`);
    }
  });
}

/** Greatest L/D at each Mach beyond 1.2 against 4(M + 3)/M (Kuechemann 1978, from memory). */
function checkLiftToDrag({ lift, drag, trim }: DeckGrids, faults: FaultSink): void {
  const zeroLift = columnOf(drag, 'zeroLiftDrag');
  const width = drag.axes.length > 1 ? drag.axes[1].points.length : 1;
  drag.axes[0].points.forEach((mach, index) => {
    if (mach <= 1.2) return;
    let least = index * width;
    for (let cell = least; cell < (index + 1) * width; cell++) {
      if (zeroLift[cell] < zeroLift[least]) least = cell;
    }
    const factor = inducedFactor(lift, mach) + leastTrim(trim, mach);
    if (!(zeroLift[least] > 0 && factor > 0)) return;
    const greatest = 1 / (2 * Math.sqrt(zeroLift[least] * factor));
    const ceiling = (4 * (mach + 3)) / mach;
    if (greatest > ceiling) {
      const message = `L/D of ${greatest.toFixed(2)} at Mach ${mach} is above 4(M+3)/M = ${ceiling.toFixed(2)} (Kuechemann 1978)`;
      faults.doubt(cellPlace(drag, least), 'zeroLiftDrag', message);
    }
  });
}

function leastTrim(trim: Grid | null, mach: number): number {
  if (trim === null) return 0;
  const factors = columnOf(trim, 'trimFactor');
  trim.axes[0].find(mach);
  let least = Number.POSITIVE_INFINITY;
  for (const cg of trim.axes[1].points) {
    trim.axes[1].find(cg);
    least = Math.min(least, gridValue(trim, factors));
  }
  return least;
}

/** Recovery of MIL-E-5007: 1 up to Mach 1, then 1 - 0.075 (M - 1)^1.35, to Mach 5. */
export function standardRecovery(mach: number): number {
  return mach <= 1 ? 1 : 1 - 0.075 * (mach - 1) ** 1.35;
}

export function checkInlet({ inlet }: DeckGrids, faults: FaultSink): void {
  if (inlet === null) return;
  const recoveries = columnOf(inlet, 'recovery');
  const machs = axisOf(inlet, 'mach')?.points ?? new Float64Array();
  recoveries.forEach((recovery, cell) => {
    if (!(recovery > 0 && recovery <= 1)) {
      faults.add(
        cellPlace(inlet, cell),
        'recovery',
        `a pressure recovery of ${shown(recovery)} cannot be: above 0 to 1`,
      );
      return;
    }
    const standard = standardRecovery(machs[cell]);
    if (recovery > standard) {
      const message = `a recovery of ${shown(recovery)} at Mach ${machs[cell]} is above MIL-E-5007, ${standard.toFixed(3)}`;
      faults.doubt(cellPlace(inlet, cell), 'recovery', message);
    }
  });
}
