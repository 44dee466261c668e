/** The pushover and pitch cards, and what the acceleration of a sortie says. */
import { describe, expect, test } from 'vitest';
import { accelerationOf } from '../../src/core/plan/acceleration.ts';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import type { PitchTable, Plan, PushoverTable } from '../../src/core/plan/plan.ts';
import { accelerationText, headingTable } from '../../src/present/acceleration.ts';
import type { Card } from '../../src/present/card/card.ts';
import { pitchCards } from '../../src/present/card/pitch.ts';
import { pushoverCards } from '../../src/present/card/pushover.ts';
import { accelerationChart } from '../../src/present/chart/acceleration.ts';
import { PAPER } from '../../src/present/theme.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { longLoopText, requestOf } from '../support/demo.ts';
import { testPlan } from '../support/plan.ts';

const knot = 1852 / 3600;
const point = (feet: number, mach: number, keas: number) => ({
  pressureAltitudeM: feet * 0.3048,
  mach,
  equivalentAirspeedMS: keas * knot,
});

const pushover: PushoverTable = {
  leg: 1,
  name: 'North',
  timeS: 1800,
  durationS: 50,
  fuelKg: 370,
  push: point(33_000, 0.91, 306),
  pull: point(29_400, 1.05, 385),
  bottom: point(28_500, 1.08, 403),
  pushLoadFactor: 0.6,
  pathAngleDeg: -7,
  pullLoadFactor: 1.3,
  onsetPerS: 0.25,
  latestPullMS: 453.8 * knot,
  slowestPullMS: 324.2 * knot,
  instead: {
    mach: 1.6,
    pressureAltitudeM: 42_400 * 0.3048,
    fuelKg: 5181,
    levelFuelKg: 5731,
    levelRefused: null,
  },
};

const pitch: PitchTable = {
  leg: 1,
  name: 'North',
  driftMS: 10 * knot,
  rows: [
    {
      fromMach: 1.5,
      toMach: 1.8,
      pitchDeg: 3.6,
      angleOfAttackDeg: 2.7,
      timeS: 2400,
      sinceStartS: 764,
      durationS: 280,
      fromPressureAltitudeM: 40_000 * 0.3048,
      toPressureAltitudeM: 47_000 * 0.3048,
      slowestMS: -2.3 * knot,
      fastestMS: 0.4 * knot,
      highM: -52 * 0.3048,
    },
  ],
};

function withTables(pushovers: readonly PushoverTable[], pitches: readonly PitchTable[]): Plan {
  return { ...testPlan(), pushovers, pitches };
}

const answer = (card: Card): string => plainSpaces(card.answer.join(' '));
const row = (card: Card, index: number): string[] =>
  (card.table?.rows[index] ?? []).map(({ figure, below }) => plainSpaces(`${figure} ${below}`).trim());

describe('pushover card', () => {
  const [card] = pushoverCards(withTables([pushover], []), 1);

  test('[PCARD-1] the speed for the pull is rounded down, the least speed for its load factor up', () => {
    expect(answer(card)).toBe(
      'Pull at 29 400 ft or 453 KEAS, whichever is first. Slower than 325 KEAS, pull less than 1.30 g.',
    );
  });

  test('[PCARD-2] has push, path, pull and bottom in order', () => {
    expect(row(card, 0)).toEqual(['Push', '33 000', '0.91', '306', '0.60']);
    expect(row(card, 1)).toEqual(['Hold the path', '', '', '', '−7.0']);
    expect(row(card, 2)).toEqual(['Pull', '29 400', '1.05', '385', '1.30']);
    expect(row(card, 3)).toEqual(['Level', '28 500', '1.08', '403', '']);
  });

  test('[PCARD-3] tells what level flight would burn, or why it cannot be flown; leaves out limits that there are none of', () => {
    expect(plainSpaces(card.notes.join(' '))).toContain(
      'To M 1.60 on the climb the pushover burns 5 190 kg, level at 33 000 ft 5 740 kg.',
    );
    const bare = {
      ...pushover,
      latestPullMS: null,
      slowestPullMS: null,
      instead: { ...pushover.instead, levelFuelKg: null, levelRefused: 'the thrust does not suffice' },
    };
    const [other] = pushoverCards(withTables([bare], []), 1);
    expect(answer(other)).toBe('Pull at 29 400 ft.');
    expect(plainSpaces(other.notes.join(' '))).toContain('it cannot be flown: the thrust does not suffice.');
  });

  test('[PCARD-4] a leg without a pushover has no card', () => {
    expect(pushoverCards(withTables([pushover], []), 2)).toEqual([]);
  });
});

describe('pitch card', () => {
  test('[PCARD-5] gives pitch to a tenth of a degree and drifts rounded away from none', () => {
    const [card] = pitchCards(withTables([], [pitch]), 1);
    expect(row(card, 0)).toEqual(['1.50 12:44', '3.6', '40 000', '−3 / 1', '−60']);
  });
});

describe('the acceleration in words', () => {
  const request = requestOf(longLoopText);
  const plan = makePlan(request);
  const legs = accelerationOf(request);

  test('[PCARD-6] names the heading with the fuel it saves, and why the search stopped', () => {
    const text = accelerationText(legs, plan).replaceAll('\n', ' ');
    expect(text).toMatch(
      /Accelerate on \d{3}° magnetic \(\d{3}° true\): \d+ kg less to M 1\.60 than on the planned course/,
    );
    expect(text).toMatch(
      /stopped where none that differs by 0\.0025 Mach, 0\.25 deg, 160 ft in any of the three burns less/,
    );
    expect(text).not.toContain('NaN');
  });

  test('[PCARD-7] the table has every heading and the planned course; the chart is a drawing that says its answer', () => {
    for (const leg of legs) {
      expect(headingTable(leg, plan).rows).toHaveLength(25);
      const svg = accelerationChart(leg, plan, { theme: PAPER });
      expect(svg.startsWith('<svg')).toBe(true);
      expect(svg).toContain('<desc>Accelerate on ');
    }
  });
});
