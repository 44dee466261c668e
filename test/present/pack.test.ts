/** The pack as a whole, and the cards of a contact, of turns, of level-offs and of the way down. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { speedOfSound, standardTemperature } from '../../src/core/air/standard.ts';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import type { AltitudeGrid, Plan } from '../../src/core/plan/plan.ts';
import { type Card, cell, footOf, words } from '../../src/present/card/card.ts';
import { layOut, onPages } from '../../src/present/card/layout.ts';
import { cardsOf } from '../../src/present/card/pack.ts';
import { CLIP, LEFT, type Mark, type Measure, PAGE, RIGHT } from '../../src/present/card/page.ts';
import { cardMeasure } from '../../src/present/card/pdf.ts';
import { outlinesOf } from '../../src/present/map/outlines.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { longLoopText, requestOf } from '../support/demo.ts';
import { FAILURE, testPlan } from '../support/plan.ts';

const resolve = createRequire(import.meta.url).resolve;
const FACE = '@expo-google-fonts/atkinson-hyperlegible-next';
const font = (name: string) => readFileSync(resolve(`${FACE}/${name}/AtkinsonHyperlegibleNext_${name}.ttf`));
const outlines = outlinesOf(JSON.parse(readFileSync(resolve('world-atlas/countries-50m.json'), 'utf8')));

const plan = testPlan();
const demo = makePlan(requestOf(longLoopText));
const measure: Measure = cardMeasure(demo, { regular: font('400Regular'), bold: font('700Bold') });

const titled = (of: Plan, title: string | RegExp): Card => {
  const card = cardsOf(of).find((one) =>
    typeof title === 'string' ? one.title === title : title.test(one.title),
  );
  if (card === undefined) throw new Error(`no card ${title}`);
  return card;
};
/** Figures of a card, a row each, as numbers. */
const figuresOf = (card: Card): number[][] =>
  (card.table?.rows ?? []).map((row) => row.map(({ figure }) => numberOf(figure)));
const numberOf = (text: string): number => Number(text.replaceAll('\u2009', '').replace('−', '-'));

function marksOf(of: Plan): readonly (readonly Mark[])[] {
  const cards = cardsOf(of, outlines);
  return cards.map((card, i) => layOut(card, footOf(of, cards.length), i + 1, cards.length, measure));
}

describe('contents', () => {
  test.each([
    ['flyable', plan],
    ['failed', testPlan({ failure: FAILURE })],
    ['the demonstration', demo],
  ])(
    '[PACK-1] name every card that follows them but the proof once, by its number and question (%s)',
    (_, of) => {
      const cards = cardsOf(of);
      const contents = cards.filter(({ title }) => title.startsWith('Contents'));
      const named: number[] = [];
      for (const card of contents) {
        for (const [words, ...cells] of card.table?.rows ?? []) {
          const numbers = cells.flatMap(({ figure }) => {
            if (figure === '') return [];
            const [first, last = first] = figure.split('–').map(Number);
            return Array.from({ length: last - first + 1 }, (__, i) => first + i);
          });
          expect(cards[Math.min(...numbers) - 1].question).toBe(words.after);
          named.push(...numbers);
        }
      }
      const first = cards.findLastIndex(({ title }) => title.startsWith('Contents')) + 2;
      const all = Array.from({ length: cards.length - first }, (__, i) => first + i);
      expect(named.sort((a, b) => a - b)).toEqual(all);
    },
  );
});

