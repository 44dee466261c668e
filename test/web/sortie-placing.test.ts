import { describe, expect, it } from 'vitest';
import { type Given, place } from '../../src/web/placing.ts';

const sortie = `format: ramrise-sortie
aircraft: { deck: ../decks/swift }
weather: { file: weather/run.nc }
areas: { file: areas.geojson }
`;
const open = { path: '/examples/loop.yaml', text: sortie };
const there = [
  '/decks/swift/deck.yaml',
  '/decks/swift/drag.csv',
  '/decks/other/drag.csv',
  '/examples/loop.yaml',
];

function given(path: string, text = ''): Given {
  return { path, bytes: new TextEncoder().encode(text) };
}

function paths(files: readonly Given[], from = open): string[] {
  return [...place(files, from, there).files.keys()].sort();
}

describe('files that are given', () => {
  it('[OPEN-1] go where the sortie names them', () => {
    expect(paths([given('run.nc'), given('run.nc.attribution.txt'), given('areas.geojson')])).toEqual([
      '/examples/areas.geojson',
      '/examples/weather/run.nc',
      '/examples/weather/run.nc.attribution.txt',
    ]);
  });

  it('[OPEN-2] take the place of those of their name, of the deck of the sortie first', () => {
    const { files, words } = place([given('drag.csv')], open, there);
    expect([...files.keys()]).toEqual(['/decks/swift/drag.csv']);
    expect(words).toEqual(['drag.csv was taken in place of the one that was there.']);
  });

  it('[OPEN-3] lie beside the sortie where nothing names them, and it is said how to use them', () => {
    const { files, words } = place([given('tomorrow.grib2')], open, there);
    expect([...files.keys()]).toEqual(['/examples/tomorrow.grib2']);
    expect(words).toEqual(['tomorrow.grib2 was taken; to use it, write it in Weather, File.']);
  });

  it('[OPEN-4] a deck takes the place of the one of its name, with its tables', () => {
    const deck = [
      given('swift/deck.yaml', 'format: ramrise-deck'),
      given('swift/drag.csv'),
      given('swift/lift.csv'),
    ];
    expect(paths(deck)).toEqual(['/decks/swift/deck.yaml', '/decks/swift/drag.csv', '/decks/swift/lift.csv']);
    expect(place(deck, open, there).words).toEqual([
      'Deck swift was taken in place of the one that was there.',
    ]);
  });

  it('[OPEN-5] a deck of another name lies beside it, and it is said that the sortie names another', () => {
    const { files, words } = place(
      [given('tern/deck.yaml', 'format: ramrise-deck'), given('tern/drag.csv')],
      open,
      there,
    );
    expect([...files.keys()].sort()).toEqual(['/decks/tern/deck.yaml', '/decks/tern/drag.csv']);
    expect(words).toEqual(['Deck tern was taken; the sortie names another: write it in Aircraft, Deck.']);
  });

  it('[OPEN-6] a deck without its folder is the one that the sortie names', () => {
    expect(paths([given('deck.yaml', 'format: ramrise-deck'), given('lift.csv'), given('run.nc')])).toEqual([
      '/decks/swift/deck.yaml',
      '/decks/swift/lift.csv',
      '/examples/weather/run.nc',
    ]);
  });

  it('[OPEN-7] a sortie is opened, and what is given with it goes where it names it', () => {
    const other = given('mine.yaml', sortie.replace('weather/run.nc', 'today.csv').replace('swift', 'tern'));
    const files = [given('today.csv'), other, given('deck.yaml', 'format: ramrise-deck'), given('drag.csv')];
    expect(place(files, open, there).sortie).toBe('/examples/mine.yaml');
    expect(paths(files)).toEqual([
      '/decks/tern/deck.yaml',
      '/decks/tern/drag.csv',
      '/examples/mine.yaml',
      '/examples/today.csv',
    ]);
  });

  it('[OPEN-8] a folder with a sortie keeps its order', () => {
    const files = [given('trip/mine.yaml', sortie), given('trip/weather/run.nc'), given('trip/notes/a.txt')];
    const placed = place(files, open, there);
    expect(placed.sortie).toBe('/trip/mine.yaml');
    expect([...placed.files.keys()].sort()).toEqual([
      '/trip/mine.yaml',
      '/trip/notes/a.txt',
      '/trip/weather/run.nc',
    ]);
  });

  it('[OPEN-9] a plan is known by its format, and what is no file of a sortie is left out and said', () => {
    const plan = given('plan.json', '{"format":"ramrise-plan","version":1}');
    const placed = place([plan, given('cards.pdf')], open, there);
    expect(placed.plan).toBe(plan);
    expect(placed.files.size).toBe(0);
    expect(placed.words).toEqual(['cards.pdf is no file that a sortie can name: it was left out.']);
  });
});
