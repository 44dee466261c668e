/** Tolerances and actions of checks, as decks and sorties state them. */
import { z } from 'zod';
import { CHECK_MOMENTS, type CheckRule } from '../core/aircraft/aircraft.ts';
import { checkedQuantity, checkKeys } from '../core/aircraft/schedules.ts';
import type { CheckStep } from '../core/plan/sortie.ts';
import { quantity } from '../core/quantities/quantities.ts';
import { readQuantity } from '../core/quantities/values.ts';
import { type Path, quantityText } from './yaml.ts';

const words = z.string({ error: 'write words here' }).min(1, { error: 'must not be empty' });

/** What stands in one cell of a card, and in one row. */
const inCell = words.max(50, { error: 'has more than 50 characters: it stands in one cell of a card' });
const inRow = words.max(110, { error: 'has more than 110 characters: it stands in one row of a card' });

const checkMoment = z.enum(CHECK_MOMENTS, { error: `write one of ${CHECK_MOMENTS.join(', ')}` });
/** A step of the crew says which gate it means by its Mach. */
const stepMoments = CHECK_MOMENTS.filter((moment) => moment !== 'gate');

/** One of `checks`; what it may read depends on the deck, and so does the unit of `within`. */
export const checkRule = z.strictObject({
  of: words.describe(
    'What is read: fuelFlow, centreOfGravity, fuel, inletTemperature, staticTemperature or the key of a schedule.',
  ),
  at: checkMoment.optional().describe('The moment it is for. Left out: every one.'),
  within: words
    .optional()
    .describe(
      'How far a reading may be from what is expected, such as 5 K or, of a quantity that is not itself a ratio, 4 % of it.',
    ),
  action: inCell.optional().describe('What to do where it is further off.'),
});

const stepMoment = z.union([z.enum(stepMoments), quantityText('mach')], {
  error: `write ${stepMoments.join(', ')} or a Mach such as 1.5 Mach`,
});

/** One step of `checklist`. */
export const checkStep = z
  .strictObject({
    at: stepMoment.optional().describe('It stands after what is computed for this moment.'),
    before: stepMoment.optional().describe('It stands before it.'),
    leg: words.optional().describe('Name of a leg. Left out: each that has the moment.'),
    text: inRow,
  })
  .superRefine(({ at, before }, context) => {
    if ((at === undefined) !== (before === undefined)) return;
    context.addIssue({ code: 'custom', message: 'a step has either "at" or "before"' });
  });

type RuleFile = z.output<typeof checkRule>;

/** Puts rules together with what they read; tells those that read nothing there is, or with a tolerance that does not measure it. */
export function readRules(
  rules: readonly RuleFile[],
  schedules: readonly { readonly key: string; readonly quantity: string }[],
  tell: (path: Path, message: string) => void,
): CheckRule[] {
  return rules.map(({ of, at, within, action }, index) => {
    const key = checkedQuantity(of, schedules);
    let read: CheckRule['within'] = null;
    if (key === null) {
      tell(['checks', index, 'of'], `"${of}" is none of ${checkKeys(schedules)}`);
    } else if (within !== undefined) {
      try {
        read = readWithin(within, key);
      } catch (error) {
        tell(['checks', index, 'within'], (error as Error).message);
      }
    }
    return { of, at: at ?? null, within: read, action: action ?? null };
  });
}

/** A tolerance is a difference: 2 degC are 2 K. Per cent of a ratio are points of it. */
function readWithin(text: string, key: string): NonNullable<CheckRule['within']> {
  const { dimension } = quantity(key);
  const partOfExpected = dimension !== 'ratio' && text.trim().endsWith('%');
  const asked = dimension === 'temperature' ? 'temperatureOffsetK' : key;
  const value = readQuantity(text, partOfExpected ? 'fraction' : asked);
  if (!(value > 0)) throw new RangeError(`a tolerance of ${text} cannot be: it must be above 0`);
  return { value, partOfExpected };
}

/** The steps of a checklist; tells those that name no leg. */
export function readSteps(
  steps: readonly z.output<typeof checkStep>[],
  legs: readonly { readonly name: string }[],
  tell: (path: Path, message: string) => void,
): CheckStep[] {
  return steps.map(({ at, before, leg, text }, index) => {
    const found = leg === undefined ? null : legs.findIndex(({ name }) => name === leg);
    if (found === -1) {
      const names = legs.map(({ name }) => name).join(', ');
      tell(['checklist', index, 'leg'], `there is no leg "${leg}"; there are ${names}`);
    }
    const moment = at ?? before ?? 'disconnect';
    return { moment, place: at === undefined ? 'before' : 'after', leg: found, text };
  });
}
