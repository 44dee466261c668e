/** What a deck says of its pusher and a sortie of its manoeuvres: what is refused, with its place. */
import { describe, expect, it } from 'vitest';
import { type DeckSource, inspectDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';
import { Faults, faultText } from '../../src/files/faults.ts';
import { compileSortie, readSortieFile } from '../../src/files/sortie.ts';
import { change, longLoopText, sandmartin } from '../support/demo.ts';

function deckFaults(from: string, to: string): string {
  const folder = deckFolder('decks/sandmartin', 'deck');
  const source: DeckSource = {
    name: 'deck',
    read: (name) => {
      const text = folder.read(name);
      return name === 'deck.yaml' && text !== null ? change(text, [from, to]) : text;
    },
  };
  return inspectDeck(source).faults.faults.map(faultText).join('\n');
}

function sortieFaults(from: string, to: string): string {
  const faults = new Faults();
  const read = readSortieFile(change(longLoopText, [from, to]), 'sortie.yaml', faults);
  if (read) compileSortie(read, sandmartin, null, faults);
  return faults.list.map(faultText).join('\n');
}

describe('the pusher of a deck', () => {
  const pusher = 'pusher: { loadFactor: 0.5 g, hold: 1.5 s }';

  it('[DECK-50] is refused where it does not push', () => {
    expect(deckFaults(pusher, 'pusher: { loadFactor: 1.2 g, hold: 1.5 s }')).toMatch(
      /deck\.yaml:118:\d+: pusher: a pusher lowers the load factor below 1 g, for a time not below 0/,
    );
  });

  it('[DECK-51] is refused without a time, or with one that is none', () => {
    expect(deckFaults(pusher, 'pusher: { loadFactor: 0.5 g }')).toMatch(
      /deck\.yaml:118:\d+: pusher\.hold: is missing/,
    );
    expect(deckFaults(pusher, 'pusher: { loadFactor: 0.5 g, hold: 1.5 kg }')).toMatch(
      /deck\.yaml:118:\d+: pusher\.hold: .*"kg" does not measure it/,
    );
  });

  it('[DECK-52] is refused with a key that it does not have', () => {
    expect(deckFaults(pusher, 'pusher: { loadFactor: 0.5 g, hold: 1.5 s, force: 2 }')).toMatch(
      /deck\.yaml:118:\d+: pusher\.force: unknown key "force"/,
    );
  });
});

describe('the manoeuvres of a sortie', () => {
  it('[SORTIE-40] are refused where their load factors and banks are none of a manoeuvre', () => {
    expect(sortieFaults('loadFactors: [1.2 g, 1.4 g]', 'loadFactors: [1.2 g, 0 g]')).toMatch(
      /sortie\.yaml:161:\d+: manoeuvres\.loadFactors/,
    );
    expect(sortieFaults('banks: [30 deg, 40 deg]', 'banks: [30 deg, 95 deg]')).toMatch(
      /sortie\.yaml:162:\d+: manoeuvres\.banks/,
    );
  });

  it('[SORTIE-41] are refused with a clearance below the ground, or a push that is none', () => {
    expect(sortieFaults('clearance: 300 m\n', 'clearance: -300 m\n')).toMatch(
      /sortie\.yaml:163:\d+: manoeuvres\.clearance/,
    );
    expect(
      sortieFaults('clearance: 300 m\n', 'clearance: 300 m\n  push: { loadFactor: 1.5 g, hold: 2 s }\n'),
    ).toMatch(/sortie\.yaml:164:\d+: manoeuvres\.push: a pusher lowers the load factor below 1 g/);
  });

  it('[SORTIE-42] are refused where nobody says so, or what is held to is below level flight', () => {
    const held = 'loadFactor: 2 g, source: common practice }';
    expect(sortieFaults(held, 'loadFactor: 2 g }')).toMatch(
      /sortie\.yaml:166:\d+: manoeuvres\.heldTo\.1\.source: is missing/,
    );
    expect(sortieFaults(held, 'loadFactor: 0.8 g, source: common practice }')).toMatch(
      /sortie\.yaml:166:\d+: manoeuvres\.heldTo\.1/,
    );
  });
});
