import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    pool: 'forks',
    // The modules keep nothing from one file to the next, and reading them takes longer than most tests.
    isolate: false,
    maxWorkers: availableParallelism(),
    projects: [
      {
        extends: true,
        test: {
          name: 'core',
          include: ['test/**/*.test.ts'],
          exclude: ['test/alone/**', 'test/e2e/**', 'test/web-e2e/**'],
        },
      },
      { extends: true, test: { name: 'alone', include: ['test/alone/**/*.test.ts'], isolate: true } },
      {
        extends: true,
        test: {
          name: 'end to end',
          include: ['test/e2e/**/*.test.ts'],
          globalSetup: ['test/e2e/support/built.ts'],
        },
      },
      {
        extends: true,
        test: {
          name: 'in a browser',
          include: ['test/web-e2e/**/*.test.ts'],
          globalSetup: ['test/e2e/support/built.ts'],
        },
      },
    ],
    // No test asserts a time; the limit only ends what hangs, also on a slow and busy machine.
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
