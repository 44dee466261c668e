/** `ramrise deck check` and `ramrise schema` as a user runs them. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ramrise, ramriseJson } from './support/ramrise.ts';

let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ramrise-deck-'));
});

afterAll(() => {
  rmSync(folder, { recursive: true });
});

function change(file: string, from: string | RegExp, to: string): void {
  const path = join(folder, file);
  const text = readFileSync(path, 'utf8');
  const changed = text.replace(from, to);
  if (changed === text) throw new Error(`${file} has nothing that matches ${from}`);
  writeFileSync(path, changed);
}

describe('ramrise deck check', () => {
  it.each(['decks/sandmartin', 'decks/benchmark-interceptor'])('[CLI-30] finds no fault in %s', (deck) => {
    const { code, stdout } = ramrise('deck', 'check', deck);
    expect(code).toBe(0);
    expect(stdout).toContain(`Covers ${deck}/propulsion.csv: Mach 0 to `);
    expect(stdout).toContain('no faults');
  });

  it('[CLI-31] finds every fault of a deck at once, each with file and line', () => {
    cpSync('decks/benchmark-interceptor', folder, { recursive: true });
    change('deck.yaml', 'version: 1', 'version: 99');
    const unknown = ramrise('deck', 'check', folder);
    expect(unknown.code).toBe(1);
    expect(unknown.stdout).toMatch(/deck\.yaml:\d+:\d+: version/);

    change('deck.yaml', 'version: 99', 'version: 1');
    const rows = readFileSync(join(folder, 'drag.csv'), 'utf8').split('\n');
    const first = rows.findIndex((row) => /^\d/.test(row));
    rows[first] = rows[first].replace(/,[\d.]+$/, ',-0.013');
    rows[first + 1] = `${rows[first + 1]},7`;
    writeFileSync(join(folder, 'drag.csv'), rows.join('\n'));
    change('lift.csv', /\n0\.4,/, '\n0.4x,');
    const { code, stdout } = ramrise('deck', 'check', folder);
    expect(code).toBe(1);
    expect(stdout).toContain(`drag.csv:${first + 2}`);
    expect(stdout).toMatch(/lift\.csv:\d+/);
  });

  it('[CLI-32] says the same as JSON', () => {
    const { identity, faults } = ramriseJson<{ identity: { name: string }; faults: unknown[] }>(
      'deck',
      'check',
      'decks/sandmartin',
    );
    expect(identity.name).toBe('Sandmartin');
    expect(faults).toEqual([]);
  });

  it('[CLI-33] says that there is no deck in a folder', () => {
    const { code, stdout } = ramrise('deck', 'check', 'nowhere');
    expect(code).toBe(1);
    expect(stdout).toContain('nowhere/deck.yaml: there is no such file');
  });
});

describe('ramrise schema', () => {
  it.each([
    ['deck', 'propulsion'],
    ['sortie', 'tankers'],
  ])('[CLI-34] prints the JSON Schema of a %s', (kind, part) => {
    const schema = ramriseJson<{ $schema: string; properties: Record<string, unknown> }>('schema', kind);
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(Object.keys(schema.properties)).toContain(part);
  });

  it('[CLI-35] names the kinds there are', () => {
    const { code, stderr } = ramrise('schema', 'plane');
    expect(code).toBe(2);
    expect(stderr).toContain('deck');
  });
});
