/** What the readings come to on a terminal: sentences, the gates ahead, what is in reach, whence the slopes. */
import type { Answer, KnownCause } from '../core/airborne/answer.ts';
import type { CauseKey } from '../core/airborne/causes.ts';
import type { Estimate } from '../core/airborne/mixture.ts';
import { reachNow } from '../core/airborne/reach-now.ts';
import type { Plan } from '../core/plan/plan.ts';
import { airborneSentences, gatesTable, questionSentence, READ_AS, reachNowTable } from './airborne.ts';
import { eventName } from './names.ts';
import { tableText } from './table.ts';
import { hoursMinutes } from './time.ts';
import { type Gauge, gaugesOf, plainSpaces, shown } from './units.ts';
import { wrap } from './wrap.ts';

const WIDTH = 96;

/** `slopes` says whence they come. */
export function airborneText(answer: Answer, plan: Plan, slopes: string): string {
  const fuel = gaugesOf(plan)('fuelKg');
  const { questions, unexplained, known, gates } = answer;
  const reach = plan.reach ? reachNow(plan.reach, answer.planTimeS, answer.fuelKg.mean) : [];
  const parts = [
    ...questions.map(
      (question) =>
        `${questionSentence(question, plan)} Not used: write it again with "confirmed", "corrected" or "withdrawn".`,
    ),
    ...airborneSentences(answer, plan),
    ...known.map(knownSentence),
    ...unexplained.map(
      ({ key, timeS }) =>
        `${READ_AS[key].name} has drifted, seen at ${hoursMinutes(timeS)}, from all that is looked for: check that gauge.`,
    ),
    rateSentence(answer, fuel),
    ...endSentence(answer, plan, fuel),
    ...(gates.length > 0 ? [tableText(gatesTable(answer, plan), WIDTH)] : []),
    ...(reach.length > 0 ? [tableText(reachNowTable(reach, plan), WIDTH)] : []),
    slopes,
    plan.caution,
  ];
  const lines = parts.map((part) =>
    part.includes('\n') ? part : wrap(part, (text) => text.length, WIDTH).join('\n'),
  );
  return `${plainSpaces(lines.join('\n\n'))}\n`;
}

function knownSentence({ cause, amount }: KnownCause): string {
  return `How much: ${amountWords(cause, amount)}.`;
}

function amountWords(cause: CauseKey, { mean, sd }: Estimate): string {
  const of = (factor: number, decimals: number, unit: string): string =>
    `${(mean * factor).toFixed(decimals)} ± ${(sd * factor).toFixed(decimals)} ${unit}`;
  switch (cause) {
    case 'leak':
      return of(60, 1, 'kg/min');
    case 'gauge':
      return of(1, 0, 'kg');
    case 'temperature':
      return `${of(1, 1, 'K')} warmer`;
    case 'headwind':
      return `${of(3600 / 1852, 0, 'kt')} more against`;
    default:
      return of(100, 1, '%');
  }
}

function rateSentence({ rateKgS }: Answer, fuel: Gauge): string {
  const size = (kgS: number): string => fuel.differenceFromSi(60 * Math.abs(kgS)).toFixed(1);
  const more = rateKgS.mean >= 0 ? 'more' : 'less';
  return `${size(rateKgS.mean)} ± ${size(rateKgS.sd)} ${fuel.differenceUnit} a minute ${more} than planned goes now.`;
}

/** The end of the leg, and whether what it needs is there with two standard deviations to spare. */
function endSentence({ gates }: Answer, plan: Plan, fuel: Gauge): string[] {
  const last = gates.at(-1);
  if (last === undefined || last.requiredKg === null) return [];
  const { mean, sd } = last.fuelKg;
  const inHand = mean - last.requiredKg;
  const has = `With what is found ${shown(fuel, mean, 'available')} at ${eventName(plan, last)}, of ${shown(fuel, last.requiredKg, 'required')} required`;
  if (inHand >= 2 * sd) return [`${has}: enough.`];
  return [`${has}: ${inHand < 0 ? 'NOT enough' : 'not surely enough'}. Choose from what is in reach now.`];
}
