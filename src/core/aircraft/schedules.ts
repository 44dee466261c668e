/**
 * Positions that an aircraft sets by itself: of a nozzle by power, Mach, altitude and temperature, of an inlet's moving part by
 * Mach; linear between the points of the deck's tables.
 */
import type { CheckRule, Schedule } from './aircraft.ts';
import type { Deck, FaultSink, ScheduleData } from './deck.ts';
import { axisOf, type Grid, gridValue } from './grid.ts';

/** What can be checked in every aircraft, by key: its name and its key in the table of quantities. */
export const usualChecks: Readonly<Record<string, { readonly name: string; readonly quantity: string }>> = {
  fuelFlow: { name: 'Fuel flow', quantity: 'fuelFlowKgS' },
  centreOfGravity: { name: 'Centre of gravity', quantity: 'cgFraction' },
  fuel: { name: 'Fuel on board', quantity: 'fuelKg' },
  inletTemperature: { name: 'Inlet temperature', quantity: 'inletTemperatureK' },
  staticTemperature: { name: 'Static temperature', quantity: 'temperatureK' },
};

/** Key of the quantity that a check reads, or null where there is no such check. */
export function checkedQuantity(
  of: string,
  schedules: readonly { readonly key: string; readonly quantity: string }[],
): string | null {
  return usualChecks[of]?.quantity ?? schedules.find(({ key }) => key === of)?.quantity ?? null;
}

/** The schedules of a deck, and each reason why one cannot be. */
export function schedulesOf(
  deck: Deck,
  { propulsion, inlet }: { readonly propulsion: Grid | null; readonly inlet: Grid | null },
  faults: FaultSink,
): Schedule[] {
  const schedules: Schedule[] = [];
  deck.schedules.forEach((data, index) => {
    const path = ['schedules', index];
    const tell = (message: string): void => faults.add(deck.place(path), path.join('.'), message);
    if (data.key in usualChecks || schedules.some(({ key }) => key === data.key)) {
      tell(`the key ${data.key} is that of another check`);
    }
    const ofEngine = data.of === 'engine';
    if (!ofEngine && deck.inlet === null)
      tell('a position of each side stands in the table of the inlet, and the deck has none');
    const grid = ofEngine ? propulsion : inlet;
    if (grid === null) return;
    const values = grid.columns.get(data.column);
    if (values === undefined) tell(`${grid.file} has no column ${data.column}`);
    else schedules.push(ofEngine ? ofEachEngine(data, grid, values) : ofEachSide(data, grid, values));
  });
  return schedules;
}

function ofEachEngine(data: ScheduleData, grid: Grid, values: Float64Array): Schedule {
  const { key, name, quantity } = data;
  // The rows of the table are not kept with the aircraft.
  const { axes } = grid;
  const [mach, altitude] = axes;
  const geometric = grid.names[1] === 'geometricAltitude';
  const temperature = axisOf(grid, 'temperatureOffset');
  const cells = axes.reduce((product, axis) => product * axis.points.length, 1);
  const settings = Array.from({ length: values.length / cells }, (_, i) =>
    values.subarray(i * cells, (i + 1) * cells),
  );
  return {
    key,
    name,
    quantity,
    of: 'engine',
    startMach: null,
    at(power, machThere, pressureAltitudeM, geometricHeightM, temperatureOffsetK) {
      let outside = mach.find(machThere);
      outside ||= altitude.find(geometric ? geometricHeightM : pressureAltitudeM);
      if (temperature !== null) outside ||= temperature.find(temperatureOffsetK);
      const last = settings.length - 1;
      if (outside !== 0 || !(power >= 0 && power <= last)) return Number.NaN;
      const below = Math.min(Math.floor(power), last - 1);
      const low = gridValue({ axes }, settings[below]);
      return low + (power - below) * (gridValue({ axes }, settings[below + 1]) - low);
    },
  };
}

function ofEachSide(data: ScheduleData, grid: Grid, values: Float64Array): Schedule {
  const { key, name, quantity, startMach } = data;
  const { axes } = grid;
  const [mach] = axes;
  return {
    key,
    name,
    quantity,
    of: 'side',
    startMach: startMach ?? startOf(mach.points, values),
    at: (_power, machThere) => (mach.find(machThere) === 0 ? gridValue({ axes }, values) : Number.NaN),
  };
}

/** The last Mach up to which a column keeps its first value; null where it keeps it to the end. */
function startOf(machs: Float64Array, values: Float64Array): number | null {
  const moved = values.findIndex((value) => value !== values[0]);
  return moved < 0 ? null : machs[moved - 1];
}

/** What can be checked, in words. */
export function checkKeys(schedules: readonly { readonly key: string }[]): string {
  return [...Object.keys(usualChecks), ...schedules.map(({ key }) => key)].join(', ');
}

/**
 * The tolerance, in the SI unit of what is read, and the action for a check at a moment: each from the first source of rules that
 * states it, within a source from a rule for that moment before one for every moment; null where none does.
 */
export function ruleFor(
  sources: readonly (readonly CheckRule[])[],
  of: string,
  at: CheckRule['at'],
  expected: number,
): { readonly tolerance: number | null; readonly action: string | null } {
  const within = firstRule(sources, of, at, 'within')?.within ?? null;
  const action = firstRule(sources, of, at, 'action')?.action ?? null;
  if (within === null) return { tolerance: null, action };
  return { tolerance: within.value * (within.partOfExpected ? Math.abs(expected) : 1), action };
}

function firstRule(
  sources: readonly (readonly CheckRule[])[],
  of: string,
  at: CheckRule['at'],
  states: 'within' | 'action',
): CheckRule | null {
  for (const rules of sources) {
    for (const moment of [at, null]) {
      const found = rules.find((rule) => rule.of === of && rule.at === moment && rule[states] !== null);
      if (found !== undefined) return found;
    }
  }
  return null;
}
