/** Rules of a descent: the power is kept where the deck asks for it and no longer, the cabin comes down as its table says. */
import { describe, expect, it } from 'vitest';
import {
  type Cabin,
  cabinAltitude,
  cabinSlope,
  type DescentRule,
} from '../../../src/core/aircraft/descent.ts';
import { type Draft, draftOf } from '../../../src/core/plan/draft.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { Failure, Plan } from '../../../src/core/plan/plan.ts';
import { startDownsOf } from '../../../src/core/plan/start-down.ts';
import { inspectDeck } from '../../../src/files/deck.ts';
import { deckFolder } from '../../../src/files/deck-folder.ts';
import { faultText } from '../../../src/files/faults.ts';
import { failureSentences } from '../../../src/present/sentences.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const foot = 0.3048;
const request = requestOf(longLoopText);
const { names, military } = request.aircraft.propulsion;

function heldTo(rules: readonly DescentRule[]): { drafted: Draft; power: (ft: number) => number } {
  const drafted = draftOf({ ...request, aircraft: { ...request.aircraft, descentRules: rules } });
  const { log } = drafted;
  const [start] = log.events.filter(({ kind }) => kind === 'start-down');
  const level = log.captures.find(({ timeS }) => timeS > start.timeS)?.timeS ?? Number.NaN;
  const { timeS, pressureAltitudeM, power } = log.columns;
  const down = timeS.flatMap((time, node) => (time > start.timeS + 1 && time < level - 60 ? [node] : []));
  const powerAt = (ft: number): number => {
    const nearest = down.reduce((best, node) =>
      Math.abs(pressureAltitudeM[node] - ft * foot) < Math.abs(pressureAltitudeM[best] - ft * foot)
        ? node
        : best,
    );
    return power[nearest];
  };
  return { drafted, power: powerAt };
}

const rule = (setting: number, where: Partial<DescentRule>): DescentRule => ({
  of: 'cabin',
  aboveMach: null,
  abovePressureAltitudeM: null,
  setting,
  source: 'this test',
  ...where,
});

describe('the power in a descent', () => {
  it('[DOWN-20] is kept up to the lowest bound of the rules that ask for it, then falls to idle', () => {
    const { drafted, power } = heldTo([rule(1, { abovePressureAltitudeM: 29_000 * foot })]);
    // At 340 KEAS Mach 1 is passed near 32 500 ft: without the rule it is idle from there on.
    expect(power(31_000)).toBe(1);
    expect(power(27_000)).toBe(0);
    expect(heldTo([]).power(31_000)).toBe(0);
    const [{ held }] = startDownsOf(drafted, []);
    const cabin = held.rules.find(({ of }) => of === 'cabin');
    expect(cabin).toMatchObject({ setting: names[1], leastPower: 1, flownPower: 1 });
  });

  it('[DOWN-21] is that of the strictest rule, and each rule is told as held', () => {
    const { drafted, power } = heldTo([
      rule(military, { of: 'inlet', aboveMach: 2 }),
      rule(1, { abovePressureAltitudeM: 29_000 * foot }),
    ]);
    expect([65_000, 45_000, 31_000, 27_000].map(power)).toEqual([military, 1, 1, 0]);
    for (const { held } of startDownsOf(drafted, [])) {
      expect(held.rules.map(({ of }) => of)).toEqual(['engine', 'inlet', 'cabin']);
      for (const { flownPower, leastPower } of held.rules) expect(flownPower).toBe(leastPower);
    }
  });

  it('[DOWN-22] a rule that holds nowhere on the way changes nothing and is not told', () => {
    const { drafted } = heldTo([rule(military, { abovePressureAltitudeM: 80_000 * foot })]);
    const none = heldTo([]).drafted;
    expect(drafted.flown.landingFuelKg).toBe(none.flown.landingFuelKg);
    expect(startDownsOf(drafted, [])[0].held.rules.map(({ of }) => of)).toEqual(['engine']);
  });
});

describe('the cabin', () => {
  const cabin: Cabin = {
    outsideM: [0, 2000, 8000, 12_000],
    insideM: [0, 2000, 2000, 5000],
    greatestRateMS: 10,
  };

  /** By hand: a quarter of the way from 8 to 12 km is a quarter of the way from 2 to 5 km. */
  it('[DOWN-23] is linear between the points of the deck, and its ends hold', () => {
    expect([-100, 1000, 5000, 9000, 20_000].map((height) => cabinAltitude(cabin, height))).toEqual([
      0, 1000, 2000, 2750, 5000,
    ]);
    expect([1000, 5000, 8000, 9000].map((height) => cabinSlope(cabin, height))).toEqual([1, 0, 0.75, 0.75]);
  });

  it('[DOWN-24] its rate is the slope of its table times that of the aircraft, at its greatest', () => {
    const drafted = draftOf({ ...request, aircraft: { ...request.aircraft, cabin } });
    const { timeS, pressureAltitudeM } = drafted.log.columns;
    const [{ held, timeS: startS, rows }] = startDownsOf(drafted, []);
    const took = rows[rows.length - 1].timeS;
    let greatest = 0;
    for (let node = 1; node < timeS.length; node++) {
      const since = timeS[node] - request.sortie.takeOff.timeS;
      if (since <= startS || since >= took || timeS[node] - timeS[node - 1] < 5) continue;
      const fall =
        cabinAltitude(cabin, pressureAltitudeM[node - 1]) - cabinAltitude(cabin, pressureAltitudeM[node]);
      greatest = Math.max(greatest, fall / (timeS[node] - timeS[node - 1]));
    }
    // A mean over half a minute is less than the greatest within it.
    expect(held.cabin?.greatestRateMS).toBeGreaterThan(0.98 * greatest);
    expect(held.cabin?.greatestRateMS).toBeLessThan(1.3 * greatest);
    expect(held.cabin?.allowedRateMS).toBe(10);
  });
});

