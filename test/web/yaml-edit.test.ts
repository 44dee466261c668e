/** Edits are held against the `yaml` library: what the changed text says must be the data with that one change. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Document, parse } from 'yaml';
import {
  addItem,
  addValue,
  offsetOf,
  removeAt,
  replaceAt,
  setScalar,
  swapWithNext,
} from '../../src/web/yaml-edit.ts';

const loop = readFileSync('examples/long-loop.yaml', 'utf8');

/** Lines of the one text that are not in the other, each way. */
function changedLines(before: string, after: string): { readonly gone: string[]; readonly come: string[] } {
  const [old, now] = [before.split('\n'), after.split('\n')];
  return { gone: old.filter((line) => !now.includes(line)), come: now.filter((line) => !old.includes(line)) };
}

describe('one value', () => {
  it('[EDIT-1] is replaced where it stands; every other character stays', () => {
    const after = setScalar(loop, 'legs.1.through.0.at', '47.10N 95.00W');
    expect(changedLines(loop, after)).toEqual({
      gone: ['      - { name: Alder, at: "46.80N 96.00W", bank: 30 deg }'],
      come: ['      - { name: Alder, at: "47.10N 95.00W", bank: 30 deg }'],
    });
  });

  it('[EDIT-2] keeps the comment behind it', () => {
    expect(setScalar('fuel: 14000 kg # full\n', 'fuel', '12 t')).toBe('fuel: 12 t # full\n');
  });

  it.each([
    ['a: b', '17', 'a: "17"'],
    ['a: b', 'true', 'a: "true"'],
    ['a: b', 'x: y', 'a: "x: y"'],
    ['a: [b]', 'x, y', 'a: ["x, y"]'],
    ["a: 'b'", "it's", "a: 'it''s'"],
    ['a: "b"', 'say "c"', 'a: "say \\"c\\""'],
    ['a: 0.2', '0.4', 'a: 0.4'],
    ['a: ""', 'Elm', 'a: Elm'],
    ['a: 0.2', '40 %', 'a: 40 %'],
    ['a:', 'b', 'a: b'],
    ['a: |\n  long\nb: c', 'short', 'a: short\nb: c'],
  ])('[EDIT-3] words stay words: %j set to %j is %j', (before, value, after) => {
    expect(setScalar(before, before.startsWith('a: [') ? 'a.0' : 'a', value)).toBe(after);
  });

  it('[EDIT-4] a Boolean and a number are written as such', () => {
    expect(setScalar('a: false', 'a', true)).toBe('a: true');
    expect(setScalar('a:\n  b: 1\n', 'a.member', 3)).toBe('a:\n  b: 1\n  member: 3\n');
  });

  it('[EDIT-5] one that is missing is added below its neighbours, in brackets or in lines as they are', () => {
    const inLines = setScalar(loop, 'aircraft.fuelDensity', '0.8 kg/L');
    expect(changedLines(loop, inLines)).toEqual({ gone: [], come: ['  fuelDensity: 0.8 kg/L'] });
    const inBrackets = setScalar(loop, 'pads.loadFactor', '0.1 g');
    expect(changedLines(loop, inBrackets)).toEqual({
      gone: ['pads: { inletTemperature: 5 K }'],
      come: ['pads: { inletTemperature: 5 K, loadFactor: 0.1 g }'],
    });
    const inNew = setScalar(loop, 'takeOff.wind.speed', '10 kt');
    expect(changedLines(loop, inNew)).toEqual({ gone: [], come: ['  wind: { speed: 10 kt }'] });
  });

  it('[EDIT-6] a value that another place lends is set here alone', () => {
    expect(setScalar('a: &one 1 kg\nb: *one\n', 'b', '2 kg')).toBe('a: &one 1 kg\nb: 2 kg\n');
    expect(parse(setScalar('a: &one { c: 1, d: 2 }\nb: *one\n', 'b.c', '3'))).toEqual({
      a: { c: 1, d: 2 },
      b: { c: '3', d: 2 },
    });
  });
});