describe('the order of the pack', () => {
  test('[PACK-2] a leg is flown from its climb to its contact, then the next; the proof is last', () => {
    const titles = cardsOf(demo, outlines).map(({ title }) => title);
    const at = (start: string) => titles.findIndex((title) => title.startsWith(start));
    const order = [
      'Contents', 'Route', 'Fuel, leg 1', 'Ewer One: join', 'Ewer One: in contact', 'Climb: Northern loop', 'Turns, leg 2',
      'Best altitude', 'Fuel, leg 2', 'Limits', 'Start down to Ewer Two', 'Ewer Two: join', 'Climb: Home', 'Turns, leg 3',
      'Fuel, leg 3', 'Start down to Harrow Flat', 'About', 'Proof of print',
    ].map(at); // biome-ignore format: a table
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(order[0]).toBe(0);
    expect(order.at(-1)).toBe(titles.length - 1);
  });

  test('[PACK-3] every card of the demonstration fits its page, its map too, and no two texts cover each other', () => {
    for (const marks of marksOf(demo)) {
      const boxes = marks
        .filter((mark) => mark.is === 'text')
        .map((mark) => ({ ...mark, right: mark.x + measure(mark.text, mark.height, mark.weight) }));
      const beyond = boxes.filter(
        (box) => box.y - box.height < CLIP || box.x < 8 || box.right > PAGE.width || box.y > PAGE.height - 4,
      );
      expect(beyond.map(({ text }) => text)).toEqual([]);
      const covered = boxes.flatMap((a, i) =>
        boxes
          .slice(i + 1)
          .filter((b) => a.right > b.x && b.right > a.x && a.y > b.y - b.height && b.y > a.y - a.height)
          .map((b) => `"${a.text}" and "${b.text}"`),
      );
      expect(covered).toEqual([]);
    }
  });
});

describe('the route card', () => {
  test('[PACK-4] its track lies inside the frame, and the frame on the page; without outlines there is none', () => {
    const route = marksOf(demo)[cardsOf(demo, outlines).findIndex(({ title }) => title === 'Route as flown')];
    const frame = route.findLast((mark) => mark.is === 'box' && !mark.filled);
    const paths = route.filter((mark) => mark.is === 'path' && mark.weight !== null && mark.weight >= 0.6);
    expect(paths.length).toBeGreaterThanOrEqual(2);
    if (frame?.is !== 'box') throw new Error('the map has no frame');
    expect(frame.x).toBeGreaterThanOrEqual(LEFT);
    expect(frame.x + frame.width).toBeLessThanOrEqual(RIGHT);
    for (const path of paths) {
      if (path.is !== 'path') continue;
      const numbers = [...path.d.matchAll(/-?\d+(?:\.\d+)?/g)].map(Number);
      numbers.forEach((value, i) => {
        const room = i % 2 === 0 ? frame.width : frame.height;
        expect(value).toBeGreaterThanOrEqual(-0.01);
        expect(value).toBeLessThanOrEqual(room + 0.01);
      });
    }
    expect(cardsOf(demo).some(({ title }) => title === 'Route as flown')).toBe(false);
  });
});

describe('the tanker cards', () => {
  test('[TANKER-1] what stands on the join card in four languages is one speed by air data, today’s true airspeed apart', () => {
    const card = titled(demo, 'Ewer One: join');
    const [calibrated, equivalent, mach, trueSpeed] = figuresOf(card).map((row) => row[1]);
    // 320 KCAS at 24 000 ft is 308 KEAS and M 0.747, 451 KTAS on the standard day (worked out independently).
    expect([calibrated, equivalent, mach]).toEqual([320, 308, 0.747]);
    expect(numberOf(card.table?.rows[3][1].below ?? '')).toBe(451);
    const temperatureK = demo.rendezvous[0].temperatureK;
    expect(Math.abs(trueSpeed - (mach * speedOfSound(temperatureK) * 3600) / 1852)).toBeLessThan(1);
    // The same limit of M 0.80 in the other languages, rounded down; what is left is the difference as printed.
    expect(figuresOf(card)[2].slice(1)).toEqual([0.747, 0.8, 0.053]);
    for (const [, contact, greatest, left] of figuresOf(card))
      expect(greatest - contact).toBeCloseTo(left, 6);
  });

  test('[TANKER-2] the join card says where, which way and what if there is no contact', () => {
    const answer = titled(demo, 'Ewer Two: join').answer.map(plainSpaces).join(' ');
    expect(answer).toContain('24 000 ft pressure altitude, track 2');
    expect(answer).toContain('(215° true)');
    expect(answer).toContain('Contact at 39.60N 80.20W');
    expect(answer).toContain('No contact with Ewer Two: Curlew Ridge');
  });

  test('[TANKER-3] the contact card adds up: fuel on contact and taken less burnt is that at disconnect, to the rounding', () => {
    const card = titled(demo, 'Ewer One: in contact');
    const fuel = figuresOf(card)[2].slice(1);
    const taken = numberOf(
      /Take (\S+) kg/.exec(plainSpaces(card.answer[0]).replace(/(\d) (?=\d{3})/g, '$1'))?.[1] ?? '',
    );
    const burnt = numberOf(
      /(\S+) kg are burnt/.exec(plainSpaces(card.notes[0]).replace(/(\d) (?=\d{3})/g, '$1'))?.[1] ?? '',
    );
    expect(Math.abs((fuel.at(-1) ?? 0) - (fuel[0] + taken - burnt))).toBeLessThanOrEqual(40);
    expect(card.table?.columns.map(({ name }) => name)).toEqual([
      'What',
      'Contact',
      'Afterburner',
      'Disconnect',
    ]);
    const engines = card.table?.rows.slice(-2).map((row) => row.map(({ below }) => plainSpaces(below)));
    expect(engines?.map((row) => row[2]).sort()).toEqual(['lit', 'stays dry']);
    expect(engines?.map((row) => row[3])).toContain('minimum afterburner');
  });
});

