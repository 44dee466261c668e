/**
 * Average run lengths of the two-sided cumulative sum, as drawn by chance: published by Lucas and Crosier (1982), table 1, and
 * Montgomery, and solved from the integral equation; and the bounds that give a wanted run length. See the heads of the files.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Cusum } from '../../../src/core/numerics/cusum.ts';
import { chance } from '../../support/random.ts';

function rowsOf(name: string): string[][] {
  return readFileSync(new URL(`../../published/data/${name}`, import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => /^[\d.]/.test(line))
    .map((line) => line.split(','));
}

/** Mean length of so many runs, each from zero. */
function runLength(k: number, h: number, shift: number, runs: number): number {
  const luck = chance(1);
  let values = 0;
  for (let run = 0; run < runs; run++) {
    const sum = new Cusum(k, h);
    do values++;
    while (!sum.add(luck.normal() + shift));
  }
  return values / runs;
}

/** Enough that a run length 15 % off is found; a run length scatters by about itself. */
const runs = 900;
const within = (length: number): number => (3.5 * length) / Math.sqrt(runs);

describe('[AIRBORNE-1] run lengths', () => {
  const rows = rowsOf('cusum-arl.csv');
  const printed = rows.filter((cells) => cells[5] !== '').map((cells) => cells.map(Number));

  it('are all there', () => {
    expect([rows.length, printed.length]).toEqual([50, 20]);
  });

  it.each(printed)('printed in tables: k %f, h %f, shift %f', (k, h, shift, _one, _two, length) => {
    // Tables round to 0.5 at most of the third digit.
    expect(Math.abs(runLength(k, h, shift, runs) - length)).toBeLessThan(within(length) + 0.06);
  });

  const others = rows.filter((cells) => cells[5] === '').map((cells) => cells.map(Number));
  it.each(others)('of the integral equation: k %f, h %f, shift %f', (k, h, shift, _one, length) => {
    expect(Math.abs(runLength(k, h, shift, runs) - length)).toBeLessThan(within(length));
  });
});

describe('[AIRBORNE-1] bounds', () => {
  const rows = rowsOf('cusum-h.csv').map((cells) => cells.map(Number));

  it('are all there', () => {
    expect(rows.length).toBe(12);
  });

  it.each(rows)('k %f: %f values between false alarms', (k, length, _oneSided, h) => {
    expect(Math.abs(runLength(k, h, 0, runs) - length)).toBeLessThan(within(length));
  });
});
