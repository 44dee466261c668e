/** The fuel of a deck: its grade, its densities, and volumes that go with the capacities of the tanks. */
import { describe, expect, it } from 'vitest';
import { type DeckSource, inspectDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';
import { faultText } from '../../src/files/faults.ts';

/** The deck of the demonstration with a change in its main file. */
function changed(...changes: readonly (readonly [from: string, to: string])[]): DeckSource {
  const folder = deckFolder('decks/sandmartin', 'deck');
  return {
    name: 'deck',
    read(file) {
      const text = folder.read(file);
      if (file !== 'deck.yaml' || text === null) return text;
      return changes.reduce((before, [from, to]) => {
        if (!before.includes(from)) throw new Error(`the deck has nothing like ${from}`);
        return before.replace(from, to);
      }, text);
    },
  };
}

const faultsOf = (source: DeckSource) => inspectDeck(source).faults.faults.map(faultText).join('\n');
const doubtsOf = (source: DeckSource) => inspectDeck(source).faults.doubts.map(faultText).join('\n');

describe('the fuel of a deck', () => {
  it('[DECK-30] leaves the room for expansion out of the volume that is filled', () => {
    const { loaded } = inspectDeck(changed(['expansionSpace: 2 %', 'expansionSpace: 10 %']));
    expect(loaded?.deck.tanks[0].volumeM3).toBeCloseTo(0.9 * 16.1, 12);
    expect(inspectDeck(changed(['\n  expansionSpace: 2 %', ''])).loaded?.deck.tanks[0].volumeM3).toBeCloseTo(
      16.1,
      12,
    );
  });

  it('[DECK-31] may have neither grade nor volumes, but a volume for each tank or for none', () => {
    const without = changed([', volume: 16100 L', '']);
    expect(faultsOf(without)).toMatch(
      /deck\.yaml:\d+:\d+: tanks: 4 of 5 tanks have a volume; give it for all or for none/,
    );
    expect(inspectDeck(deckFolder('decks/benchmark-interceptor')).loaded?.aircraft.fuel).toBe(null);
  });

  it('[DECK-32] refuses densities outside the table or the wrong way round, and tells a volume too small for its mass', () => {
    expect(faultsOf(changed(['lightest: 775 kg/m3', 'lightest: 700 kg/m3']))).toMatch(
      /fuel\.lightest: fuel density at 15 degC 700 kg\/m3 is outside 750 to 840 kg\/m3 of the fuel of ASTM D1250 table 54B/,
    );
    expect(faultsOf(changed(['density: 800 kg/m3', 'density: 760 kg/m3']))).toMatch(
      /fuel\.density: 760 kg\/m3 is outside 775 to 840 kg\/m3, lightest to heaviest/,
    );
    expect(faultsOf(changed(['density: 800 kg/m3', 'density: 800 kg']))).toMatch(
      /fuel\.density: .*"kg" does not measure it/,
    );
    expect(faultsOf(changed(['volume: 16100 L', 'volume: 10 L']))).toMatch(
      /tanks\.0\.volume: must hold more than the fuel that cannot be used/,
    );
    expect(doubtsOf(changed(['volume: 16100 L', 'volume: 15000 L']))).toMatch(
      /tanks\.0\.volume: holds 12348 kg of the heaviest fuel at 15 degC, less than the capacity, 12500 kg/,
    );
  });
});
