/** `ramrise reach` as a user runs it: the same numbers in words and as JSON, one moment, refusals. */
import { beforeAll, describe, expect, it } from 'vitest';
import { CAUTION, type Reach } from '../../src/core/plan/plan.ts';
import { ramrise, ramriseJson } from './support/ramrise.ts';

const sortie = 'examples/long-loop.yaml';

describe('ramrise reach', () => {
  let reach: Reach & { readonly minute: number };

  beforeAll(() => {
    reach = ramriseJson('reach', sortie, '--at', '1:16');
  });

  it('[CLI-160] tells of every failure when each end is open, what an unstart costs, and what it took', () => {
    const { code, stdout } = ramrise('reach', sortie);
    expect(code).toBe(0);
    const lines = stdout.split('\n');
    for (const { name } of reach.ladders) {
      expect(lines.filter((line) => line.startsWith(`${name}: `))).not.toHaveLength(0);
      expect(lines).toContain(name);
    }
    // A row in the table of each failure, beside what begins a sentence.
    for (const { name } of reach.ends) {
      expect(lines.filter((line) => line.startsWith(`${name}  `))).toHaveLength(reach.ladders.length);
    }
    expect(stdout).toContain('An inlet unstarts');
    expect(stdout).toContain(`${reach.flights} flights, ${reach.evaluations} evaluations`);
    expect(stdout).toContain(CAUTION);
  });

  it('[CLI-161] tells of one moment after one failure what arrives where, or how much is missing', () => {
    const { code, stdout } = ramrise('reach', sortie, '--at', '1:16', '--failure', 'oneEngine');
    expect(code).toBe(0);
    const ladder = reach.ladders.find(({ key }) => key === 'oneEngine');
    const rows = stdout.split('\n');
    reach.ends.forEach(({ name }, end) => {
      const row = rows.find((line) => line.includes(name)) ?? '';
      const { fuelKg, requiredKg } = ladder?.choices[end] ?? { fuelKg: [], requiredKg: null };
      const kg = fuelKg[reach.minute];
      const cells = row.trim().split(/ {2,}/);
      const figures = cells.slice(cells.indexOf(name) + 1).map((text) => Number(text.replaceAll(' ', '')));
      if (kg === null) {
        expect(row).toMatch(/none/);
        return;
      }
      // To the step of the gauge, what arrives down and what has to arrive up.
      expect(figures[0]).toBeLessThanOrEqual(kg);
      expect(figures[0]).toBeGreaterThan(kg - 100);
      expect(figures[1]).toBeGreaterThanOrEqual(requiredKg ?? 0);
      if (kg < (requiredKg ?? 0)) expect(row).toMatch(/\d kg short/);
    });
  });

  it('[CLI-162] refuses a failure that is none of the sortie', () => {
    const { code, stderr } = ramrise('reach', sortie, '--failure', 'bothEngines');
    expect(code).toBe(1);
    expect(stderr).toMatch(/--failure bothEngines: not one of none, oneEngine/);
  });
});
