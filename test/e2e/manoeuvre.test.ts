/** `ramrise manoeuvre` as a user runs it. */
import { describe, expect, it } from 'vitest';
import { ramrise, ramriseJson } from './support/ramrise.ts';

const sortie = 'examples/long-loop.yaml';
const low = ['manoeuvre', sortie, '--altitude', '3000 ft', '--fuel', '30000 kg'];

describe('ramrise manoeuvre', () => {
  it('[CLI-130] refuses a low, heavy, steep turn by what it meets first, with exit code 3', () => {
    const { code, stdout } = ramrise(...low, '--speed', '220 KCAS', '--bank', '60 deg');
    expect(code).toBe(3);
    expect(stdout).toMatch(/^Not allowed: stall warning while entered, .*height above the ground\./);
    expect(stdout).toContain('Structure, rolling');
    expect(stdout).toContain('common practice');
    expect(stdout).toContain('Planning aid, not approved data');
  });

  it('[CLI-131] allows a gentle one high and fast, and says the same as JSON', () => {
    const asked = [
      'manoeuvre',
      sortie,
      '--altitude',
      '12000 ft',
      '--fuel',
      '30000 kg',
      '--speed',
      '350 KCAS',
    ];
    expect(ramrise(...asked, '--bank', '25 deg').code).toBe(0);
    const judged = ramriseJson<{ allowed: boolean; loadFactor: number; bankDeg: number }>(
      ...asked,
      '--bank',
      '25 deg',
    );
    expect(judged.allowed).toBe(true);
    expect(judged.loadFactor).toBeCloseTo(1 / Math.cos((25 * Math.PI) / 180), 9);
    expect(judged.bankDeg).toBeCloseTo(25, 9);
  });

  it('[CLI-132] without bank and load factor gives rows by 2 t of fuel from full tanks', () => {
    const { rows } = ramriseJson<{ rows: { fuelKg: number }[] }>(
      'manoeuvre',
      sortie,
      '--altitude',
      '24000 ft',
      '--speed',
      '320 KCAS',
    );
    expect(rows.length).toBeGreaterThan(15);
    expect(rows.slice(1).every(({ fuelKg }) => fuelKg % 2000 === 0)).toBe(true);
  });

  it('[CLI-134] without an altitude and a speed judges every turn of the plan; one of the two alone is wrong usage', () => {
    const { turns } = ramriseJson<{
      turns: { name: string; loadFactor: number; bounds: { warning: number } }[];
    }>('manoeuvre', sortie);
    expect(turns.map(({ name }) => name)).toContain('Alder');
    for (const { loadFactor, bounds } of turns) expect(loadFactor).toBeLessThan(bounds.warning);
    const { code, stdout } = ramrise('manoeuvre', sortie);
    expect(code).toBe(0);
    for (const { name } of turns) expect(stdout).toContain(name);
    expect(ramrise('manoeuvre', sortie, '--speed', '320 KCAS').code).toBe(2);
    expect(ramrise('manoeuvre', sortie, '--bank', '30 deg').code).toBe(2);
  });

  it('[CLI-133] refuses a speed without its kind, and more fuel than the tanks hold', () => {
    const kind = ramrise(...low, '--speed', '220 kt', '--bank', '20 deg');
    expect([kind.code, kind.stderr]).toEqual([1, expect.stringContaining('KCAS')]);
    const fuel = ramrise(
      'manoeuvre',
      sortie,
      '--altitude',
      '3000 ft',
      '--speed',
      '220 KCAS',
      '--fuel',
      '90000 kg',
      '--bank',
      '20 deg',
    );
    expect([fuel.code, fuel.stderr]).toEqual([1, expect.stringContaining('fuel 90000 kg is outside')]);
  });
});
