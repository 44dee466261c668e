/** The cards and drawings of a contact: rounding on the safe side, what counts first, breaks where an engine is lit. */
import { describe, expect, it } from 'vitest';
import type { ContactRow, ContactStudy, Plan } from '../../src/core/plan/plan.ts';
import { contactStudyCards } from '../../src/present/card/contact.ts';
import { contactFigures } from '../../src/present/chart/contact.ts';
import { contactSentences, rudderSentences } from '../../src/present/contact.ts';
import { PAPER } from '../../src/present/theme.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { testPlan } from '../support/plan.ts';

const row = (takenKg: number, changes: Partial<ContactRow>): ContactRow => ({
  mark: null,
  takenKg,
  timeS: takenKg / 50,
  massKg: 40_000 + takenKg,
  fuelKg: 5000 + takenKg,
  requiredN: 80_000,
  requiredSpreadN: 2000,
  dryN: 84_000,
  availableN: 100_000,
  margin: 0.259,
  marginSpread: 0.031,
  powers: [2, 2],
  thrustN: [40_000, 40_000],
  free: 'all',
  moreN: 4199,
  lessN: 60_000,
  yawNm: 0,
  rudderDeg: 0,
  rudderLimitDeg: 15,
  descentMS: 0,
  turnMargin: 0.109,
  greatestBankDeg: 34.9,
  greatestBankBy: 'thrust',
  ...changes,
});

const study: ContactStudy = {
  tanker: 'Ewer One',
  rows: [
    row(0, { mark: 'contact' }),
    ...Array.from({ length: 11 }, (_, i) => row(1000 + 1000 * i, {})),
    row(15_000, { mark: 'dryEnds' }),
    // 127 ft/min of descent, in m/s.
    row(18_000, { mark: 'full', free: 'lit', rudderDeg: -0.46, descentMS: -0.645, margin: 0.199 }),
  ],
  dryEndsKg: 15_000,
  marginEndsKg: null,
  litFollowsKg: null,
  bankDeg: 25,
  descent: { rateMS: -0.645, lostM: 30, partPerMS: 0.01 },
  light: {
    engine: 'left',
    earliestKg: 5181,
    latestKg: 14_009,
    stepN: 14_650,
    beforePower: 2,
    firstPower: 1.5,
    afterPower: 1.08,
    failureSeenS: 5.2,
    foreLimitM: 3.05,
    aftLimitM: 3.05,
    closureLimitMS: 2.06,
    cases: [
      { name: 'expected', afterS: 2.5, foreM: 1.6, aftM: 0, closureMS: 0.5, use: 0.5 },
      { name: 'fails', afterS: null, foreM: null, aftM: null, closureMS: 0, use: null },
    ],
    use: null,
  },
};

const plan: Plan = { ...testPlan(), contacts: [study] };
const [thrust, light] = contactStudyCards(plan, 0);

describe('the cards of a contact', () => {
  it('[CONTACT-C1] say first where dry thrust ends, the burner to light, what would do instead', () => {
    expect(contactSentences(plan, study).map(plainSpaces)).toEqual([
      'Dry thrust ends at 15 000 kg taken. Full tanks with 19 % thrust left.',
      expect.stringMatching(/^Light the left one by 14 000 kg: the other first to /),
      'Or dry, going down: up to 130 ft/min at the end, 100 ft in all.',
    ]);
    expect(thrust.answer).toEqual(contactSentences(plan, study));
  });

  it('[CONTACT-C2] keep the rows with a name, no more than a card holds, and round margins down', () => {
    const rows = thrust.table?.rows ?? [];
    expect(rows.length).toBeLessThanOrEqual(9);
    expect(rows.map(([taken]) => taken.below).filter((text) => text !== '')).toEqual([
      'contact',
      'dry thrust ends',
      'full tanks',
    ]);
    const [, left, more, down, bank] = rows[0];
    // 25.9 % and 4.199 kN down, 3.1 % of spread up, 34.9 deg and 10.9 % down.
    expect([left.figure, left.below, more.figure, bank.figure, bank.below]).toEqual([
      '25',
      '± 4',
      '4.1',
      '34',
      '10 % left',
    ]);
    expect(down.below).toBe('level');
    expect(plainSpaces(rows[rows.length - 1][3].figure)).toBe('−130');
    expect(rows[rows.length - 1][3].below).toContain('rudder −0.5°');
  });

  it('[CONTACT-C3] hold the closure of each case beside the room of the envelope, rounded up', () => {
    expect(light.table?.rows.map(([what, fore]) => [what.below, fore.figure || fore.below])).toEqual([
      // 1.6 m are 5.2 ft, 3.05 m are 10.007 ft.
      ['Lights as expected', '6'],
      ['Does not light', 'lost'],
      ['Room', '10'],
    ]);
    expect(light.question).toContain('the left one');
    expect(light.notes.join(' ')).toContain('common practice');
  });

  it('[CONTACT-C4] have none to light where dry thrust lasts', () => {
    const dry = { ...study, light: null, descent: null, dryEndsKg: null };
    expect(contactStudyCards({ ...plan, contacts: [dry] }, 0)).toHaveLength(1);
    expect(contactSentences(plan, dry)).toEqual(['Dry thrust lasts. Full tanks with 19\u00a0% thrust left.']);
  });
});

describe('the rudder in contact', () => {
  it('[CONTACT-C7] is told up beside what there is, down; none where nothing asks for it', () => {
    const limited = (rudderDeg: number, rudderLimitDeg: number | null) => ({
      ...study,
      rows: study.rows.map((each) => ({ ...each, rudderDeg, rudderLimitDeg })),
    });
    expect(rudderSentences(plan, limited(-0.46, 18.97))).toEqual([
      'One lit, the rudder holds it with 0.5° of 18.9°.',
    ]);
    expect(rudderSentences(plan, limited(7.01, 6.99))).toEqual([
      'One lit asks for 7.1° of rudder, more than the 6.9° that there are.',
    ]);
    expect(rudderSentences(plan, limited(0, 6))).toEqual([]);
    expect(rudderSentences(plan, limited(3, null))).toEqual([]);
  });
});

describe('the drawings of a contact', () => {
  it('[CONTACT-C5] break what is in hand where an engine is lit, and mark what happens', () => {
    const [needed, inHand] = contactFigures(plan, study, { theme: PAPER, width: 600 });
    const paths = (svg: string) => [...svg.matchAll(/ d="([^"]+)"/g)].map(([, d]) => d);
    expect(paths(inHand.svg).filter((d) => d.split('M').length === 3)).toHaveLength(2);
    expect(paths(needed.svg).every((d) => d.split('M').length === 2)).toBe(true);
    expect(needed.svg).toContain('light one by');
    expect(needed.svg).toContain('dry ends');
    expect(needed.svg).not.toContain('thrust ends');
  });
});
