/**
 * `npm run accuracy`: the errors against every file of published values, and their tolerances.
 *
 * `npm run accuracy -- DIR [NAME ...]` does the same for another folder of files with the same names and columns, or for its
 * folder `published`, or for some of the checks. A file that the folder lacks is said to be absent. Ends with 1 when a check fails, 2 when none ran.
 */
import { existsSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { MissingFile } from './checks/csv.ts';
import { checks } from './checks/index.ts';
import type { CheckResult } from './checks/tally.ts';

const here = dirname(fileURLToPath(import.meta.url));

function digits(value: number): string {
  return value === 0 ? '0' : value.toExponential(2);
}

/** In another folder a quantity may be missing; in the project's own it may not. */
function fails(result: CheckResult, own: boolean): boolean {
  return !result.passed && (own || !result.absent);
}

function print(result: CheckResult): void {
  if (result.absent) {
    process.stdout.write(`  ${result.quantity.padEnd(30)} ${result.worst}\n`);
    return;
  }
  const { quantity, measure, rows, mean, max, tolerance, worst, passed } = result;
  const cells = [
    passed ? ' ' : '!',
    quantity.padEnd(30),
    measure.padEnd(10),
    String(rows).padStart(5),
    digits(mean).padStart(10),
    digits(max).padStart(10),
    digits(tolerance.mean).padStart(10),
    digits(tolerance.max).padStart(10),
    passed ? tolerance.reason : `${worst} (${tolerance.reason})`,
  ];
  process.stdout.write(`${cells.join(' ')}\n`);
}

async function main(directory: string, only: readonly string[]): Promise<number> {
  const head = [
    'quantity'.padEnd(30),
    'error in'.padEnd(10),
    ' rows',
    '      mean       max  tol. mean  tol. max reason',
  ];
  process.stdout.write(`${directory}\n  ${head.join(' ')}\n`);
  const count = { ran: 0, absent: 0, failed: 0 };
  for (const { name, check } of checks) {
    if (only.length > 0 && !only.includes(name)) continue;
    process.stdout.write(`${name}\n`);
    try {
      const results = await check(directory);
      results.forEach(print);
      count.ran++;
      if (results.some((result) => fails(result, directory === own))) count.failed++;
    } catch (fault) {
      if (fault instanceof MissingFile) {
        count.absent++;
        process.stdout.write(`  absent: ${fault.message}\n`);
      } else {
        count.failed++;
        process.stdout.write(`! ${fault instanceof Error ? fault.message : String(fault)}\n`);
      }
    }
  }
  process.stdout.write(`${count.ran} compared, ${count.failed} failed, ${count.absent} absent\n`);
  if (count.ran === 0) return 2;
  return count.failed > 0 || (directory === own && count.absent > 0) ? 1 : 0;
}

const own = resolve(here, 'data');
const [directory = own, ...only] = process.argv.slice(2);
const published = resolve(directory, 'published');
process.exitCode = await main(existsSync(published) ? published : resolve(directory), only);
