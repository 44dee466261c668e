/** The landing card: how fast, and whether the runway, the tyres and the brakes hold it. */
import { describe, expect, test } from 'vitest';
import type { LandingData, LandingStop, Plan } from '../../src/core/plan/plan.ts';
import type { Card } from '../../src/present/card/card.ts';
import { landingCards } from '../../src/present/card/landing.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { testPlan } from '../support/plan.ts';
import { testLanding } from '../support/take-off.ts';

function cardOf(data: Partial<LandingData> = {}, stop: Partial<LandingStop> = {}): Card {
  const whole = { ...testLanding, ...data };
  const landing = { ...whole, stop: whole.stop && { ...whole.stop, ...stop } };
  const plan: Plan = { ...testPlan(), landings: [landing] };
  return landingCards(plan)[0];
}

const answer = (card: Card): string => plainSpaces(card.answer.join(' '));
function row(card: Card, name: string): string[] {
  const found = card.table?.rows.find(([head]) => head.below === name);
  return (found ?? [])
    .slice(1)
    .map(({ figure, after, below }) => plainSpaces(`${figure} ${after} ${below}`).trim());
}

describe('landing card', () => {
  test('[LDC-1] says the approach speed, rounded up, and what the ground run leaves of the runway', () => {
    // 82 m/s through the air at sea level and 10 degC: 82 x 340.294/337.329 m/s of calibrated airspeed, 160.8 kt.
    expect(answer(cardOf())).toBe('Approach at 161 KCAS; 1 330 m of the runway are left at the least.');
  });

  test('[LDC-2] holds fuel against the reserve and distances against the runway, to the safe side', () => {
    const card = cardOf();
    expect(row(card, 'Fuel on landing')).toEqual(['4 230 kg', '2 230 kg']);
    expect(row(card, 'Ground run')).toEqual(['1 410 m of 2 740', '1 330 m']);
    expect(row(card, 'Stop')).toEqual(['1 220 m of 2 740', '1 520 m']);
    expect(row(card, 'Brake energy')).toEqual(['62 MJ of 192', '130 MJ']);
  });

  test('[LDC-3] says in a sentence what is beyond a limit', () => {
    const long = answer(cardOf({ longestM: 2741 }));
    expect(long).toContain('The runway is 10 m shorter than the landing.');
    expect(long).not.toContain('left');
    expect(answer(cardOf({}, { brakeEnergyJ: 193e6 }))).toContain('more than the brakes take');
    expect(answer(cardOf({}, { tyreSpeedMS: 79 }))).toContain('faster than the tyres allow');
    expect(row(cardOf({}, { distanceM: null }), 'Stop')[0]).toBe('no end');
  });

  test('[LDC-4] without ground data reads "not computed", without a runway says so; a sortie without landings has no card', () => {
    const card = cardOf({ stop: null, runway: null });
    expect(row(card, 'Stop')[0]).toBe('not computed');
    expect(row(card, 'Brake energy')[0]).toBe('not computed');
    expect(row(card, 'Ground run')).toEqual(['1 410 m', 'no runway stated']);
    expect(answer(card)).toBe('Approach at 161 KCAS.');
    expect(landingCards({ ...testPlan(), landings: [] })).toEqual([]);
  });

  test('[LDC-5] the worst cases stand on one card, each base with its case, and one that is too short is told', () => {
    const worst = { ...testLanding, base: 'Stonemoor', worstCase: 'No contact with Ewer Two' };
    const plan: Plan = { ...testPlan(), landings: [testLanding, worst, { ...worst, longestM: 2801 }] };
    const [, card, ...more] = landingCards(plan);
    expect(more).toEqual([]);
    expect(row(card, 'Stonemoor 04')).toEqual(['161', '1 410 m of 2 740', '1 330 m']);
    expect(card.table?.rows[0][0].after).toBe('No contact with Ewer Two');
    expect(answer(card)).toBe('The runway is 70 m shorter than the landing at Stonemoor.');
    const held = { ...plan, landings: [testLanding, worst, { ...worst, base: 'Fenmoor', longestM: 2100 }] };
    expect(answer(landingCards(held)[1])).toBe('The least is left at Fenmoor: 640 m.');
  });
});
