/** What the rudder can hold: the yawing moment of its angle, and how far it goes, against Mach. */
import type { Propulsion, Rudder } from './aircraft.ts';
import type { Deck, FaultSink } from './deck.ts';
import { cellPlace, columnOf, type Grid, gridValue } from './grid.ts';

export function rudderOf(deck: Deck, grid: Grid | null): Rudder | null {
  if (deck.rudder === null || grid === null) return null;
  const [mach] = grid.axes;
  const moment = columnOf(grid, 'momentSlope');
  const limit = columnOf(grid, 'limit');
  const { spanM } = deck.rudder;
  const { areaM2 } = deck.wing;
  return {
    momentPerRad(m, dynamicPressurePa) {
      mach.find(m);
      return dynamicPressurePa * areaM2 * spanM * gridValue(grid, moment);
    },
    limitRad(m) {
      mach.find(m);
      return gridValue(grid, limit);
    },
  };
}

/** Moment about the vertical of engines that pull unlike, nose to the right positive [N m]; thrust of each [N]. */
export function yawOf({ engines }: Pick<Propulsion, 'engines'>, thrustN: ArrayLike<number>): number {
  let moment = 0;
  for (let i = 0; i < engines.length; i++) moment -= thrustN[i] * engines[i].armM;
  return moment;
}

export function checkRudder(deck: Deck, grid: Grid | null, faults: FaultSink): void {
  if (deck.rudder !== null && !(deck.rudder.spanM > 0)) {
    faults.add(deck.place(['rudder', 'span']), 'rudder.span', 'must be above 0');
  }
  for (const name of grid === null ? [] : ['momentSlope', 'limit']) {
    columnOf(grid as Grid, name).forEach((value, cell) => {
      if (!(value > 0)) faults.add(cellPlace(grid as Grid, cell), name, `${value} cannot be: it is above 0`);
    });
  }
}

export function checkLightUp(deck: Deck, faults: FaultSink): void {
  const { lightUp, minimumAfterburner } = deck.propulsion;
  if (lightUp === null) return;
  const path = ['propulsion', 'lightUp'];
  if (minimumAfterburner === null) {
    faults.add(deck.place(path), path.join('.'), 'there is no afterburner to light: no "minimumAfterburner"');
  }
  if (!(lightUp.lagS > 2 * lightUp.spreadS)) {
    const message = `a lag of ${lightUp.lagS} s is not more than twice its spread of ${lightUp.spreadS} s`;
    faults.add(deck.place([...path, 'lag']), 'propulsion.lightUp.lag', message);
  }
}
