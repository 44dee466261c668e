/** A plan flown again with its decisions: as planned where nothing differs, and with the sign of what does. */
import { describe, expect, it } from 'vitest';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { Refly } from '../../../src/core/plan/refly.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

const request = requestOf(longLoopText);
const plan = makePlan(request);
const refly = new Refly(request, plan);
const asPlanned = refly.fly({});

/** Fuel that a draw costs at each contact and on landing. */
function cost(...draw: Parameters<Refly['fly']>): number[] {
  const flown = refly.fly(...draw);
  expect(flown.stopped).toBe(null);
  return flown.fuelKg.map((fuel, i) => asPlanned.fuelKg[i] - fuel);
}

describe('a plan flown again', () => {
  it('[REFLY-1] with nothing changed comes to each contact and to the landing with the fuel of the plan, to 3 kg', () => {
    const landing = plan.events.find((event) => event.kind === 'landing');
    const planned = [
      ...plan.refuellings.map((refuelling) => refuelling.fuelOnContactKg),
      landing?.fuelKg ?? 0,
    ];
    const times = [...plan.refuellings.map((refuelling) => refuelling.contactS), landing?.timeS ?? 0];
    expect(asPlanned.stopped).toBe(null);
    expect(asPlanned.fuelKg).toHaveLength(3);
    planned.forEach((fuel, i) => {
      expect(Math.abs(asPlanned.fuelKg[i] - fuel)).toBeLessThan(3);
      expect(Math.abs(asPlanned.timeS[i] - times[i])).toBeLessThan(1);
    });
  });

  it('[REFLY-2] drag costs fuel everywhere, and two per cent twice what one costs', () => {
    const one = cost({ dragFactor: 1.01 });
    const two = cost({ dragFactor: 1.02 });
    one.forEach((kg, i) => {
      expect(kg).toBeGreaterThan(5);
      expect(Math.abs(two[i] / kg - 2)).toBeLessThan(0.25);
    });
    const less = cost({ dragFactor: 0.99 });
    less.forEach((kg, i) => {
      expect(kg / one[i]).toBeLessThan(-0.75);
    });
  });

  it('[REFLY-3] fuel flow costs its part of what each leg burns, less what the lighter aircraft saves', () => {
    const [first, second] = cost({ fuelFlowFactor: 1.01 });
    const leg =
      plan.refuellings[0].fuelOnContactKg + plan.refuellings[0].takenKg - plan.refuellings[1].fuelOnContactKg;
    expect(first).toBeGreaterThan(0.8 * 0.01 * (14_000 - plan.refuellings[0].fuelOnContactKg - 292));
    expect(second).toBeGreaterThan(0.6 * 0.01 * leg);
    expect(second).toBeLessThan(1.1 * 0.01 * (leg + 2730));
  });

  it('[REFLY-4] a warmer day and less thrust cost fuel', () => {
    for (const kg of cost({ temperatureK: 3 })) expect(kg).toBeGreaterThan(0);
    for (const kg of cost({ thrustFactor: 0.98 }).slice(1)) expect(kg).toBeGreaterThan(0);
  });

  it('[REFLY-5] a headwind costs fuel and time, a tailwind gives them back', () => {
    // The first leg goes east of north; from the second contact the last one goes west.
    const first = (east: number) => refly.fly({ windEastMS: east });
    const [head, tail] = [first(-8), first(8)];
    expect(head.fuelKg[0]).toBeLessThan(asPlanned.fuelKg[0] - 10);
    expect(tail.fuelKg[0]).toBeGreaterThan(asPlanned.fuelKg[0] + 10);
    expect(head.timeS[0]).toBeGreaterThan(asPlanned.timeS[0] + 5);
    const home = (flown: typeof head) => flown.fuelKg[1] - flown.fuelKg[2];
    expect(home(head)).toBeLessThan(home(asPlanned) - 10);
    expect(home(tail)).toBeGreaterThan(home(asPlanned) + 10);
  });

  it('[REFLY-6] answers again what it answered, draws in between or not, and margins only where asked for', () => {
    refly.fly({ dragFactor: 1.05 });
    refly.fly({ fuelFlowFactor: 0.9 });
    expect(refly.fly({}).fuelKg).toEqual(asPlanned.fuelKg);
    expect(asPlanned.leastMargins).toEqual({});
    const { leastMargins } = refly.fly({}, true);
    const inlet = plan.limits.find((limit) => limit.key === 'inletTemperature');
    expect(Math.abs(leastMargins.inletTemperature - (inlet?.leastMargin ?? 0))).toBeLessThan(0.2);
  });

  it('[REFLY-7] a draw that cannot be flown says where it stopped', () => {
    const { stopped, fuelKg } = refly.fly({ thrustFactor: 0.6 });
    expect(stopped?.reason).toBe('thrust');
    expect(stopped?.phase.length).toBeGreaterThan(5);
    expect(fuelKg.length).toBeLessThan(3);
  });
});
