/** Transfers, dumping and the inlet off its schedule in a deck: what is read, and what is refused with its place. */
import { describe, expect, it } from 'vitest';
import { type DeckSource, inspectDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';
import { faultText } from '../../src/files/faults.ts';

/** The deck of the demonstration with a change in one of its files. */
function changed(file: string, from: string | RegExp, to: string): DeckSource {
  const folder = deckFolder('decks/sandmartin', 'deck');
  return {
    name: 'deck',
    read(name) {
      const text = folder.read(name);
      if (name !== file || text === null) return text;
      const after = text.replace(from, to);
      if (after === text) throw new Error(`${file} has nothing like ${from}`);
      return after;
    },
  };
}
const faultsOf = (source: DeckSource) => inspectDeck(source).faults.faults.map(faultText).join('\n');
const withTransfer = (entry: string) => changed('deck.yaml', 'dump: {', `transfers:\n  - ${entry}\ndump: {`);

describe('transfers and dumping of a deck', () => {
  it('[DECK-40] a transfer moves the centre of gravity by its mass times the way between the tanks', () => {
    const entry =
      '{ from: forward, to: aft, mass: 2000 kg, begins: 1.2 Mach, ends: 1.7 Mach, rate: 600 kg/min }';
    const balance = inspectDeck(withTransfer(entry)).loaded?.aircraft.balance;
    expect(balance?.transfers[0]).toMatchObject({ from: 0, to: 3, massKg: 2000, rateKgS: 10 });
    // With 32 t on board the aft tank is full: nothing can be moved; with 38 500 kg neither.
    expect(balance?.cgFraction(32_000, 2)).toBe(balance?.cgFraction(32_000));
    const back = inspectDeck(withTransfer(entry.replace('forward, to: aft', 'aft, to: forward'))).loaded
      ?.aircraft.balance;
    // 2000 kg from 21.8 m to 15.8 m on 36 700 + 32 000 kg and a chord of 12.2 m.
    const moved = ((back?.cgFraction(32_000, 2) ?? 0) - (back?.cgFraction(32_000) ?? 0)) * 12.2;
    expect(moved).toBeCloseTo((2000 * -6) / 68_700, 9);
    expect(((back?.cgFraction(32_000, 1.45) ?? 0) - (back?.cgFraction(32_000) ?? 0)) * 12.2).toBeCloseTo(
      moved / 2,
      9,
    );
  });

  it('[DECK-41] refuses a transfer to a tank that is not there, to itself, or that ends before it begins', () => {
    expect(
      faultsOf(withTransfer('{ from: forward, to: tail, mass: 2000 kg, begins: 1.2 Mach, ends: 1.7 Mach }')),
    ).toMatch(
      /deck\.yaml:\d+:\d+: transfers\.0\.to: there is no tank "tail"; there are forward, left wing, right wing, aft, centre/,
    );
    expect(
      faultsOf(withTransfer('{ from: aft, to: aft, mass: 0 kg, begins: 1.7 Mach, ends: 1.2 Mach }')),
    ).toMatch(
      /a transfer is from one tank to another[\s\S]*must be above 0[\s\S]*ends above the Mach at which it begins, 1\.7/,
    );
    expect(faultsOf(changed('deck.yaml', 'rate: 1200 kg/min', 'rate: 0 kg/min'))).toMatch(
      /dump\.rate: .*above 0/,
    );
    expect(faultsOf(changed('deck.yaml', 'rate: 1200 kg/min', 'rate: 1200 kg'))).toMatch(
      /"kg" does not measure it/,
    );
  });
});

describe('the inlet of a deck off its schedule', () => {
  it('[DECK-42] counts from a schedule of a side', () => {
    expect(faultsOf(changed('deck.yaml', 'schedule: ramp', 'schedule: nozzle'))).toMatch(
      /inletError\.schedule: there is no schedule "nozzle" of a side; there are ramp/,
    );
  });

  it('[DECK-43] loses nothing on schedule, and its ratios can be', () => {
    expect(faultsOf(changed('inlet-error.csv', '\n3,0,1.0000', '\n3,0,0.9900'))).toMatch(
      /inlet-error\.csv:\d+.*on schedule the ratios are 1 and the drag increment is 0/,
    );
    expect(faultsOf(changed('inlet-error.csv', /\n3,1,[^,]+/, '\n3,1,-0.5'))).toMatch(
      /thrustRatio: a ratio of -0\.5 cannot be: it must be above 0/,
    );
    expect(faultsOf(changed('inlet-error.csv', /\n[\d.]+,0,.*/g, ''))).toMatch(/the table has no error of 0/);
  });
});
