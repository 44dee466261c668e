/** `ramrise contact`, `balance` and `inlet` as a user runs them: the same numbers in words and as JSON, and what is refused. */
import { describe, expect, it } from 'vitest';
import type { ContactStudy, PlanInlet } from '../../src/core/plan/plan.ts';
import { ramrise, ramriseJson } from './support/ramrise.ts';

const sortie = 'examples/long-loop.yaml';

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
    expect(stdout).toContain('Planning aid, not approved data');
    const answer = JSON.stringify(ramriseJson('balance', sortie));
    expect(answer).toContain('"marginFraction"');
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
