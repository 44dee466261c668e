/** `ramrise compare`: what changed between two plans, split by cause where their inputs are there. */

import { splitByCause } from '../core/plan/causes.ts';
import { type Comparison, comparePlans, type FromInputs } from '../core/plan/compare.ts';
import { outcomeOf } from '../core/plan/outcome.ts';
import type { Plan } from '../core/plan/plan.ts';
import { findInputs } from '../files/compare-inputs.ts';
import { readPlan } from '../files/plan.ts';
import { compareChart } from '../present/chart/compare.ts';
import { comparisonText } from '../present/compare.ts';
import { comparisonTable } from '../present/compare-table.ts';
import { tableCsv } from '../present/table.ts';
import { PAPER } from '../present/theme.ts';
import { say, sayJson } from './text.ts';
import { type NewFile, writeFiles } from './write.ts';

export interface CompareOptions {
  readonly out?: string;
  readonly json?: boolean;
}

export async function compare(oldPath: string, newPath: string, options: CompareOptions): Promise<void> {
  const [from, to] = [readPlan(oldPath), readPlan(newPath)];
  const comparison = comparePlans(
    from,
    to,
    await fromInputs({ path: oldPath, plan: from }, { path: newPath, plan: to }),
  );
  const files = options.out === undefined ? [] : await writeFiles(options.out, filesOf(comparison, to));
  if (options.json) {
    sayJson({ ...comparison, files });
    return;
  }
  process.stdout.write(comparisonText(comparison, to));
  if (files.length > 0) say('');
  for (const file of files) say(`Written: ${file}`);
}

interface Named {
  readonly path: string;
  readonly plan: Plan;
}

/** Nothing is looked for or flown again for the same inputs and numbers. */
async function fromInputs(old: Named, now: Named): Promise<FromInputs> {
  const nothing = { keys: [], split: null, notFlown: [] };
  if (comparePlans(old.plan, now.plan, nothing).nothingChanged) return nothing;
  const { sources, keys } = await findInputs({ side: 'old', ...old }, { side: 'new', ...now });
  return { keys, ...splitByCause(outcomeOf(old.plan), outcomeOf(now.plan), sources) };
}

function filesOf(comparison: Comparison, plan: Plan): NewFile[] {
  const table: NewFile = ['compare.csv', tableCsv(comparisonTable(comparison, plan))];
  if (comparison.split === null) return [table];
  return [table, ['compare.svg', compareChart(comparison, comparison.split, plan, { theme: PAPER })]];
}
