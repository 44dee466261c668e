/** Sanity of limits: names, room between them, and tables that reach as far as they. */
import type { Axis } from '../numerics/tables.ts';
import { quantity } from '../quantities/quantities.ts';
import { type CompiledDeck, type DeckGrids, rangeText } from './compile.ts';
import type { Deck, FaultSink } from './deck.ts';
import type { Grid } from './grid.ts';
import { newLimitInputs } from './limits.ts';

/** The greatest Mach that a constant limit allows; infinite where none does. */
export function highestMach(deck: Deck): number {
  const bounds = deck.limits
    .filter((limit) => limit.of === 'mach' && limit.side === 'upper')
    .map((limit) => (typeof limit.bound === 'number' ? limit.bound : Number.POSITIVE_INFINITY));
  return Math.min(Number.POSITIVE_INFINITY, ...bounds);
}

export function checkLimits(deck: Deck, compiled: CompiledDeck, faults: FaultSink): void {
  const keys = deck.limits.map((limit) => limit.key);
  deck.limits.forEach((limit, index) => {
    if (keys.indexOf(limit.key) < index) {
      faults.add(
        deck.place(['limits', index, 'key']),
        `limits.${index}.key`,
        `the key ${limit.key} is there twice`,
      );
    }
    if (limit.spread < 0) {
      faults.add(
        deck.place(['limits', index, 'spread']),
        `limits.${index}.spread`,
        'a spread cannot be negative',
      );
    }
  });
  checkRoom(deck, compiled, faults);
  checkReachOfTables(deck, compiled, faults);
}

/** An upper bound must lie above every lower bound of the same quantity, at every Mach and fuel. */
function checkRoom(deck: Deck, { aircraft, grids }: CompiledDeck, faults: FaultSink): void {
  const inputs = newLimitInputs();
  const capacity = aircraft.balance.fuelCapacityKg;
  const machs = [...grids.lift.axes[0].points];
  aircraft.limits.forEach((upper, index) => {
    if (upper.side !== 'upper') return;
    const lowers = aircraft.limits.filter(
      (lower) => lower.side === 'lower' && lower.quantity === upper.quantity,
    );
    for (const lower of lowers) {
      const closed = machs.find((mach) =>
        [0, capacity / 2, capacity].some((fuelKg) => {
          inputs.mach = mach;
          inputs.fuelKg = fuelKg;
          inputs.massKg = aircraft.balance.emptyMassKg + fuelKg;
          return upper.bound(inputs) <= lower.bound(inputs);
        }),
      );
      if (closed === undefined) continue;
      const { name } = quantity(upper.quantity);
      const message = `at Mach ${closed} there is no ${name} between ${lower.key} (${lower.source}) and ${upper.key}`;
      faults.add(deck.place(['limits', index]), `limits.${index}`, message);
    }
  });
}

/** What an axis has to reach. */
interface Reach {
  readonly axis: string;
  readonly from: number;
  readonly to: number;
  readonly because: string;
}

function checkReachOfTables(
  deck: Deck,
  { aircraft, grids, limitGrids }: CompiledDeck,
  faults: FaultSink,
): void {
  const reaches: Reach[] = [];
  const mach = highestMach(deck);
  if (Number.isFinite(mach)) reaches.push({ axis: 'mach', from: 0.3, to: mach, because: 'the Mach limit' });
  for (const limit of deck.limits) {
    if (limit.of !== 'pressureAltitude' || limit.side !== 'upper' || typeof limit.bound !== 'number')
      continue;
    reaches.push({ axis: 'pressureAltitude', from: 0, to: limit.bound, because: 'the altitude limit' });
  }
  const { fuelCapacityKg } = aircraft.balance;
  const full: Reach = { axis: 'fuel', from: 0, to: fuelCapacityKg, because: 'the tanks' };
  for (const grid of airGrids(grids)) checkReachOfTable(grid, reaches, faults);
  for (const grid of limitGrids.flat()) checkReachOfTable(grid, [...reaches, full], faults);
  if (
    grids.trim !== null &&
    deck.masses.length > 0 &&
    deck.tanks.length > 0 &&
    deck.wing.meanChordM !== null
  ) {
    const { balance } = aircraft;
    const machs = [0, ...balance.transfers.map((transfer) => transfer.endsMach)];
    const loadings = machs.flatMap((mach) =>
      [...balance.corners].map((fuel) => balance.cgFraction(fuel, mach)),
    );
    const from = Math.min(...loadings);
    const to = Math.max(...loadings);
    checkReachOfTable(grids.trim, [{ axis: 'centreOfGravity', from, to, because: 'the loadings' }], faults);
  }
}

function airGrids(grids: DeckGrids): Grid[] {
  return [grids.lift, grids.drag, grids.trim, grids.stall, grids.propulsion, grids.inlet].filter(
    (grid) => grid !== null,
  );
}

function checkReachOfTable(grid: Grid, reaches: readonly Reach[], faults: FaultSink): void {
  for (const reach of reaches) {
    const index = grid.names.indexOf(reach.axis);
    if (index < 0) continue;
    const axis: Axis = grid.axes[index];
    if (axis.first <= reach.from && axis.last >= reach.to) continue;
    const needed = rangeText(reach.axis, { first: reach.from, last: reach.to });
    const message = `the table has ${rangeText(reach.axis, axis)}; ${reach.because} needs ${needed}`;
    faults.add({ file: grid.file, line: 0, column: 0 }, reach.axis, message);
  }
}
