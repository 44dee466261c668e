/** `ramrise rules` and `tankers` as a user runs them: the same numbers in words and as JSON. */
import { describe, expect, it } from 'vitest';
import { CAUTION, type TankerMatrix, type TankerOwn } from '../../src/core/plan/plan.ts';
import { ramrise, ramriseJson } from './support/ramrise.ts';

const sortie = 'examples/long-loop.yaml';

describe('ramrise rules', () => {
  it('[CLI-150] says of each driver what a step costs and where the sortie fails, and carries the caution', () => {
    const { code, stdout } = ramrise('rules', sortie);
    expect(code).toBe(0);
    const said = stdout.split('\n').filter((line) => /^(Each|Inlet ramp) .* costs? .*kg at .*; /.test(line));
    expect(said).toHaveLength(9);
    expect(said.filter((line) => /; (beyond [+−]|no limit up to [+−])/.test(line))).toHaveLength(9);
    expect(stdout).toContain(CAUTION);
  });
});

describe('ramrise tankers', () => {
  it('[CLI-151] has a row for each trouble of each tanker and the own fuel of each, in words and as JSON', () => {
    const { code, stdout } = ramrise('tankers', sortie);
    expect(code).toBe(0);
    const { cases, tankerOwn } = ramriseJson<TankerMatrix & { tankerOwn: TankerOwn[] }>('tankers', sortie);
    expect(cases).toHaveLength(6);
    const rows = stdout.split('\n').filter((line) => /^Ewer (One|Two) (absent|with half|20 min)/.test(line));
    expect(rows).toHaveLength(6);
    expect(tankerOwn.map(({ tanker }) => tanker)).toEqual(['Ewer One', 'Ewer Two']);
    for (const { tanker, home } of tankerOwn) {
      expect(stdout).toContain(`${tanker}: on station from`);
      expect(stdout).toContain(`for ${home?.base},`);
    }
    expect(stdout).toContain(CAUTION);
  });

  it('[CLI-152] refuses a sortie with faults, by line and path', () => {
    const { code, stderr } = ramrise('tankers', 'test/files/faulty-sortie.yaml');
    expect(code).toBe(1);
    expect(stderr).toMatch(/faulty-sortie\.yaml:3:10: version/);
  });
});
