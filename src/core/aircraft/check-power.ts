/** Sanity of thrust, fuel flow and the runway's tables. */
import { everyCell, shown } from './check-air.ts';
import { highestMach } from './check-limits.ts';
import type { DeckGrids } from './compile.ts';
import type { Deck, FaultSink } from './deck.ts';
import { cellPlace, columnOf, type Grid } from './grid.ts';

/**
 * Specific fuel flow that engines have had, kg/(N s): from high bypass at rest (8 g/(kN s)) to full afterburner at its worst (110)
 * (common practice, from memory). Checked at settings from military up.
 */
const likelySpecificFlow = [8e-6, 110e-6] as const;

/** Names of settings that name something, arms that cancel. */
export function checkSettings(deck: Deck, faults: FaultSink): void {
  const { settings, engines } = deck.propulsion;
  const names = settings.map((setting) => setting.name);
  names.forEach((name, index) => {
    if (names.indexOf(name) < index) {
      faults.add(
        deck.place(['propulsion', 'settings', index]),
        `propulsion.settings.${index}`,
        `"${name}" is there twice`,
      );
    }
  });
  for (const key of ['military', 'minimumAfterburner', 'descent'] as const) {
    const name = deck.propulsion[key];
    if (name !== null && !names.includes(name)) {
      faults.add(
        deck.place(['propulsion', key]),
        `propulsion.${key}`,
        `"${name}" is none of ${names.join(', ')}`,
      );
    }
  }
  const { military, minimumAfterburner } = deck.propulsion;
  if (minimumAfterburner !== null && names.indexOf(minimumAfterburner) <= names.indexOf(military)) {
    const message = 'must stand above military in the list of settings';
    faults.add(deck.place(['propulsion', 'minimumAfterburner']), 'propulsion.minimumAfterburner', message);
  }
  const arms = engines.reduce((sum, engine) => sum + engine.armM, 0);
  if (Math.abs(arms) > 0.01) {
    const message = `the arms of the engines add to ${shown(arms)} m: thrust is off the centre line`;
    faults.doubt(deck.place(['propulsion', 'engines']), 'propulsion.engines', message);
  }
}

export function checkPropulsion(deck: Deck, grid: Grid | null, faults: FaultSink): void {
  if (grid === null) return;
  const names = deck.propulsion.settings.map((setting) => setting.name);
  checkCells(grid, names.length, faults);
  checkSpecificFlow(grid, names, deck.propulsion.military, highestMach(deck), faults);
}

function checkCells(grid: Grid, settings: number, faults: FaultSink): void {
  const thrust = columnOf(grid, 'thrust');
  const flow = columnOf(grid, 'fuelFlow');
  const perSetting = thrust.length / settings;
  for (let cell = 0; cell < thrust.length; cell++) {
    if (flow[cell] < 0) faults.add(cellPlace(grid, cell), 'fuelFlow', 'fuel flow cannot be negative');
    if (thrust[cell] > 0 && flow[cell] <= 0) {
      const message = `${shown(thrust[cell])} N of thrust without fuel flow cannot be`;
      faults.add(cellPlace(grid, cell), 'fuelFlow', message);
    }
    const below = cell - perSetting;
    if (below >= 0 && thrust[cell] < thrust[below]) {
      const message = `thrust falls from ${shown(thrust[below])} to ${shown(thrust[cell])} N with a higher setting`;
      faults.add(cellPlace(grid, cell), 'thrust', message);
    }
    if (below >= 0 && flow[cell] < flow[below]) {
      const message = `fuel flow falls from ${shown(flow[below])} to ${shown(flow[cell])} kg/s with a higher setting`;
      faults.add(cellPlace(grid, cell), 'fuelFlow', message);
    }
  }
}

/** Tells the first unlikely specific fuel flow below the Mach limit, and how many there are. */
function checkSpecificFlow(
  grid: Grid,
  settings: readonly string[],
  military: string,
  machLimit: number,
  faults: FaultSink,
): void {
  const thrust = columnOf(grid, 'thrust');
  const flow = columnOf(grid, 'fuelFlow');
  const perSetting = thrust.length / settings.length;
  const perMach = perSetting / grid.axes[0].points.length;
  const unlikely: number[] = [];
  for (let cell = settings.indexOf(military) * perSetting; cell < thrust.length; cell++) {
    const place = cell % perSetting;
    // Where drag of the inlet eats most of the thrust the quotient says nothing of the engine.
    const greatest = thrust[place + (settings.length - 1) * perSetting];
    if (thrust[cell] <= 0.4 * greatest || thrust[cell] <= 0) continue;
    if (grid.axes[0].points[Math.floor(place / perMach)] > machLimit) continue;
    const specific = flow[cell] / thrust[cell];
    if (specific < likelySpecificFlow[0] || specific > likelySpecificFlow[1]) unlikely.push(cell);
  }
  if (unlikely.length === 0) return;
  const specific = (flow[unlikely[0]] / thrust[unlikely[0]]) * 1e6;
  const message = `a specific fuel flow of ${shown(specific)} g/(kN s) is unlikely, 8 to 110 is usual; so at ${unlikely.length} points`;
  faults.doubt(cellPlace(grid, unlikely[0]), 'fuelFlow', message);
}

/** Take-off and landing: every number above 0. */
export function checkField({ takeOff, approach, landingRoll }: DeckGrids, faults: FaultSink): void {
  const above0 = (value: number): boolean => value > 0;
  const message = (value: number): string => `${shown(value)} cannot be: it must be above 0`;
  const columns: readonly (readonly [Grid | null, readonly string[]])[] = [
    [takeOff, ['groundRoll', 'time', 'fuel', 'liftOffSpeed']],
    [approach, ['approachSpeed']],
    [landingRoll, ['groundRoll']],
  ];
  for (const [grid, names] of columns) {
    if (grid !== null) for (const name of names) everyCell(grid, name, above0, message, faults);
  }
}
