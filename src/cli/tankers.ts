/** `ramrise tankers`: the sortie with each tanker absent, with half its fuel, late. */
import packageFile from '../../package.json' with { type: 'json' };
import { CAUTION } from '../core/plan/plan.ts';
import { tankerMatrix } from '../core/plan/tanker-cases.ts';
import { readPlanRequest } from '../files/plan-request.ts';
import { tableText } from '../present/table.ts';
import { tankerSentences, tankersTable } from '../present/tankers.ts';
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
  if (json) {
    sayJson({ ...matrix, caution: CAUTION });
    return;
  }
  const gauges = gaugesIn(request.aircraft.gauges.units);
  const lines = [...tankerSentences(matrix), '', tableText(tankersTable(matrix, gauges)), '', CAUTION];
  for (const line of lines) say(plainSpaces(line));
}
