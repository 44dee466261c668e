import { expect, test } from 'vitest';
import { atCursor, deckOf } from '../../src/web/views/aircraft/chosen.ts';
import { testPlan } from '../support/plan.ts';

const plan = testPlan();
const { timeS, fuelKg, pressureAltitudeM } = plan.trace.columns;

test('[CHOSEN-1] the deck is the one that the text names, none where it names none or is no YAML', () => {
  expect(deckOf({ aircraft: { deck: '../decks/sandmartin' } })).toBe('../decks/sandmartin');
  expect(deckOf({ aircraft: { tail: 'SM-1' } })).toBeNull();
  expect(deckOf(null)).toBeNull();
  expect(deckOf({ aircraft: null })).toBeNull();
});

test('[CHOSEN-2] the point of flight under the cursor is between its nodes, and an end beyond them', () => {
  const middle = atCursor(plan, (timeS[10] + timeS[11]) / 2);
  expect(middle.fuelKg).toBeCloseTo((fuelKg[10] + fuelKg[11]) / 2, 9);
  expect(middle.pressureAltitudeM).toBeCloseTo((pressureAltitudeM[10] + pressureAltitudeM[11]) / 2, 9);
  expect(atCursor(plan, -1e6).fuelKg).toBe(fuelKg[0]);
  expect(atCursor(plan, 1e6).fuelKg).toBe(fuelKg[fuelKg.length - 1]);
});
