import { describe, expect, test } from 'vitest';
import { CAUTION, type Plan } from '../../src/core/plan/plan.ts';
import { fuelChart } from '../../src/present/chart/fuel.ts';
import { marginsChart } from '../../src/present/chart/margins.ts';
import { oneScaleChart } from '../../src/present/chart/margins-one-scale.ts';
import { profileChart } from '../../src/present/chart/profile.ts';
import { sectionChart } from '../../src/present/chart/section.ts';
import { stripChart } from '../../src/present/chart/strip.ts';
import { fuelTable, marginsTable, profileTable } from '../../src/present/chart/tables.ts';
import { tableCsv, tableText } from '../../src/present/table.ts';
import { NIGHT, PAPER } from '../../src/present/theme.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { testPlan } from '../support/plan.ts';
import { all, readXml, type XmlElement } from '../support/xml.ts';

const plan = testPlan();
const short = testPlan({ fuelKg: 12_900 });
const charts: readonly [string, (plan: Plan, options: { theme: typeof PAPER }) => string][] = [
  ['profile', profileChart],
  ['fuel', fuelChart],
  ['margins', marginsChart],
  ['one-scale', oneScaleChart],
  ['section', (of, options) => sectionChart(of, options) ?? ''],
  ['strip', stripChart],
];

function wordsOf(root: XmlElement): readonly string[] {
  return all(root)
    .filter((element) => element.name === 'text')
    .map((element) => plainSpaces(element.text));
}

