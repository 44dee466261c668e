/** `npm run bench [-- NAME ...]`: bundles the benchmarks as the program is bundled, and runs them. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { build as bundle } from 'tsdown';
import { build, install } from './setup.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
install();
build();
await bundle({
  config: false,
  cwd: root,
  entry: { run: 'bench/run.ts' },
  outDir: '.cache/bench',
  format: 'esm',
  platform: 'node',
  target: 'node20',
  dts: false,
  clean: true,
  logLevel: 'error',
  outExtensions: () => ({ js: '.js' }),
});
const run = [`${root}.cache/bench/run.js`, ...process.argv.slice(2)];
process.exitCode = spawnSync(process.execPath, run, { cwd: root, stdio: 'inherit' }).status ?? 1;
