/** Point-parallel rendezvous against values worked out outside this project: test/published/data/rendezvous.csv. */
import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { pointParallel } from '../../../src/core/plan/tanker-rendezvous.ts';

const knot = 1852 / 3600;
const mile = 1852;
const text = readFileSync('test/published/data/rendezvous.csv', 'utf8');
const rows: Record<string, string>[] = parse(text, { columns: true, comment: '#' });

describe('a point-parallel rendezvous', () => {
  it('[RDV-P1] has the offset, turn time, ranges and closure of every published row', () => {
    expect(rows).toHaveLength(6);
    for (const row of rows) {
      const value = (key: string) => Number(row[key]);
      const got = pointParallel({
        tankerMS: value('tankerSpeed [kt]') * knot,
        receiverMS: value('receiverSpeed [kt]') * knot,
        bankRad: (value('bank [deg]') * Math.PI) / 180,
        aheadM: value('margin [nmi]') * mile,
      });
      const near = (figure: number, key: string) =>
        expect(Math.abs(figure / value(key) - 1)).toBeLessThan(1e-6);
      near(got.offsetM / mile, 'offset [nmi]');
      near(got.turnTimeS, 'turnTime [s]');
      near(got.alongTrackM / mile, 'alongTrackTurnRange [nmi]');
      near(got.turnRangeM / mile, 'turnRange [nmi]');
      near(got.closureMS / knot, 'closure [kt]');
    }
  });
});
