/** What the command line makes of the same sortie: the reference for every value on the screen. */
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { sentences } from '../../../src/present/sentences.ts';
import { ramrise } from '../../e2e/support/ramrise.ts';
import { root } from './app.ts';

export interface Planned {
  readonly plan: Plan;
  /** What `ramrise plan --json` answers. */
  readonly answers: readonly string[];
  readonly cards: Buffer;
}

/** Plans a text as if it were a sortie of examples/. */
export async function planned(text: string, name: string): Promise<Planned> {
  const folder = mkdtempSync(join(tmpdir(), 'ramrise-web-'));
  try {
    await mkdir(join(folder, 'examples'));
    symlinkSync(join(root, 'decks'), join(folder, 'decks'));
    for (const beside of ['weather', 'areas.geojson']) {
      symlinkSync(join(root, 'examples', beside), join(folder, 'examples', beside));
    }
    const sortie = join(folder, 'examples', basename(name));
    writeFileSync(sortie, text);
    const { stdout } = ramrise('plan', sortie, '--out', join(folder, 'out'), '--json');
    return {
      plan: JSON.parse(readFileSync(join(folder, 'out', 'plan.json'), 'utf8')),
      answers: JSON.parse(stdout).answers,
      cards: readFileSync(join(folder, 'out', 'cards.pdf')),
    };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The demonstration as the command line planned it for the build. */
export function demonstration(): Planned {
  const made = (name: string) => readFileSync(join(root, '.cache', 'web', name));
  const plan: Plan = JSON.parse(made('plan.json').toString());
  return { plan, answers: sentences(plan), cards: made('cards.pdf') };
}

export function example(name: string): string {
  return readFileSync(join(root, 'examples', name), 'utf8');
}
