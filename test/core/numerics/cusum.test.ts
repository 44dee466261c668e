/** Average run lengths of the two-sided cumulative sum: published by Lucas and Crosier (1982), table 1, and Montgomery; see the file. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { Cusum } from '../../../src/core/numerics/cusum.ts';
import { chance } from '../../support/random.ts';

const file = new URL('../../published/data/cusum-arl.csv', import.meta.url);
const published = readFileSync(file, 'utf8')
  .split('\n')
  .filter((line) => /^[\d.]/.test(line))
  .map((line) => line.split(','))
  .filter((cells) => cells[5] !== '')
  .map((cells) => cells.map(Number));

it('[AIRBORNE-1] the published run lengths are all there', () => {
  expect(published.length).toBe(20);
});

it.each(published)('[AIRBORNE-1] k %f, h %f, shift %f', (k, h, shift, _one, _two, runLength) => {
  const luck = chance(1);
  const runs = 1500;
  let values = 0;
  for (let run = 0; run < runs; run++) {
    const sum = new Cusum(k, h);
    do values++;
    while (!sum.add(luck.normal() + shift));
  }
  // A run length scatters by about itself: three standard deviations of the mean of the runs, and the rounding of the tables.
  expect(Math.abs(values / runs - runLength)).toBeLessThan((3 * runLength) / Math.sqrt(runs) + 0.06);
});
