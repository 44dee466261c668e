/** The limits of a deck as signed margins over what each depends on. */
import type { Limit, LimitInputs } from './aircraft.ts';
import type { BoundData, Deck, FaultSink, LimitData } from './deck.ts';
import { columnOf, type Grid, gridOf, gridValue } from './grid.ts';

/** What a limit can bound: its quantity in the table of quantities, and how it is read. */
export const boundedQuantities: Readonly<
  Record<string, { readonly quantity: string; readonly read: (at: LimitInputs) => number }>
> = {
  mach: { quantity: 'mach', read: (at) => at.mach },
  pressureAltitude: { quantity: 'pressureAltitudeM', read: (at) => at.pressureAltitudeM },
  equivalentAirspeed: { quantity: 'equivalentAirspeedMS', read: (at) => at.equivalentAirspeedMS },
  calibratedAirspeed: { quantity: 'calibratedAirspeedMS', read: (at) => at.calibratedAirspeedMS },
  staticTemperature: { quantity: 'temperatureK', read: (at) => at.staticTemperatureK },
  inletTemperature: { quantity: 'inletTemperatureK', read: (at) => at.indicatedInletTemperatureK },
  angleOfAttack: { quantity: 'angleOfAttackDeg', read: (at) => at.angleOfAttackRad },
  ledAngleOfAttack: { quantity: 'angleOfAttackDeg', read: (at) => at.ledAngleOfAttackRad },
  loadFactor: { quantity: 'loadFactor', read: (at) => at.loadFactor },
  bank: { quantity: 'bankDeg', read: (at) => Math.abs(at.bankRad) },
  fuel: { quantity: 'fuelKg', read: (at) => at.fuelKg },
  mass: { quantity: 'massKg', read: (at) => at.massKg },
  centreOfGravity: { quantity: 'cgFraction', read: (at) => at.cgFraction },
};

/** The key by which the spread of a limit is read: a spread of temperature is a difference, 2 degC are 2 K. */
export function spreadQuantity(of: string): string {
  const { quantity } = boundedQuantities[of];
  return quantity === 'temperatureK' || quantity === 'inletTemperatureK' ? 'temperatureOffsetK' : quantity;
}

/** The names of the axes that a table of bounds may have. */
const boundAxes = Object.keys(boundedQuantities);

/** Inputs of limits at rest on the ground, to be changed where a check needs it. */
export function newLimitInputs(): LimitInputs {
  return {
    mach: 0,
    pressureAltitudeM: 0,
    equivalentAirspeedMS: 0,
    calibratedAirspeedMS: 0,
    staticTemperatureK: 288.15,
    indicatedInletTemperatureK: 288.15,
    angleOfAttackRad: 0,
    ledAngleOfAttackRad: 0,
    loadFactor: 1,
    bankRad: 0,
    fuelKg: 0,
    massKg: 0,
    cgFraction: 0,
    time: 0,
  };
}

type Bound = (at: LimitInputs) => number;

/** Beyond the ends of a table of bounds its end holds: `checkDeck` sees that tables reach as far as the limits they serve. */
function boundOf(data: BoundData, faults: FaultSink): { bound: Bound; grid: Grid | null } | null {
  if (typeof data === 'number') return { bound: () => data, grid: null };
  const axes = boundAxes.filter((name) => name !== data.column);
  const grid = gridOf(data.table, axes, faults);
  if (grid === null) return null;
  const values = columnOf(grid, data.column);
  const reads = grid.names.map((name) => boundedQuantities[name].read);
  function bound(at: LimitInputs): number {
    for (let i = 0; i < reads.length; i++) (grid as Grid).axes[i].find(reads[i](at));
    return gridValue(grid as Grid, values);
  }
  return { bound, grid };
}

/** One limit, and the grids its bounds stand in; null where a table of it is unsound. */
export function limitOf(
  data: LimitData,
  source: string,
  faults: FaultSink,
): { limit: Limit; grids: readonly Grid[] } | null {
  const usual = boundOf(data.bound, faults);
  const rolling = data.rolling === null ? null : boundOf(data.rolling, faults);
  if (usual === null || (data.rolling !== null && rolling === null)) return null;
  const { quantity, read } = boundedQuantities[data.of];
  const whileRolling = rolling?.bound ?? null;
  const bound: Bound =
    whileRolling === null ? usual.bound : (at) => (at.rollRateRadS ? whileRolling(at) : usual.bound(at));
  const limit: Limit = {
    key: data.key,
    name: data.name,
    quantity,
    side: data.side,
    spread: data.spread,
    value: read,
    bound,
    source,
  };
  return { limit, grids: [usual.grid, rolling?.grid ?? null].filter((grid) => grid !== null) };
}

/** "deck.yaml:61" of a limit. */
export function limitSource(deck: Deck, index: number): string {
  const { file, line } = deck.place(['limits', index]);
  return `${file}:${line}`;
}
