/** What the readings come to on a terminal: questions, sentences, fuel ahead, what is in reach, what to fly, limits, whence it comes. */
import type { Answer } from '../core/airborne/answer.ts';
import type { Follows } from '../core/airborne/follow.ts';
import type { Plan } from '../core/plan/plan.ts';
import { airborneSentences, questionSentence } from './airborne.ts';
import {
  adviceTable,
  followSentences,
  fuelTable,
  gaugeSentences,
  limitsTable,
  reachNowTable,
} from './airborne-follows.ts';
import { type Table, tableText } from './table.ts';
import { plainSpaces } from './units.ts';
import { wrap } from './wrap.ts';

const WIDTH = 96;

/** `slopes` says whence they come. */
export function airborneText(answer: Answer, follows: Follows, plan: Plan, slopes: string): string {
  const sentences = [
    ...answer.questions.map(
      (question) =>
        `${questionSentence(question, plan)} Not used: write it again with "confirmed", "corrected" or "withdrawn".`,
    ),
    ...airborneSentences(answer, plan),
    ...followSentences(follows, answer, plan),
  ];
  const tables: readonly Table[] = [
    fuelTable(follows, plan),
    reachNowTable(follows.reach ?? [], plan),
    ...(follows.advice === null ? [] : [adviceTable(follows.advice, plan)]),
    limitsTable(follows, plan),
  ];
  const parts = [
    ...sentences.map(wrapped),
    ...tables.filter(({ rows }) => rows.length > 0).map((table) => tableText(table, WIDTH)),
    ...gaugeSentences(follows.gauge, plan).map(wrapped),
    wrapped(slopes),
    wrapped(plan.caution),
  ];
  return `${plainSpaces(parts.join('\n\n'))}\n`;
}

function wrapped(sentence: string): string {
  return wrap(sentence, (text) => text.length, WIDTH).join('\n');
}
