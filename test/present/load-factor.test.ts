/** Load factor against speed as a card and a chart: what they say is what the plan holds, and no name lies on a curve or another. */
import { describe, expect, it } from 'vitest';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import { MOST_COLUMNS, MOST_ROWS } from '../../src/present/card/card.ts';
import { loadFactorCards } from '../../src/present/card/load-factor.ts';
import type { Mark } from '../../src/present/card/page.ts';
import { contactFigures } from '../../src/present/chart/contact.ts';
import { figureCharts } from '../../src/present/chart/figures.ts';
import { envelopeFigure } from '../../src/present/chart/manoeuvre.ts';
import { PAPER, textWidth } from '../../src/present/theme.ts';
import { gaugesOf } from '../../src/present/units.ts';
import { longLoopText, requestOf } from '../support/demo.ts';
import { readXml } from '../support/xml.ts';

const plan = makePlan(requestOf(longLoopText));
const gauges = gaugesOf(plan);
const knots = (speedMS: number) => (speedMS * 3600) / 1852;
const number = (text: string) => Number(text.replaceAll(/[\u2009\u00a0]/g, ''));

interface Box {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Texts of the drawing itself, in its own frame; the name of the upright axis stands in the frame of the whole. */
function boxesOf(svg: string): Box[] {
  const head = Number(/<g transform="translate\(0 (\d+)\)">/.exec(svg)?.[1]);
  return [...svg.matchAll(/<text ([^>]*)>([^<]*)<\/text>/g)].map(([, attributes, text], i) => {
    const of = (name: string) => new RegExp(`(?:^| )${name}="([^"]*)"`).exec(attributes)?.[1];
    const size = Number(of('font-size'));
    const wide = textWidth(text, size);
    const anchor = of('text-anchor');
    const left = Number(of('x')) - (anchor === 'end' ? wide : anchor === 'middle' ? wide / 2 : 0);
    const y = Number(of('y')) - (i === 0 ? head : 0);
    // Figures and capitals are two thirds of the size high.
    return { text, left, right: left + wide, top: y - 0.67 * size, bottom: y };
  });
}

/** Points along every curve of a drawing, a step of its frame apart. */
function pointsOf(svg: string): (readonly [number, number])[] {
  return [...svg.matchAll(/<path d="([^"]+)" fill="none"/g)].flatMap(([, d]) =>
    d.split('M').flatMap((piece) => {
      const nodes = piece.split('L').map((pair) => pair.split(/[ ,]/).map(Number));
      return nodes.slice(1).flatMap(([x, y], i) => {
        const [fromX, fromY] = nodes[i];
        const steps = Math.ceil(Math.hypot(x - fromX, y - fromY));
        return Array.from(
          { length: steps + 1 },
          (_, k) => [fromX + ((x - fromX) * k) / steps, fromY + ((y - fromY) * k) / steps] as const,
        );
      });
    }),
  );
}

function collisions(svg: string): string[] {
  const boxes = boxesOf(svg);
  const height = Number(/<svg x="\d+" y="0" width="[\d.]+" height="(\d+)"/.exec(svg)?.[1]);
  const points = pointsOf(svg).filter(([, y]) => y >= 0 && y <= height);
  expect(points.length).toBeGreaterThan(100);
  return boxes.flatMap((box, i) => [
    ...boxes
      .slice(i + 1)
      .filter((b) => box.right > b.left && b.right > box.left && box.bottom > b.top && b.bottom > box.top)
      .map((b) => `"${box.text}" on "${b.text}"`),
    ...(points.some(([x, y]) => x > box.left && x < box.right && y > box.top && y < box.bottom)
      ? [`"${box.text}" on a curve`]
      : []),
  ]);
}

describe('the drawings', () => {
  it.each([360, 560, 760, 1000])(
    '[MAN-26] of load factor have no name on a curve or on another, %d wide',
    (width) => {
      const look = { theme: PAPER, width };
      const figures = plan.manoeuvres.map((table) => envelopeFigure(table, gauges, look));
      expect(figures).toHaveLength(4);
      for (const figure of figures) expect(collisions(figure?.svg ?? '')).toEqual([]);
    },
  );

  it.each([360, 560, 760, 1000])('[CONTACT-C6] of a contact have none either, %d wide', (width) => {
    const figures = plan.contacts.flatMap((study) => contactFigures(plan, study, { theme: PAPER, width }));
    expect(figures).toHaveLength(4);
    for (const { svg } of figures) expect(collisions(svg)).toEqual([]);
  });
});

