/** Inputs of plans found again by their hashes. */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Side } from '../../src/core/plan/causes.ts';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import { CannotPlan } from '../../src/core/plan/sortie-flyer.ts';
import { findInputs, type PlanFile } from '../../src/files/compare-inputs.ts';
import { planText, readPlan, SORTIE_COPY } from '../../src/files/plan.ts';
import { readPlanRequest } from '../../src/files/plan-request.ts';
import { changedKeys } from '../../src/files/sortie-changes.ts';
import { change, longLoopText } from '../support/demo.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ramrise-compare-'));
  for (const of of ['decks', 'examples']) cpSync(of, join(folder, of), { recursive: true });
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

const sortiePath = () => join(folder, 'examples', 'long-loop.yaml');

/** Plans the sortie as its file reads now, into a folder of its own, with the copy that `ramrise plan` keeps. */
async function planned(side: Side, text: string, keepCopy = true): Promise<PlanFile> {
  writeFileSync(sortiePath(), text);
  const plan = makePlan(await readPlanRequest(sortiePath(), 'test'));
  const out = join(folder, 'out', side);
  mkdirSync(out, { recursive: true });
  const path = join(out, 'plan.json');
  writeFileSync(path, planText(plan));
  rmSync(join(out, SORTIE_COPY), { force: true });
  if (keepCopy) writeFileSync(join(out, SORTIE_COPY), text);
  return { side, path, plan: readPlan(path) };
}

const heavierText = change(longLoopText, ['fuel: 14000 kg', 'fuel: 13500 kg']);

describe('the inputs of two plans', () => {
  it('[CMP-31] are found when the sortie was written over since, by the copy beside the plan', async () => {
    const old = await planned('old', longLoopText);
    const now = await planned('new', heavierText);
    const { sources, keys } = await findInputs(old, now);
    expect([sources.weatherChanged, sources.aircraftChanged]).toEqual([false, false]);
    expect(sources.sortie('old', 'new').aircraft.fuelKg).toBe(14000);
    expect(sources.sortie('new', 'new').aircraft.fuelKg).toBe(13500);
    expect(sources.day('old')).toBe(sources.day('new'));
    expect(keys).toEqual([{ what: 'aircraft.fuel', from: '14000 kg', to: '13500 kg' }]);
  });

  it('[CMP-32] without the copy the old sortie has changed since, which is said when it is asked for', async () => {
    const old = await planned('old', longLoopText, false);
    const now = await planned('new', heavierText);
    const { sources, keys } = await findInputs(old, now);
    expect(keys).toEqual([]);
    expect(() => sources.sortie('old', 'old')).toThrow(CannotPlan);
    expect(() => sources.sortie('old', 'old')).toThrow(
      /^the sortie of the old plan, .*long-loop\.yaml, has changed since$/,
    );
    expect(sources.sortie('new', 'old').aircraft.fuelKg).toBe(13500);
  });

  it('[CMP-33] a deck with one other byte is another deck, and one that is gone is said', async () => {
    const old = await planned('old', longLoopText);
    const deck = join(folder, 'decks', 'sandmartin', 'deck.yaml');
    const before = readFileSync(deck, 'utf8');
    writeFileSync(deck, change(before, ['mass: 35200 kg', 'mass: 35300 kg']));
    try {
      const now = await planned('new', longLoopText);
      const { sources } = await findInputs(old, now);
      expect(sources.aircraftChanged).toBe(true);
      expect(sources.aircraft('new').balance.emptyMassKg).toBe(36800);
      expect(() => sources.aircraft('old')).toThrow(
        'the deck of the old plan, ../decks/sandmartin, has changed since',
      );
    } finally {
      writeFileSync(deck, before);
    }
    const moved = await planned('new', longLoopText);
    rmSync(join(folder, 'decks'), { recursive: true });
    const { sources } = await findInputs(old, moved);
    expect(() => sources.aircraft('new')).toThrow(
      'the deck of the new plan, ../decks/sandmartin, is not found',
    );
    cpSync('decks', join(folder, 'decks'), { recursive: true });
  });

  it('[CMP-34] another rule for the same weather file is other weather', async () => {
    const old = await planned('old', longLoopText);
    const now = await planned(
      'new',
      change(longLoopText, ['  bottom: holdOffset\n', '  bottom: holdOffset\n  top: holdOffset\n']),
    );
    const { sources } = await findInputs(old, now);
    expect(sources.weatherChanged).toBe(true);
    expect(sources.day('new').description.continuedBy).not.toEqual(
      sources.day('old').description.continuedBy,
    );
  });

  it('[CMP-35] areas that are gone are replaced by those of the other plan, with a remark', async () => {
    const old = await planned('old', longLoopText);
    const areas = join(folder, 'examples', 'areas.geojson');
    const before = readFileSync(areas, 'utf8');
    writeFileSync(areas, `${before}\n`);
    const now = await planned('new', longLoopText);
    const { sources } = await findInputs(old, now);
    writeFileSync(areas, before);
    expect(sources.remarks).toEqual([
      'the file of areas of the old plan, areas.geojson, has changed since; those of the other plan are kept out of instead',
    ]);
    expect(sources.sortie('old', 'old').areas).toEqual(sources.sortie('new', 'old').areas);
  });
});

describe('keys of two sortie files', () => {
  it('[CMP-41] that differ are named by the names in lists, and one that is new or gone has no other side', () => {
    const from =
      'tankers:\n  - { name: A, rate: 1 kg/s }\n  - { name: B, rate: 2 kg/s }\nfuel: [1 kg, 2 kg]\n';
    const to = 'tankers:\n  - { name: B, rate: 3 kg/s }\n  - { name: C, rate: 1 kg/s }\nfuel: [1 kg, 4 kg]\n';
    expect(changedKeys(from, to)).toEqual([
      { what: 'tankers.A.name', from: 'A', to: null },
      { what: 'tankers.A.rate', from: '1 kg/s', to: null },
      { what: 'tankers.B.rate', from: '2 kg/s', to: '3 kg/s' },
      { what: 'fuel.1', from: '2 kg', to: '4 kg' },
      { what: 'tankers.C.name', from: null, to: 'C' },
      { what: 'tankers.C.rate', from: null, to: '1 kg/s' },
    ]);
  });

  it('[CMP-42] comments and order change nothing', () => {
    expect(changedKeys('a: 1 # one\nb: 2\n', 'b: 2\na: 1\n')).toEqual([]);
  });
});
