/** Reading a deck: a folder of deck.yaml and CSV tables becomes a checked, compiled aircraft, or all of its faults. */
import type { Aircraft, Ground, LightUp } from '../core/aircraft/aircraft.ts';
import { checkParts, checkWhole } from '../core/aircraft/check.ts';
import { compileDeck, gridsOf, limitsOf } from '../core/aircraft/compile.ts';
import type { BoundData, Deck, DeckTable, LimitData, ScheduleData } from '../core/aircraft/deck.ts';
import { boundedQuantities, spreadQuantity } from '../core/aircraft/limits.ts';
import { schedulesOf } from '../core/aircraft/schedules.ts';
import { readQuantity } from '../core/quantities/values.ts';
import { readRules } from './check-rules.ts';
import { cabinOf, descentRuleOf } from './deck-descent.ts';
import { failureOf, unstartOf } from './deck-failures.ts';
import { type DeckYaml, deckSchema } from './deck-schema.ts';
import { type DeckTables, readDeckTables } from './deck-tables.ts';
import { type Fault, Faults } from './faults.ts';
import { type Path, readYaml } from './yaml.ts';

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
  const tables = readDeckTables(yaml, source.name, (name) => source.read(name), faults);
  if (yaml.value === null) return { loaded: null, faults };
  const tell = (path: Path, message: string): void =>
    faults.add(yaml.place(path), path.map(String).join('.'), message);
  const checks = readRules(yaml.value.checks, yaml.value.schedules, tell);
  const deck = deckOf(yaml.value, tables, checks, file, yaml.place);
  const grids = gridsOf(deck, faults);
  const limits = limitsOf(deck, faults);
  const schedules = schedulesOf(deck, grids, faults);
  checkParts(deck, grids, faults);
  const compiled = compileDeck(deck, grids, limits, schedules);
  if (compiled !== null) checkWhole(deck, compiled, faults);
  if (compiled === null || faults.faults.length > 0) return { loaded: null, faults };
  return { loaded: { deck, aircraft: compiled.aircraft, doubts: faults.doubts }, faults };
}

function limitOf(entry: DeckYaml['limits'][number], index: number, tables: DeckTables): LimitData {
  const key = boundedQuantities[entry.of].quantity;
  const boundOf = (field: 'upper' | 'lower' | 'rolling'): BoundData | null => {
    const value = entry[field];
    if (value === undefined) return null;
    if (typeof value !== 'object') return readQuantity(String(value), key);
    const table = tables.bounds.get(`limits.${index}.${field}`) as DeckTable;
    return { table, column: value.column ?? entry.of };
  };
  const upper = boundOf('upper');
  return {
    key: entry.key,
    name: entry.name,
    of: entry.of,
    side: upper === null ? 'lower' : 'upper',
    bound: upper ?? (boundOf('lower') as BoundData),
    rolling: boundOf('rolling'),
    spread: entry.spread === undefined ? 0 : readQuantity(entry.spread, spreadQuantity(entry.of)),
  };
}

function groundOf(data: NonNullable<DeckYaml['ground']>): Ground {
  return {
    angleOfAttackRad: data.angleOfAttack,
    gearDrag: data.gearDrag,
    brakingDrag: data.brakingDrag,
    engineOutDrag: data.engineOutDrag,
    rollingFriction: data.rollingFriction,
    brakingFriction: data.brakingFriction,
    reactionS: data.reaction,
    climbOutRatio: data.climbOut,
    minimumControlSpeedMS: data.minimumControlSpeed ?? null,
    tyreSpeedMS: data.tyreSpeed ?? null,
    brakeEnergyJ: data.brakeEnergy ?? null,
  };
}

function lightUpOf(data: NonNullable<DeckYaml['propulsion']['lightUp']>): LightUp {
  return { lagS: data.lag, spreadS: data.spread, spoolS: data.spool, reactionS: data.reaction };
}

function scheduleOf({ starts, ...schedule }: DeckYaml['schedules'][number]): ScheduleData {
  return { ...schedule, startMach: starts ?? null };
}

/** deck.yaml and its tables put together. */
function deckOf(
  data: DeckYaml,
  tables: DeckTables,
  checks: Deck['checks'],
  file: string,
  place: Deck['place'],
): Deck {
  const { named } = tables;
  const { aerodynamics, propulsion, rates } = data;
  return {
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
      volumeM3: tank.volume === undefined ? null : tank.volume * (1 - (data.fuel?.expansionSpace ?? 0)),
      armM: tank.arm,
      order: tank.order,
    })),
    transfers: data.transfers.map(({ from, to, mass, begins, ends, rate }) => ({
      from,
      to,
      massKg: mass,
      beginsMach: begins,
      endsMach: ends,
      rateKgS: rate ?? null,
    })),
    failures: data.failures.map(failureOf),
    unstart: data.unstart ? unstartOf(data.unstart) : null,
    descentRules: data.descentRules.map(descentRuleOf),
    cabin: data.cabin ? cabinOf(data.cabin) : null,
    dump: data.dump ? { rateKgS: data.dump.rate, leastKg: data.dump.least } : null,
    fuel: data.fuel
      ? {
          name: data.fuel.grade,
          densityKgM3: data.fuel.density,
          lightestKgM3: data.fuel.lightest,
          heaviestKgM3: data.fuel.heaviest,
          alsoBurns: data.fuel.alsoBurns,
        }
      : null,
    aerodynamics: {
      lift: named.lift as DeckTable,
      drag: named.drag as DeckTable,
      trim: named.trim,
      stall: named.stall,
      wash: aerodynamics.wash
        ? { increment: aerodynamics.wash.dragIncrement, spread: aerodynamics.wash.spread }
        : null,
    },
    propulsion: {
      table: named.propulsion as DeckTable,
      settings: propulsion.settings,
      military: propulsion.military,
      minimumAfterburner: propulsion.minimumAfterburner ?? null,
      descent: propulsion.descent,
      lightUp: propulsion.lightUp ? lightUpOf(propulsion.lightUp) : null,
      engines: propulsion.engines.map(({ name, arm }) => ({ name, armM: arm })),
    },
    inlet: named.inlet,
    rudder: data.rudder && named.rudder ? { table: named.rudder, spanM: data.rudder.span } : null,
    inletError:
      data.inletError && named.inletError
        ? { schedule: data.inletError.schedule, table: named.inletError }
        : null,
    schedules: data.schedules.map(scheduleOf),
    checks,
    limits: data.limits.map((entry, index) => limitOf(entry, index, tables)),
    rates: rates
      ? {
          onsetPerS: rates.onset,
          rollRadPerS: rates.roll,
          angleOfAttackLagS: rates.angleOfAttackLag,
          warningLeadS: rates.warningLead,
        }
      : instant,
    pusher: data.pusher ? { loadFactor: data.pusher.loadFactor, holdS: data.pusher.hold } : null,
    gauges: {
      inletTemperatureRecovery: data.gauges?.inletTemperatureRecovery ?? 1,
      inletTemperatureLagS: data.gauges?.inletTemperatureLag ?? 0,
      units: data.gauges?.units ?? {},
    },
    takeOff: named.takeOff,
    ground: data.ground ? groundOf(data.ground) : null,
    landing: data.landing
      ? {
          approach: named.approach as DeckTable,
          groundRoll: named.landingRoll as DeckTable,
          maximumMassKg: data.landing.maximumMass ?? null,
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
    place,
  };
}
