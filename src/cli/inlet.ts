/** `ramrise inlet`: what inlets off their schedule cost on each supersonic leg, flown. */
import packageFile from '../../package.json' with { type: 'json' };
import { inletAsFlown } from '../core/plan/inlet-flown.ts';
import { CAUTION } from '../core/plan/plan.ts';
import { CannotPlan } from '../core/plan/sortie-flyer.ts';
import { readPlanRequest } from '../files/plan-request.ts';
import { inletSentences, inletTable } from '../present/inlet.ts';
import { tableText } from '../present/table.ts';
import { gaugesIn, plainSpaces } from '../present/units.ts';
import { Refusal } from './outcome.ts';
import { say, sayJson } from './text.ts';

export async function inlet(path: string, options: { readonly json?: boolean }): Promise<void> {
  const request = await readPlanRequest(path, `${packageFile.name} ${packageFile.version}`);
  const answer = orRefuse(() => inletAsFlown(request));
  if (answer === null) {
    const { name } = request.aircraft.identity;
    throw new Refusal(`not computed: the deck of ${name} has no table of an inlet off its schedule`);
  }
  if (options.json) {
    sayJson({ ...answer, caution: CAUTION });
    return;
  }
  const gauges = gaugesIn(request.aircraft.gauges.units);
  if (answer.legs.length === 0) say('No leg is flown supersonic to its end.');
  answer.legs.forEach((leg, i) => {
    if (i > 0) say('');
    for (const text of inletSentences(answer, leg, gauges)) say(plainSpaces(text));
    say(tableText(inletTable(answer, leg, gauges)));
  });
  say(`\n${CAUTION}`);
}

function orRefuse<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof CannotPlan) throw new Refusal(error.message);
    throw error;
  }
}
