#!/usr/bin/env node
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { setFlagsFromString } from 'node:v8';

// One short run on a small machine: these take a quarter off the peak of memory and cost no time that can be measured.
setFlagsFromString('--optimize-for-size');
setFlagsFromString('--liftoff-only');
setFlagsFromString('--no-sparkplug');
setFlagsFromString('--semi-space-growth-factor=1');

const main = new URL('../dist/main.js', import.meta.url);
if (existsSync(fileURLToPath(main))) {
  await import(main.href);
} else {
  console.error('Ramrise is not built yet: run "npm start" once in its folder.');
  process.exitCode = 70;
}