describe('the turn card', () => {
  test('[TURNS-1] a row has lead, bank, magnetic course over the true one, and roll-out; a bank that thrust limits has its note', () => {
    const card = titled(plan, 'Turns, leg 2');
    const [row] = card.table?.rows ?? [];
    expect(row[0].below).toBe('Harrow Bay, from 046°');
    expect(row.map(({ figure }) => figure)).toEqual(['', '95.3', '30', '156', '96.1']);
    expect(row.map(({ below }) => below).slice(1)).toEqual(['210', '66.7', '150', '6:00']);
    expect(row[2].after).toBe('a');
    expect(card.notes[0]).toBe('a  all the bank that the thrust allows there.');
    expect(card.answer).toEqual(['Mach and altitude are held through every turn.']);
  });

  test('[TURNS-2] what a turn loses in Mach or altitude stands first; without magnetic north the courses are true', () => {
    const turns = plan.turns.map((turn) => ({
      ...turn,
      machChange: -0.052,
      pressureAltitudeChangeM: -304.8,
      magneticFromDeg: null,
      magneticToDeg: null,
    }));
    const card = titled({ ...plan, turns }, 'Turns, leg 2');
    expect(card.answer.map(plainSpaces)).toEqual(['Harrow Bay: −0.06 Mach, −1 000 ft.']);
    expect(card.table?.rows[0][3]).toMatchObject({ figure: '150', below: '' });
    expect(card.table?.columns[3].unit).toBe('° true');
  });
});

describe('the start-down card', () => {
  test('[START-1] 10 s late at M 3.2 and 80 000 ft is 5.1 nm', () => {
    // Ground speed in still air over the ellipsoid: M 3.2 at 221.0 K, less by R / (R + h). Worked out independently: 5.1 nm.
    const height = 24_384;
    const groundSpeedMS =
      (3.2 * speedOfSound(standardTemperature(height)) * 6_371_000) / (6_371_000 + height);
    const startDowns = plan.startDowns.map((table) => ({ ...table, groundSpeedMS }));
    const card = titled({ ...plan, startDowns }, 'Start down to Ewer Two');
    expect(plainSpaces(card.answer[1])).toContain('Each 10 s late is 5.1 nm;');
    // 28 000 m of level stretch: 15 nm, rounded down, and 29 s at 950 m/s.
    expect(plainSpaces(card.answer[1])).toContain('at the latest 15 nm or 29 s later');
  });

  test('[START-2] a heavier aircraft starts earlier where the point moves back, in thousands of the gauge’s unit', () => {
    // 1.01 m for each kilogram: 1010 m for 1000 kg, 458 m for 1000 lb.
    expect(plainSpaces(titled(plan, 'Start down to Ewer Two').answer[2])).toBe(
      'Each 1 000 kg heavier: 0.5 nm earlier.',
    );
    const pounds = testPlan({ gaugeUnits: { fuelKg: 'lb', massKg: 'lb' } });
    expect(plainSpaces(titled(pounds, 'Start down to Ewer Two').answer[2])).toBe(
      'Each 1 000 lb heavier: 0.2 nm earlier.',
    );
  });

  test.each([
    ['invented', plan],
    ['the demonstration', demo],
  ])('[START-3] the worked line adds up with the figures that stand in it (%s)', (_, of) => {
    for (const table of of.startDowns) {
      const card = titled(of, `Start down to ${table.to}`);
      const line = card.notes.find((note) => note.startsWith('Worked')) ?? '';
      const text = plainSpaces(line).replace(/(\d) (?=\d{3})/g, '$1');
      const sum =
        /Worked: (\d+) − (\d+) = (\d+) ft of energy height(?:, (\d+) ft (to|from) the change of wind)?;/.exec(
          text,
        );
      const [from, to, lost, wind = 0] = (sum ?? []).slice(1, 5).map((part) => Number(part ?? 0));
      expect(Math.abs(from - to - lost)).toBeLessThanOrEqual(100);
      const way = /weight of ([\d.]+) that is (\d+) nm/.exec(text) ?? [];
      const given = sum?.[5] === 'to' ? -wind : wind;
      expect(
        Math.abs(((lost + given) / Number(way[1])) * (0.3048 / 1852) - Number(way[2])),
      ).toBeLessThanOrEqual(0.51);
    }
  });
});

