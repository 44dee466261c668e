/** Every quantity of every published file against its tolerance; `npm run accuracy` prints the distributions. */
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { checks } from './checks/index.ts';

const data = join(dirname(fileURLToPath(import.meta.url)), 'data');

describe('[PUBLISHED] published values', () => {
  it.each(checks)('$name agrees within its tolerances, no sample dropped', async ({ check }) => {
    const results = await check(data);
    expect(results.length).toBeGreaterThan(0);
    const failed = results.filter((result) => !result.passed);
    expect(failed.map(({ quantity, mean, max, worst }) => ({ quantity, mean, max, worst }))).toEqual([]);
  });
});
