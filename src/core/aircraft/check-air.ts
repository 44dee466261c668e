/** Sanity of lift, drag and inlet. */
import type { CompiledDeck } from './compile.ts';
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

function above0(value: number): boolean {
  return value > 0;
}

export function checkLift(lift: Grid | null, faults: FaultSink): void {
  if (lift === null) return;
  const cannot = (what: string) => (value: number) =>
    `${what} of ${shown(value)} cannot be: it must be above 0`;
  everyCell(lift, 'liftSlope', above0, cannot('a lift slope'), faults);
  everyCell(lift, 'dragDueToLift', above0, cannot('drag due to lift'), faults);
}

export function checkDrag(drag: Grid | null, faults: FaultSink): void {
  if (drag === null) return;
  const message = (value: number): string =>
    `a drag coefficient of ${shown(value)} cannot be: it must be above 0`;
  everyCell(drag, 'zeroLiftDrag', above0, message, faults);
}

export function checkStall(stall: Grid | null, faults: FaultSink): void {
  if (stall === null) return;
  everyCell(stall, 'warningAngle', above0, () => 'the warning angle must be above 0', faults);
  const push = columnOf(stall, 'pushAngle');
  columnOf(stall, 'warningAngle').forEach((warning, cell) => {
    if (warning < push[cell]) return;
    const message = 'the pusher must act at a greater angle than the warning';
    faults.add(cellPlace(stall, cell), 'pushAngle', message);
  });
}

export function checkWash(deck: Deck, faults: FaultSink): void {
  const { wash } = deck.aerodynamics;
  if (wash === null) return;
  const place = (key: string) => deck.place(['aerodynamics', 'wash', key]);
  if (wash.increment < 0) {
    faults.add(place('dragIncrement'), 'aerodynamics.wash.dragIncrement', 'cannot be negative');
  }
  if (wash.spread < 0) faults.add(place('spread'), 'aerodynamics.wash.spread', 'cannot be negative');
}

/** eta/CLalpha at a Mach. */
function inducedFactor(lift: Grid, mach: number): number {
  lift.axes[0].find(mach);
  return gridValue(lift, columnOf(lift, 'dragDueToLift')) / gridValue(lift, columnOf(lift, 'liftSlope'));
}

/** Drag must not fall with lift at any Mach and CG. */
export function checkTrim(lift: Grid, trim: Grid | null, faults: FaultSink): void {
  if (trim === null) return;
  const factors = columnOf(trim, 'trimFactor');
  const width = trim.axes[1].points.length;
  factors.forEach((factor, cell) => {
    const mach = trim.axes[0].points[Math.floor(cell / width)];
    if (inducedFactor(lift, mach) + factor <= 0) {
      faults.add(cellPlace(trim, cell), 'trimFactor', `with ${shown(factor)} for trim, drag falls with lift`);
    }
  });
}

/** Ceiling of L/D beyond Mach 1.2: 4(M + 3)/M (Kuechemann 1978, from memory). */
export function ceilingOfLiftToDrag(mach: number): number {
  return (4 * (mach + 3)) / mach;
}

/** Greatest L/D at each Mach beyond 1.2 against its ceiling. */
export function checkLiftToDrag({ lift, drag, trim }: CompiledDeck['grids'], faults: FaultSink): void {
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
    const ceiling = ceilingOfLiftToDrag(mach);
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

export function checkInlet(inlet: Grid | null, faults: FaultSink): void {
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