describe('the level-off card', () => {
  test('[LEVEL-1] the lead is rounded up to tens of feet, the altitude to hundreds', () => {
    const card = titled(plan, 'Level-off');
    // 55.9 m are 183.4 ft; 8.8 m/s are 1732 ft/min.
    expect(card.table?.rows[0][2]).toMatchObject({ figure: '190', below: '1\u2009700' });
    expect(card.table?.rows.map((row) => row[1].figure)).toEqual(['67\u2009500', '67\u2009500']);
  });
});

describe('the altitude cards', () => {
  const grid = plan.altitudeGrids[0];
  const raised = (by: number, power: string): AltitudeGrid => ({
    ...grid,
    power,
    cells: grid.cells.map((row) =>
      row.map((cell) =>
        cell.pressureAltitudeM === null ? cell : { ...cell, pressureAltitudeM: cell.pressureAltitudeM + by },
      ),
    ),
  });
  const questions = (grids: readonly AltitudeGrid[]) => [
    ...new Set(
      cardsOf({ ...plan, altitudeGrids: grids })
        .filter(({ title }) => title.startsWith('Best altitude'))
        .map(({ question }) => question.split(',')[0]),
    ),
  ];

  test('[CARD-7] two powers whose altitudes agree within half a step share their cards; others do not', () => {
    // Half a step is 50 ft, 15.24 m.
    expect(questions([grid, raised(15, 'minimumAfterburner')])).toEqual([
      'Cruise: power as required or minimum afterburner',
    ]);
    expect(questions([grid, raised(16, 'minimumAfterburner')])).toHaveLength(2);
  });

  test('[CARD-7] where the other power has no altitude the shared card says so', () => {
    const none = { pressureAltitudeM: null, reason: 'mach', specificRangeMKg: null, inletTemperatureK: null };
    const other = raised(0, 'minimumAfterburner');
    const cells = other.cells.map((row, i) => row.map((cell, j) => (i === 1 && j === 1 ? none : cell)));
    const cards = cardsOf({ ...plan, altitudeGrids: [grid, { ...other, cells }] });
    const notes = cards.flatMap((card) => card.notes);
    expect(notes.filter((note) => /^[a-z] {2}none/.test(note))).toEqual([
      'a  none with minimum afterburner: Mach.',
    ]);
  });
});

describe('the ladder', () => {
  test('[CARD-8] ends with the landing: fuel after the approach against the reserve', () => {
    const card = cardsOf(demo).findLast(({ title }) => title.startsWith('Fuel, leg 3'));
    const row = card?.table?.rows.at(-1) ?? [];
    expect(row[1]).toMatchObject({ below: 'Landing at Harrow Flat', after: '' });
    const landing = demo.events.find(({ kind }) => kind === 'landing');
    expect(numberOf(row[2].figure)).toBe(Math.floor((landing?.fuelKg ?? 0) / 10) * 10);
    // The reserve of the sortie's file.
    expect(numberOf(row[3].figure)).toBe(2000);
  });
});

