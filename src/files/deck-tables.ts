/** The tables of a deck: which columns each has, and reading all that a deck.yaml names. */
import type { DeckTable } from '../core/aircraft/deck.ts';
import { boundedQuantities } from '../core/aircraft/limits.ts';
import { quantities } from '../core/quantities/quantities.ts';
import type { Faults } from './faults.ts';
import { type ColumnKind, readTable } from './table-csv.ts';
import { type Path, valueAt, type YamlFile } from './yaml.ts';

const mach: ColumnKind = { quantity: 'mach' };
const heights = {
  pressureAltitude: { quantity: 'pressureAltitudeM' },
  geometricAltitude: { quantity: 'geometricHeightM' },
} as const;
const runway = {
  mass: { quantity: 'massKg' },
  pressureAltitude: { quantity: 'pressureAltitudeM' },
  temperatureOffset: { quantity: 'temperatureOffsetK' },
} as const;

type Columns = Readonly<Record<string, ColumnKind>>;

/** The columns of each kind of table; those in `needed` have to be there, one at least of each group in `oneOf`. */
interface TableShape {
  readonly columns: Columns;
  readonly needed: readonly string[];
  readonly oneOf?: readonly string[];
  /** Columns that only a schedule reads. */
  readonly free?: Columns;
}

const ratio: ColumnKind = { quantity: 'dragCoefficient' };
const angle: ColumnKind = { quantity: 'angleOfAttackDeg' };

const shapes = {
  lift: {
    columns: { mach, liftSlope: { quantity: 'perAnglePerRad' }, zeroLiftAngle: angle, dragDueToLift: ratio },
    needed: ['mach', 'liftSlope', 'dragDueToLift'],
  },
  drag: { columns: { mach, ...heights, zeroLiftDrag: ratio }, needed: ['mach', 'zeroLiftDrag'] },
  trim: {
    columns: { mach, centreOfGravity: { quantity: 'cgFraction' }, trimFactor: ratio },
    needed: ['mach', 'centreOfGravity', 'trimFactor'],
  },
  stall: {
    columns: { mach, warningAngle: angle, pushAngle: angle },
    needed: ['mach', 'warningAngle', 'pushAngle'],
  },
  propulsion: {
    columns: {
      mach,
      ...heights,
      temperatureOffset: { quantity: 'temperatureOffsetK' },
      setting: 'words',
      thrust: { quantity: 'thrustN' },
      fuelFlow: { quantity: 'fuelFlowKgS' },
    },
    free: { nozzle: { quantity: 'fraction' } },
    needed: ['mach', 'setting', 'thrust', 'fuelFlow'],
    oneOf: ['pressureAltitude', 'geometricAltitude'],
  },
  inlet: {
    columns: { mach, recovery: { quantity: 'recovery' } },
    free: {
      rampAngle: { quantity: 'angleDeg' },
      captureRatio: { quantity: 'fraction' },
      bleedRatio: { quantity: 'fraction' },
    },
    needed: ['mach', 'recovery'],
  },
  inletError: {
    columns: {
      mach,
      positionError: { quantity: 'angleDeg' },
      thrustRatio: { quantity: 'fraction' },
      fuelFlowRatio: { quantity: 'fraction' },
      dragIncrement: ratio,
      shockMargin: { quantity: 'angleDeg' },
    },
    needed: ['mach', 'positionError', 'thrustRatio', 'fuelFlowRatio', 'dragIncrement', 'shockMargin'],
  },
  rudder: {
    columns: { mach, momentSlope: { quantity: 'perAnglePerRad' }, limit: { quantity: 'angleDeg' } },
    needed: ['mach', 'momentSlope', 'limit'],
  },
  takeOff: {
    columns: {
      ...runway,
      groundRoll: { quantity: 'lengthM' },
      time: { quantity: 'durationS' },
      fuel: { quantity: 'fuelKg' },
      liftOffSpeed: { quantity: 'trueAirspeedMS' },
    },
    needed: [...Object.keys(runway), 'groundRoll', 'time', 'fuel', 'liftOffSpeed'],
  },
  approach: {
    columns: { mass: { quantity: 'massKg' }, approachSpeed: { quantity: 'equivalentAirspeedMS' } },
    needed: ['mass', 'approachSpeed'],
  },
  landingRoll: {
    columns: { ...runway, groundRoll: { quantity: 'lengthM' } },
    needed: [...Object.keys(runway), 'groundRoll'],
  },
} satisfies Record<string, TableShape>;

/** Where a schedule of an engine or of a side has its column. */
const scheduled = { engine: 'propulsion', side: 'inlet' } as const;

/** The columns that flight reads of the table in which a schedule stands: none of them is its own. */
export function columnsOfFlight(of: keyof typeof scheduled): string[] {
  return Object.keys(shapes[scheduled[of]].columns);
}

