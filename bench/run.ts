/** `npm run bench [-- NAME ...]`: every file of this folder that exports `bench`, or those named, one after the other. */
import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { calibration, kept, line } from './support/clock.ts';

const here = dirname(fileURLToPath(import.meta.url));
const wanted = process.argv.slice(2);
const files = readdirSync(here).filter((name) => name.endsWith('.ts') && name !== 'run.ts');

line(
  'calibration loop, one round',
  `${calibration().toFixed(2)} ns`,
  'times below are to be read beside this',
);
for (const file of files.sort()) {
  const name = file.slice(0, -3);
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  const module = await import(pathToFileURL(join(here, file)).href);
  if (typeof module.bench !== 'function') continue;
  process.stdout.write(`\n${name}\n`);
  await module.bench();
}
if (!Number.isFinite(kept())) process.exitCode = 1;
