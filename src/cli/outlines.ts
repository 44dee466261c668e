/** Loads the outlines of the world that come with the program. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Plan } from '../core/plan/plan.ts';
import { bandOf } from '../present/map/map.ts';
import { type OutlineFile, type Outlines, outlinesOf } from '../present/map/outlines.ts';

/** Those that a map of a plan may show. */
export function readOutlines(plan: Plan): Outlines {
  const path = createRequire(import.meta.url).resolve('world-atlas/countries-50m.json');
  return outlinesOf(JSON.parse(readFileSync(path, 'utf8')) as OutlineFile, bandOf(plan));
}
