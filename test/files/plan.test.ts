/** Plan files and fingerprints. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import type { PlanInput } from '../../src/core/plan/plan.ts';
import { FileFaults } from '../../src/files/faults.ts';
import { fingerprintAlphabet, fingerprintOf, sha256 } from '../../src/files/fingerprint.ts';
import { planText, readPlan } from '../../src/files/plan.ts';
import { readPlanRequest } from '../../src/files/plan-request.ts';
import { change, longLoopText, requestOf } from '../support/demo.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ramrise-files-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

function written(text: string): string {
  const path = join(folder, 'plan.json');
  writeFileSync(path, text);
  return path;
}

const plan = makePlan(requestOf(longLoopText));
const text = planText(plan);

describe('a plan file', () => {
  it('[FILE-1] is read back as it was made, to nine digits, and is less than 1 MB', () => {
    expect(text.length).toBeLessThan(1e6);
    const back = readPlan(written(text));
    expect(back.limits.map((limit) => limit.key)).toEqual(plan.limits.map((limit) => limit.key));
    expect(back.trace.phase).toEqual(plan.trace.phase);
    const close = (a: number, b: number) => Math.abs(a - b) <= 6e-9 * Math.abs(b);
    for (const [name, column] of Object.entries(plan.trace.columns)) {
      const read = back.trace.columns[name as keyof typeof plan.trace.columns];
      expect(
        read.every((value, i) => close(value, column[i])),
        name,
      ).toBe(true);
    }
    expect(planText(back)).toBe(text);
  });

  it('[FILE-2] has null and never NaN where something was not computed', () => {
    // A sortie that stops on its first leg has no fuel required anywhere.
    const stopped = makePlan(requestOf(change(longLoopText, ['maximumMach: 0.80', 'maximumMach: 0.70'])));
    const words = planText(stopped);
    expect(words).not.toMatch(/NaN|Infinity|undefined/);
    const back = JSON.parse(words);
    expect(back.flyable).toBe(false);
    expect(back.failure.excess).toBe(null);
    expect(JSON.parse(text).failure).toBe(null);
  });

  it.each([
    [
      'of a later version',
      text.replace('"version":1', '"version":2'),
      'version: is 2; this program reads version 1',
    ],
    ['of another format', text.replace('ramrise-plan', 'other-plan'), 'format: must be ramrise-plan'],
    ['that is no JSON', text.slice(0, 5000), 'is not a plan file'],
    ['that is JSON and no object', 'null', 'format: must be ramrise-plan'],
    ['that is empty', '', 'is not a plan file'],
  ])('[FILE-3] %s is refused', (_name, content, says) => {
    const path = written(content);
    expect(() => readPlan(path)).toThrow(FileFaults);
    expect(() => readPlan(path)).toThrow(says);
    expect(() => readPlan(path)).toThrow('plan.json');
  });

  it('[FILE-4] that is not there is refused by its name', () => {
    expect(() => readPlan(join(folder, 'nowhere.json'))).toThrow(/nowhere\.json/);
  });
});

describe('a fingerprint', () => {
  const inputs: readonly PlanInput[] = [
    { role: 'sortie', name: 'a.yaml', sha256: sha256('a') },
    { role: 'deck', name: 'deck', sha256: sha256('b') },
  ];

  it('[PRINT-1] is six characters without O 0, I 1, B 8, S 5', () => {
    expect(fingerprintAlphabet).not.toMatch(/[O0I1B8S5a-z]/);
    expect(new Set(fingerprintAlphabet).size).toBe(fingerprintAlphabet.length);
    fc.assert(
      fc.property(fc.string(), fc.string(), (content, program) => {
        const mark = fingerprintOf([{ role: 'sortie', name: 'a', sha256: sha256(content) }], program);
        return mark.length === 6 && [...mark].every((letter) => fingerprintAlphabet.includes(letter));
      }),
    );
  });

  it('[PRINT-2] is the same for the same inputs in any order and under any path, another for another version', () => {
    const mark = fingerprintOf(inputs, 'ramrise 0.1.0');
    expect(fingerprintOf([...inputs].reverse(), 'ramrise 0.1.0')).toBe(mark);
    expect(
      fingerprintOf(
        inputs.map((input) => ({ ...input, name: `x/${input.name}` })),
        'ramrise 0.1.0',
      ),
    ).toBe(mark);
    expect(fingerprintOf(inputs, 'ramrise 0.1.1')).not.toBe(mark);
  });

  it('[PRINT-3] changes with any one byte: of 20 000 changed inputs hardly two have the same', () => {
    const marks = new Set<string>();
    for (let i = 0; i < 20_000; i++)
      marks.add(fingerprintOf([{ role: 'sortie', name: '', sha256: sha256(`${i}`) }], 'p'));
    // 28^6 marks: 0.4 collisions are expected among 20 000 (birthday problem), 6 or more have a chance of 1e-6.
    expect(marks.size).toBeGreaterThan(20_000 - 6);
  });

  it('[PRINT-4] hashes as FIPS 180-4 says', () => {
    expect(sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });
});

describe('all that a plan is made from', () => {
  it('[REQ-1] is hashed: the sortie, the deck with its tables, the weather, the areas', async () => {
    const request = await readPlanRequest('examples/long-loop.yaml', 'ramrise 0.1.0');
    expect(request.inputs.map((input) => input.role)).toEqual(['sortie', 'deck', 'weather', 'areas']);
    const [sortie, , weather, areas] = request.inputs;
    expect(areas.sha256).toBe(sha256(readFileSync('examples/areas.geojson')));
    expect(request.sortie.areas.map(({ area }) => area.name)).toEqual([
      'Gannet Range',
      'Heron Moor',
      'Plover Sound',
    ]);
    expect(sortie.sha256).toBe(sha256(readFileSync('examples/long-loop.yaml')));
    const file = 'examples/weather/era5-2020-02-23T16Z-30N54N-100W75W.nc';
    expect(weather.sha256).toBe(sha256(readFileSync(file)));
    expect(request.sortie.weather.run).toBe('2020-02-23T16:00Z');
  });

  it('[REQ-2] is refused with the faults of sortie, deck, weather and areas at once', async () => {
    const path = join(folder, 'sortie.yaml');
    const faulty = change(
      longLoopText,
      ['../decks/sandmartin', 'nodeck'],
      ['file: weather/', 'file: nowhere/'],
    );
    writeFileSync(path, faulty);
    writeFileSync(
      join(folder, 'areas.geojson'),
      `{ "type": "Feature",
  "properties":
    { "name": "Marten", "floor": 12 },
  "geometry": { "type": "Polygon", "coordinates": [[[0, 0], [1, 1], [0, 0]]] } }`,
    );
    const refused = readPlanRequest(path, 'p');
    await expect(refused).rejects.toThrow(FileFaults);
    await expect(refused).rejects.toThrow(/nodeck\/deck\.yaml: there is no such file/);
    await expect(refused).rejects.toThrow(/sortie\.yaml:\d+:\d+: weather\.file: /);
    await expect(refused).rejects.toThrow(/areas\.geojson:3:\d+: properties\.floor: .*12 has no unit/);
    await expect(readPlanRequest(join(folder, 'none.yaml'), 'p')).rejects.toThrow(
      /none\.yaml: no such file or folder/,
    );
  });

  it('[REQ-3] needs "time: hold" where the weather has one time only', async () => {
    const path = join(folder, 'time.yaml');
    const here = change(
      longLoopText,
      ['../decks/', `${process.cwd()}/decks/`],
      ['file: weather/', `file: ${process.cwd()}/examples/weather/`],
      ['file: areas', `file: ${process.cwd()}/examples/areas`],
    );
    writeFileSync(path, change(here, [/ {2}time: hold\n/, '']));
    await expect(readPlanRequest(path, 'p')).rejects.toThrow(
      /weather\.time: the file has one time only, 2020-02-23T16:00Z; say "time: hold"/,
    );
  });
});
