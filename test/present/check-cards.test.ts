/** The check cards of the small plan for tests, whose readings are written by hand. */
import { describe, expect, test } from 'vitest';
import type { CheckMoment, Plan } from '../../src/core/plan/plan.ts';
import { type Card, MOST_COLUMNS, MOST_ROWS } from '../../src/present/card/card.ts';
import { checkCards } from '../../src/present/card/check.ts';
import { testPlan } from '../support/plan.ts';

const plan = testPlan();
const cards = checkCards(plan, 1);
const gates = cards.filter(({ title }) => title.includes('in the climb'));
const disconnect = cards.filter(({ title }) => title.includes('disconnect'));

/** Each row as the words and figures of its cells. */
function rows(some: readonly Card[]): string[][] {
  return some.flatMap(({ table }) =>
    (table?.rows ?? []).map((row) =>
      row.map(({ figure, after, below }) => [figure, after, below].filter((text) => text !== '').join(' ')),
    ),
  );
}

/** The plan with one moment, changed. */
function planWith(change: Partial<CheckMoment>): Plan {
  return { ...plan, checks: [{ ...plan.checks[0], stepsBefore: [], stepsAfter: [], ...change }] };
}

describe('a check card', () => {
  test('[CCARD-1] a leg without moments has none', () => {
    expect(checkCards(plan, 0)).toEqual([]);
  });

  test("[CCARD-2] the crew's steps stand before and after what is computed, in their order", () => {
    const names = rows(disconnect).map(([name]) => name);
    expect(names[0]).toBe('Tanker clear.');
    expect(names.slice(-2)).toEqual(['Tanks as planned.', 'Lights.']);
    expect(names).toHaveLength(2 + 2 + 1 + 4 + 3);
    expect(disconnect.map(({ title }) => title.split(', ').pop())).toEqual(['1 of 2', '2 of 2']);
  });

  test('[CCARD-3] sides that read apart have a row each, those that agree one', () => {
    const names = rows(disconnect).map(([name]) => name);
    expect(names).toContain('Fuel flow, left');
    expect(names).toContain('Fuel flow, right');
    expect(names).toContain('Inlet spike, left and right');
    expect(disconnect[0].answer[1]).toContain('right engine at military');
  });

  test('[CCARD-4] what is expected, what is allowed, and what to do stand side by side, in gauge units', () => {
    // 1.1 x 3.2 kg/s are 211.2 kg/min, 5 % less on the standard day; 4 % of it are 8.4 kg/min, rounded down.
    const flow = rows(disconnect).find(([name]) => name === 'Fuel flow, left');
    expect(flow).toEqual([
      'Fuel flow, left',
      '211 kg/min ISA 201',
      '8 kg/min',
      'Compare left and right; stay below the next gate; manual.',
    ]);
  });

  test('[CCARD-5] the standard day is left out where it differs by half of what is allowed or less', () => {
    const reading = plan.checks[0].readings[0];
    const shownFor = (part: number): string => {
      const expected = 2;
      const changed = { ...reading, expected, tolerance: 0.2, standard: expected + 0.2 * part };
      return rows(checkCards(planWith({ readings: [changed] }), 1))[0][1];
    };
    expect(shownFor(0.49)).toBe('120 kg/min');
    expect(shownFor(0.51)).toBe('120 kg/min ISA 126');
    expect(shownFor(-0.51)).toBe('120 kg/min ISA 114');
  });

  test('[CCARD-6] what is not computed says why; what is not stated says so', () => {
    const spike = rows(disconnect).find(([name]) => name.startsWith('Inlet spike'));
    expect(spike?.[1]).toBe("outside the deck's table of the inlet not computed");
    expect(spike?.slice(2)).toEqual(['not stated', 'not stated']);
  });

  test('[CCARD-7] fuel on board is rounded down, to the step of its gauge', () => {
    const fuel = plan.checks[0].readings.find(({ of }) => of === 'fuel');
    const readings = fuel === undefined ? [] : [{ ...fuel, expected: 24_999 }];
    expect(rows(checkCards(planWith({ readings }), 1))[0][1]).toBe('24\u2009990 kg');
  });

  test('[CCARD-8] gates stand on one card, a row each, with two readings in a column and the steps between', () => {
    const { table, answer } = gates[0];
    expect(gates).toHaveLength(1);
    expect(table?.columns.map(({ name }) => name)).toEqual([
      'Mach',
      'Fuel flow',
      'Inlet spike',
      'Inlet temp.',
      'Fuel',
    ]);
    // 4 % of 1.1 x 4 kg/s, which are 264 kg/min, are 10.56 kg/min; 0.05 are 5 %.
    expect(table?.columns[1].unit).toBe('kg/min ±\u00a010; nozzle below, % ±\u00a05.0');
    const first = rows(gates).map((row) => row[0].split(' ')[0]);
    expect(first).toEqual(['1.20', '1.50', 'Heaters', '1.80', 'Doors', '2.10', '2.40', '2.70']);
    expect(answer).toEqual(['Every engine at maximum afterburner.']);
  });

  test('[CCARD-9] readings of many schedules go over several cards, none wider than a page', () => {
    const gate = plan.checks.find(({ kind }) => kind === 'gate');
    if (gate === undefined) throw new Error('the plan for tests has no gate');
    const vanes = ['a', 'b', 'c', 'd', 'e'].map((key) => ({
      ...gate.readings[2],
      of: key,
      name: `Vane ${key}`,
    }));
    const many = checkCards({ ...plan, checks: [{ ...gate, readings: [...gate.readings, ...vanes] }] }, 1);
    expect(many.length).toBeGreaterThan(1);
    const heads = many.flatMap(
      ({ table }) => table?.columns.map(({ name, unit }) => `${name} ${unit}`) ?? [],
    );
    for (const { name } of vanes) expect(heads.join('; ').toLowerCase()).toContain(name.toLowerCase());
    for (const { table } of many) {
      expect(table?.columns.length).toBeLessThanOrEqual(MOST_COLUMNS);
      expect(table?.rows.length).toBeLessThanOrEqual(MOST_ROWS);
    }
  });
});