/** The columns that the schedules of a deck.yaml name in the tables of propulsion and inlet. */
function scheduledColumns(raw: unknown): Record<'propulsion' | 'inlet', Columns> {
  const found = { propulsion: {} as Record<string, ColumnKind>, inlet: {} as Record<string, ColumnKind> };
  const schedules = valueAt(raw, ['schedules']);
  for (let index = 0; Array.isArray(schedules) && index < schedules.length; index++) {
    const [of, column, quantity] = ['of', 'column', 'quantity'].map((key) =>
      valueAt(raw, ['schedules', index, key]),
    );
    if ((of !== 'engine' && of !== 'side') || typeof column !== 'string') continue;
    if (typeof quantity !== 'string' || !quantities.has(quantity)) continue;
    if (!columnsOfFlight(of).includes(column)) found[scheduled[of]][column] = { quantity };
  }
  return found;
}

/** The shape of a table of bounds: any bounded quantity is an axis, one column more is the bound. */
function boundShape(of: string, column: string): TableShape {
  const axes: Record<string, ColumnKind> = {};
  for (const [name, { quantity }] of Object.entries(boundedQuantities)) axes[name] = { quantity };
  const bound = { quantity: boundedQuantities[of].quantity };
  // Stall tables carry both of their angles and serve two limits.
  return { columns: { ...axes, warningAngle: angle, pushAngle: angle, [column]: bound }, needed: [column] };
}

/** Where deck.yaml names each table. */
const places = {
  lift: ['aerodynamics', 'lift'],
  drag: ['aerodynamics', 'drag'],
  trim: ['aerodynamics', 'trim'],
  stall: ['aerodynamics', 'stall'],
  propulsion: ['propulsion', 'table'],
  inlet: ['inlet'],
  inletError: ['inletError', 'table'],
  rudder: ['rudder', 'table'],
  takeOff: ['takeOff'],
  approach: ['landing', 'approach'],
  landingRoll: ['landing', 'groundRoll'],
} as const satisfies Record<keyof typeof shapes, Path>;

type TableName = keyof typeof shapes;

/** The tables of a deck; those it does not name are null, those that could not be read have no rows. */
export interface DeckTables {
  readonly named: Readonly<Record<TableName, DeckTable | null>>;
  /** Tables of bounds by their path in deck.yaml, such as "limits.2.upper". */
  readonly bounds: ReadonlyMap<string, DeckTable>;
}

/** Reads every table that a deck names, also where the rest of deck.yaml has faults, so that all faults are told at once. */
export function readDeckTables(
  yaml: YamlFile<unknown>,
  folder: string,
  read: (file: string) => string | null,
  faults: Faults,
): DeckTables {
  function table(name: string, shape: TableShape, path: Path): DeckTable {
    const text = read(name);
    if (text !== null) return tableOf(text, `${folder}/${name}`, shape, faults);
    faults.add(yaml.place(path), path.map(String).join('.'), `there is no table ${folder}/${name}`);
    return unread(`${folder}/${name}`);
  }
  const named = {} as Record<TableName, DeckTable | null>;
  const columnsOf: Readonly<Partial<Record<TableName, Columns>>> = scheduledColumns(yaml.raw);
  for (const name of Object.keys(shapes) as TableName[]) {
    const file = valueAt(yaml.raw, places[name]);
    const shape: TableShape = shapes[name];
    const columns = { ...shape.columns, ...shape.free, ...columnsOf[name] };
    named[name] = typeof file === 'string' ? table(file, { ...shape, columns }, places[name]) : null;
  }
  const bounds = new Map<string, DeckTable>();
  const limits = valueAt(yaml.raw, ['limits']);
  const count = Array.isArray(limits) ? limits.length : 0;
  for (let index = 0; index < count; index++) {
    const of = valueAt(yaml.raw, ['limits', index, 'of']);
    if (typeof of !== 'string' || !(of in boundedQuantities)) continue;
    for (const field of ['upper', 'lower', 'rolling']) {
      const path = ['limits', index, field];
      const file = valueAt(yaml.raw, [...path, 'table']);
      const column = valueAt(yaml.raw, [...path, 'column']) ?? of;
      if (typeof file !== 'string' || typeof column !== 'string') continue;
      bounds.set(path.join('.'), table(file, boundShape(of, column), path));
    }
  }
  return { named, bounds };
}

/** A table that could not be read: the faults say why. */
function unread(file: string): DeckTable {
  return { file, rows: 0, numbers: new Map(), words: new Map(), lines: new Int32Array(0) };
}

function tableOf(text: string, file: string, shape: TableShape, faults: Faults): DeckTable {
  const read = readTable(text, file, shape.columns, faults);
  if (read === null) return unread(file);
  const before = faults.faults.length;
  const has = (column: string): boolean => read.numbers.has(column) || read.words.has(column);
  const place = { file, line: 0, column: 0 };
  const missing = shape.needed.filter((column) => !has(column));
  if (missing.length > 0) faults.add(place, '', `the table has no column ${missing.join(', ')}`);
  const { oneOf } = shape;
  if (oneOf && !oneOf.some(has)) faults.add(place, '', `the table has no column ${oneOf.join(' or ')}`);
  if (has('pressureAltitude') && has('geometricAltitude')) {
    faults.add(place, '', 'the table has two kinds of altitude');
  }
  return faults.faults.length > before ? unread(file) : read;
}
