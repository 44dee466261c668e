import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { CAUTION, type Plan } from '../../src/core/plan/plan.ts';
import { footOf, MOST_COLUMNS, MOST_ROWS } from '../../src/present/card/card.ts';
import { layOut } from '../../src/present/card/layout.ts';
import { cardsOf } from '../../src/present/card/pack.ts';
import { CLIP, HEIGHT, type Mark, PAGE } from '../../src/present/card/page.ts';
import { type CardFonts, cardMeasure, cardsPdf } from '../../src/present/card/pdf.ts';
import { cardsText, cardText } from '../../src/present/card/text.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { FAILURE, testPlan } from '../support/plan.ts';

const FACE = '@expo-google-fonts/atkinson-hyperlegible-next';
const resolve = createRequire(import.meta.url).resolve;
const font = (name: string) => readFileSync(resolve(`${FACE}/${name}/AtkinsonHyperlegibleNext_${name}.ttf`));
const fonts: CardFonts = { regular: font('400Regular'), bold: font('700Bold') };

const flyable = testPlan();
const failed = testPlan({ failure: FAILURE });
const inPounds = testPlan({
  gaugeUnits: { fuelKg: 'lb', massKg: 'lb', inletTemperatureK: 'degF', pressureAltitudeM: 'ft' },
});
const plans: readonly [string, Plan][] = [
  ['flyable', flyable],
  ['failed', failed],
  ['pounds', inPounds],
];

type TextMark = Extract<Mark, { is: 'text' }>;

function pages(plan: Plan): readonly (readonly Mark[])[] {
  const cards = cardsOf(plan);
  const measure = cardMeasure(plan, fonts);
  return cards.map((card, i) => layOut(card, footOf(plan, cards.length), i + 1, cards.length, measure));
}

function textsOf(marks: readonly Mark[]): readonly TextMark[] {
  return marks.filter((mark) => mark.is === 'text');
}

describe.each(plans)('cards of a plan (%s)', (_, plan) => {
  const cards = cardsOf(plan);

  test('[CARD-1] no card has more than nine rows or five columns, and none is empty', () => {
    for (const { table } of cards) {
      if (table === null) continue;
      expect(table.rows.length).toBeGreaterThan(0);
      expect(table.rows.length).toBeLessThanOrEqual(MOST_ROWS);
      expect(table.columns.length).toBeLessThanOrEqual(MOST_COLUMNS);
      for (const row of table.rows) expect(row).toHaveLength(table.columns.length);
    }
  });

  test('[CARD-2] every printed card carries fingerprint, validity, weather, attribution, caution and its number', () => {
    pages(plan).forEach((marks, i) => {
      const words = textsOf(marks)
        .map((mark) => mark.text)
        .join(' ');
      expect(words).toContain('K4WT7M');
      expect(words).toContain('Valid for take-off 2026-02-23 15:10Z to 16:40Z');
      expect(words).toContain('ERA5 analysis; run 2020-02-23 16:00Z');
      expect(words).toContain('stands for 2026-02-23');
      expect(words).toContain(plan.weather.attribution[0]);
      expect(words).toContain(CAUTION);
      expect(words).toContain(`card ${i + 1} of ${cards.length}`);
    });
  });

  test('[CARD-3] nothing stands under the clip or beyond the page, and no two texts overlap', () => {
    const measure = cardMeasure(plan, fonts);
    for (const marks of pages(plan)) {
      const boxes = textsOf(marks).map((mark) => ({
        text: mark.text,
        left: mark.x,
        right: mark.x + measure(mark.text, mark.height, mark.weight),
        top: mark.y - mark.height,
        bottom: mark.y,
      }));
      for (const box of boxes) {
        expect(box.top, box.text).toBeGreaterThanOrEqual(CLIP);
        expect(box.bottom, box.text).toBeLessThanOrEqual(PAGE.height - 4);
        expect(box.left, box.text).toBeGreaterThanOrEqual(8);
        expect(box.right, box.text).toBeLessThanOrEqual(PAGE.width);
      }
      boxes.forEach((a, i) => {
        for (const b of boxes.slice(i + 1)) {
          const apart = a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
          expect(apart, `"${a.text}" and "${b.text}"`).toBe(true);
        }
      });
    }
  });

  test('[CARD-4] deciding figures are 4.9 mm high on the page: every figure of the table is set at that height', () => {
    pages(plan).forEach((marks, i) => {
      const large = textsOf(marks)
        .filter((mark) => mark.height === HEIGHT.large)
        .map((mark) => mark.text);
      for (const row of cards[i].table?.rows ?? []) {
        for (const { figure } of row) if (figure !== '') expect(large).toContain(figure);
      }
    });
    expect(HEIGHT.large).toBe(4.9);
  });

  test('[CARD-5] the text of a card says the same figures as its page', () => {
    const foot = footOf(plan, cards.length);
    pages(plan).forEach((marks, i) => {
      const text = cardText(cards[i], foot, i + 1, cards.length);
      for (const mark of textsOf(marks)) {
        if (mark.height === HEIGHT.large && /\d/.test(mark.text)) {
          expect(text).toContain(plainSpaces(mark.text));
        }
      }
    });
  });
});