describe('the proof of print', () => {
  const proof = (of: Plan): Card => titled(of, 'Proof of print');
  const checksums = (of: Plan): Map<string, string> =>
    new Map(
      plainSpaces(proof(of).notes[0])
        .replace(/^Checksums by kind of card: /, '')
        .split(/; |\. Packs/)
        .slice(0, -1)
        .map((each) => [each.slice(0, -5), each.slice(-4)]),
    );

  test('[PROOF-1] says how many cards the pack has, and its fingerprint', () => {
    const count = cardsOf(plan).length;
    expect(proof(plan).answer[0]).toBe(`${count} cards, numbered 1 to ${count}; this is the last.`);
    expect(proof(plan).answer[1]).toContain(plan.fingerprint);
  });

  test('[PROOF-2] its rule is 100 mm long with a stroke each 10 mm, and its greys go darker in ten steps', () => {
    const marks = marksOf(plan).at(-1) ?? [];
    const paths = marks.filter((mark) => mark.is === 'path');
    expect(paths.filter(({ d }) => d.endsWith('h100'))).toHaveLength(1);
    const strokes = paths.flatMap(({ d }) => /^M(\d+) \d+v-/.exec(d)?.slice(1).map(Number) ?? []);
    expect(strokes).toEqual([0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100]);
    const greys = paths.filter(({ weight }) => weight === null).map(({ grey }) => grey);
    expect(greys).toHaveLength(10);
    expect(greys).toEqual([...greys].sort((a, b) => b - a));
    expect(new Set(greys.map((grey) => Math.round(grey * 255))).size).toBe(10);
  });

  test('[PROOF-3] a change of one kind of card changes its checksum and no other', () => {
    const startDowns = plan.startDowns.map((table) => ({ ...table, levelM: table.levelM + 5000 }));
    const [before, after] = [checksums(plan), checksums({ ...plan, startDowns })];
    expect([...before.keys()]).toEqual([...after.keys()]);
    expect(before.size).toBeGreaterThan(8);
    for (const [kind, checksum] of before) {
      expect(checksum).toMatch(/^[ACDEFGHJKLMNPQRTUVWXYZ234679]{4}$/);
      expect(after.get(kind) === checksum, kind).toBe(kind !== 'Start down');
    }
  });
});

describe('a card with more rows than there is room for', () => {
  const foot = footOf(demo, 100);
  const row = (name: string) => [words(name), cell('12', '3')];
  const names = Array.from({ length: 9 }, (_, i) => `Row ${i + 1}`);
  const full: Card = {
    title: 'Rows',
    question: 'How many rows go on a page?',
    answer: Array.from({ length: 13 }, (_, i) => `Sentence ${i + 1} takes a line.`),
    table: {
      columns: [
        { name: 'Name', unit: '', holds: 'words' },
        { name: 'Fuel', unit: 'kg', holds: 'figures' },
      ],
      rows: names.map(row),
    },
    notes: ['Each card keeps this note.'],
  };

  test('[PACK-20] goes on on another, with every row once and in order', () => {
    expect(() => layOut(full, foot, 1, 100, measure)).toThrow(RangeError);
    const cards = onPages(full, foot, measure);
    expect(cards.map(({ title }) => title)).toEqual(['Rows', 'Rows, continued']);
    expect(cards.flatMap(({ table }) => table?.rows.map(([name]) => name) ?? [])).toEqual(
      names.map((name) => words(name)),
    );
    for (const card of cards) {
      expect(card.answer).toBe(full.answer);
      expect(card.notes).toBe(full.notes);
      expect(layOut(card, foot, 1, 100, measure).length).toBeGreaterThan(10);
    }
  });

  test('[PACK-21] and one that has room is left as it is, in the whole pack of the demonstration', () => {
    const roomy = { ...full, answer: [] };
    expect(onPages(roomy, foot, measure)).toEqual([roomy]);
    const titles = (cards: readonly Card[]) => cards.map(({ title }) => title);
    expect(titles(cardsOf(demo, outlines, measure))).toEqual(titles(cardsOf(demo, outlines)));
  });

  test('[PACK-22] of which not even one row has room is a fault that is told', () => {
    const answer = Array.from({ length: 60 }, (_, i) => `Sentence ${i + 1}.`);
    expect(() =>
      onPages({ ...full, answer }, foot, measure).map((card) => layOut(card, foot, 1, 1, measure)),
    ).toThrow(RangeError);
  });
});
