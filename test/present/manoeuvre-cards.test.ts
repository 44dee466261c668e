/** The manoeuvre cards of the demonstration: what they say is what its plan holds, to the safe side. */
import { describe, expect, it } from 'vitest';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import type { GaugeSpeeds } from '../../src/core/plan/plan.ts';
import { MOST_COLUMNS, MOST_ROWS } from '../../src/present/card/card.ts';
import { manoeuvreCards } from '../../src/present/card/manoeuvre.ts';
import { longLoopText, requestOf } from '../support/demo.ts';

const plan = makePlan(requestOf(longLoopText));
const cards = manoeuvreCards(plan, 1);
const [table] = plan.manoeuvres;
const number = (figure: string) => Number(figure.replaceAll(/[\u2009\u00a0°]/g, ''));
const knots = (speed: GaugeSpeeds | null) => ((speed?.calibratedAirspeedMS ?? Number.NaN) * 3600) / 1852;

describe('manoeuvre cards', () => {
  it('[CARD-90] come after a tanker, at the disconnect and at the top of the climb, none before the first', () => {
    expect(manoeuvreCards(plan, 0)).toEqual([]);
    expect(cards.map(({ question }) => question)).toEqual([
      'How slow may I be?',
      expect.stringContaining('What may I pull at 320'),
      'How slow may I be?',
    ]);
    for (const card of cards) {
      expect(card.table?.rows.length).toBeLessThanOrEqual(MOST_ROWS);
      expect(card.table?.columns.length).toBeLessThanOrEqual(MOST_COLUMNS);
    }
  });

  it('[CARD-91] round speeds up and name what the sortie names', () => {
    const { columns, rows } = cards[0].table ?? { columns: [], rows: [] };
    expect(columns.slice(1).map(({ name }) => name.replaceAll('\u00a0', ' '))).toEqual([
      '30°',
      '1.2 g',
      '40°',
      '1.4 g',
    ]);
    table.rows.forEach(({ speeds }, i) => {
      const [level, ...named] = speeds;
      expect(Number(rows[i][0].below)).toBe(Math.ceil(knots(level.warning)));
      named.forEach(({ warning, push }, k) => {
        expect(number(rows[i][k + 1].figure)).toBe(Math.ceil(knots(warning)));
        expect(number(rows[i][k + 1].below)).toBe(Math.ceil(knots(push)));
      });
    });
  });

  it('[CARD-92] round load factors and banks down, heights up', () => {
    const rows = cards[1].table?.rows ?? [];
    table.rows.forEach(({ bounds, pushes }, i) => {
      const warning = bounds.warning ?? Number.NaN;
      expect(number(rows[i][1].figure)).toBeCloseTo(Math.floor(warning * 100) / 100, 9);
      expect(number(rows[i][1].below)).toBe(Math.floor((Math.acos(1 / warning) * 180) / Math.PI));
      expect(number(rows[i][3].figure)).toBeLessThanOrEqual(bounds.symmetric ?? 0);
      expect(number(rows[i][4].figure)).toBe(Math.ceil((pushes[0].lostM ?? Number.NaN) / 30.48) * 100);
    });
  });

  it('[CARD-93] print what the sortie holds the crew to with its source, and the clearance beside the height', () => {
    const notes = cards[1].notes.join(' ').replaceAll('\u00a0', ' ');
    expect(notes).toContain('common practice');
    expect(notes).toMatch(/add 1.?000 ft for the least height above the ground/);
  });
});
