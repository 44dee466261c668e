/** Plan files: written whole or not at all, read only in the version known. */
import { readFileSync } from 'node:fs';
import writeFileAtomic from 'write-file-atomic';
import { PLAN_FORMAT, PLAN_VERSION, type Plan } from '../core/plan/plan.ts';
import { Faults } from './faults.ts';

/** Writes a plan as JSON; the file is there whole or as it was before. */
export async function writePlan(path: string, plan: Plan): Promise<void> {
  await writeFileAtomic(path, `${JSON.stringify(plan)}\n`);
}

/** Reads a plan file; throws `FileFaults` where it is none, or of an unknown version. */
export function readPlan(path: string): Plan {
  const faults = new Faults();
  const place = { file: path, line: 0, column: 0 };
  let plan: Partial<Plan> = {};
  try {
    plan = JSON.parse(readFileSync(path, 'utf8')) as Partial<Plan>;
  } catch (error) {
    faults.add(place, '', `is not a plan file: ${(error as Error).message}`);
  }
  faults.throwIfAny(path);
  if (plan.format !== PLAN_FORMAT) faults.add(place, 'format', `must be ${PLAN_FORMAT}`);
  else if (plan.version !== PLAN_VERSION) {
    faults.add(place, 'version', `is ${plan.version}; this program reads version ${PLAN_VERSION}`);
  }
  faults.throwIfAny(path);
  return plan as Plan;
}
