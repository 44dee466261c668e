/** `ramrise accelerate` as a user runs it. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ramrise, ramriseJson } from './support/ramrise.ts';

const sortie = 'examples/long-loop.yaml';

describe('ramrise accelerate', () => {
  it('[CLI-110] says the heading, the pushover and why the search stopped, and writes a chart and a table for each leg', () => {
    const folder = mkdtempSync(join(tmpdir(), 'ramrise-accelerate-'));
    const { code, stdout } = ramrise('accelerate', sortie, '--out', folder);
    expect(code).toBe(0);
    expect(stdout.replaceAll('\n', ' ')).toMatch(/Accelerate on \d{3}° magnetic .* less to M 1\.60/);
    expect(stdout).toContain('The search flew');
    expect(readFileSync(join(folder, 'acceleration-leg-2.svg'), 'utf8')).toContain('</svg>');
    expect(readFileSync(join(folder, 'acceleration-leg-2.csv'), 'utf8').split('\r\n')).toHaveLength(27);
    rmSync(folder, { recursive: true });
  });

  it('[CLI-111] says the same as JSON', () => {
    interface Answer {
      readonly legs: readonly {
        bestPushover: { fuelKg: number };
        planned: { fuelKg: number };
        headings: unknown[];
      }[];
    }
    const { legs } = ramriseJson<Answer>('accelerate', sortie);
    expect(legs).toHaveLength(2);
    for (const { bestPushover, planned, headings } of legs) {
      expect(bestPushover.fuelKg).toBeLessThan(planned.fuelKg + 1);
      expect(headings).toHaveLength(24);
    }
  });

  it('[CLI-112] refuses a sortie that is not there', () => {
    expect(ramrise('accelerate', 'examples/none.yaml').code).toBe(1);
  });
});