describe('the cards', () => {
  test('[CARD-6] the climb card has a row each 0.3 Mach from 0.9 with the fuel required below the fuel on board', () => {
    const climb = cardsOf(flyable).find((card) => card.title === 'Climb: from Ewer One');
    expect(climb?.table?.rows.slice(0, 4).map((row) => row[0].figure)).toEqual([
      '0.90',
      '1.20',
      '1.50',
      '1.80',
    ]);
    expect(climb?.answer.map(plainSpaces)).toEqual([
      'Climb at 430 KEAS.',
      'Pushover at 5:00 from 33 000 ft, M 0.92 to 29 000 ft, M 1.15.',
      'Time from disconnect from Ewer One, planned at 0:42 (16:22Z).',
    ]);
    const row = flyable.climbs[0].rows[2];
    const fuel = climb?.table?.rows[2][3];
    expect(Number(fuel?.figure.replace('\u2009', ''))).toBe(Math.floor(row.fuelKg / 10) * 10);
    expect(Number(fuel?.below.replace('\u2009', ''))).toBe(Math.ceil(row.fuelRequiredKg / 10) * 10);
    expect(climb?.table?.columns.map((column) => column.unit)).toContain('KEAS');
  });

  test('[CARD-7] a blank cell of the altitude grid says why, a held one has a footnote, the worked line adds up', () => {
    const grids = cardsOf(flyable).filter((card) => card.title.startsWith('Best altitude'));
    const cells = grids.flatMap((card) => card.table?.rows.flat() ?? []);
    expect(cells.filter((cell) => cell.figure === '').map((cell) => cell.below)).toEqual([
      'thrust',
      'thrust',
    ]);
    expect(cells.some((cell) => cell.after === 'a')).toBe(true);
    const warm = grids.find((card) => card.notes.some((note) => note.startsWith('a  held')));
    expect(warm?.notes[0]).toBe('a  held there by: inlet temperature.');
    const worked =
      warm?.notes
        .find((note) => note.startsWith('Read'))
        ?.replaceAll('\u2009', '')
        .replaceAll('\u00a0', ' ') ?? '';
    const [fuel, empty, mass] = (worked.match(/\d+(?= kg)/g) ?? []).map(Number);
    expect(fuel + empty).toBe(mass);
    expect(mass).toBeGreaterThan(27_000);
  });

  test('[CARD-7] the line between cells is worked with figures that stand on the card, and its steps add up', () => {
    for (const card of cardsOf(flyable).filter(({ title }) => title.startsWith('Best altitude'))) {
      const note = card.notes.find((text) => text.startsWith('Worked between cells'));
      const text = note?.replaceAll('\u2009', '').replaceAll('\u00a0', ' ').replaceAll('−', '-') ?? '';
      const printed = new Set(card.table?.rows.flat().map((at) => at.figure.replace('\u2009', '')));
      const sums = [...text.matchAll(/(\d+) ([-+]) 0\.4 × (\d+) = (\d+)/g)];
      expect(sums).toHaveLength(3);
      const [first, second, last] = sums.map(([, from, sign, step, to]) => ({ from, sign, step, to }));
      for (const { from, sign, step, to } of [first, second, last]) {
        expect(
          Math.abs(Number(from) + (sign === '-' ? -0.4 : 0.4) * Number(step) - Number(to)),
        ).toBeLessThanOrEqual(0.5);
      }
      expect(printed).toContain(first.from);
      expect(printed).toContain(second.from);
      expect(last.from).toBe(first.to);
      expect(Number(/so (\d+) ft/.exec(text)?.[1])).toBe(Math.round(Number(last.to) / 100) * 100);
    }
  });

  test('[CARD-7] each card of a grid begins with the temperature that ends the one before, so that all between can be found', () => {
    const [first, second] = cardsOf(flyable).filter(({ title }) => title.startsWith('Best altitude'));
    const names = [first, second].map((card) => card.table?.columns.slice(1).map(({ name }) => name) ?? []);
    expect(names[1][0]).toBe(names[0].at(-1));
    expect(new Set(names.flat()).size).toBe(flyable.altitudeGrids[0].temperatureOffsetK.length);
  });

  test('[CARD-7] the standard-day altitude stands small below the altitudes of other days', () => {
    const [cold] = cardsOf(flyable).filter((card) => card.title.startsWith('Best altitude'));
    const standard = cold.table?.columns.findIndex((column) => plainSpaces(column.name) === 'ISA +0 K') ?? -1;
    expect(standard).toBeGreaterThan(0);
    for (const row of cold.table?.rows ?? []) expect(row[1].below).toBe(row[standard].figure);
    const fuel = cold.table?.rows.map((row) => Number(row[0].figure.replace('\u2009', ''))) ?? [];
    expect(fuel).toEqual([...fuel].sort((a, b) => b - a));
  });

  test('[CARD-8] the ladder leaves room for the pencil and its printed difference adds up', () => {
    const ladders = cardsOf(flyable).filter((card) => card.title.startsWith('Fuel, leg'));
    expect(ladders.length).toBeGreaterThanOrEqual(3);
    for (const { table } of ladders) {
      expect(table?.columns.at(-1)?.holds).toBe('pencil');
      for (const [, , planned, required] of table?.rows ?? []) {
        const [a, b, c] = [planned.figure, required.figure, planned.below].map((text) =>
          Number(text.replace('\u2009', '')),
        );
        expect(a - b).toBe(c);
      }
    }
  });

  test('[CARD-8] a row of the clock within three minutes of a row of a place is left out, and no place is', () => {
    const rows = flyable.ladder.slice(0, 3).map((row, i) => ({
      ...row,
      timeS: [600, 780, 1_200][i],
      name: ['', 'Alder', ''][i],
    }));
    const [card] = cardsOf({ ...flyable, ladder: rows }).filter(({ title }) => title.startsWith('Fuel, leg'));
    expect(card.table?.rows.map((row) => row[0].figure)).toEqual(['0:13', '0:20']);
    expect(card.answer.map(plainSpaces)[1]).toBe(
      'No contact with Ewer One: Gannet Point, 222 nm, 0:37, needs 4 200 kg with its reserve; lands with 4 840 kg.',
    );
  });

  test('[CARD-9] limits stand in the order of the plan with spread and pad', () => {
    const card = cardsOf(flyable).find(({ title }) => title === 'Limits in order');
    expect(card?.table?.rows.map((row) => row[0].below)).toEqual(flyable.limits.map((limit) => limit.name));
    const inlet = card?.table?.rows.find((row) => row[0].below === 'Inlet temperature');
    expect(inlet?.[1].figure).toMatch(/^\d+\u00a0±\u00a05$/);
    expect(inlet?.[3].after).toBe('pad 10\u00a0K');
  });

  test('[CARD-10] a sortie that cannot be flown begins with why and what frees it', () => {
    const [first, second] = cardsOf(failed);
    expect(first.title).toBe('Cannot be flown');
    expect(plainSpaces(first.answer[0])).toBe(
      'Not flyable: inlet temperature binds at 1:11 in the cruise at M 2.85, 47.21N 81.05W, by 15 K, of which 10 K is the pad.',
    );
    expect(plainSpaces(first.answer[1])).toBe(
      'Freed by one change: cruise Mach of leg 2, M 2.78 instead of M 2.85. Then 10 K left at that limit and 610 kg of fuel in hand.',
    );
    expect(second.title).toBe('Contents, 1 of 2');
    expect(cardsOf(flyable)[0].title).not.toBe('Cannot be flown');
    const warning = 'This sortie cannot be flown as it stands: see card 1.';
    for (const marks of pages(failed)) expect(textsOf(marks).map((mark) => mark.text)).toContain(warning);
    for (const marks of pages(flyable))
      expect(textsOf(marks).map((mark) => mark.text)).not.toContain(warning);
  });

  test('[CARD-10] an excess within the pad is said to be in the pad, and the card sets the freed figures beside the others', () => {
    const [first] = cardsOf(testPlan({ failure: { ...FAILURE, excess: 2.4 } }));
    expect(plainSpaces(first.answer[0])).toContain(', 3 K into its pad of 10 K.');
    const rows = first.table?.rows.map((row) =>
      row.map((at) => plainSpaces(at.figure === '' ? at.below : at.figure)),
    );
    expect(rows?.slice(0, 2)).toEqual([
      ['Cruise Mach of leg 2', '2.85', '2.78'],
      ['Inlet temperature, left to the limit', '7', '10'],
    ]);
    expect(rows?.[2].at(-1)).toBe('610');
  });

  test('[CARD-10] a flight that stopped says why in its own words, and that nothing frees it where nothing does', () => {
    const text = 'thrust is 6 kN less than drag at Mach 1.08';
    const stopped = testPlan({ failure: { ...FAILURE, text, excess: null, freedBy: null } });
    expect(cardsOf(stopped)[0].answer.map(plainSpaces)).toEqual([
      `Not flyable: ${text}, at 1:11 in the cruise at M 2.85, 47.21N 81.05W.`,
      'No single change was found that frees it.',
    ]);
  });

  test('[CARD-11] a long attribution is shortened on the cards and stands whole on the last before the proof', () => {
    const attribution = [`Source A (${'a '.repeat(150)})`, `Source B (${'b '.repeat(150)})`];
    const plan: Plan = { ...flyable, weather: { ...flyable.weather, attribution } };
    const cards = cardsOf(plan);
    const foot = footOf(plan, cards.length);
    expect(foot.attribution).toEqual([`Source A; Source B; in full on card ${cards.length - 1}.`]);
    expect(cards.at(-2)?.notes).toEqual(expect.arrayContaining(attribution));
  });
});

