/** A deck compiled for flying: tables become grids, limits become margins. */
import { aerodynamicsOf } from './aerodynamics.ts';
import type { Aircraft, Limit } from './aircraft.ts';
import { balanceOf } from './balance.ts';
import type { Deck, FaultSink } from './deck.ts';
import { fieldAxes, landingOf, takeOffOf } from './field.ts';
import { type Grid, gridOf } from './grid.ts';
import { limitOf, limitSource } from './limits.ts';
import { propulsionOf } from './propulsion.ts';

/** The grids of a deck, for the check of its numbers. */
export interface DeckGrids {
  readonly lift: Grid;
  readonly drag: Grid;
  readonly trim: Grid | null;
  readonly stall: Grid | null;
  readonly propulsion: Grid;
  readonly inlet: Grid | null;
  readonly takeOff: Grid | null;
  readonly approach: Grid | null;
  readonly landingRoll: Grid | null;
  /** Of each limit, in the deck's order. */
  readonly limits: readonly (readonly Grid[])[];
}

export interface CompiledDeck {
  readonly aircraft: Aircraft;
  readonly grids: DeckGrids;
}

/** Compiles a deck; null where a table is not a grid, with every reason told to `faults`. */
export function compileDeck(deck: Deck, faults: FaultSink): CompiledDeck | null {
  const { aerodynamics, propulsion } = deck;
  const settings = { column: 'setting', words: propulsion.settings.map((setting) => setting.name) };
  const heights = ['mach', 'pressureAltitude', 'geometricAltitude'];
  const lift = gridOf(aerodynamics.lift, ['mach'], faults);
  const drag = gridOf(aerodynamics.drag, heights, faults);
  const trim = aerodynamics.trim && gridOf(aerodynamics.trim, ['mach', 'centreOfGravity'], faults);
  const stall = aerodynamics.stall && gridOf(aerodynamics.stall, ['mach'], faults);
  const thrust = gridOf(propulsion.table, [...heights, 'temperatureOffset'], faults, settings);
  const inlet = deck.inlet && gridOf(deck.inlet, ['mach'], faults);
  const takeOff = deck.takeOff && gridOf(deck.takeOff, fieldAxes, faults);
  const approach = deck.landing && gridOf(deck.landing.approach, ['mass'], faults);
  const landingRoll = deck.landing && gridOf(deck.landing.groundRoll, fieldAxes, faults);
  const limits = deck.limits.map((data, index) => limitOf(data, limitSource(deck, index), faults));

  const optional: readonly [object | null, Grid | null][] = [
    [aerodynamics.trim, trim],
    [aerodynamics.stall, stall],
    [deck.inlet, inlet],
    [deck.takeOff, takeOff],
    [deck.landing, approach],
    [deck.landing, landingRoll],
  ];
  if (optional.some(([asked, grid]) => asked !== null && grid === null)) return null;
  if (lift === null || drag === null || thrust === null || limits.includes(null)) return null;
  const sound = limits as { limit: Limit; grids: readonly Grid[] }[];

  const grids: DeckGrids = {
    lift,
    drag,
    trim,
    stall,
    propulsion: thrust,
    inlet,
    takeOff,
    approach,
    landingRoll,
    limits: sound.map((entry) => entry.grids),
  };
  const aircraft: Aircraft = {
    identity: deck.identity,
    aerodynamics: aerodynamicsOf({
      wingAreaM2: deck.wing.areaM2,
      lift,
      drag,
      trim,
      stall,
      wash: aerodynamics.wash,
    }),
    propulsion: propulsionOf(propulsion, thrust),
    balance: balanceOf(deck.masses, deck.tanks, deck.wing),
    limits: sound.map((entry) => entry.limit),
    rates: deck.rates,
    gauges: deck.gauges,
    takeOff: takeOff && takeOffOf(takeOff),
    landing: approach && landingRoll && landingOf(approach, landingRoll),
    covers: coversOf(grids),
  };
  return { aircraft, grids };
}

/** "propulsion.csv: mach 0 to 3.2, pressureAltitude 0 to 26822 (SI), ..." for each table. */
function coversOf(grids: DeckGrids): string[] {
  const all = [
    grids.lift,
    grids.drag,
    grids.trim,
    grids.stall,
    grids.propulsion,
    grids.inlet,
    grids.takeOff,
    grids.approach,
    grids.landingRoll,
    ...grids.limits.flat(),
  ];
  const lines = all
    .filter((grid) => grid !== null)
    .map(
      (grid) =>
        `${grid.file}: ${grid.axes.map((axis, index) => rangeText(grid.names[index], axis)).join(', ')}`,
    );
  return [...new Set(lines)];
}

const foot = 0.3048;

/** The range of an axis in the units in which crews read it. */
export function rangeText(name: string, axis: { readonly first: number; readonly last: number }): string {
  const trim = (value: number): string => String(Number(value.toPrecision(6)));
  if (name === 'mach') return `Mach ${trim(axis.first)} to ${trim(axis.last)}`;
  if (name === 'pressureAltitude' || name === 'geometricAltitude') {
    const kind = name === 'pressureAltitude' ? 'pressure altitude' : 'geometric altitude';
    return `${kind} ${trim(axis.first / foot)} to ${trim(axis.last / foot)} ft`;
  }
  if (name === 'temperatureOffset') return `temperature offset ${trim(axis.first)} to ${trim(axis.last)} K`;
  if (name === 'centreOfGravity')
    return `centre of gravity ${trim(axis.first * 100)} to ${trim(axis.last * 100)} %`;
  if (name === 'mass' || name === 'fuel') return `${name} ${trim(axis.first)} to ${trim(axis.last)} kg`;
  return `${name} ${trim(axis.first)} to ${trim(axis.last)} (SI)`;
}