/** Greatest and least y of the drawn commands of a path. */
function numbersOf(path: string): readonly number[] {
  return (path.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
}

describe.each(charts)('%s chart', (_, draw) => {
  const root = readXml(draw(plan, { theme: PAPER }));
  const words = wordsOf(root);

  test('[CHART-1] is well-formed SVG with a title and a description for readers of screens', () => {
    expect(root.name).toBe('svg');
    expect(root.attributes.viewBox).toMatch(/^0 0 1000 \d/);
    expect(root.attributes.role).toBe('img');
    expect(root.children.slice(0, 2).map((child) => child.name)).toEqual(['title', 'desc']);
    expect(root.children[1].text.length).toBeGreaterThan(40);
  });

  test('[CHART-2] names phases and events on the drawing, time in UTC and since take-off, and has no legend', () => {
    for (const name of [
      'Contact with Ewer One',
      'Contact with Ewer Two',
      'pushover',
      'Harrow Bay',
      'Start down',
    ]) {
      expect(words).toContain(name);
    }
    expect(words).toContain('1:00');
    expect(words).toContain('17:00Z');
    expect(words.some((text) => /legend/i.test(text))).toBe(false);
  });

  test('[CHART-3] carries fingerprint, weather, attribution and the caution', () => {
    const text = words.join(' ');
    expect(text).toContain('K4WT7M');
    expect(text).toContain('stands for 2026-02-23');
    expect(text).toContain(plan.weather.attribution[0]);
    expect(text).toContain(CAUTION);
  });

  test('[CHART-4] is the same text every time, and differs by night only in its colours', () => {
    expect(draw(testPlan(), { theme: PAPER })).toBe(draw(plan, { theme: PAPER }));
    const withoutColours = (text: string) => text.replace(/#[0-9a-f]{6}/g, '#');
    expect(withoutColours(draw(plan, { theme: NIGHT }))).toBe(withoutColours(draw(plan, { theme: PAPER })));
  });

  test('[CHART-5] escapes what a user may write in a title', () => {
    const text = draw({ ...plan, title: `Bluff & "Bay" <north>` }, { theme: PAPER });
    expect(wordsOf(readXml(text)).some((word) => word.includes(`Bluff & "Bay" <north>`))).toBe(true);
  });

  test('[CHART-6] tells lines apart without colour: each pair of lines of one panel differs in weight or dash', () => {
    for (const group of all(root).filter((element) => element.name === 'g')) {
      const lines = group.children.filter(
        (child) => child.name === 'path' && child.attributes.fill === 'none',
      );
      const styles = lines.map(
        (path) => `${path.attributes['stroke-width']}/${path.attributes['stroke-dasharray']}`,
      );
      expect(new Set(styles).size).toBe(styles.length);
    }
  });
});

describe('what the charts show', () => {
  test('[CHART-7] fuel in hand is written at every contact and at the end', () => {
    const words = wordsOf(readXml(fuelChart(plan, { theme: PAPER })));
    for (const text of ['2 440 kg in hand', '1 160 kg in hand', '550 kg in hand', 'on board', 'required']) {
      expect(words).toContain(text);
    }
  });

  test('[CHART-8] a shortage is hatched densely between the lines, enough fuel leaves that area empty', () => {
    const area = (of: Plan) => {
      const path = all(readXml(fuelChart(of, { theme: PAPER }))).find(
        (e) => e.attributes.fill === 'url(#short)',
      );
      const numbers = numbersOf(path?.attributes.d ?? '');
      const half = numbers.length / 4;
      // The area runs along the upper line and back along the lower one.
      const upper = Array.from({ length: half }, (_, i) => numbers[2 * i + 1]);
      const lower = Array.from({ length: half }, (_, i) => numbers[numbers.length - 1 - 2 * i]);
      return upper.reduce((sum, y, i) => sum + Math.abs(lower[i] - y), 0);
    };
    expect(area(plan)).toBe(0);
    expect(area(short)).toBeGreaterThan(100);
    const words = wordsOf(readXml(fuelChart(short, { theme: PAPER })));
    expect(words.some((text) => text.endsWith('short'))).toBe(true);
  });

  test('[CHART-9] each limit has a panel with its least margin, spread, time and pad, in the order of the plan', () => {
    const words = wordsOf(readXml(marginsChart(plan, { theme: PAPER })));
    const places = plan.limits.map((limit) => words.findIndex((text) => text.startsWith(limit.name)));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
    expect(words).toContain('44 ± 5 K');
    expect(words).toContain('pad 10 K');
  });

  test('[CHART-10] the strong line covers just the time in which the limit is next', () => {
    const root = readXml(marginsChart(plan, { theme: PAPER }));
    const strong = all(root).filter((e) => e.name === 'path' && e.attributes['stroke-width'] === '3.4');
    plan.limits.forEach((limit, i) => {
      const isNext = plan.trace.next.includes(limit.key);
      expect((strong[i].attributes.d ?? '') !== '', limit.name).toBe(isNext);
    });
  });

  test('[CHART-11] a gap in a column leaves a gap in its line', () => {
    const fuelRequiredKg = plan.trace.columns.fuelRequiredKg.map((v, i) =>
      i > 50 && i < 60 ? Number.NaN : v,
    );
    const columns = { ...plan.trace.columns, fuelRequiredKg };
    const root = readXml(fuelChart({ ...plan, trace: { ...plan.trace, columns } }, { theme: PAPER }));
    const required = all(root).find((e) => e.attributes['stroke-dasharray'] === '6 3');
    expect(required?.attributes.d.match(/M/g)).toHaveLength(2);
  });
});

describe('tables beside the charts', () => {
  test('[CHART-12] the CSV has a row for each node, units in its header, and numbers without spaces', () => {
    const lines = tableCsv(fuelTable(plan, 0)).trimEnd().split('\r\n');
    expect(lines).toHaveLength(plan.trace.columns.timeS.length + 1);
    expect(lines[0]).toBe(
      'since take-off [h:min:s],time [UTC],phase,on board [kg],required [kg],in hand [kg]',
    );
    for (const line of lines.slice(1)) expect(line).toMatch(/,\d+,\d+,-?\d+$/);
  });

  test('[CHART-13] a thinned table keeps the beginning of every phase and the end', () => {
    const { rows } = profileTable(plan, 600);
    for (const phase of plan.phases) expect(rows.some((row) => row[2] === phase.name)).toBe(true);
    expect(rows.length).toBeLessThan(plan.trace.columns.timeS.length / 5);
    expect(rows.at(-1)?.[2]).toBe('Landing at Larkmoor');
  });

  test('[CHART-14] the table of margins names the limit that is next, and its text is aligned', () => {
    const table = marginsTable(plan, 600);
    const names = plan.limits.map((limit) => limit.name);
    for (const row of table.rows) expect(names).toContain(row[3]);
    const lines = tableText(table).split('\n').slice(3);
    const numbers = lines.slice(1).map((line) => line.length);
    expect(new Set(numbers).size).toBe(1);
  });

  test('[CHART-15] a cell with a comma or a quote is quoted', () => {
    const columns = [{ name: 'a', unit: '', align: 'left' as const }];
    expect(tableCsv({ title: '', columns, rows: [['x, "y"']] })).toBe('a\r\n"x, ""y"""\r\n');
  });
});