describe('the charts beside a plan', () => {
  const charts = figureCharts(plan, { theme: PAPER });

  it('[CHART-70] are each contact, each fuel state and the centre of gravity, whole drawings with caution and fingerprint', () => {
    expect(charts.map(({ name }) => name)).toEqual([
      'contact-1',
      'contact-2',
      'load-factor-1',
      'load-factor-2',
      'load-factor-3',
      'load-factor-4',
      'centre-of-gravity',
    ]);
    for (const { svg } of charts) {
      expect(readXml(svg).attributes.xmlns).toBe('http://www.w3.org/2000/svg');
      expect(svg).toContain('The approved flight manual');
      expect(svg).toContain(plan.fingerprint);
    }
  });

  it('[CHART-71] have in their tables what is drawn, a row for each of its points', () => {
    const rows = (name: string) => charts.find((one) => one.name === name)?.table.rows ?? [];
    expect(rows('contact-1')).toHaveLength(plan.contacts[0].rows.length);
    expect(rows('load-factor-3')).toHaveLength(plan.manoeuvres[2].envelope?.points.length ?? 0);
    const { cgFraction, mach } = plan.trace.columns;
    expect(rows('centre-of-gravity')).toHaveLength(mach.length);
    rows('centre-of-gravity').forEach((row, node) => {
      expect(Math.abs(number(row[5]) - 100 * cgFraction[node])).toBeLessThanOrEqual(0.05 + 1e-9);
    });
  });

  it('[CHART-72] leave out what a plan has not', () => {
    const manoeuvres = plan.manoeuvres.map((table) => ({ ...table, envelope: null }));
    const columns = { ...plan.trace.columns, cgFraction: plan.trace.columns.mach.map(() => Number.NaN) };
    const bare = { ...plan, contacts: [], manoeuvres, trace: { ...plan.trace, columns } };
    expect(figureCharts(bare, { theme: PAPER })).toEqual([]);
  });
});

describe('the cards of load factor against speed', () => {
  const cards = loadFactorCards(plan, 1);

  it('[CARD-100] stand at each fuel state after a tanker, none before the first', () => {
    expect(loadFactorCards(plan, 0)).toEqual([]);
    expect(cards.map(({ title }) => title.replaceAll(/[\u2009\u00a0]/g, ''))).toEqual([
      'Load factor after Ewer One, 24000ft',
      'Load factor at the top of the climb after Ewer One, 33000ft',
    ]);
    expect(cards[0].answer[0].replaceAll(/[\u2009\u00a0]/g, ' ')).toContain('38 500 kg');
  });

  it('[CARD-101] say down to a knot and a hundredth up to where the warning comes before each other bound', () => {
    const tables = plan.manoeuvres.filter(({ leg }) => leg === 1);
    cards.forEach(({ table }, i) => {
      const met = [...(tables[i].envelope?.warnedUpTo ?? [])].sort((a, b) => a.at.mach - b.at.mach);
      expect(met).toHaveLength(3);
      expect(table?.rows.length).toBeLessThanOrEqual(MOST_ROWS);
      expect(table?.columns.length).toBeLessThanOrEqual(MOST_COLUMNS);
      met.forEach(({ at, loadFactor }, k) => {
        const [, speed, mach, pulled] = table?.rows[k] ?? [];
        expect(number(speed.figure)).toBe(Math.floor(knots(at.calibratedAirspeedMS)));
        expect(number(mach.figure)).toBeCloseTo(Math.floor(at.mach * 100) / 100, 9);
        expect(number(pulled.figure)).toBeCloseTo(Math.floor(loadFactor * 100 + 1e-9) / 100, 9);
      });
    });
  });

  it('[CARD-102] draw six curves, told apart by dash and weight, and none beyond its frame', () => {
    const room = { left: 9, top: 100, width: 129, height: 60 };
    for (const { drawing } of cards) {
      const marks: readonly Mark[] = drawing?.marks(room, (text, height) => text.length * height * 0.8) ?? [];
      const curves = marks.flatMap((mark) => (mark.is === 'path' && mark.grey === 0 ? [mark] : []));
      expect(new Set(curves.map(({ weight, dash }) => `${weight} ${dash}`)).size).toBe(6);
      for (const { d } of curves) {
        for (const [, x, y] of d.matchAll(/([\d.]+) ([\d.]+)/g)) {
          expect(Number(x)).toBeGreaterThanOrEqual(room.left);
          expect(Number(x)).toBeLessThanOrEqual(room.left + room.width);
          expect(Number(y)).toBeGreaterThanOrEqual(room.top);
          expect(Number(y)).toBeLessThanOrEqual(room.top + room.height);
        }
      }
      const names = marks.flatMap((mark) => (mark.is === 'text' ? [mark.text] : []));
      for (const name of ['warning', 'push', 'structure', 'structure, rolling', 'held to', 'thrust']) {
        expect(names).toContain(name);
      }
    }
  });
});
