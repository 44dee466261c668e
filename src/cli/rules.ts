/** `ramrise rules`: what a degree, ten knots, a percent cost today, and where the sortie fails. */
import packageFile from '../../package.json' with { type: 'json' };
import { CAUTION } from '../core/plan/plan.ts';
import { rulesOf } from '../core/plan/rules.ts';
import { readPlanRequest } from '../files/plan-request.ts';
import { ruleSentences, rulesTable } from '../present/rules.ts';
import { tableText } from '../present/table.ts';
import { gaugesIn, plainSpaces } from '../present/units.ts';
import { planned } from './refusal.ts';
import { say, sayJson } from './text.ts';

export async function rules(sortie: string, options: { readonly json?: boolean }): Promise<void> {
  const request = await readPlanRequest(sortie, `${packageFile.name} ${packageFile.version}`);
  const answer = planned(() => rulesOf(request));
  if (options.json) {
    sayJson({ ...answer, caution: CAUTION });
    return;
  }
  const gauges = gaugesIn(request.aircraft.gauges.units);
  const lines = [
    ...ruleSentences(answer, gauges),
    '',
    tableText(rulesTable(answer, gauges)),
    '',
    ...answer.notComputed.map((text) => `Not computed: ${text}.`),
    CAUTION,
  ];
  for (const line of lines) say(plainSpaces(line));
}
