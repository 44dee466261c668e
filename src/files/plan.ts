/** Plan files: JSON, read only in the version known. */
import { PLAN_FORMAT, PLAN_VERSION, type Plan } from '../core/plan/plan.ts';
import { readText } from './disk.ts';
import { Faults } from './faults.ts';

/** The name of a sortie kept beside its plan, as it was read, so that the plan can be compared when the sortie has moved on. */
export const SORTIE_COPY = 'plan.sortie.yaml';

/** Digits kept of a number; single precision would keep seven. */
const digits = 9;

/** A plan as the text of its file. What is not a number is null. */
export function planText(plan: Plan): string {
  const shorten = (_key: string, value: unknown): unknown =>
    typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(digits)) : value;
  return `${JSON.stringify(plan, shorten)}\n`;
}

/** A plan as its file holds it: what is drawn from this can be drawn again from the file, to the last character. */
export function asWritten(plan: Plan): Plan {
  return JSON.parse(planText(plan)) as Plan;
}

/** Reads a plan file; throws `FileFaults` where it is none, or of an unknown version. */
export function readPlan(path: string): Plan {
  return readPlanText(readText(path), path);
}

/** Reads the text of a plan file; `path` is what faults call it. */
export function readPlanText(text: string, path: string): Plan {
  const faults = new Faults();
  const place = { file: path, line: 0, column: 0 };
  let plan: Partial<Plan> = {};
  try {
    plan = (JSON.parse(text) ?? {}) as Partial<Plan>;
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
