/** What a tanker's crew is told against the plan and a hand calculation of its turn. */
import { describe, expect, it } from 'vitest';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

const plan = makePlan(requestOf(longLoopText));

describe('the orders of the tankers', () => {
  it('[TKO-1] are one for each contact, with its time, place and fuel', () => {
    expect(plan.tankerOrders.map(({ tanker }) => tanker)).toEqual(['Ewer One', 'Ewer Two']);
    plan.tankerOrders.forEach((order, i) => {
      const { contactS, disconnectS, takenKg, offloadLeftKg } = plan.refuellings[i];
      expect([order.timeS, order.durationS]).toEqual([contactS, disconnectS - contactS]);
      expect([order.givesKg, order.leftKg]).toEqual([takenKg, offloadLeftKg]);
    });
  });

  /** By hand, V the true airspeed and 25 deg of bank: R = V^2 / (9.80665 x 0.466308); half a circle takes pi R / V. */
  it('[TKO-2] begin the turn half a circle before the contact, beside the track by its diameter', () => {
    for (const order of plan.tankerOrders) {
      const speed = order.trueAirspeedMS;
      const radius = speed ** 2 / (9.80665 * 0.466308);
      expect(order.offsetM / (2 * radius)).toBeCloseTo(1, 5);
      expect((order.timeS - order.turnS) / ((Math.PI * radius) / speed)).toBeCloseTo(1, 5);
      // Both at one speed: along the track it is pi / 2 of the offset.
      expect(order.turnRangeM / (2 * radius)).toBeCloseTo(Math.hypot(1, Math.PI / 2), 4);
    }
  });
});
