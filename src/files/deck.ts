/** Reading a deck: a folder of deck.yaml and CSV tables becomes a checked, compiled aircraft, or all of its faults. */
import type { Aircraft } from '../core/aircraft/aircraft.ts';
import { checkDeck } from '../core/aircraft/check.ts';
import { compileDeck } from '../core/aircraft/compile.ts';
import type { BoundData, Deck, DeckTable, LimitData } from '../core/aircraft/deck.ts';
import { boundedQuantities } from '../core/aircraft/limits.ts';
import { readQuantity } from '../core/quantities/values.ts';
import { type DeckYaml, deckSchema } from './deck-schema.ts';
import { type Fault, Faults } from './faults.ts';
import { type ColumnKind, readTable } from './table-csv.ts';
import { readYaml, type YamlFile } from './yaml.ts';

/** Where the files of a deck come from: a folder, an archive, a web page's cache. */
export interface DeckSource {
  /** The deck's name in messages, such as decks/sandmartin. */
  readonly name: string;
  /** The text of one file, null where there is none. */
  read(file: string): string | null;
}

/** A deck that can be flown, with its doubts. */
export interface LoadedDeck {
  readonly deck: Deck;
  readonly aircraft: Aircraft;
  readonly doubts: readonly Fault[];
}

/** What `inspectDeck` found: `loaded` is null where there are faults. */
export interface DeckReport {
  readonly loaded: LoadedDeck | null;
  readonly faults: Faults;
}

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
      nozzle: { quantity: 'fraction' },
    },
    needed: ['mach', 'setting', 'thrust', 'fuelFlow'],
    oneOf: ['pressureAltitude', 'geometricAltitude'],
  },
  inlet: {
    columns: {
      mach,
      recovery: { quantity: 'recovery' },
      rampAngle: { quantity: 'angleDeg' },
      captureRatio: { quantity: 'fraction' },
      bleedRatio: { quantity: 'fraction' },
    },
    needed: ['mach', 'recovery'],
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

/** The rates of a deck that has none: everything changes at once. */
const instant: Deck['rates'] = {
  onsetPerS: Number.POSITIVE_INFINITY,
  rollRadPerS: Number.POSITIVE_INFINITY,
  angleOfAttackLagS: 0,
  warningLeadS: 0,
};

/** Loads a deck; throws `FileFaults` with every fault of all its files. */
export function loadDeck(source: DeckSource): LoadedDeck {
  const { loaded, faults } = inspectDeck(source);
  faults.throwIfAny(source.name);
  return loaded as LoadedDeck;
}

/** Reads and checks a deck and tells everything there is to say about it; never throws for what the files hold. */
export function inspectDeck(source: DeckSource): DeckReport {
  const faults = new Faults();
  const file = `${source.name}/deck.yaml`;
  const text = source.read('deck.yaml');
  if (text === null) {
    faults.add({ file, line: 0, column: 0 }, '', 'there is no such file');
    return { loaded: null, faults };
  }
  const yaml = readYaml(text, file, deckSchema, faults);
  if (yaml.value === null) return { loaded: null, faults };
  const deck = readDeck(yaml.value, yaml, source, file, faults);
  if (deck === null) return { loaded: null, faults };
  const compiled = compileDeck(deck, faults);
  if (compiled !== null) checkDeck(deck, compiled, faults);
  if (compiled === null || faults.faults.length > 0) return { loaded: null, faults };
  return { loaded: { deck, aircraft: compiled.aircraft, doubts: faults.doubts }, faults };
}

/** The deck with its tables read; null where one is not there or not a table. */
function readDeck(
  data: DeckYaml,
  yaml: YamlFile<DeckYaml>,
  source: DeckSource,
  file: string,
  faults: Faults,
): Deck | null {
  const before = faults.faults.length;
  const none: DeckTable = {
    file: '',
    rows: 0,
    numbers: new Map(),
    words: new Map(),
    lines: new Int32Array(0),
  };

  function table(name: string, shape: TableShape, path: readonly PropertyKey[]): DeckTable {
    const text = source.read(name);
    if (text === null) {
      faults.add(yaml.place(path), path.map(String).join('.'), `there is no table ${source.name}/${name}`);
      return none;
    }
    const read = readTable(text, `${source.name}/${name}`, shape.columns, faults);
    if (read === null) return none;
    const has = (column: string): boolean => read.numbers.has(column) || read.words.has(column);
    const missing = shape.needed.filter((column) => !has(column));
    const of = { file: read.file, line: 0, column: 0 };
    if (missing.length > 0) faults.add(of, '', `the table has no column ${missing.join(', ')}`);
    const { oneOf } = shape;
    if (oneOf && !oneOf.some(has)) faults.add(of, '', `the table has no column ${oneOf.join(' or ')}`);
    if (read.numbers.has('pressureAltitude') && read.numbers.has('geometricAltitude')) {
      faults.add(of, '', 'the table has two kinds of altitude');
    }
    return read;
  }
  const optional = (name: string | undefined, shape: TableShape, path: readonly PropertyKey[]) =>
    name === undefined ? null : table(name, shape, path);

  const boundOf = (index: number, field: 'upper' | 'lower' | 'rolling'): BoundData | null => {
    const entry = data.limits[index];
    const value = entry[field];
    if (value === undefined) return null;
    if (typeof value !== 'object') return readQuantity(String(value), boundedQuantities[entry.of].quantity);
    const column = value.column ?? entry.of;
    return { table: table(value.table, boundShape(entry.of, column), ['limits', index, field]), column };
  };
  const limits = data.limits.map((entry, index): LimitData => {
    const upper = boundOf(index, 'upper');
    const spread = entry.spread;
    return {
      key: entry.key,
      name: entry.name,
      of: entry.of,
      side: upper === null ? 'lower' : 'upper',
      bound: upper ?? (boundOf(index, 'lower') as BoundData),
      rolling: boundOf(index, 'rolling'),
      spread: spread === undefined ? 0 : readQuantity(spread, boundedQuantities[entry.of].quantity),
    };
  });

  const { aerodynamics, propulsion, rates } = data;
  const deck: Deck = {
    file,
    identity: {
      name: data.name,
      edition: data.edition,
      basis: data.basis,
      source: data.source,
      tails: data.tails,
    },
    crew: data.crew ?? null,
    supersededBy: data.supersededBy ?? null,
    wing: {
      areaM2: data.wing.area,
      meanChordM: data.wing.meanChord ?? null,
      leadingEdgeArmM: data.wing.leadingEdgeArm ?? null,
    },
    masses: data.masses.map(({ item, mass, arm }) => ({ item, massKg: mass, armM: arm })),
    tanks: data.tanks.map((tank) => ({
      name: tank.name,
      capacityKg: tank.capacity,
      unusableKg: tank.unusable,
      armM: tank.arm,
      order: tank.order,
    })),
    aerodynamics: {
      lift: table(aerodynamics.lift, shapes.lift, ['aerodynamics', 'lift']),
      drag: table(aerodynamics.drag, shapes.drag, ['aerodynamics', 'drag']),
      trim: optional(aerodynamics.trim, shapes.trim, ['aerodynamics', 'trim']),
      stall: optional(aerodynamics.stall, shapes.stall, ['aerodynamics', 'stall']),
      wash: aerodynamics.wash
        ? { increment: aerodynamics.wash.dragIncrement, spread: aerodynamics.wash.spread }
        : null,
    },
    propulsion: {
      table: table(propulsion.table, shapes.propulsion, ['propulsion', 'table']),
      settings: propulsion.settings,
      military: propulsion.military,
      minimumAfterburner: propulsion.minimumAfterburner ?? null,
      descent: propulsion.descent,
      engines: propulsion.engines.map(({ name, arm }) => ({ name, armM: arm })),
    },
    inlet: optional(data.inlet, shapes.inlet, ['inlet']),
    limits,
    rates: rates
      ? {
          onsetPerS: rates.onset,
          rollRadPerS: rates.roll,
          angleOfAttackLagS: rates.angleOfAttackLag,
          warningLeadS: rates.warningLead,
        }
      : instant,
    gauges: data.gauges ?? { inletTemperatureRecovery: 1, units: {} },
    takeOff: optional(data.takeOff, shapes.takeOff, ['takeOff']),
    landing: data.landing
      ? {
          approach: table(data.landing.approach, shapes.approach, ['landing', 'approach']),
          groundRoll: table(data.landing.groundRoll, shapes.landingRoll, ['landing', 'groundRoll']),
        }
      : null,
    designPoints: (data.designPoints ?? []).map((point) => ({
      name: point.name,
      mach: point.mach,
      pressureAltitudeM: point.altitude,
      temperatureOffsetK: point.temperatureOffset,
      massKg: point.mass,
      settings: point.settings,
      inWash: point.inWash ?? false,
      excess: point.excess,
      within: point.within,
    })),
    references: data.references,
    place: yaml.place,
  };
  return faults.faults.length > before ? null : deck;
}

/** The shape of a table of bounds: any bounded quantity is an axis, one column more is the bound. */
function boundShape(of: string, column: string): TableShape {
  const axes: Record<string, ColumnKind> = {};
  for (const [name, { quantity }] of Object.entries(boundedQuantities)) axes[name] = { quantity };
  const bound = { quantity: boundedQuantities[of].quantity };
  // Stall tables carry both of their angles and serve two limits.
  return { columns: { ...axes, warningAngle: angle, pushAngle: angle, [column]: bound }, needed: [column] };
}
