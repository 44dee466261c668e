/** The centre of gravity against Mach, on its card and as a chart: it is that of the trace, between the limits of the trace. */
import { describe, expect, it } from 'vitest';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import { balanceEnvelope } from '../../src/present/balance-envelope.ts';
import { balanceFlightCards } from '../../src/present/card/balance-flight.ts';
import type { Mark } from '../../src/present/card/page.ts';
import { balanceFlownFigure } from '../../src/present/chart/balance.ts';
import { PAPER } from '../../src/present/theme.ts';
import { longLoopText, requestOf } from '../support/demo.ts';

const plan = makePlan(requestOf(longLoopText));
const ROOM = { left: 10, top: 50, width: 130, height: 100 };
/** Each letter 1 mm wide. */
const measure = (text: string) => text.length;

describe('the balance of a flight', () => {
  const [card] = balanceFlightCards(plan);
  const marks = card.drawing?.marks(ROOM, measure) ?? [];
  const paths = marks.filter((mark): mark is Extract<Mark, { is: 'path' }> => mark.is === 'path');

  it('[CARD-96] draws every node of the trace and both limits, inside its room', () => {
    const [flown] = paths.filter(({ grey, dash }) => grey === 0 && dash.length === 0);
    expect(flown.d.split('L')).toHaveLength(plan.trace.columns.mach.length);
    expect(paths.filter(({ grey, dash }) => grey === 0 && dash.length > 0)).toHaveLength(2);
    for (const { d } of paths) {
      for (const [, x, y] of d.matchAll(/([\d.]+) ([\d.]+)/g)) {
        expect(Number(x)).toBeGreaterThanOrEqual(ROOM.left);
        expect(Number(x)).toBeLessThanOrEqual(ROOM.left + ROOM.width);
        expect(Number(y)).toBeGreaterThanOrEqual(ROOM.top);
        expect(Number(y)).toBeLessThanOrEqual(ROOM.top + ROOM.height);
      }
    }
  });

  it('[CARD-97] stands between its limits as drawn, as the margins of the plan are above 0', () => {
    const heights = (d: string) => [...d.matchAll(/([\d.]+) ([\d.]+)/g)].map(([, , y]) => Number(y));
    const [flown] = paths.filter(({ grey, dash }) => grey === 0 && dash.length === 0);
    const [one, other] = paths.filter(({ dash }) => dash.length > 0).map(({ d }) => heights(d));
    const [above, below] = Math.min(...one) < Math.min(...other) ? [one, other] : [other, one];
    // Up the page is down in millimetres.
    for (const y of heights(flown.d)) {
      expect(y).toBeGreaterThan(Math.min(...above));
      expect(y).toBeLessThan(Math.max(...below));
    }
  });

  it('[CARD-98] says the least room to each limit, rounded down', () => {
    for (const { name, quantity, leastMargin } of plan.limits) {
      if (quantity !== 'cgFraction') continue;
      const left = (Math.floor(leastMargin * 1000) / 10).toFixed(1);
      expect(card.answer.join(' ').replaceAll('\u00a0', ' ')).toContain(`${name}: ${left} % left`);
    }
  });

  it('[CHART-60] has the limits of the trace by rising Mach, and none where no centre of gravity is known', () => {
    const envelope = balanceEnvelope(plan);
    for (const { mach, bound } of envelope?.limits ?? []) {
      expect(mach).toEqual([...mach].sort((a, b) => a - b));
      expect(bound).toHaveLength(mach.length);
    }
    // centre-of-gravity-aft.csv: 29.5 % up to Mach 0.95.
    const aft = envelope?.limits.find(({ name }) => name.startsWith('Aft'));
    expect(aft?.bound[0]).toBeCloseTo(0.295, 6);
    expect(balanceFlownFigure(plan, { theme: PAPER, width: 700 })?.svg).toContain('Aft centre of gravity');
    const columns = { ...plan.trace.columns, cgFraction: plan.trace.columns.mach.map(() => Number.NaN) };
    expect(balanceFlightCards({ ...plan, trace: { ...plan.trace, columns } })).toEqual([]);
  });
});
