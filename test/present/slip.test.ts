/** The words of a slipped take-off; the rows are given by hand. */
import { describe, expect, it } from 'vitest';
import type { Slip, SlipPlace, SlipRow } from '../../src/core/plan/slip.ts';
import { slipChart } from '../../src/present/chart/slip.ts';
import { slipSentences, slipTable, slipText } from '../../src/present/slip.ts';
import { tableCsv } from '../../src/present/table.ts';
import { PAPER } from '../../src/present/theme.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { FAILURE, testPlan } from '../support/plan.ts';
import { all, readXml } from '../support/xml.ts';

const plan = testPlan();

function place(kind: string, name: string, inHandKg: number, light: SlipPlace['light']): SlipPlace {
  return { key: `${kind} ${name}`, kind, name, leg: 0, timeS: 7000, fuelKg: 9000, inHandKg, light };
}

/** A row with so much in hand at the second contact, and 900 kg more at the landing. */
function row(slipMin: number, inHandKg: number, light: SlipPlace['light'] = 'day'): SlipRow {
  const contact = place('contact', 'Ewer Two', inHandKg, light);
  return {
    slipS: slipMin * 60,
    takeOff: `2026-02-23T${15 + Math.floor((40 + slipMin) / 60)}:${String((40 + slipMin) % 60).padStart(2, '0')}Z`,
    cannot: null,
    flyable: true,
    failure: null,
    areas: [],
    places: [contact, place('landing', 'Larkmoor', inHandKg + 900, light)],
    worst: { ...contact, inHandKg },
    nearest: {
      key: 'stall',
      name: 'Stall warning',
      quantity: 'angleOfAttackDeg',
      leastMargin: 1.2,
      closeness: 1.2,
    },
    landingFuelKg: 9000,
    crew: null,
  };
}

const slip: Slip = {
  rows: [row(0, 1000), row(60, 950), row(70, 880, 'civil twilight'), row(80, 940, 'night')],
  steady: false,
  worst: 2,
};
const flat = (text: string): string => plainSpaces(text).replace(/\s+/g, ' ');

describe('a later take-off in words', () => {
  it('[SLP-11] names the worst minute, what it costs against the first, and where', () => {
    expect(slipSentences(slip, plan).map(flat)).toEqual([
      'Worst at +70 min: 120 kg less in hand than at +0 min, 880 kg in hand at contact with Ewer Two.',
    ]);
  });

  it('[SLP-12] on held weather says that only the light and the validity move', () => {
    const steady = { ...slip, steady: true, worst: null };
    expect(flat(slipSentences(steady, plan).join(' '))).toMatch(
      /^The weather is the same at every time: .* nothing else\.$/,
    );
  });

  it('[SLP-13] names the take-offs that cannot be flown or planned, and each reason once', () => {
    const bad = { ...row(80, 940), flyable: false, failure: FAILURE };
    const none = {
      ...row(90, 0),
      cannot: 'Cruise: the day covers an hour',
      flyable: null,
      places: [],
      worst: null,
      nearest: null,
      landingFuelKg: null,
    };
    const text = flat(
      slipText({ ...slip, rows: [...slip.rows.slice(0, 3), bad, { ...bad, slipS: 5100 }, none] }, plan),
    );
    expect(text).toContain('Cannot be flown at +80 min, +85 min. Cannot be planned at +90 min.');
    expect(text.match(/inlet temperature binds/g)).toHaveLength(1);
    expect(text).toContain('+90 min: cruise: the day covers an hour.');
  });

  it('[SLP-14] the table keeps to 96 columns and gives one row for each take-off', () => {
    const text = slipText(slip, plan);
    for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(96);
    expect(text).toMatch(/^ +70 +16:50Z +yes +880 +Ewer Two +9 000 +stall warning 1\.2° +civil$/m);
    const csv = tableCsv(slipTable(slip, plan)).trimEnd().split('\r\n');
    expect(csv).toHaveLength(5);
    expect(csv[4]).toMatch(/,night,night$/);
  });

  it('[SLP-15] the chart marks the worst and writes each light once for each place', () => {
    const root = readXml(slipChart(slip, plan, { theme: PAPER }));
    const words = all(root)
      .filter(({ name }) => name === 'text')
      .map(({ text }) => plainSpaces(text));
    expect(words.filter((word) => word === 'civil twilight')).toHaveLength(2);
    expect(words.filter((word) => word === 'day')).toHaveLength(2);
    expect(words).toContain('+70 min');
    expect(all(root).filter(({ name }) => name === 'circle')).toHaveLength(1);
  });
});