describe('a cabin that comes down faster than the deck allows', () => {
  const allowedMS = (2700 * foot) / 60;
  const { aircraft } = request;
  if (aircraft.cabin === null) throw new Error('the deck says nothing of its cabin');
  const cabin = { ...aircraft.cabin, greatestRateMS: allowedMS };
  const planOf = (text: string) => makePlan({ ...requestOf(text), aircraft: { ...aircraft, cabin } });
  /** The greatest mean rate between two nodes of a descent, from the heights alone. */
  const meanRateMS = ({ trace: { columns }, startDowns }: Plan): number => {
    const { timeS, pressureAltitudeM } = columns;
    const inside = pressureAltitudeM.map((height) => cabinAltitude(cabin, height));
    return startDowns.reduce((most, { timeS: startS, rows }) => {
      const levelS = rows[rows.length - 1].timeS;
      const nodes = timeS.flatMap((time, node) =>
        time > startS && time < levelS && time - timeS[node - 1] > 1 ? [node] : [],
      );
      const rates = nodes.map((node) => (inside[node - 1] - inside[node]) / (timeS[node] - timeS[node - 1]));
      return Math.max(most, ...rates);
    }, 0);
  };
  const plan = planOf(longLoopText);

  it('[DOWN-27] stops the sortie: in which descent and by how much', () => {
    const { failure } = plan;
    expect(meanRateMS(plan)).toBeGreaterThan(allowedMS);
    expect([failure?.limit, failure?.quantity]).toEqual(['cabinRate', 'climbRateMS']);
    const fast = plan.startDowns.find(({ held }) => (held.cabin?.greatestRateMS ?? 0) > allowedMS);
    expect(failure?.excess).toBeCloseTo((fast?.held.cabin?.greatestRateMS ?? 0) - allowedMS, 9);
    expect(failure?.timeS).toBeGreaterThan(fast?.timeS ?? Number.NaN);
    expect(failureSentences(plan, failure as Failure).join(' ')).toMatch(
      /^Not flyable: rate of the cabin binds .*descent at 340/,
    );
  });

  it('[DOWN-28] is freed by a slower descent, and a knot faster is not enough', () => {
    const freed = plan.failure?.freedBy;
    expect(freed?.lever).toMatch(/^legs\.2\..*descend\.equivalentAirspeed|^legs\.2\.fly/);
    const knots = Math.round((freed?.to ?? Number.NaN) * (3600 / 1852));
    const at = (keas: number) =>
      planOf(longLoopText.replace(/(.*)340 KEAS, level/s, `$1${keas} KEAS, level`));
    const freedPlan = at(knots);
    expect(freedPlan.flyable).toBe(true);
    expect(meanRateMS(freedPlan)).toBeLessThanOrEqual(allowedMS);
    expect(at(knots + 1).failure?.limit).toBe('cabinRate');
    expect(freed?.marginAfter).toBeGreaterThan(0);
  });
});

describe('faults', () => {
  const folder = deckFolder('decks/sandmartin', 'deck');
  const faultsOf = (from: string, to: string): string => {
    const read = (file: string) => {
      const text = folder.read(file);
      return file === 'deck.yaml' && text !== null ? change(text, [from, to]) : text;
    };
    return inspectDeck({ name: 'deck', read }).faults.faults.map(faultText).join('\n');
  };

  it.each([
    ['    aboveMach: 1.5 Mach\n', '', /descentRules\.0: a rule holds either "aboveMach" or "aboveAltitude"/],
    [
      '36000 ft\n    setting: part',
      '36000 ft\n    setting: slow',
      /descentRules\.1\.setting: "slow" is none of idle, part/,
    ],
    ['of: cabin', 'of: crew', /descentRules\.1\.of: write one of engine, inlet, cabin/],
    ['outside: [0 ft, 8000 ft', 'outside: [0 ft, 0 ft', /cabin\.outside: write the altitudes rising/],
    [
      'inside: [0 ft, 8000 ft, 8000 ft',
      'inside: [0 ft, 8000 ft',
      /cabin\.inside: 5 altitudes inside for 6 outside/,
    ],
    ['24000 ft, 26000 ft]', '24000 ft, 20000 ft]', /cabin\.inside: the cabin does not come down while/],
    ['inside: [0 ft, 8000 ft', 'inside: [0 ft, 9000 ft', /cabin\.inside: the pressure inside is not below/],
    ['rate: 3500 ft/min', 'rate: 0 ft/min', /cabin\.rate: must be above 0/],
  ])('[DOWN-25] of the deck: %s becomes %s', (from, to, says) => {
    expect(faultsOf(from, to)).toMatch(says);
    expect(faultsOf(from, to)).toMatch(/^deck\/deck\.yaml:\d+/);
  });

  it('[DOWN-26] a descent asked for below the lowest setting above Mach 1 is refused', () => {
    const text = change(longLoopText, [
      'descend: { equivalentAirspeed: 340 KEAS, level: 15 nm }',
      'descend: { power: idle, equivalentAirspeed: 340 KEAS, level: 15 nm }',
    ]);
    expect(() => requestOf(text)).toThrow(
      /descend\.power: idle is below part, the lowest that the deck allows above Mach 1/,
    );
  });
});
