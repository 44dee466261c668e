/** The day's rules of thumb: their costs against hand calculations, their ranges and failing values against flights of their own. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { warmerDay } from '../../../src/core/air/warmer-day.ts';
import { newInletErrorPoint } from '../../../src/core/aircraft/inlet-error.ts';
import type { Variation } from '../../../src/core/flight/setup.ts';
import { findAreas } from '../../../src/core/plan/areas.ts';
import { crewOf, draft, type PlanRequest, requiredOf } from '../../../src/core/plan/draft.ts';
import { waiting } from '../../../src/core/plan/drivers.ts';
import { firstFault } from '../../../src/core/plan/failure.ts';
import { summariseLimits } from '../../../src/core/plan/limits.ts';
import { Refly } from '../../../src/core/plan/refly.ts';
import { rulesOf } from '../../../src/core/plan/rules.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const request = requestOf(longLoopText);
const rules = rulesOf(request);
const planned = draft(crewOf(request));
const decisions = planned.flown.legs.map((leg) => leg.decisions);
const refly = new Refly(request, { decisions });

function rule(key: string, of: string | null = null) {
  const found = rules.drivers.find((driver) => driver.key === key && driver.of === of);
  if (!found) throw new Error(`no rule for ${key}`);
  return found;
}

function costAt(key: string, gate = 0, of: string | null = null): number {
  return rule(key, of).costs[gate].perStepKg ?? Number.NaN;
}

/** Key of the first fault of a sortie planned anew, with the fuel required everywhere; null where it can be flown. */
function faultOf(asked: Pick<PlanRequest, 'sortie' | 'aircraft' | 'day'>, variation?: Partial<Variation>) {
  const altitudes = planned.crew.altitudes;
  const drafted = draft({ ...crewOf(asked, variation), altitudes });
  const { sortie, aircraft } = asked;
  const limits = summariseLimits(aircraft.limits, sortie.pads, drafted.log, sortie.takeOff.timeS);
  const { requiredKg } = requiredOf(drafted);
  return firstFault(drafted, { limits, requiredKg, findings: findAreas(drafted) })?.key ?? null;
}

