/** What a deck is and holds, in words. */
import type { LimitRange } from '../core/aircraft/curves.ts';
import type { Deck } from '../core/aircraft/deck.ts';
import { keyWords } from './names.ts';
import type { Table } from './table.ts';
import { figures, type Gauges, margin, read, shown } from './units.ts';

/** The parts of a deck that are no tables. */
export type DeckFacts = Pick<
  Deck,
  'identity' | 'crew' | 'supersededBy' | 'wing' | 'masses' | 'tanks' | 'fuel' | 'gauges' | 'references'
> & {
  readonly engines: readonly string[];
  readonly settings: readonly string[];
  /** Ranges of the tables in words. */
  readonly covers: readonly string[];
  readonly fuelCapacityKg: number;
};

/** Name and text of each fact, in the order in which they are asked for. */
export function deckRows(facts: DeckFacts, gauges: Gauges): readonly (readonly [string, string])[] {
  const { identity, crew, supersededBy, wing, masses, tanks, fuel } = facts;
  const mass = gauges('massKg');
  const kilograms = (kg: number) => shown(mass, kg);
  const empty = masses.reduce((sum, item) => sum + item.massKg, 0);
  const chord = wing.meanChordM === null ? '' : `, mean chord ${metres(wing.meanChordM, gauges)}`;
  return [
    ['Basis', identity.basis],
    ['From', identity.source],
    ['Valid for', identity.tails.length === 0 ? 'no tail in particular' : identity.tails.join(', ')],
    ['Superseded by', supersededBy ?? 'nothing that is known'],
    ['Crew', crew === null ? 'not stated' : String(crew)],
    ['Wing', `${shown(gauges('areaM2'), wing.areaM2)}${chord}`],
    [
      'Without fuel',
      masses.length === 0
        ? 'not stated'
        : `${kilograms(empty)}: ${masses.map(({ item, massKg }) => `${item} ${kilograms(massKg)}`).join(', ')}`,
    ],
    [
      'Tanks',
      tanks.length === 0
        ? 'not stated'
        : `${shown(gauges('fuelKg'), facts.fuelCapacityKg, 'available')}: ${tanks.map(({ name, capacityKg }) => `${name} ${shown(gauges('fuelKg'), capacityKg, 'available')}`).join(', ')}`,
    ],
    ['Fuel', fuel === null ? 'no density stated' : `${fuel.name}, ${density(fuel, gauges)}`],
    ['Engines', facts.engines.join(', ')],
    ['Settings', facts.settings.map(keyWords).join(', ')],
  ];
}

function metres(length: number, gauges: Gauges): string {
  const gauge = gauges('lengthM');
  return `${figures(gauge, gauge.fromSi(length), 'nearest', 0.01)}\u00a0${gauge.shortUnit}`;
}

function density(fuel: NonNullable<DeckFacts['fuel']>, gauges: Gauges): string {
  const gauge = gauges('fuelDensityKgM3');
  const [least, usual, most] = [fuel.lightestKgM3, fuel.densityKgM3, fuel.heaviestKgM3].map((value) =>
    figures(gauge, gauge.fromSi(value)),
  );
  return `${usual}\u00a0${gauge.shortUnit} at 15\u00a0°C, from ${least} to ${most}`;
}

/** Every limit with the range of its bound, to the safe side, and the place where the deck states it. */
export function limitTable(limits: readonly LimitRange[], gauges: Gauges): Table {
  const rows = limits.map(({ name, quantity, side, least, greatest, spread, source }) => {
    const gauge = gauges(quantity);
    const safe = side === 'upper' ? 'available' : 'required';
    const [low, high] = [read(gauge, least, safe), shown(gauge, greatest, safe)];
    return [
      name,
      side === 'upper' ? 'at most' : 'at least',
      low === read(gauge, greatest, safe) ? high : `${low} to ${high}`,
      spread > 0 ? margin(gauge, spread).text : 'not stated',
      source,
    ];
  });
  const column = (name: string) => ({ name, unit: '', align: 'left' }) as const;
  return { title: 'Limits', columns: ['limit', 'side', 'bound', 'spread', 'stated in'].map(column), rows };
}
