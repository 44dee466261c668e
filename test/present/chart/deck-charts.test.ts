import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { type Curves, curvesOf } from '../../../src/core/aircraft/curves.ts';
import { loadDeck } from '../../../src/files/deck.ts';
import { deckFolder } from '../../../src/files/deck-folder.ts';
import { corridorFigure } from '../../../src/present/chart/deck-corridor.ts';
import { deckFigures } from '../../../src/present/chart/deck-figures.ts';
import { thrustFigure } from '../../../src/present/chart/deck-power.ts';
import type { Figure } from '../../../src/present/chart/plot.ts';
import { type DeckFacts, deckRows, limitTable } from '../../../src/present/deck.ts';
import { NIGHT, PAPER } from '../../../src/present/theme.ts';
import { gaugesIn, plainSpaces } from '../../../src/present/units.ts';
import { all, readXml } from '../../support/xml.ts';

const folder = fileURLToPath(new URL('../../../decks/sandmartin', import.meta.url));
const { deck, aircraft } = loadDeck(deckFolder(folder, 'sandmartin'));
const curves = curvesOf(deck, aircraft, {
  pressureAltitudeM: 15_240,
  temperatureOffsetK: 0,
  power: 2,
  fuelKg: 20_000,
});
const gauges = gaugesIn(deck.gauges.units);
const look = { theme: PAPER, width: 500 };

function wordsOf({ svg }: Figure): readonly string[] {
  return all(readXml(svg))
    .filter(({ name }) => name === 'text')
    .map(({ text }) => plainSpaces(text));
}

describe('charts of a deck', () => {
  const figures = deckFigures(curves, gauges, look);

  test('[DECKCHART-1] are as many as the deck has tables for, each with its numbers and its name', () => {
    const titles = figures.map(({ table }) => table.title);
    expect(titles).toEqual([
      'Thrust of all engines',
      'Fuel flow of all engines',
      'Lift and drag by Mach',
      'Drag coefficient without lift',
      'Greatest lift over drag',
      'Pressure recovery',
      'Nozzle',
      'Inlet ramp',
      'Centre of gravity over fuel',
    ]);
    for (const { table, note } of figures) {
      expect(note).not.toBe('');
      expect(table.rows.length).toBeGreaterThan(4);
      for (const row of table.rows) expect(row).toHaveLength(table.columns.length);
    }
  });

  test('[DECKCHART-2] leave out what the deck has not', () => {
    const bare: Curves = { ...curves, inlet: null, schedules: [], balance: null };
    expect(deckFigures(bare, gauges, look)).toHaveLength(5);
  });

  test('[DECKCHART-3] name every curve beside it, the chosen setting strong', () => {
    const figure = thrustFigure(curves, gauges, look);
    const words = wordsOf(figure);
    for (const name of [
      'idle',
      'part',
      'military',
      'minimum afterburner',
      'maximum afterburner',
      'drag, level',
    ])
      expect(words).toContain(name);
    const strong = all(readXml(figure.svg)).find(({ text, name }) => name === 'text' && text === 'military');
    expect(strong?.attributes['font-weight']).toBe('700');
  });

  test('[DECKCHART-4] show in the table what the deck has, in the unit of the gauge', () => {
    const { columns, rows } = thrustFigure(curves, gauges, look).table;
    expect(columns.map(({ unit }) => unit)).toEqual(['', 'kN', 'kN', 'kN', 'kN', 'kN', 'kN']);
    const row = rows[curves.mach.indexOf(2)];
    expect(row[0]).toBe('2.00');
    expect(Number(row[3])).toBeCloseTo(curves.settings[2].thrustN[curves.mach.indexOf(2)] / 1000, 1);
  });

  test('[DECKCHART-5] say that there is no data where a table ends', () => {
    const high = curvesOf(deck, aircraft, { ...curves.at, pressureAltitudeM: 27_200 });
    const { table, svg } = thrustFigure(high, gauges, look);
    expect(table.rows[10].slice(1, 6)).toEqual(new Array(5).fill('no data'));
    expect(svg).not.toContain('NaN');
  });

  test('[DECKCHART-6] draw on the ground of the theme', () => {
    const figure = thrustFigure(curves, gauges, { theme: NIGHT, width: 360 });
    expect(figure.svg).toContain(NIGHT.ink);
    expect(figure.svg).not.toContain(PAPER.ink);
  });
});

