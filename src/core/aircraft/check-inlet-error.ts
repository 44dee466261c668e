/** Sanity of the table of an inlet off its schedule. */
import { everyCell, shown } from './check-air.ts';
import type { Deck, FaultSink } from './deck.ts';
import { cellPlace, columnOf, type Grid } from './grid.ts';

/** The schedule is one of a side; on it nothing is lost; off it drag does not fall, thrust and flow stay above 0. */
export function checkInletError(deck: Deck, grid: Grid | null, faults: FaultSink): void {
  const { inletError, schedules, place } = deck;
  if (inletError === null) return;
  const sides = schedules.filter(({ of }) => of === 'side').map(({ key }) => key);
  if (!sides.includes(inletError.schedule)) {
    const message = `there is no schedule "${inletError.schedule}" of a side; there are ${sides.join(', ') || 'none'}`;
    faults.add(place(['inletError', 'schedule']), 'inletError.schedule', message);
  }
  if (grid === null) return;
  for (const column of ['thrustRatio', 'fuelFlowRatio']) {
    const message = (value: number): string => `a ratio of ${shown(value)} cannot be: it must be above 0`;
    everyCell(grid, column, (value) => value > 0, message, faults);
  }
  everyCell(
    grid,
    'dragIncrement',
    (value) => value >= 0,
    () => 'cannot be negative',
    faults,
  );
  const errors = grid.axes[1].points;
  const onSchedule = errors.indexOf(0);
  if (onSchedule < 0) {
    faults.add({ file: grid.file, line: 0, column: 0 }, 'positionError', 'the table has no error of 0');
    return;
  }
  const [thrust, flow, drag] = ['thrustRatio', 'fuelFlowRatio', 'dragIncrement'].map((column) =>
    columnOf(grid, column),
  );
  for (let cell = onSchedule; cell < thrust.length; cell += errors.length) {
    if (thrust[cell] === 1 && flow[cell] === 1 && drag[cell] === 0) continue;
    faults.add(
      cellPlace(grid, cell),
      'positionError',
      'on schedule the ratios are 1 and the drag increment is 0',
    );
  }
}
