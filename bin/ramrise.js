#!/usr/bin/env node
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const main = new URL('../dist/main.js', import.meta.url);
if (existsSync(fileURLToPath(main))) {
  await import(main.href);
} else {
  console.error('Ramrise is not built yet: run "npm start" once in its folder.');
  process.exitCode = 70;
}