describe('the chart of the limits', () => {
  test('[DECKCHART-7] hatches as much as lies beyond a limit', () => {
    const { corridor } = curves;
    const alone = {
      ...curves,
      corridor: { ...corridor, limits: corridor.limits.filter(({ key }) => key === 'altitude') },
    };
    const { svg } = corridorFigure(alone, null, gauges, { theme: PAPER, width: 600 });
    const hatch = all(readXml(svg)).find(({ attributes }) => attributes.fill === 'url(#land)');
    const box = all(readXml(svg)).find(({ name, attributes }) => name === 'svg' && attributes.x === '58');
    const area = (hatch?.attributes.d ?? '')
      .split('M')
      .slice(1)
      .reduce((sum, path) => sum + areaOf((path.match(/-?[\d.]+/g) ?? []).map(Number)), 0);
    const whole = Number(box?.attributes.width) * Number(box?.attributes.height);
    // The deck: limit 82 000 ft, tables of the engines to 87 000 ft.
    expect(area / whole).toBeCloseTo(5 / 87, 3);
  });

  test('[DECKCHART-8] names every limit, and the room between them to the safe side', () => {
    const figure = corridorFigure(curves, null, gauges, { theme: PAPER, width: 800 });
    const words = wordsOf(figure);
    for (const { name } of curves.corridor.limits) expect(words).toContain(name);
    const foot = 0.3048;
    figure.table.rows.forEach(([mach, lowest, , highest]) => {
      const room = curves.corridor.room.find((one) => one.mach.toFixed(2) === mach);
      const feet = (text: string) => Number(text.replaceAll('\u2009', ''));
      expect(feet(lowest)).toBeGreaterThanOrEqual((room?.lowestM ?? 0) / foot - 1e-3);
      expect(feet(highest)).toBeLessThanOrEqual((room?.highestM ?? 0) / foot + 1e-3);
    });
    expect(figure.table.rows.length).toBeGreaterThan(20);
  });
});

test('[DECKCHART-9] a deck that says little is told so in words', () => {
  const facts: DeckFacts = {
    identity: deck.identity,
    crew: null,
    supersededBy: null,
    wing: { areaM2: 50, meanChordM: null, leadingEdgeArmM: null },
    masses: [],
    tanks: [],
    fuel: null,
    gauges: deck.gauges,
    references: [],
    engines: ['only'],
    settings: ['idle', 'maximumAfterburner'],
    covers: [],
    fuelCapacityKg: 0,
  };
  const said = new Map(deckRows(facts, gauges));
  expect(said.get('Without fuel')).toBe('not stated');
  expect(said.get('Tanks')).toBe('not stated');
  expect(said.get('Settings')).toBe('idle, maximum afterburner');
  const whole = new Map(
    deckRows({ ...facts, masses: deck.masses, tanks: deck.tanks, fuelCapacityKg: 38_500 }, gauges),
  );
  expect(plainSpaces(whole.get('Without fuel') ?? '')).toMatch(/^36 700 kg: /);
  expect(plainSpaces(whole.get('Tanks') ?? '')).toMatch(/^38 500 kg: forward 12 500 kg, /);
});

test('[DECKCHART-10] every limit stands with the range of its bound and its line', () => {
  const rows = limitTable(curves.limits, gauges).rows.map((row) => row.map(plainSpaces));
  const row = (name: string) => rows.find(([limit]) => limit === name);
  // deck.yaml and its tables: Mach 3.0 +- 0.005; 480 to 455 KEAS; forward 20 to 23.5 %.
  expect(row('Mach')?.slice(1, 4)).toEqual(['at most', 'M 3.00', '0.005 Mach']);
  expect(row('Maximum equivalent airspeed')?.slice(1, 4)).toEqual([
    'at most',
    '455 to 480 KEAS',
    'not stated',
  ]);
  expect(row('Forward centre of gravity')?.slice(1, 3)).toEqual(['at least', '20.0 to 23.5 %']);
  expect(row('Inlet temperature')?.[4]).toMatch(/deck\.yaml:\d+$/);
  expect(rows).toHaveLength(deck.limits.length);
});

/** Of a polygon given as x, y, x, y ... */
function areaOf(numbers: readonly number[]): number {
  let twice = 0;
  for (let i = 0; i < numbers.length; i += 2) {
    const next = (i + 2) % numbers.length;
    twice += numbers[i] * numbers[next + 1] - numbers[next] * numbers[i + 1];
  }
  return Math.abs(twice) / 2;
}
