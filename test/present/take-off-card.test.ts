/** The take-off card: one action, three speeds, the runway, and nothing blank where a deck lacks a part. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import type { Plan, TakeOffData, TakeOffRun } from '../../src/core/plan/plan.ts';
import { type Card, footOf } from '../../src/present/card/card.ts';
import { layOut } from '../../src/present/card/layout.ts';
import { type CardFonts, cardMeasure } from '../../src/present/card/pdf.ts';
import { takeOffCards } from '../../src/present/card/take-off.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { FAILURE, testPlan } from '../support/plan.ts';
import { runSpeed, testTakeOff } from '../support/take-off.ts';

const FACE = '@expo-google-fonts/atkinson-hyperlegible-next';
const resolve = createRequire(import.meta.url).resolve;
const font = (name: string) => readFileSync(resolve(`${FACE}/${name}/AtkinsonHyperlegibleNext_${name}.ttf`));
const fonts: CardFonts = { regular: font('400Regular'), bold: font('700Bold') };

function cardOf(data: Partial<TakeOffData> = {}, run: Partial<TakeOffRun> = {}): Card {
  const whole = { ...testTakeOff, ...data };
  const takeOffData = { ...whole, run: whole.run && { ...whole.run, ...run } };
  const plan: Plan = { ...testPlan(), takeOffData };
  return takeOffCards(plan)[0];
}

const answer = (card: Card): string => plainSpaces(card.answer.join(' '));
/** A row by the word that heads it. */
function row(card: Card, name: string): string[] {
  const found = card.table?.rows.find(([head]) => head.below === name);
  return (found ?? [])
    .slice(1)
    .map(({ figure, after, below }) => plainSpaces(`${figure} ${after} ${below}`).trim());
}

describe('take-off card', () => {
  // At sea level and 10 degC, Mach of 1 m/s is 1/337.3 and CAS to be read is 340.3/337.3 of TAS below Mach 0.3: within 0.1 m/s.
  const knots = (groundSpeedMS: number): number =>
    ((groundSpeedMS + 2) * (340.294 / 337.329)) / (1852 / 3600);

  test('[TOC-1] says one action at one speed, with lift-off and climb-out rounded up', () => {
    const decision = Math.round(knots(63));
    const text = answer(cardOf());
    expect(text).toBe(
      `Engine lost below ${decision} KCAS: stop. From ${decision} KCAS: go, lift off at ${Math.ceil(knots(88))} KCAS, climb out at ${Math.ceil(knots(97))} KCAS.`,
    );
  });

  test('[TOC-2] holds what is required, rounded up, against the runway, and what is left rounded down', () => {
    const card = cardOf();
    expect(row(card, 'Ground run')).toEqual(['890 m of 2 740', '1 850 m']);
    expect(row(card, 'Stop')).toEqual(['1 510 m of 2 740', '1 230 m']);
    expect(row(card, 'Brake energy')).toEqual(['119 MJ of 192', '73 MJ']);
    expect(row(card, 'Climb gradient')[0]).toBe('6.1 %');
  });

  test('[TOC-3] where none fits it says from where it goes on and below which it stops', () => {
    const none = {
      decisionFits: false,
      least: runSpeed(70),
      leastBy: 'runway',
      greatest: runSpeed(60),
      greatestBy: 'runway',
    };
    const card = cardOf({}, none);
    expect(answer(card)).toContain(
      `goes on only from ${Math.ceil(knots(70))} KCAS (runway) and stops only below ${Math.floor(knots(60))} KCAS (runway)`,
    );
    expect(answer(card)).not.toContain('stop. From');
    expect(row(card, 'Decision speed')[0]).toBe('none fits');
  });

  test('[TOC-4] says in a sentence what is beyond a limit, none as 0', () => {
    expect(answer(cardOf({}, { allEnginesStopM: 2741 }))).toContain(
      'The runway is 10 m shorter than a stop with all engines running until then.',
    );
    expect(answer(cardOf({}, { climbGradient: { gearDown: -0.0004, gearUp: 0.03 } }))).toContain(
      'does not climb',
    );
    expect(
      row(cardOf({}, { climbGradient: { gearDown: -0.0004, gearUp: 0.03 } }), 'Climb gradient')[0],
    ).toMatch(/^−0\.0[45]/);
    expect(answer(cardOf({}, { tyreSpeedMS: 87 }))).toContain('faster than the tyres allow');
    expect(row(cardOf({}, { tyreSpeedMS: 87 }), 'Lift-off')[1]).toMatch(/^−/);
  });

  test('[TOC-5] without ground data no cell of a figure is blank: it reads "not computed", and the table keeps the ground run', () => {
    const card = cardOf({ run: null });
    expect(answer(card)).toContain('Decision speed not computed; lift off at');
    for (const name of ['Decision speed', 'Climb-out', 'Stop', 'Go', 'Climb gradient', 'Brake energy']) {
      expect(row(card, name)[0], name).toBe('not computed');
    }
    expect(row(card, 'Ground run')).toEqual(['910 m of 2 740', '1 830 m']);
  });

  test('[TOC-6] without a runway it says so and leaves nothing to a limit', () => {
    const card = cardOf({ runway: null });
    expect(row(card, 'Go')).toEqual(['1 510 m', 'no runway stated']);
    expect(plainSpaces(card.notes[0])).toContain('No runway is stated: level, dry, no wind.');
  });

  test('[TOC-7] names runway, slope, condition and wind, and what of the wind counts', () => {
    const note = plainSpaces(cardOf().notes[0]);
    expect(note).toContain('Runway 04, 040° true, 2 740 m, 0.3 % down, wet.');
    expect(note).toContain('Wind as stated: 8 kt headwind, 6 kt from the right; counted: half of a headwind');
  });

  test('[TOC-8] fits its page also where nothing fits the runway, in a plan that cannot be flown', () => {
    const takeOffData: TakeOffData = {
      ...testTakeOff,
      runway: testTakeOff.runway && { ...testTakeOff.runway, lengthM: 700 },
      run: testTakeOff.run && {
        ...testTakeOff.run,
        decisionFits: false,
        leastBy: 'minimumControlSpeed',
        greatestBy: 'brakeEnergy',
        climbGradient: { gearDown: -0.01, gearUp: 0.01 },
        tyreSpeedMS: 80,
      },
    };
    const plan: Plan = { ...testPlan({ failure: FAILURE }), takeOffData };
    const [card] = takeOffCards(plan);
    expect(card.answer).toHaveLength(4);
    const measure = cardMeasure(plan, fonts);
    expect(layOut(card, footOf(plan, 40), 5, 40, measure).length).toBeGreaterThan(50);
  });
});
