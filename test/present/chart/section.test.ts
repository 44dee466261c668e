import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../src/core/plan/plan.ts';
import {
  crossings,
  type Field,
  isoline,
  isolineLevels,
  isolineStep,
} from '../../../src/present/chart/isolines.ts';
import { sectionChart, sectionTable } from '../../../src/present/chart/section.ts';
import { tableCsv } from '../../../src/present/table.ts';
import { PAPER } from '../../../src/present/theme.ts';
import { plainSpaces } from '../../../src/present/units.ts';
import { testPlan } from '../../support/plan.ts';
import { all, readXml, type XmlElement } from '../../support/xml.ts';

const plan = testPlan();

function drawn(of: Plan): XmlElement {
  return readXml(sectionChart(of, { theme: PAPER }) ?? '');
}

function wordsOf(root: XmlElement): readonly string[] {
  return all(root)
    .filter((element) => element.name === 'text')
    .map((element) => plainSpaces(element.text));
}

/** A field of x + 2 y over 0 to 4 and 0 to 3. */
function plane(missing?: readonly [number, number]): Field {
  const [x, y] = [
    [0, 1, 2, 3, 4],
    [0, 1, 2, 3],
  ];
  const values = x.map((a, i) =>
    y.map((b, j) => (missing?.[0] === i && missing[1] === j ? null : a + 2 * b)),
  );
  return { x, y, values };
}

function strokes(path: string): number[][] {
  return path
    .split('M')
    .slice(1)
    .map((stroke) => (stroke.match(/-?\d+(\.\d+)?/g) ?? []).map(Number));
}

describe('isolines', () => {
  test('[SECTION-5] run straight through a field that is a plane, from edge to edge', () => {
    const parts = strokes(isoline(plane(), 4.5));
    for (const [x1, y1, x2, y2] of parts) {
      expect(x1 + 2 * y1).toBeCloseTo(4.5, 0);
      expect(Math.abs(x1 + 2 * y1 - 4.5)).toBeLessThan(0.16);
      expect(Math.abs(x2 + 2 * y2 - 4.5)).toBeLessThan(0.16);
    }
    const length = parts.reduce((sum, [x1, y1, x2, y2]) => sum + Math.hypot(x2 - x1, y2 - y1), 0);
    // From (0, 2.25) to (4, 0.25).
    expect(Math.abs(length - Math.hypot(4, 2))).toBeLessThan(0.3);
  });

  test('[SECTION-6] leave out cells with an unknown corner', () => {
    const parts = strokes(isoline(plane([2, 1]), 4.5));
    expect(parts.length).toBeGreaterThan(0);
    for (const [x1, y1, x2, y2] of parts) {
      const [x, y] = [(x1 + x2) / 2, (y1 + y2) / 2];
      expect(x > 1 && x < 3 && y > 0 && y < 2).toBe(false);
    }
  });

  test('[SECTION-7] go round the high corners of a saddle whose middle is low, and together where it is high', () => {
    const saddle = (level: number) =>
      strokes(
        isoline(
          {
            x: [0, 10],
            y: [0, 10],
            values: [
              [1, 0],
              [0, 1],
            ],
          },
          level,
        ),
      );
    // Corners (0, 0) and (10, 10) are 1; low level: the low corners are cut off.
    const cut = saddle(0.2).map(([x1, y1, x2, y2]) => [(x1 + x2) / 2, (y1 + y2) / 2]);
    expect(cut).toHaveLength(2);
    for (const [x, y] of cut) expect(Math.abs(x - y)).toBeGreaterThan(5);
    const round = saddle(0.8).map(([x1, y1, x2, y2]) => [(x1 + x2) / 2, (y1 + y2) / 2]);
    expect(round).toHaveLength(2);
    for (const [x, y] of round) expect(Math.abs(x - y)).toBeLessThan(1);
  });

  test('[SECTION-8] are drawn at round values and named where they cross', () => {
    expect(isolineStep(plane(), 5)).toBe(2);
    expect(isolineLevels(plane(), 2)).toEqual([0, 2, 4, 6, 8, 10]);
    expect(crossings(plane(), 1, [2, 4])).toEqual([
      { level: 4, y: 1.5 },
      { level: 2, y: 0.5 },
    ]);
    const unknown: Field = {
      x: [0, 1],
      y: [0, 1],
      values: [
        [null, null],
        [null, Number.NaN],
      ],
    };
    expect(isolineLevels(unknown, isolineStep(unknown, 5))).toEqual([]);
  });
});

describe('the section of a plan', () => {
  test('[SECTION-9] names its lines with signs and says what is not known, in words', () => {
    const words = wordsOf(drawn(plan));
    expect(words).toContain('Temperature less standard [K] over height [ft pressure altitude]');
    expect(words).toContain('+20');
    expect(words).toContain('−10');
    expect(words.some((text) => text.includes('no data. The weather covers up to 72 000 ft'))).toBe(true);
    expect(words.some((text) => text.startsWith('Wide hatch'))).toBe(false);
    const held = {
      side: 'above',
      edgeM: 20_000,
      spreads: [],
      edgePa: 5529,
      flownBeyondM: 1000,
      spreadK: 2,
    } as const;
    const other = wordsOf(drawn({ ...plan, weather: { ...plan.weather, gaps: [held] } }));
    expect(other.some((text) => text.startsWith('Wide hatch'))).toBe(true);
  });

  test('[SECTION-10] cells without data are hatched, each by its own', () => {
    const hatched = all(drawn(plan)).filter((e) => e.attributes.fill === 'url(#land)');
    const section = plan.section;
    const cells = section === null ? 0 : 3 * section.timeS.length;
    expect(hatched.map((e) => e.attributes.d.split('Z').length - 1)).toEqual([cells, cells]);
  });

  test('[SECTION-11] a plan that flew nothing has no chart and an empty table', () => {
    const grounded = { ...plan, section: null };
    expect(sectionChart(grounded, { theme: PAPER })).toBeNull();
    expect(sectionTable(grounded).rows).toEqual([]);
  });

  test('[SECTION-12] the table has a row for each sample and says what was held', () => {
    const held = {
      side: 'below',
      edgeM: 300,
      spreads: [],
      edgePa: 97_800,
      flownBeyondM: 0,
      spreadK: null,
    } as const;
    const table = sectionTable({ ...plan, weather: { ...plan.weather, gaps: [held] } });
    const { section } = plan;
    expect(table.rows).toHaveLength((section?.timeS.length ?? 0) * (section?.pressureAltitudeM.length ?? 0));
    const [, first, second] = tableCsv(table).split('\r\n');
    expect(first).toBe('0:00:00,15:40Z,0,4.0,19.4,-5.8,held');
    expect(second).toBe('0:00:00,15:40Z,3000,3.0,21.4,-5.8,data');
    expect(table.rows[27].slice(2)).toEqual([
      '81\u2009000',
      'not computed',
      'not computed',
      'not computed',
      'no data',
    ]);
  });
});
