/** `ramrise reach`: where the sortie can still go after each failure, at every minute or at one. */
import packageFile from '../../package.json' with { type: 'json' };
import { makePlan } from '../core/plan/make-plan.ts';
import { CAUTION, type Reach, type ReachLadder } from '../core/plan/plan.ts';
import { reachOf } from '../core/plan/reach.ts';
import { showTime } from '../core/quantities/time.ts';
import { readPlanRequest } from '../files/plan-request.ts';
import {
  closingTable,
  equalTimeSentences,
  ladderTable,
  minuteAt,
  momentTable,
  reachSentences,
  sourceSentences,
  unstartTable,
} from '../present/reach.ts';
import { tableText } from '../present/table.ts';
import { type Gauges, gaugesIn, plainSpaces } from '../present/units.ts';
import { Refusal } from './outcome.ts';
import { planned } from './refusal.ts';
import { say, sayJson } from './text.ts';

export interface ReachOptions {
  readonly at?: string;
  readonly failure?: string;
  readonly json?: boolean;
}

export async function reach(sortie: string, { at, failure, json }: ReachOptions): Promise<void> {
  const request = await readPlanRequest(sortie, `${packageFile.name} ${packageFile.version}`);
  const answer = planned(() => reachOf(request, makePlan(request)));
  if (answer === null) {
    throw new Refusal(
      'The reach is not computed: the deck has no failures.yaml, or the sortie has no flight.',
    );
  }
  const ladders = laddersOf(answer, failure);
  const minute = at === undefined ? null : minuteOf(answer, at);
  if (json) {
    sayJson({ ...answer, ladders, ...(minute === null ? {} : { minute }), caution: CAUTION });
    return;
  }
  const gauges = gaugesIn(request.aircraft.gauges.units);
  const takeOff = showTime(request.sortie.takeOff.timeS);
  const lines =
    minute === null
      ? wholeLines(answer, ladders, failure !== undefined, takeOff, gauges)
      : [tableText(momentTable(answer, ladders, minute, takeOff, gauges))];
  const { flights, evaluations, timeS } = answer;
  const each = evaluations / timeS.length / answer.ladders.length;
  const counted = `${flights} flights, ${evaluations} evaluations: ${Math.round(each)} for each of ${timeS.length} minutes and ${answer.ladders.length} failures.`;
  for (const line of [...lines, '', counted, CAUTION]) say(plainSpaces(line));
}

function wholeLines(
  reach: Reach,
  ladders: readonly ReachLadder[],
  one: boolean,
  takeOff: string,
  gauges: Gauges,
): readonly string[] {
  const chosen = { ...reach, ladders };
  return [
    ...reachSentences(chosen, gauges),
    '',
    ...ladders.flatMap((ladder) => [tableText(closingTable(reach, ladder, gauges)), '']),
    ...(one ? ladders.flatMap((ladder) => [tableText(ladderTable(reach, ladder, takeOff, gauges)), '']) : []),
    ...equalTimeSentences(chosen),
    '',
    ...(one || reach.unstarts.length === 0 ? [] : [tableText(unstartTable(reach, takeOff, gauges)), '']),
    ...sourceSentences(chosen),
    ...reach.notComputed.map((text) => `Not computed: ${text}.`),
  ];
}

function laddersOf({ ladders }: Reach, failure: string | undefined): readonly ReachLadder[] {
  if (failure === undefined) return ladders;
  const found = ladders.filter(({ key }) => key === failure);
  if (found.length > 0) return found;
  throw new Refusal(`--failure ${failure}: not one of ${ladders.map(({ key }) => key).join(', ')}`);
}

/** Index of the minute of "h:mm" since take-off. */
function minuteOf(reach: Reach, text: string): number {
  const parts = /^(\d{1,2}):([0-5]\d)$/.exec(text);
  const { timeS } = reach;
  const [first, last] = [timeS[0], timeS[timeS.length - 1]];
  const atS = parts === null ? Number.NaN : (Number(parts[1]) * 60 + Number(parts[2])) * 60;
  if (atS >= first && atS <= last + 60) return minuteAt(reach, atS);
  const words = (seconds: number) =>
    `${Math.floor(seconds / 3600)}:${String((seconds / 60) % 60).padStart(2, '0')}`;
  throw new Refusal(
    `--at ${text}: time since take-off must be h:mm, from ${words(first)} to ${words(last)}, when the aircraft is in the air`,
  );
}
