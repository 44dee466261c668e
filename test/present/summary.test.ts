import { describe, expect, test } from 'vitest';
import { CAUTION } from '../../src/core/plan/plan.ts';
import { fuelDifference, limitMargin, sentences } from '../../src/present/sentences.ts';
import { summary } from '../../src/present/summary.ts';
import { clock, dateAndClock, hoursMinutes, minutesSeconds } from '../../src/present/time.ts';
import { gaugesOf, plainSpaces } from '../../src/present/units.ts';
import { FAILURE, testPlan } from '../support/plan.ts';

describe('summary', () => {
  const text = summary(testPlan());

  test('[SUM-1] begins with whether the sortie can be flown and the fuel in hand at each contact', () => {
    expect(text.replace(/\s+/g, ' ')).toMatch(
      /^Flyable: 2 440 kg in hand at contact with Ewer One \(0:31\), 1 160 kg in hand at contact with Ewer Two \(2:06\) and 550 kg in hand at landing \(3:39\)\. Greatest equivalent airspeed is the next limit: 20 ± 4 KEAS at 0:51/,
    );
    expect(summary(testPlan({ failure: FAILURE }))).toMatch(/^Not flyable: inlet temperature binds at 1:11/);
  });

  test('[SUM-2] keeps to 96 columns and says weather, what it stands for, attribution, what is open, and the caution', () => {
    for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(96);
    const flat = text.replace(/\s+/g, ' ');
    expect(flat).toContain('stands for 2026-02-23');
    expect(flat).toContain(testPlan().weather.attribution[0]);
    expect(flat).toContain('the deck has no rudder table');
    expect(flat.trimEnd().endsWith(CAUTION)).toBe(true);
  });

  test('[SUM-2] a long name is broken over lines instead of running over the edge', () => {
    const plan = testPlan();
    const limits = plan.limits.map((limit) => ({
      ...limit,
      name: `${limit.name} ${'of this very long deck '.repeat(4)}`,
    }));
    const long = summary({ ...plan, limits });
    for (const line of long.split('\n')) expect(line.length, line).toBeLessThanOrEqual(96);
    expect(long.match(/very long deck/g)?.length).toBeGreaterThanOrEqual(limits.length);
  });

  test('[SUM-4] fuel required that was not computed is said in words, also after a plan was read back from its file', () => {
    const plan = testPlan();
    const fuelRequiredKg = plan.trace.columns.fuelRequiredKg.map(() => Number.NaN);
    const trace = { ...plan.trace, columns: { ...plan.trace.columns, fuelRequiredKg } };
    const read = JSON.parse(JSON.stringify({ ...plan, trace })) as typeof plan;
    expect(summary(read)).toBe(summary({ ...plan, trace }));
    expect(summary(read)).toContain('not computed  not computed');
    expect(summary(read)).toContain('fuel in hand not computed at landing');
    const recoveries = plan.recoveries.map((recovery) => ({ ...recovery, fuelRequiredKg: Number.NaN }));
    const unknown = JSON.parse(JSON.stringify({ ...plan, recoveries })) as typeof plan;
    expect(sentences(unknown)[0]).toContain('fuel in hand not computed at contact with Ewer One');
  });

  test('[SUM-5] tells each contact with its speeds in every kind, and each worst case with where it lands', () => {
    const flat = text.replace(/\s+/g, ' ');
    expect(flat).toMatch(
      /Ewer One, 0:31 to 0:42 at 24 000 ft, \d+ KCAS = \d+ KEAS = M 0\.75: [\d ]+ kg taken, 2 000 kg burnt meanwhile; one engine in afterburner from 9 500 kg taken; power at disconnect left 3\.00, right 2\.00/,
    );
    expect(flat).toContain('No contact with Ewer Two: Gannet Point, 222 nm, 0:37, needs 9 100 kg');
  });

  test('[SUM-3] every phase and every limit has a row', () => {
    const plan = testPlan();
    for (const phase of plan.phases) expect(text).toContain(phase.name);
    for (const limit of plan.limits) {
      expect(text).toContain(`${limit.name.split(' ')[0]} `);
      expect(text).toContain(plainSpaces(limitMargin(plan, limit).text));
    }
  });
});

describe('fuel in hand', () => {
  const gauge = gaugesOf(testPlan())('fuelKg');

  test('[SHOW-7] is the difference of the printed figures, so that a crew can check it', () => {
    // 9 149 is printed 9 140, 8 001 is printed 8 010.
    expect(plainSpaces(fuelDifference(gauge, 9_149, 8_001).text)).toBe('1 130 kg');
    expect(fuelDifference(gauge, null, 8_001).text).toBe('not computed');
    expect(plainSpaces(fuelDifference(gauge, 8_001, 9_149).text)).toBe('−1 150 kg');
  });

  test('[SHOW-2] stays on its side of zero where the printed figures would cross it', () => {
    expect(plainSpaces(fuelDifference(gauge, 5_003, 5_001).text)).toBe('2 kg');
    expect(plainSpaces(fuelDifference(gauge, 5_001, 5_003).text)).toBe('−10 kg');
  });
});

describe('times', () => {
  test('[SHOW-8] are hours and minutes since take-off, minutes and seconds of a climb, and UTC', () => {
    expect(hoursMinutes(5_640)).toBe('1:34');
    expect(hoursMinutes(3_599)).toBe('1:00');
    expect(hoursMinutes(-60)).toBe('−0:01');
    expect(minutesSeconds(760.4)).toBe('12:40');
    expect(clock('2026-02-23T15:40:00Z', 5_640)).toBe('17:14Z');
    expect(clock('2026-02-23T23:40:00Z', 1_800)).toBe('00:10Z');
    expect(dateAndClock('2026-02-23T15:40Z')).toBe('2026-02-23 15:40Z');
  });
});
