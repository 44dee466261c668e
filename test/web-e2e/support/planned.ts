/** What the program makes of the same sortie outside a browser: the reference for every value on the screen. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import packageFile from '../../../package.json' with { type: 'json' };
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { asWritten } from '../../../src/files/plan.ts';
import { readPlanRequest } from '../../../src/files/plan-request.ts';
import { sentences } from '../../../src/present/sentences.ts';
import { ramriseJson } from '../../e2e/support/ramrise.ts';
import { root } from './app.ts';

export interface Planned {
  readonly plan: Plan;
  readonly answers: readonly string[];
}

/** The demonstration as `ramrise plan --json` answers it and writes it, with its cards. */
export function commanded(): Planned & { readonly cards: Buffer } {
  return inFolder((folder) => {
    const { answers } = ramriseJson<Planned>('plan', 'examples/long-loop.yaml', '--out', folder);
    const plan: Plan = JSON.parse(readFileSync(join(folder, 'plan.json'), 'utf8'));
    return { plan, answers, cards: readFileSync(join(folder, 'cards.pdf')) };
  });
}

/** The demonstration as the command line planned it for the build. */
export function demonstration(): Planned {
  const plan: Plan = JSON.parse(readFileSync(join(root, '.cache', 'web', 'plan.json'), 'utf8'));
  return { plan, answers: sentences(plan) };
}

/** A text planned as if it were a sortie of examples/, as its plan file says it. */
export function planned(text: string): Promise<Planned> {
  return inFolder(async (folder) => {
    mkdirSync(join(folder, 'examples'));
    symlinkSync(join(root, 'decks'), join(folder, 'decks'));
    for (const beside of ['weather', 'areas.geojson']) {
      symlinkSync(join(root, 'examples', beside), join(folder, 'examples', beside));
    }
    const sortie = join(folder, 'examples', 'sortie.yaml');
    writeFileSync(sortie, text);
    const request = await readPlanRequest(sortie, `${packageFile.name} ${packageFile.version}`);
    const plan = asWritten(makePlan(request));
    return { plan, answers: sentences(plan) };
  });
}

/** Works in a folder that is gone afterwards. */
function inFolder<T>(work: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'ramrise-web-'));
  const clean = () => rmSync(folder, { recursive: true });
  const made = work(folder);
  if (made instanceof Promise) return made.finally(clean) as T;
  clean();
  return made;
}

export function example(name: string): string {
  return readFileSync(join(root, 'examples', name), 'utf8');
}
