import { describe, expect, it } from 'vitest';
import { readSlips } from '../../src/cli/slip.ts';

describe('a range of slips', () => {
  it.each([
    ['0..120min/30min', [0, 1800, 3600, 5400, 7200]],
    ['0 .. 1 h / 30 min', [0, 1800, 3600]],
    ['90s..5min/30s', [90, 120, 150, 180, 210, 240, 270, 300]],
  ])('[CLI-61] %s', (text, seconds) => {
    expect(readSlips(text)).toEqual(seconds);
  });

  it.each([
    ['120min', 'is not a range with a step'],
    ['0..120/10min', 'has no unit'],
    ['10..120min/10min', 'has no unit'],
    ['0..120min/7min', 'the range is no whole number of steps'],
    ['0..120min/0', 'the step must be more than 0'],
    ['60min..30min/10min', 'the end must be later than the beginning'],
    ['-30min..30min/10min', 'must be at least 0 min'],
    ['0..120kg/10min', 'does not measure it'],
    ['0..100h/1min', 'has 6001 take-offs; at most 200 are planned'],
  ])('[CLI-62] %s is refused: %s', (text, reason) => {
    expect(() => readSlips(text)).toThrow(reason);
  });
});