describe('lists', () => {
  it('[EDIT-7] a new item is written as its neighbours are', () => {
    const waypoint = { name: 'Elm', at: '48.00N 90.00W', bank: '30 deg' };
    expect(changedLines(loop, addItem(loop, 'legs.1.through', waypoint))).toEqual({
      gone: [],
      come: ['      - { name: Elm, at: 48.00N 90.00W, bank: 30 deg }'],
    });
    expect(
      changedLines(loop, addItem(loop, 'bases', { name: 'Fen', at: '1N 2W', elevation: '3 ft' })),
    ).toEqual({
      gone: [],
      come: ['  - name: Fen', '    at: 1N 2W', '    elevation: 3 ft'],
    });
  });

  it('[EDIT-8] a list that is missing or empty begins with its first item', () => {
    expect(addItem('a:\n  b: c\n', 'a.list', { x: '1 m' })).toBe('a:\n  b: c\n  list:\n    - { x: 1 m }\n');
    expect(addItem('list: [] # none\nb: c\n', 'list', { x: '1 m' })).toBe(
      'list:\n  - { x: 1 m } # none\nb: c\n',
    );
    expect(addItem('list:\nb: c\n', 'list', 'x')).toBe('list: [x]\nb: c\n');
  });

  it('[EDIT-9] what is removed takes the comment right above it along, and no other', () => {
    const text = 'list:\n  # of all\n  - a\n  # of b\n  - b\n\n  # apart\n\n  - c # of c\n# end\n';
    expect(removeAt(text, 'list.1')).toBe('list:\n  # of all\n  - a\n\n  # apart\n\n  - c # of c\n# end\n');
    expect(removeAt(text, 'list.0')).toBe(
      'list:\n  # of all\n  # of b\n  - b\n\n  # apart\n\n  - c # of c\n# end\n',
    );
    expect(removeAt(text, 'list.2')).toBe(
      'list:\n  # of all\n  - a\n  # of b\n  - b\n\n  # apart\n\n# end\n',
    );
  });

  it('[EDIT-10] the last item of a list leaves an empty one', () => {
    expect(removeAt('a:\n  - b\nc: d\n', 'a.0')).toBe('a: []\nc: d\n');
    expect(removeAt('a: { b: 1 }\n', 'a.b')).toBe('a: {}\n');
  });

  it('[EDIT-11] neighbours change places, each with its comment; the blank lines stay', () => {
    const text = 'list:\n  - a # 1\n\n  # of b\n  - b: 1\n    c: 2\n  - d\n';
    const first = swapWithNext(text, 'list', 0);
    expect(first).toBe('list:\n  # of b\n  - b: 1\n    c: 2\n\n  - a # 1\n  - d\n');
    expect(swapWithNext(text, 'list', 1)).toBe('list:\n  - a # 1\n\n  - d\n  # of b\n  - b: 1\n    c: 2\n');
    expect(swapWithNext('a: [ b,  c ]', 'a', 0)).toBe('a: [ c,  b ]');
    expect(swapWithNext(text, 'list', 2)).toBe(text);
  });

  it('[EDIT-12] legs of a sortie change places and come back to the same text', () => {
    const there = swapWithNext(loop, 'legs', 1);
    expect(parse(there).legs.map(({ name }: { name: string }) => name)).toEqual([
      'To Ewer One',
      'Home by the west',
      'Northern loop',
    ]);
    expect(swapWithNext(there, 'legs', 1)).toBe(loop);
  });

  it('[EDIT-13] a map is added under a key that is missing', () => {
    const after = addValue(loop, 'legs.2.refuel', { tanker: 'Ewer Two', take: 'full' });
    expect(changedLines(loop, after)).toEqual({
      gone: [],
      come: ['    refuel: { tanker: Ewer Two, take: full }'],
    });
  });
});

describe('a value of another form', () => {
  it('[EDIT-15] stands where the old one stood', () => {
    const text = 'a: 1\n# of b\nb:\n  c: 2\n  d: 3 # last\n\ne: 4\n';
    expect(replaceAt(text, 'b', { x: '8 K' })).toBe('a: 1\n# of b\nb: { x: 8 K } # last\n\ne: 4\n');
    expect(replaceAt('a: { b: [1, 2], c: 3 }\n', 'a.b', 'x, y')).toBe('a: { b: "x, y", c: 3 }\n');
    expect(replaceAt('list:\n  - a: 1\n  - b: 2\n', 'list.0', { c: '3 m' })).toBe(
      'list:\n  - { c: 3 m }\n  - b: 2\n',
    );
  });

  it('[EDIT-16] a path is found in the text, or the nearest part around it', () => {
    expect(loop.slice(offsetOf(loop, 'legs.1.through.0.at')).split('\n')[0]).toBe(
      '"46.80N 96.00W", bank: 30 deg }',
    );
    expect(offsetOf(loop, 'aircraft.fuelDensity')).toBe(offsetOf(loop, 'aircraft'));
  });
});

describe('any text', () => {
  const scalar = fc.oneof(
    fc.string(),
    fc.integer(),
    fc.boolean(),
    fc.constantFrom('430 KEAS', '17', '-', '# x'),
  );
  const { tree } = fc.letrec((tie) => ({
    tree: fc.oneof(
      { maxDepth: 3 },
      scalar,
      fc.array(tie('tree'), { minLength: 1, maxLength: 3 }),
      fc.dictionary(fc.stringMatching(/^[a-z]{1,4}$/), tie('tree'), { minKeys: 1, maxKeys: 3 }),
    ),
  }));
  const data = fc.record({
    map: fc.record({ x: tree, y: tree }),
    list: fc.array(tree, { minLength: 1, maxLength: 4 }),
  });
  const written = fc.record({ data, flow: fc.boolean(), indentSeq: fc.boolean() });

  it('[EDIT-14] says after each edit what the same change of its data says', () => {
    fc.assert(
      fc.property(written, scalar, fc.nat(3), ({ data, flow, indentSeq }, value, pick) => {
        const document = new Document(data);
        const text = document.toString({ collectionStyle: flow ? 'flow' : 'any', indentSeq, lineWidth: 0 });
        const index = pick % data.list.length;
        const expected = (change: (copy: typeof data) => void) => {
          const copy = structuredClone(data);
          change(copy);
          return copy;
        };
        expect(parse(addItem(text, 'list', value))).toEqual(expected(({ list }) => list.push(value)));
        expect(parse(removeAt(text, `list.${index}`))).toEqual(expected(({ list }) => list.splice(index, 1)));
        expect(parse(removeAt(text, 'map.x'))).toEqual(
          expected(({ map }) => {
            delete (map as { x?: unknown }).x;
          }),
        );
        expect(parse(setScalar(text, 'map.z.w', value))).toEqual(
          expected(({ map }) => Object.assign(map, { z: { w: value } })),
        );
        expect(parse(swapWithNext(text, 'list', index))).toEqual(
          expected(({ list }) => list.splice(index, 2, ...list.slice(index, index + 2).reverse())),
        );
      }),
      { numRuns: 300, seed: 4 },
    );
  });
});
