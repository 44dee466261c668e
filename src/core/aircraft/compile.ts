/** A deck compiled for flying: tables become grids, limits become margins. */
import { aerodynamicsOf } from './aerodynamics.ts';
import type { Aircraft, Limit, Schedule, Transfer } from './aircraft.ts';
import { balanceOf } from './balance.ts';
import type { Deck, FaultSink } from './deck.ts';
import type { DescentRule } from './descent.ts';
import type { FailureCase } from './failures.ts';
import { fieldAxes, landingOf, takeOffOf } from './field.ts';
import { type Grid, gridOf } from './grid.ts';
import { inletErrorOf } from './inlet-error.ts';
import { limitOf, limitSource } from './limits.ts';
import { propulsionOf } from './propulsion.ts';
import { rudderOf } from './rudder.ts';

/** The grids of a deck's tables; null where the deck has no such table or the table is not a grid. */
export interface DeckGrids {
  readonly lift: Grid | null;
  readonly drag: Grid | null;
  readonly trim: Grid | null;
  readonly stall: Grid | null;
  readonly propulsion: Grid | null;
  readonly inlet: Grid | null;
  readonly inletError: Grid | null;
  readonly rudder: Grid | null;
  readonly takeOff: Grid | null;
  readonly approach: Grid | null;
  readonly landingRoll: Grid | null;
}

/** A limit with the grids of its bounds; null where one of its tables is not a grid. */
export type CompiledLimit = { readonly limit: Limit; readonly grids: readonly Grid[] } | null;

/** A deck whose tables are all grids. */
export interface CompiledDeck {
  readonly aircraft: Aircraft;
  readonly grids: DeckGrids & { readonly lift: Grid; readonly drag: Grid; readonly propulsion: Grid };
  /** Of each limit, in the deck's order. */
  readonly limitGrids: readonly (readonly Grid[])[];
}

/** Makes a grid of each table, and tells each reason why one cannot be. */
export function gridsOf(deck: Deck, faults: FaultSink): DeckGrids {
  const { aerodynamics, propulsion, landing } = deck;
  const settings = { column: 'setting', words: propulsion.settings.map((setting) => setting.name) };
  const heights = ['mach', 'pressureAltitude', 'geometricAltitude'];
  return {
    lift: gridOf(aerodynamics.lift, ['mach'], faults),
    drag: gridOf(aerodynamics.drag, heights, faults),
    trim: aerodynamics.trim && gridOf(aerodynamics.trim, ['mach', 'centreOfGravity'], faults),
    stall: aerodynamics.stall && gridOf(aerodynamics.stall, ['mach'], faults),
    propulsion: gridOf(propulsion.table, [...heights, 'temperatureOffset'], faults, settings),
    inlet: deck.inlet && gridOf(deck.inlet, ['mach'], faults),
    inletError: deck.inletError && gridOf(deck.inletError.table, ['mach', 'positionError'], faults),
    rudder: deck.rudder && gridOf(deck.rudder.table, ['mach'], faults),
    takeOff: deck.takeOff && gridOf(deck.takeOff, fieldAxes, faults),
    approach: landing && gridOf(landing.approach, ['mass'], faults),
    landingRoll: landing && gridOf(landing.groundRoll, fieldAxes, faults),
  };
}

/** The limits of a deck, and each reason why one of their tables is not a grid. */
export function limitsOf(deck: Deck, faults: FaultSink): CompiledLimit[] {
  return deck.limits.map((data, index) => limitOf(data, limitSource(deck, index), faults));
}

