/** `ramrise contact`, `balance` and `inlet` as a user runs them: the same numbers in words and as JSON, and what is refused. */
import { describe, expect, it } from 'vitest';
import type { ContactStudy, PlanInlet } from '../../src/core/plan/plan.ts';
import { ramrise, ramriseJson } from './support/ramrise.ts';

const sortie = 'examples/long-loop.yaml';

interface Between {
  readonly cgFraction: number;
  readonly forwardLimit: number;
  readonly aftLimit: number;
  readonly marginFraction: number;
}

interface BalanceAnswer {
  readonly tables: { states: (Between & { fuelKg: number; tanksKg: number[] })[] }[];
  readonly contacts: { rows: Between[] }[];
  readonly tankers: { fuels: { beforeKg: number; givenKg: number; afterKg: number; burnable: boolean }[] }[];
  readonly behind: object | null;
}

describe('ramrise contact', () => {
  it('[CLI-140] says of each contact where dry thrust ends, and gives the same rows as JSON', () => {
    const { code, stdout } = ramrise('contact', sortie);
    expect(code).toBe(0);
    const { contacts, caution } = ramriseJson<{ contacts: ContactStudy[]; caution: string }>(
      'contact',
      sortie,
    );
    expect(contacts.map(({ tanker }) => tanker)).toEqual(['Ewer One', 'Ewer Two']);
    for (const { tanker, rows, dryEndsKg } of contacts) {
      expect(stdout).toContain(`${tanker}: thrust against mass taken`);
      for (const { availableN, requiredN, margin } of rows) {
        expect(margin).toBeCloseTo((availableN - requiredN) / requiredN, 12);
      }
      // To 10 kg, a mass that may be taken is rounded down.
      const ends = String(Math.floor((dryEndsKg ?? Number.NaN) / 10) * 10);
      expect(stdout.replaceAll(/\s/g, '')).toContain(`Drythrustendsat${ends}kgtaken.`);
    }
    expect(stdout).toContain(caution);
  });

  it('[CLI-141] tells of one tanker alone, and of one that is not there', () => {
    const one = ramriseJson<{ contacts: ContactStudy[] }>('contact', sortie, '--tanker', 'Ewer Two');
    expect(one.contacts.map(({ tanker }) => tanker)).toEqual(['Ewer Two']);
    const none = ramrise('contact', sortie, '--tanker', 'Nobody');
    expect(none.code).not.toBe(0);
    expect(none.stderr).toContain('there is no tanker "Nobody"');
    expect(none.stderr).toContain('Ewer One, Ewer Two');
  });
});

describe('ramrise balance', () => {
  it('[CLI-142] keeps what goes into the tanks and the centre of gravity between its limits, in words and as JSON', () => {
    const { code, stdout } = ramrise('balance', sortie);
    expect(code).toBe(0);
    expect(stdout).toMatch(/cent(re|er) of gravity/i);
    expect(stdout).toMatch(/Fuel for cooling: [\d ]+ kg left above [\d ]+ kg, at \d:\d\d/);
    expect(stdout).toContain('Full tanks today: ');
    expect(stdout).toContain('Planning aid, not approved data');
    const { tables, contacts, tankers, behind } = ramriseJson<BalanceAnswer>('balance', sortie);
    expect(behind).toBeNull();
    const rows = contacts.flatMap((contact) => contact.rows);
    expect(rows.length).toBeGreaterThan(4);
    for (const state of [...tables.flatMap(({ states }) => states), ...rows]) {
      const { cgFraction, forwardLimit, aftLimit, marginFraction } = state;
      expect(marginFraction).toBeCloseTo(Math.min(cgFraction - forwardLimit, aftLimit - cgFraction), 12);
      expect(marginFraction).toBeGreaterThan(0);
    }
    for (const { tanksKg, fuelKg } of tables.flatMap(({ states }) => states)) {
      expect(tanksKg.reduce((sum, kg) => sum + kg, 0)).toBeCloseTo(fuelKg, 6);
    }
    for (const { beforeKg, givenKg, afterKg, burnable } of tankers.flatMap(({ fuels }) => fuels)) {
      expect(beforeKg - givenKg).toBeCloseTo(afterKg, 6);
      if (!burnable) expect(givenKg).toBe(0);
    }
  });
});

describe('ramrise inlet', () => {
  it('[CLI-143] costs more the further an inlet stands off its schedule', () => {
    const { legs } = ramriseJson<PlanInlet>('inlet', sortie);
    expect(legs.length).toBeGreaterThan(0);
    for (const { rows } of legs) {
      const costs = rows
        .filter(({ errorDeg, fuelKg }) => errorDeg > 0 && fuelKg !== null)
        .map(({ fuelKg }) => fuelKg as number);
      expect(costs).toEqual([...costs].sort((a, b) => a - b));
      expect(costs[0]).toBeGreaterThan(0);
    }
  });
});
