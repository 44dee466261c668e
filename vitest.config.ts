import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    pool: 'forks',
    maxWorkers: availableParallelism(),
    // No test asserts a time; the limit only ends what hangs, also on a slow and busy machine.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    include: ['test/**/*.test.ts'],
  },
});
