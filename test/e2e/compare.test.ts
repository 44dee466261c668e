/** `ramrise compare` and `ramrise plan --slip` as a user runs them on the sortie of the demonstration. */
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ramrise, ramriseJson } from './support/ramrise.ts';

let folder = '';
let sortie = '';
const plans: Record<'old' | 'same' | 'new', string> = { old: '', same: '', new: '' };

/** Overnight the sortie is written over: 500 kg more are kept on landing. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ramrise-overnight-'));
  for (const of of ['decks', 'examples']) cpSync(of, join(folder, of), { recursive: true });
  sortie = join(folder, 'examples', 'long-loop.yaml');
  for (const name of ['old', 'same', 'new'] as const) {
    if (name === 'new') {
      const text = readFileSync(sortie, 'utf8');
      writeFileSync(sortie, text.replace('landing: 2000 kg', 'landing: 2500 kg'));
    }
    const { code, stderr } = ramrise('plan', sortie, '--quick', '--out', join(folder, name));
    if (code !== 0) throw new Error(stderr);
    plans[name] = join(folder, name, 'plan.json');
  }
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

interface Compared {
  readonly nothingChanged: boolean;
  readonly keys: readonly object[];
  readonly split: {
    readonly causes: readonly { readonly key: string }[];
    readonly measures: readonly {
      readonly what: string;
      readonly of: string;
      readonly causes: { change: number }[];
    }[];
  };
}

describe('ramrise compare', () => {
  it('[CLI-71] of two plans of the same inputs ends with 0 and says that nothing changed', () => {
    const { code, stdout, stderr } = ramrise('compare', plans.old, plans.same);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toContain('Nothing changed');
  });

  it('[CLI-72] finds the sortie that was written over, and gives the reserve its 500 kg', () => {
    const { nothingChanged, keys, split } = ramriseJson<Compared>('compare', plans.old, plans.new);
    expect(nothingChanged).toBe(false);
    expect(keys).toEqual([{ what: 'reserves.landing', from: '2000 kg', to: '2500 kg' }]);
    expect(split.causes.map(({ key }) => key)).toEqual(['reserves']);
    const landing = split.measures.findLast(({ what }) => what === 'inHandKg');
    expect(landing?.causes[0].change).toBeCloseTo(-500, 3);
  });

  it('[CLI-73] writes a chart and a table', () => {
    const out = join(folder, 'difference');
    const { code, stdout } = ramrise('compare', plans.old, plans.new, '--out', out);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^reserves and pads +−500 +█+ +−500$/m);
    expect(readFileSync(join(out, 'compare.svg'), 'utf8')).toMatch(/^<svg /);
    expect(readFileSync(join(out, 'compare.csv'), 'utf8')).toContain('landing,inHandKg,fuelKg,');
  });

  it('[CLI-74] refuses what is no plan', () => {
    const { code, stderr } = ramrise('compare', plans.old, sortie);
    expect(code).toBe(1);
    expect(stderr).toContain('is not a plan file');
  });
});

describe('ramrise plan --slip', () => {
  it('[CLI-75] needs no folder, plans every take-off, and says that the weather is held', () => {
    const { code, stdout } = ramrise('plan', sortie, '--slip', '0..20min/10min');
    expect(code).toBe(0);
    expect(stdout).toMatch(/^The weather is the same at every time/m);
    expect(stdout).toMatch(/^ +20 +15:50Z +yes /m);
  });

  it('[CLI-76] writes slip.csv and slip.svg beside the plan', () => {
    const out = join(folder, 'slip');
    const { slip, files } = ramriseJson<{ slip: { rows: object[] }; files: string[] }>(
      'plan', sortie, '--quick', '--slip', '0..20min/10min', '--out', out); // biome-ignore format: one command
    expect(slip.rows).toHaveLength(3);
    expect(files).toEqual(
      expect.arrayContaining(['slip.csv', 'slip.svg', 'plan.json'].map((name) => join(out, name))),
    );
  });

  it('[CLI-77] refuses a range before anything is written', () => {
    const out = join(folder, 'none');
    const { code, stderr } = ramrise('plan', sortie, '--quick', '--slip', '0..120/10min', '--out', out);
    expect(code).toBe(1);
    expect(stderr).toContain('duration "120": has no unit');
    expect(existsSync(out)).toBe(false);
  });
});
