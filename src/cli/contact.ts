/** `ramrise contact`: thrust needed and there against mass taken, the burner to light, what would do instead. */
import packageFile from '../../package.json' with { type: 'json' };
import { makePlan } from '../core/plan/make-plan.ts';
import type { Plan } from '../core/plan/plan.ts';
import { CannotPlan } from '../core/plan/sortie-flyer.ts';
import { readPlanRequest } from '../files/plan-request.ts';
import {
  contactSentences,
  contactTable,
  lightNotes,
  lightTable,
  rudderSentences,
} from '../present/contact.ts';
import { tableText } from '../present/table.ts';
import { EXIT, Refusal } from './outcome.ts';
import { say, sayJson } from './text.ts';

export interface ContactOptions {
  readonly tanker?: string;
  readonly json?: boolean;
}

export async function contact(sortie: string, { tanker, json }: ContactOptions): Promise<void> {
  const request = await readPlanRequest(sortie, `${packageFile.name} ${packageFile.version}`);
  const names = request.sortie.tankers.map(({ name }) => name);
  if (tanker !== undefined && !names.includes(tanker)) {
    throw new Refusal(`there is no tanker "${tanker}" in ${sortie}; there are ${names.join(', ')}`);
  }
  const plan = planned(request);
  if (!plan.flyable) process.exitCode = EXIT.cannotBeFlown;
  const contacts = plan.contacts.filter((study) => tanker === undefined || study.tanker === tanker);
  const notComputed = plan.notComputed.filter((text) => /contact|burner|wash/.test(text));
  if (json) {
    const { title, fingerprint, flyable, caution } = plan;
    sayJson({ title, fingerprint, flyable, contacts, notComputed, caution });
    return;
  }
  if (contacts.length === 0) say('No contact was flown.');
  for (const study of contacts) {
    const lighting = lightTable(plan, study);
    for (const text of [...contactSentences(plan, study), ...rudderSentences(plan, study)]) say(text);
    say(`\n${tableText(contactTable(plan, study))}\n`);
    if (lighting !== null) say(tableText(lighting));
    if (study.light !== null) say(`${lightNotes(plan, study.light).join('\n')}\n`);
  }
  for (const text of notComputed) say(`Not computed: ${text}`);
  say(plan.caution);
}

function planned(request: Parameters<typeof makePlan>[0]): Plan {
  try {
    return makePlan(request);
  } catch (error) {
    if (error instanceof CannotPlan) throw new Refusal(error.message);
    throw error;
  }
}