describe('the pack as text', () => {
  test('[CARD-2] every card of it ends with the caution, and all cards are there', () => {
    const text = cardsText(flyable);
    const count = cardsOf(flyable).length;
    expect(text.split(CAUTION)).toHaveLength(count + 1);
    for (let i = 1; i <= count; i++) expect(text).toContain(`card ${i} of ${count}`);
    expect(text).toContain('________');
  });
});

describe('the PDF', () => {
  test('[CARD-12] the same plan gives the same bytes, another plan other bytes', async () => {
    const [a, b, c] = await Promise.all([
      cardsPdf(flyable, fonts),
      cardsPdf(testPlan(), fonts),
      cardsPdf(failed, fonts),
    ]);
    expect(Buffer.compare(a, b)).toBe(0);
    expect(Buffer.compare(a, c)).not.toBe(0);
  });

  test('[CARD-13] it is an A5 PDF with a page for each card and the face inside', async () => {
    const bytes = Buffer.from(await cardsPdf(flyable, fonts)).toString('latin1');
    expect(bytes.startsWith('%PDF-1.')).toBe(true);
    expect(bytes.match(/\/Type \/Page\n/g)).toHaveLength(cardsOf(flyable).length);
    const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(bytes);
    expect(Number(box?.[1]) / 72).toBeCloseTo(148 / 25.4, 3);
    expect(Number(box?.[2]) / 72).toBeCloseTo(210 / 25.4, 3);
    expect(bytes.match(/AtkinsonHyperlegibleNext-(Regular|Bold)/g)?.length).toBeGreaterThanOrEqual(2);
    expect(bytes).toContain('/FontFile2');
  });
});
