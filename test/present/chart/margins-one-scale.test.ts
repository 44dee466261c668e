import { describe, expect, test } from 'vitest';
import { oneScaleChart } from '../../../src/present/chart/margins-one-scale.ts';
import { oneScaleTable } from '../../../src/present/chart/tables.ts';
import { PAPER } from '../../../src/present/theme.ts';
import { plainSpaces } from '../../../src/present/units.ts';
import { testPlan } from '../../support/plan.ts';
import { all, readXml } from '../../support/xml.ts';

const plan = testPlan();
const root = readXml(oneScaleChart(plan, { theme: PAPER }));
const words = all(root)
  .filter((element) => element.name === 'text')
  .map((element) => plainSpaces(element.text));

describe('margins on one scale', () => {
  test('[SCALE-1] every limit stands in the list in order, with its margin and what counts as one', () => {
    const places = plan.limits.map((limit, i) => {
      const row = words.findIndex((text, k) => text === String(i + 1) && words[k + 1] === limit.name);
      expect(words[row + 2]).toBe(limit.closeness.toFixed(1));
      return row;
    });
    expect(places.every((place) => place >= 0)).toBe(true);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
    expect(words).toContain('one is 620 K');
  });

  test('[SCALE-2] the strong line is the least of all lines at every node', () => {
    const strong = all(root).find((e) => e.name === 'path' && e.attributes['stroke-width'] === '3.4');
    const drawn = (strong?.attributes.d ?? '').split(/[ML]/).filter((text) => text !== '');
    const values = Object.values(plan.trace.closeness);
    const least = plan.trace.columns.timeS.map((_, i) => Math.min(...values.map((column) => column[i])));
    expect(drawn).toHaveLength(least.length);
    const places = drawn.map((text) => Number(text.split(',')[1]));
    const lowest = places.indexOf(Math.max(...places));
    expect(least[lowest]).toBeCloseTo(Math.min(...least), 2);
  });

  test('[SCALE-3] a limit that comes close has a dot and its name at its least margin', () => {
    const near = plan.limits.filter(({ closeness }) => closeness <= 6);
    const bold = all(root)
      .filter((e) => e.attributes['font-weight'] === '700')
      .map((e) => plainSpaces(e.text));
    for (const { name } of near) expect(bold).toContain(name);
    expect(all(root).filter((e) => e.name === 'circle')).toHaveLength(near.length);
  });

  test('[SCALE-4] the table rounds down and names the limit that is next', () => {
    const table = oneScaleTable(plan, 600);
    const [row] = table.rows;
    const column = table.columns.findIndex(({ name }) => name === 'Mach');
    expect(row[column]).toBe((Math.floor(100 * plan.trace.closeness.mach[0]) / 100).toFixed(2));
    const names = plan.limits.map(({ name }) => name);
    for (const one of table.rows) expect(names).toContain(one[3]);
  });
});
