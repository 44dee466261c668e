/** `ramrise accelerate`: how to go through the drag rise: the pushover of least fuel, and the heading. */
import packageFile from '../../package.json' with { type: 'json' };
import { accelerationOf, type LegAcceleration } from '../core/plan/acceleration.ts';
import type { PlanRequest } from '../core/plan/draft.ts';
import { planning } from '../core/plan/make-plan.ts';
import type { Plan } from '../core/plan/plan.ts';
import { CannotPlan } from '../core/plan/sortie-flyer.ts';
import { readPlanRequest } from '../files/plan-request.ts';
import { accelerationText, headingTable } from '../present/acceleration.ts';
import { accelerationChart } from '../present/chart/acceleration.ts';
import { tableCsv } from '../present/table.ts';
import { PAPER } from '../present/theme.ts';
import { Refusal } from './outcome.ts';
import { say, sayJson } from './text.ts';
import { type NewFile, writeFiles } from './write.ts';

export interface AccelerateOptions {
  readonly out?: string;
  readonly json?: boolean;
}

export async function accelerate(sortie: string, options: AccelerateOptions): Promise<void> {
  const request = await readPlanRequest(sortie, `${packageFile.name} ${packageFile.version}`);
  const { plan, legs } = answer(request);
  const files = options.out === undefined ? [] : await writeFiles(options.out, filesOf(legs, plan));
  if (options.json) {
    sayJson({ title: plan.title, fingerprint: plan.fingerprint, legs, files });
    return;
  }
  process.stdout.write(accelerationText(legs, plan));
  if (files.length > 0) say('');
  for (const file of files) say(`Written: ${file}`);
}

/** The flight of the plan, whose gauges and names are shown, and the answers. */
function answer(request: PlanRequest): { plan: Plan; legs: readonly LegAcceleration[] } {
  try {
    const [stage] = planning(request);
    if (!stage) throw new Error('a plan begins with its flight');
    return { plan: stage.plan, legs: accelerationOf(request) };
  } catch (error) {
    if (error instanceof CannotPlan) throw new Refusal(error.message);
    throw error;
  }
}

function filesOf(legs: readonly LegAcceleration[], plan: Plan): NewFile[] {
  return legs.flatMap((leg): NewFile[] => [
    [`acceleration-leg-${leg.leg + 1}.svg`, accelerationChart(leg, plan, { theme: PAPER })],
    [`acceleration-leg-${leg.leg + 1}.csv`, tableCsv(headingTable(leg, plan))],
  ]);
}
