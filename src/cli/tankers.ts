/** `ramrise tankers`: the sortie with each tanker absent, with half its fuel, late. */
import packageFile from '../../package.json' with { type: 'json' };
import { draftOf } from '../core/plan/draft.ts';
import { CAUTION } from '../core/plan/plan.ts';
import { tankerMatrix } from '../core/plan/tanker-cases.ts';
import { tankerOwnMissing, tankerOwnOf } from '../core/plan/tanker-own.ts';
import { showTime } from '../core/quantities/time.ts';
import { readPlanRequest } from '../files/plan-request.ts';
import { tableText } from '../present/table.ts';
import { tankerOwnSentences, tankerSentences, tankersTable } from '../present/tankers.ts';
import { gaugesIn, plainSpaces } from '../present/units.ts';
import { planned } from './refusal.ts';
import { say, sayJson } from './text.ts';

export interface TankersOptions {
  readonly pairs?: boolean;
  readonly json?: boolean;
}

export async function tankers(sortie: string, { pairs = false, json }: TankersOptions): Promise<void> {
  const request = await readPlanRequest(sortie, `${packageFile.name} ${packageFile.version}`);
  const matrix = planned(() => tankerMatrix(request, { pairs }));
  const own = planned(() => tankerOwnOf(draftOf(request)));
  const takeOff = showTime(request.sortie.takeOff.timeS);
  if (json) {
    sayJson({ ...matrix, tankerOwn: own, caution: CAUTION });
    return;
  }
  const gauges = gaugesIn(request.aircraft.gauges.units);
  const lines = [
    ...tankerSentences(matrix, gauges),
    '',
    tableText(tankersTable(matrix, gauges)),
    '',
    ...own.flatMap((each) => tankerOwnSentences(each, takeOff, gauges)),
    ...tankerOwnMissing(request.sortie, own).map((text) => `Not computed: ${text}.`),
    CAUTION,
  ];
  for (const line of lines) say(plainSpaces(line));
}