describe('the rules of the day', () => {
  it('[RULE-1] are told at each contact and at the landing, for every driver', () => {
    expect(rules.gates.map(({ name }) => name)).toEqual(['Ewer One', 'Ewer Two', 'Harrow Flat']);
    expect(rules.drivers.map(({ key, of }) => (of === null ? key : `${key} ${of}`))).toEqual([
      'temperature',
      'headwind',
      'drag',
      'fuelFlow',
      'mass',
      'cruiseAltitude',
      'inlet Inlet ramp',
      'takeOffSlip',
      'lateTanker Ewer One',
      'lateTanker Ewer Two',
    ]);
    expect(rules.notComputed.join()).toMatch(
      /later take-off costs in other air: the weather is the same at every time/,
    );
  });

  /**
   * By hand: what is burnt in flight on the first leg grows by 1 %, and the aircraft, lighter by half of that on the mean, saves of
   * it about the part that mass has in the burn, no more than 5 % here.
   */
  it('[RULE-2] a percent of fuel flow costs a percent of what the first leg burns, less what the lighter aircraft saves', () => {
    const { takeOff } = planned.flown;
    const burntKg = request.sortie.aircraft.fuelKg - takeOff.fuelKg - (rules.gates[0].fuelKg ?? Number.NaN);
    const perStepKg = costAt('fuelFlow');
    expect(perStepKg).toBeLessThan(0.01 * burntKg);
    expect(perStepKg).toBeGreaterThan(0.95 * 0.01 * burntKg);
  });

  /** By hand: level at the contact the flow is that of the last node before it; five minutes of it are burnt round the point. */
  it('[RULE-3] a late tanker costs the flow of level flight at the contact, and a contact for full tanks hides it', () => {
    const { log } = planned;
    const contactS = request.sortie.takeOff.timeS + (rules.gates[0].timeS ?? Number.NaN);
    const flowKgS = log.at(log.columns.fuelFlowKgS, contactS - 1);
    const late = rule('lateTanker', 'Ewer One');
    expect(late.step).toBe(300);
    expect(Math.abs(costAt('lateTanker', 0, 'Ewer One') / (300 * flowKgS) - 1)).toBeLessThan(0.02);
    for (const { perStepKg } of late.costs.slice(1))
      expect(Math.abs(perStepKg ?? Number.NaN)).toBeLessThan(3);
  });

  it('[RULE-4] warmth, headwind, drag, fuel flow and load cost fuel at every gate', () => {
    for (const key of ['temperature', 'headwind', 'drag', 'fuelFlow', 'mass']) {
      for (const { perStepKg } of rule(key).costs) expect(perStepKg).toBeGreaterThan(0);
    }
  });

  /** By hand: each second against a wind w loses w of way, made up at the ground speed of the cruise, g - w, at its flow. */
  it('[RULE-5] a headwind costs the flow over the time that it lasts longer, to the first tanker within a fifth', () => {
    const { log } = planned;
    const cruise = log.phases.find(({ kind, leg }) => kind === 'cruise' && leg === 0);
    if (!cruise) throw new Error('the first leg has a cruise');
    const seconds = cruise.endS - cruise.startS;
    const groundMS = cruise.distanceM / seconds;
    const windMS = rule('headwind').step;
    const longerS = ((rules.gates[0].timeS ?? Number.NaN) * windMS) / (groundMS - windMS);
    const kg = longerS * (cruise.fuelKg / seconds);
    expect(Math.abs(costAt('headwind') / kg - 1)).toBeLessThan(0.2);
  });

  it('[RULE-6] is right within 5 % over the range that it names', () => {
    const asPlanned = refly.fly({});
    const { costs, step } = rule('drag');
    const gate = 0;
    const { straight } = costs[gate];
    const perStepKg = costAt('drag', gate);
    if (!straight) throw new Error('the drag rule has a range');
    fc.assert(
      fc.property(fc.double({ min: straight.from, max: straight.to, noNaN: true }), (part) => {
        if (Math.abs(part) < 1e-3) return;
        const flown = asPlanned.fuelKg[gate] - refly.fly({ dragFactor: 1 + part }).fuelKg[gate];
        expect(Math.abs((perStepKg * part) / step - flown)).toBeLessThan(0.055 * Math.abs(flown) + 0.3);
      }),
      { numRuns: 25, seed: 6 },
    );
  });

  it('[RULE-7] finds no straight rule for the cruise altitude: off its best it costs both ways', () => {
    const { costs, step } = rule('cruiseAltitude');
    for (const { moreKg, lessKg } of costs.slice(1)) {
      expect(Math.min(moreKg ?? 0, lessKg ?? 0)).toBeGreaterThan(0);
    }
    for (const { straight } of costs) {
      if (straight) expect(Math.max(-straight.from, straight.to)).toBeLessThan(step / 2);
    }
  });

  it('[RULE-8] at the failing value of warmth the sortie passes, and 1 % beyond it fails as said', () => {
    const [{ passes, limit }] = rule('temperature').edges;
    if (passes === null) throw new Error('some warmth stops every sortie');
    const warmed = (kelvin: number) => faultOf({ ...request, day: warmerDay(request.day, kelvin) });
    expect(warmed(passes)).toBe(null);
    expect(warmed(1.01 * passes)).toBe(limit);
  });

  it('[RULE-9] the same for drag and fuel flow', () => {
    const drag = rule('drag').edges[0];
    const flow = rule('fuelFlow').edges[0];
    if (drag.passes === null || flow.passes === null) throw new Error('both stop the sortie');
    expect(faultOf(request, { dragFactor: 1 + drag.passes })).toBe(null);
    expect(faultOf(request, { dragFactor: 1 + 1.01 * drag.passes })).toBe(drag.limit);
    expect(faultOf(request, { fuelFlowFactor: 1 + flow.passes })).toBe(null);
    expect(faultOf(request, { fuelFlowFactor: 1 + 1.01 * flow.passes })).toBe(flow.limit);
  });

  it('[RULE-10] the same for each late tanker', () => {
    for (const [leg, name] of ['Ewer One', 'Ewer Two'].entries()) {
      const [{ passes, limit }] = rule('lateTanker', name).edges;
      if (passes === null) throw new Error('two hours are too late');
      const late = (waitS: number) => ({ ...request, sortie: waiting(request.sortie, leg, waitS) });
      expect(faultOf(late(passes))).toBe(null);
      expect(faultOf(late(1.01 * passes))).toBe(limit);
    }
  });

  /** The deck's own table: the angle left to expelling the shock at each Mach flown, linear in the error between its points. */
  it('[RULE-12] an inlet too high fails where the table has no angle left, and too low costs fuel only', () => {
    const { inletError } = request.aircraft;
    const [high, low] = rule('inlet', 'Inlet ramp').edges;
    if (inletError === null || high.passes === null) throw new Error('the shock is expelled somewhere');
    const point = newInletErrorPoint();
    const least = (errorDeg: number): number => {
      const { mach } = planned.log.columns;
      return Math.min(
        ...mach
          .filter((value) => value > 1)
          .map((value) => {
            inletError.at(value, (errorDeg * Math.PI) / 180, point);
            return point.shockMarginRad;
          }),
      );
    };
    expect(high.limit).toBe('inletShock');
    expect(least(high.passes)).toBeGreaterThan(0);
    expect(least(1.015 * high.passes)).toBeLessThan(0);
    expect(low.passes).toBe(null);
    for (const { moreKg, lessKg } of rule('inlet', 'Inlet ramp').costs.slice(1)) {
      expect(Math.min(moreKg ?? 0, lessKg ?? 0)).toBeGreaterThan(0);
    }
  });

  /** By hand: the area Plover Sound holds from 19:00Z, three hours and a half after take-off; the track is beside it 1:31 to 1:35 after take-off. */
  it('[RULE-13] a later take-off costs nothing in held weather, and goes as far as the hours of an area let it', () => {
    const { costs, edges } = rule('takeOffSlip');
    for (const { perStepKg } of costs) expect(Math.abs(perStepKg ?? Number.NaN)).toBeLessThan(0.1);
    const [{ passes, limit, name }] = edges;
    expect([limit, name]).toEqual(['area', 'Plover Sound']);
    const minutes = (passes ?? Number.NaN) / 60;
    expect(minutes).toBeGreaterThan(210 - 95 - 2);
    expect(minutes).toBeLessThan(210 - 91 + 2);
  });

  it('[RULE-11] a sortie that cannot be flown has its costs, and no value to which it could go', () => {
    const short = rulesOf(requestOf(change(longLoopText, ['take: 17000 kg', 'take: 9000 kg'])));
    expect(short.drivers.flatMap(({ edges }) => edges)).toEqual([]);
    expect(short.notComputed.join()).toMatch(/cannot be flown as it is \(fuel required\)/);
    expect(short.drivers[0].costs[0].perStepKg).toBeGreaterThan(0);
  });
});
