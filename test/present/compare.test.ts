/** The words of two plans' difference: the numbers are given by hand and only their wording and sums are tested. */
import { describe, expect, it } from 'vitest';
import type { CauseChange, Measure, Split } from '../../src/core/plan/causes.ts';
import { type Comparison, comparePlans } from '../../src/core/plan/compare.ts';
import { CAUTION } from '../../src/core/plan/plan.ts';
import { compareChart } from '../../src/present/chart/compare.ts';
import { comparisonText } from '../../src/present/compare.ts';
import { comparisonTable } from '../../src/present/compare-table.ts';
import { tableCsv } from '../../src/present/table.ts';
import { PAPER } from '../../src/present/theme.ts';
import { FAILURE, testPlan } from '../support/plan.ts';
import { all, readXml } from '../support/xml.ts';

const nothing = { keys: [], split: null, notFlown: [] };
const old = testPlan();
const now = testPlan({ fuelKg: 12_900 });
const bare = comparePlans(old, now, nothing);
const landing = bare.marks.findLast(({ kind }) => kind === 'landing');

/** The difference in hand at the landing, given to two causes of which one is 100 kg less alone. */
function splitBetween(causes: readonly CauseChange[], interaction: number | null): Split {
  if (!landing) throw new Error('the plan lands');
  const { from, to, change } = landing;
  const measure: Measure = {
    of: landing.key,
    what: 'inHandKg',
    quantity: 'fuelKg',
    from: from.inHandKg ?? Number.NaN,
    to: to.inHandKg ?? Number.NaN,
    change: change.inHandKg ?? Number.NaN,
    causes,
    interaction,
  };
  return {
    causes: [
      { key: 'weather', name: 'weather', flyable: true },
      { key: 'load', name: 'load', flyable: false },
    ],
    measures: [measure],
    notFlown: [],
  };
}

const whole = landing?.change.inHandKg ?? Number.NaN;
const split = splitBetween(
  [
    { cause: 'weather', change: -800, alone: -700 },
    { cause: 'load', change: whole + 800, alone: whole + 800 },
  ],
  -100,
);
const comparison: Comparison = { ...bare, split };
const flat = (text: string): string => text.replace(/\s+/g, ' ');

describe('the difference of two plans in words', () => {
  it('[CMP-51] of the same inputs and numbers says that nothing changed, and no more', () => {
    const text = comparisonText(comparePlans(old, testPlan(), nothing), old);
    expect(text).toBe(
      'North loop over the lakes, K4WT7M (old) to North loop over the lakes, K4WT7M (new).\n\nNothing changed: the same inputs, the same numbers.\n',
    );
  });

  it('[CMP-52] begins with whether it can be flown and what is in hand, keeps to 96 columns and ends with the caution', () => {
    const text = comparisonText(comparison, now);
    expect(text).toMatch(/^(Old and new plan are|The old plan is) /);
    // 16 000 kg less 12 900 kg at take-off are 3 100 kg less at the first contact.
    expect(flat(text)).toContain('Ewer One (−3 100)');
    for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(96);
    expect(flat(text).trimEnd().endsWith(CAUTION)).toBe(true);
  });

  it('[CMP-53] ranks the causes, states their order, and gives the interaction its own line where it is over 1 %', () => {
    const text = comparisonText(comparison, now);
    expect(flat(text)).toContain('moved from old to new one after the other: weather, load.');
    expect(flat(text)).toContain('what is left over stands as interaction');
    const block = text.slice(text.indexOf('Fuel in hand at landing'));
    const at = (word: string) => block.search(new RegExp(`^${word} `, 'm'));
    expect(at('load')).toBeGreaterThan(0);
    expect(at('load')).toBeLessThan(at('weather'));
    expect(at('weather')).toBeLessThan(at('interaction'));
    expect(block).toMatch(/^interaction +−100$/m);
    expect(text).toContain('Load: from there on it cannot be flown.');
  });

  it('[CMP-54] says that the causes add up where nothing is left over', () => {
    const even = splitBetween(
      [
        { cause: 'weather', change: -800, alone: -800 },
        { cause: 'load', change: whole + 800, alone: whole + 800 },
      ],
      0,
    );
    const text = comparisonText({ ...bare, split: even }, now);
    expect(flat(text)).toContain('moved each alone they do so within 1 %');
    expect(text).not.toMatch(/^interaction/m);
  });

  it('[CMP-55] causes that could not be told apart stand as one, and why is said', () => {
    const merged = splitBetween(
      [
        { cause: 'weather', change: null, alone: null },
        { cause: 'load', change: whole, alone: null },
      ],
      null,
    );
    const reason = 'the weather of the old plan, day.nc, has changed since';
    const text = comparisonText({ ...bare, split: merged, notFlown: [reason] }, now);
    expect(text).toMatch(/^weather and load +−3 100 +█+ +not computed$/m);
    expect(flat(text)).toContain(`Not flown again: ${reason}.`);
    expect(flat(text)).toContain('not every one could be moved alone');
  });

  it('[CMP-56] without the inputs only what changed is told, and that it is not split', () => {
    const text = comparisonText({ ...bare, notFlown: ['the sortie of the old plan is not found'] }, now);
    expect(flat(text)).toContain('Not flown again: the sortie of the old plan is not found.');
    expect(flat(text)).toContain('So the difference is not split by cause.');
  });

  it('[CMP-57] a new plan that cannot be flown says what binds', () => {
    const failed = testPlan({ failure: FAILURE });
    const text = comparisonText(comparePlans(old, failed, nothing), failed);
    expect(flat(text)).toContain('The old plan is flyable, the new one not flyable');
    expect(flat(text)).toContain('inlet temperature binds at 1:11');
  });
});

describe('the difference of two plans drawn and as a table', () => {
  it('[CMP-61] has a bar for each cause, to the left where there is less, in the measure of their changes', () => {
    const root = readXml(compareChart(comparison, split, now, { theme: PAPER }));
    const bars = all(root).filter(
      ({ name, attributes }) => name === 'rect' && attributes.fill === 'url(#short)',
    );
    const widths = bars.map(({ attributes }) => Number(attributes.width));
    expect(widths).toHaveLength(2);
    expect(widths[1] / widths[0]).toBeCloseTo(800 / Math.abs(whole + 800), 2);
    const right = bars.map(({ attributes }) => Number(attributes.x) + Number(attributes.width));
    expect(right[1]).toBeCloseTo(right[0], 1);
  });

  it('[CMP-62] has one row for each number of each moment and limit, in SI, with the causes of those that were split', () => {
    const lines = tableCsv(comparisonTable(comparison, now)).trimEnd().split('\r\n');
    expect(lines[0]).toBe(
      'at,what,quantity,old,new,change,weather,weather alone,load,load alone,interaction',
    );
    expect(lines).toHaveLength(1 + 3 * bare.marks.length + bare.limits.length);
    const row = lines.find((line) => line.startsWith('landing,inHandKg,fuelKg,'))?.split(',');
    expect(row?.slice(6, 8)).toEqual(['-800', '-700']);
    expect(row?.at(-1)).toBe('-100');
  });
});
