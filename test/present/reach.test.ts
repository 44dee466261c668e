/** The words of a reach, on a ladder of four minutes made by hand. */
import { describe, expect, it } from 'vitest';
import type { Reach, ReachChoice, ReachLadder, WhyNone } from '../../src/core/plan/plan.ts';
import { openWords, reachSentences, whyNone } from '../../src/present/reach.ts';
import { gaugesIn, plainSpaces } from '../../src/present/units.ts';

const gauges = gaugesIn({});
const timeS = [3600, 3660, 3720, 3780];

function choice(
  requiredKg: number | null,
  fuelKg: readonly (number | null)[],
  why: WhyNone = 'heights',
  open: ReachChoice['open'] = [],
): ReachChoice {
  const none = timeS.flatMap((at, i) => (fuelKg[i] === null ? [{ fromS: at, toS: at, why }] : []));
  const never = fuelKg.every((kg) => kg === null) ? 'cannot be flown to' : null;
  return { requiredKg, fuelKg, arrivalS: fuelKg.map((kg) => kg && 0), open, none, never };
}

function reachOf(choices: readonly ReachChoice[], best: readonly (number | null)[]): Reach {
  const ladder: ReachLadder = {
    key: 'oneEngine',
    name: 'One engine stopped',
    source: '',
    burnSpread: null,
    choices,
    best,
    equalTimes: [],
  };
  const end = (name: string, kind: 'base' | 'tanker') => ({ name, kind, latitudeDeg: 0, longitudeDeg: 0 });
  const ends = [end('North', 'base'), end('South', 'base'), end('Ewer', 'tanker')];
  const ladders = [ladder, { ...ladder, name: 'No afterburner', best: best.map(() => 0) }];
  return { reserveKg: 2000, timeS, ends, ladders, unstarts: [], evaluations: 0, flights: 0, notComputed: [] };
}

const choices = [
  choice(2000, [2500, 1903, -1450, 2400]),
  choice(2000, [null, null, null, null]),
  choice(4000, [3500, -20, null, null], 'gone'),
];
const reach = reachOf(choices, [0, null, null, 0]);
const why = (end: number, i: number) => plainSpaces(whyNone(reach, reach.ladders[0], end, i, gauges));

describe('the words of a reach', () => {
  it('[REACHW-1] say when there is nowhere to go and how much is missing at worst to what is nearest, rounded up', () => {
    expect(reachSentences(reach, gauges).map(plainSpaces)).toEqual([
      'One engine stopped: NOWHERE to go from 1:01 to 1:02, up to 3 450 kg short (North at 1:02).',
      'Always somewhere to go: No afterburner.',
    ]);
    const lost = reachOf([choice(2000, [2500, null, null, 2400])], [0, null, null, 0]);
    expect(reachSentences(lost, gauges)[0]).toBe(
      'One engine stopped: NOWHERE to go from 1:01 to 1:02, none can be flown to at 1:01.',
    );
  });

  it('[REACHW-2] say of each minute why an end is none, and of one that is nothing', () => {
    expect(why(0, 0)).toBe('');
    expect(why(0, 1)).toBe('100 kg short');
    expect(why(0, 2)).toBe('3 450 kg short');
    expect(why(1, 0)).toBe('no height can be held');
    expect(why(2, 0)).toBe('500 kg short for a base if no fuel comes');
    expect(why(2, 1)).toBe('4 020 kg short');
    expect(why(2, 3)).toBe('no longer there');
  });

  it('[REACHW-3] say of what never opens why, or how much is missing at best', () => {
    expect(openWords(reach, choices[1], gauges)).toBe('cannot be flown to: no height can be held');
    expect(plainSpaces(openWords(reach, choices[2], gauges))).toBe('never, 500 kg short at best');
    // Opening up to the minute, closing down.
    const opens = choice(2000, [2500, 2500, 2500, 2500], 'heights', [{ fromS: 3601, toS: 3779 }]);
    expect(openWords(reach, opens, gauges)).toBe('1:01 to 1:02');
  });
});