/** The aircraft of a deck, of parts already compiled; null where a table that the deck names is not a grid. */
export function compileDeck(
  deck: Deck,
  grids: DeckGrids,
  limits: readonly CompiledLimit[],
  schedules: readonly Schedule[],
): CompiledDeck | null {
  const { lift, drag, trim, stall, propulsion, takeOff, approach, landingRoll } = grids;
  const lost =
    (deck.aerodynamics.trim !== null && trim === null) ||
    (deck.aerodynamics.stall !== null && stall === null) ||
    (deck.inlet !== null && grids.inlet === null) ||
    (deck.inletError !== null && grids.inletError === null) ||
    (deck.rudder !== null && grids.rudder === null) ||
    (deck.takeOff !== null && takeOff === null) ||
    (deck.landing !== null && (approach === null || landingRoll === null));
  const sound = limits.filter((limit) => limit !== null);
  if (lift === null || drag === null || propulsion === null) return null;
  if (lost || sound.length < limits.length) return null;

  const { wash } = deck.aerodynamics;
  const limitGrids = sound.map((entry) => entry.grids);
  const aircraft: Aircraft = {
    identity: deck.identity,
    aerodynamics: aerodynamicsOf({ wingAreaM2: deck.wing.areaM2, lift, drag, trim, stall, wash }),
    propulsion: propulsionOf(deck.propulsion, propulsion),
    rudder: rudderOf(deck, grids.rudder),
    balance: balanceOf(deck.masses, deck.tanks, deck.wing, transfersOf(deck)),
    fuel: deck.fuel,
    limits: sound.map((entry) => entry.limit),
    rates: deck.rates,
    pusher: deck.pusher,
    gauges: deck.gauges,
    takeOff: takeOff && takeOffOf(takeOff),
    ground: deck.ground,
    landing: approach && landingRoll && landingOf(approach, landingRoll, deck.landing?.maximumMassKg ?? null),
    dump: deck.dump,
    failures: failuresOf(deck),
    unstart: deck.unstart,
    descentRules: descentRulesOf(deck),
    cabin: deck.cabin,
    schedules,
    inletError: inletErrorOf(deck, grids.inletError),
    checks: deck.checks,
    covers: coversOf([...Object.values(grids), ...limitGrids.flat()]),
  };
  return { aircraft, grids: { ...grids, lift, drag, propulsion }, limitGrids };
}

/** Failures with their engines and settings by number; a name that is no setting is told by the check. */
function failuresOf({ failures, propulsion }: Deck): FailureCase[] {
  const names = propulsion.settings.map(({ name }) => name);
  return failures.map(({ enginesLeft, greatestPower, ...rest }) => ({
    ...rest,
    enginesLeft: enginesLeft ?? propulsion.engines.length,
    greatestPower: greatestPower === null ? names.length - 1 : names.indexOf(greatestPower),
  }));
}

/** Rules with their settings by number; a name that is no setting is told by the check. */
function descentRulesOf({ descentRules, propulsion }: Deck): DescentRule[] {
  const names = propulsion.settings.map(({ name }) => name);
  return descentRules.map((rule) => ({ ...rule, setting: names.indexOf(rule.setting) }));
}

/** Transfers with their tanks by place; those that name no tank are told by the check. */
function transfersOf({ tanks, transfers }: Deck): Transfer[] {
  const placeOf = (name: string): number => tanks.findIndex((tank) => tank.name === name);
  return transfers
    .map(({ from, to, ...rest }) => ({ ...rest, from: placeOf(from), to: placeOf(to) }))
    .filter(({ from, to }) => from >= 0 && to >= 0);
}

/** "propulsion.csv: Mach 0 to 3.2, pressure altitude 0 to 87000 ft, ..." for each table. */
function coversOf(grids: readonly (Grid | null)[]): string[] {
  const lines = grids
    .filter((grid) => grid !== null)
    .map((grid) => `${grid.file}: ${grid.axes.map((axis, i) => rangeText(grid.names[i], axis)).join(', ')}`);
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
  if (name === 'positionError') {
    const [first, last] = [axis.first, axis.last].map((angle) => trim((angle * 180) / Math.PI));
    return `position less schedule ${first} to ${last} deg`;
  }
  if (name === 'centreOfGravity')
    return `centre of gravity ${trim(axis.first * 100)} to ${trim(axis.last * 100)} %`;
  if (name === 'mass' || name === 'fuel') return `${name} ${trim(axis.first)} to ${trim(axis.last)} kg`;
  return `${name} ${trim(axis.first)} to ${trim(axis.last)} (SI)`;
}
