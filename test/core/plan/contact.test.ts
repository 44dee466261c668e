/** In contact: statics in balance, margin against mass, the burner to light, waivers, and where the offload stops. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import type { Aircraft } from '../../../src/core/aircraft/aircraft.ts';
import { flatEarth } from '../../../src/core/flight/earth-model.ts';
import { EXACT, Flight } from '../../../src/core/flight/flight.ts';
import { constantTrueAirspeed } from '../../../src/core/flight/speed-law.ts';
import { contactsOf } from '../../../src/core/plan/contact.ts';
import {
  type BeforeLight,
  bestLight,
  failureSeenS,
  lightWith,
} from '../../../src/core/plan/contact-light.ts';
import { refusedBy, waiversUsed } from '../../../src/core/plan/contact-limits.ts';
import { excursion, relativeMotion } from '../../../src/core/plan/contact-motion.ts';
import { ContactStatics } from '../../../src/core/plan/contact-statics.ts';
import { draftOf } from '../../../src/core/plan/draft.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { Tanker } from '../../../src/core/plan/sortie.ts';
import { contactSentences } from '../../../src/present/contact.ts';
import { lessThanAsked } from '../../../src/present/sentences.ts';
import { exactFlight, flatTrack } from '../../support/benchmark.ts';
import { change, longLoopText, requestOf, sandmartin } from '../../support/demo.ts';
import { idealJet } from '../../support/ideal-jet.ts';

const foot = 0.3048;
const knot = 1852 / 3600;
const gravity = 9.80665;
const request = requestOf(longLoopText);
const tanker: Tanker = request.sortie.tankers[0];

function statics(aircraft: Aircraft = sandmartin): ContactStatics {
  const zeroFuelMassKg = aircraft.balance.emptyMassKg;
  const setup = { aircraft, day: standardDay, earth: flatEarth(), tolerance: EXACT, zeroFuelMassKg };
  return new ContactStatics(new Flight(setup), flatTrack, tanker);
}

const at = (massKg: number) => ({ takenKg: 0, timeS: 0, distanceM: 0, massKg });

describe('motion behind the tanker', () => {
  const out = { speedMS: 0, placeM: 0 };

  it('[CONTACT-1] a constant force: V = F t/m, s = F t^2/(2 m)', () => {
    relativeMotion([{ atS: 2, forceN: 9000, constantS: 0 }], 60_000, 6, out);
    expect(out.speedMS).toBeCloseTo((9000 * 4) / 60_000, 12);
    expect(out.placeM).toBeCloseTo((9000 * 16) / 120_000, 12);
  });

  it('[CONTACT-1] a force that follows with a lag, against its equation integrated in small steps', () => {
    relativeMotion([{ atS: 0, forceN: 9000, constantS: 0.8 }], 60_000, 5, out);
    let [speed, place] = [0, 0];
    const step = 1e-4;
    for (let i = 0; i < 50_000; i++) {
      const middle = (i + 0.5) * step;
      const gained = ((9000 * (1 - Math.exp(-middle / 0.8))) / 60_000) * step;
      place += (speed + gained / 2) * step;
      speed += gained;
    }
    expect(out.speedMS).toBeCloseTo(speed, 7);
    expect(out.placeM).toBeCloseTo(place, 7);
  });

  it('[CONTACT-2] what speed is left is stopped with what there is to stop it: s = V^2/2a, or the place is lost', () => {
    const push = [{ atS: 0, forceN: 6000, constantS: 0 }];
    const stopped = excursion(push, 60_000, 4, 3000, 0);
    expect(stopped.closureMS).toBeCloseTo(0.4, 12);
    expect(stopped.foreM).toBeCloseTo(0.8 + 0.4 ** 2 / (2 * 0.05), 12);
    expect(excursion(push, 60_000, 4, 0, 3000).foreM).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('statics in contact', () => {
  it('[CONTACT-3] forces and yaw are in balance to 1e-9 of the weight', () => {
    const point = { liftSlope: 0, zeroLiftAngleRad: 0, zeroLiftDrag: 0, inducedFactor: 0, outside: 0 };
    for (const [massKg, lit] of [
      [48_000, false],
      [66_000, false],
      [75_200, true],
    ] as const) {
      const contact = statics();
      const row = contact.at(at(massKg), lit);
      const { forces, frame } = contact.flight;
      const { mach, dynamicPressurePa: pressure } = forces;
      // The angle of attack that gives the lift, worked out here again from thrust alone.
      const { aerodynamics, propulsion, rudder } = sandmartin;
      const height = frame.air.geometricHeightM;
      aerodynamics.at(mach, frame.pressureAltitudeM, height, forces.cgFraction, point);
      const force = pressure * aerodynamics.wingAreaM2;
      const weight = massKg * gravity;
      let angle = 0;
      for (let round = 0; round < 60; round++) {
        const lift = (weight - row.requiredN * Math.sin(angle)) / force;
        angle = point.zeroLiftAngleRad + lift / point.liftSlope;
      }
      const lift = point.liftSlope * (angle - point.zeroLiftAngleRad);
      const wash = aerodynamics.washDrag?.increment ?? 0;
      const drag = force * (point.zeroLiftDrag + wash + point.inducedFactor * lift * lift);
      expect(Math.abs(row.requiredN * Math.cos(angle) - drag) / weight).toBeLessThan(1e-9);
      const thrust = row.thrustN.reduce((sum, one) => sum + one, 0);
      expect(Math.abs(thrust - row.requiredN) / weight).toBeLessThan(1e-9);
      const turning = propulsion.engines.reduce((sum, { armM }, i) => sum - armM * row.thrustN[i], 0);
      const held = (rudder?.momentPerRad(mach, pressure) ?? 0) * (((row.rudderDeg ?? 0) * Math.PI) / 180);
      expect(Math.abs(turning + held)).toBeLessThan(1e-9 * weight);
      expect(Math.abs(row.rudderDeg ?? 99)).toBeLessThan(row.rudderLimitDeg ?? 0);
      expect(row.rudderDeg === 0).toBe(!lit);
    }
  });

  it('[CONTACT-4] the margin falls with mass, and so does what is left in a turn', () => {
    const contact = statics();
    const mass = fc.double({ min: 45_000, max: 75_000, noNaN: true });
    fc.assert(
      fc.property(mass, fc.double({ min: 1, max: 5000, noNaN: true }), fc.boolean(), (kg, more, lit) => {
        const heavy = lit ? 72_000 : kg;
        const [light, heavier] = [contact.at(at(heavy), lit), contact.at(at(heavy + more), lit)];
        expect(heavier.margin).toBeLessThan(light.margin);
        expect(heavier.turnMargin).toBeLessThan(light.turnMargin);
        expect(heavier.greatestBankDeg).toBeLessThanOrEqual(light.greatestBankDeg);
        expect(light.turnMargin).toBeLessThan(light.margin);
      }),
      { numRuns: 60, seed: 1 },
    );
  });

  // The path angle is w/V: 500 ft/min at 465 kt true gives back 1.06 % of the weight.
  it('[CONTACT-5] 500 ft/min down at 465 KTAS spares 1.06 % of the weight', () => {
    const jet = idealJet({ areaM2: 170, zeroLiftDrag: 0.01, inducedFactor: 0.1, consumption: 0.0005 });
    const flight = exactFlight(jet, flatEarth(), { zeroFuelMassKg: 30_000 });
    const needed = (rate: number) => {
      flight.placeOnTrack(flatTrack, 0, 24_000 * foot, 0);
      flight.onLawAtRate(constantTrueAirspeed(465 * knot), 60_000, rate);
      return flight.forces.thrustN;
    };
    const spared = (needed(0) - needed((-500 * foot) / 60)) / (60_000 * gravity);
    expect(spared).toBeCloseTo(0.0106, 4);
  });

  it('[CONTACT-5] at the rate of descent that is told, dry thrust is what is needed', () => {
    const contact = statics();
    const row = contact.at(at(75_200), true);
    expect(row.descentMS).toBeLessThan(-1);
    // Bound of the benefit without the change of true airspeed: rate over speed, to the share of the acceleration on the way.
    const short = (row.requiredN - row.dryN) / (75_200 * gravity);
    const rate = -row.descentMS / contact.flight.forces.speedMS;
    expect(short / rate).toBeGreaterThan(1);
    expect(short / rate).toBeLessThan(1.5);
  });
});

describe('lighting one afterburner', () => {
  const lightUp = { lagS: 2.5, spreadS: 0.6, spoolS: 0.8, reactionS: 1.5 };
  const envelope = { foreM: 3, aftM: 3, closureMS: 2 };
  const before: BeforeLight = {
    massKg: 66_000,
    engines: 2,
    requiredN: 76_000,
    idleN: 4000,
    militaryN: 42_000,
    leastLitN: 58_000,
    mostLitN: 67_000,
    risingNS: 90,
  };

  it('[CONTACT-6] the way that is told uses no more of the envelope than any other', () => {
    const best = bestLight(before, lightUp, envelope);
    for (let early = 0; early <= 16_000; early += 500) {
      expect(best.use).toBeLessThanOrEqual(lightWith(before, lightUp, envelope, early).use * 1.01);
    }
    expect(best.use).toBeLessThan(1);
  });

  it('[CONTACT-7] nothing brought back early: the step alone until it is felt, whatever the lag', () => {
    const { cases } = lightWith(before, lightUp, envelope, 0);
    // V = S (R + c)/m at the end, c the time constant; what follows after three of them is 5 % of c.
    const speed = (16_000 * (1.5 + 0.8)) / 66_000;
    for (const { name, closureMS } of cases) {
      if (name === 'fails') expect(closureMS).toBe(0);
      else expect(Math.abs(closureMS - speed)).toBeLessThan(0.03 * speed);
    }
  });

  it('[CONTACT-8] a light that fails loses the place where weight has eaten the dry thrust meanwhile', () => {
    const late = { ...before, requiredN: 83_900 };
    const failed = lightWith(late, lightUp, envelope, 0).cases.find(({ name }) => name === 'fails');
    expect(failed?.aftM).toBe(Number.POSITIVE_INFINITY);
    expect(failureSeenS(lightUp)).toBeCloseTo(2.5 + 1.2 + 1.5, 12);
  });
});

describe('limits of a tanker', () => {
  const waiver = {
    of: 'maximumCalibratedAirspeedMS',
    value: 330 * knot,
    by: 'tanker wing',
    for: 'heavy receiver',
    untilS: 1e10,
  } as const;
  const fast = {
    ...tanker,
    calibratedAirspeedMS: 330 * knot,
    maximumCalibratedAirspeedMS: 320 * knot,
    maximumMach: 0.78,
  };

  // 330 KCAS at 24 000 ft is Mach 0.769 (pitot formula of subsonic flow, US Standard Atmosphere 1976).
  it('[CONTACT-9] a waiver of airspeed moves the limit of airspeed and not that of Mach', () => {
    expect(refusedBy(fast, 0)?.reason).toBe('tankerSpeed');
    expect(waiversUsed(fast, 0)).toEqual([]);
    const waived = { ...fast, waivers: [waiver] };
    expect(refusedBy(waived, 0)).toBeNull();
    expect(waiversUsed(waived, 0)).toEqual([{ ...waiver, limit: 320 * knot }]);
    const held = refusedBy({ ...waived, maximumMach: 0.765 }, 0);
    expect(held?.reason).toBe('tankerMach');
    expect(held?.text).toContain('Mach 0.769 is above Mach 0.765');
    expect(refusedBy(waived, 2e10)?.reason).toBe('tankerSpeed');
  });
});

describe('the contacts of a sortie', () => {
  const drafted = draftOf(request);
  const studies = contactsOf(drafted);

  it('[CONTACT-10] dry thrust ends where the flight lit its burner; full tanks at the same mass taken', () => {
    const [first] = studies;
    const [flown] = drafted.flown.refuellings;
    expect(Math.abs((first.dryEndsKg ?? 0) - (flown.afterburnerFromKg ?? 0))).toBeLessThan(5);
    const last = first.rows[first.rows.length - 1];
    expect(Math.abs(last.takenKg - flown.takenKg)).toBeLessThan(5);
    expect(last.margin).toBeCloseTo(flown.leastThrustMargin, 3);
    const byMass = first.rows.filter(({ mark }) => mark !== 'lit');
    for (let i = 1; i < byMass.length; i++) {
      expect(byMass[i].margin).toBeLessThan(byMass[i - 1].margin);
    }
  });

  it('[CONTACT-14] where dry thrust ends stands once dry and once with one lit: the same thrust, unlike engines', () => {
    const [first] = studies;
    const at = first.rows.findIndex(({ mark }) => mark === 'dryEnds');
    const [dry, lit] = [first.rows[at], first.rows[at + 1]];
    expect(lit).toMatchObject({ mark: 'lit', takenKg: dry.takenKg, requiredN: dry.requiredN });
    const sum = ({ thrustN }: typeof dry) => thrustN.reduce((total, one) => total + one, 0);
    expect(sum(lit)).toBeCloseTo(sum(dry), 3);
    // Nothing more to come dry; beside a lit one there is.
    expect(dry.moreN / dry.requiredN).toBeCloseTo(0, 4);
    expect(lit.moreN).toBeGreaterThan(1000);
    expect([dry.free, lit.free]).toEqual(['all', 'dry']);
  });

  it('[CONTACT-15] beside a lit engine the dry one comes to military power, and from there the lit one follows', () => {
    const high = makePlan(requestOf(change(longLoopText, [/24000 ft/g, '27000 ft'])));
    const [{ rows, litFollowsKg }] = high.contacts;
    const at = rows.findIndex(({ mark }) => mark === 'othersEnd');
    const [before, after] = [rows[at], rows[at + 1]];
    expect([before.free, after.free, after.mark]).toEqual(['dry', 'lit', 'litFollows']);
    expect(after.takenKg).toBe(litFollowsKg);
    expect(Math.abs(after.takenKg - before.takenKg)).toBeLessThan(0.1);
    // The lit one at its least, the other at military power: together what is needed; no more from the other, all from the lit one.
    const { military, minimumAfterburner } = sandmartin.propulsion;
    expect(after.powers[1]).toBeCloseTo(military, 9);
    expect(Math.abs(after.powers[0] - (minimumAfterburner ?? Number.NaN))).toBeLessThan(1e-4);
    expect(Math.abs(before.moreN)).toBeLessThan(1);
    expect(after.moreN).toBeCloseTo(after.availableN - after.requiredN, 6);
    // What can be taken off does not jump; what is taken on beyond there is there to be taken off again.
    expect(Math.abs(after.lessN - before.lessN)).toBeLessThan(1);
    const last = rows[rows.length - 1];
    expect(last.lessN).toBeGreaterThan(after.lessN);
    expect(studies.every((study) => study.litFollowsKg === null)).toBe(true);
  });

  it('[CONTACT-11] fuel is conserved between tanker and receiver to 0.1 kg', () => {
    const { log, flown, crew } = drafted;
    flown.refuellings.forEach((refuelling, i) => {
      const { takenKg, burntKg, offloadLeftKg, fuelOnContactKg, disconnectS } = refuelling;
      const gained = log.at(log.columns.fuelKg, disconnectS) - fuelOnContactKg;
      expect(Math.abs(gained + burntKg - takenKg)).toBeLessThan(0.1);
      expect(Math.abs(crew.sortie.tankers[i].offloadKg - takenKg - offloadLeftKg)).toBeLessThan(0.1);
    });
  });

  it('[CONTACT-12] one burner is lit before dry thrust ends, by the time that it takes to see it fail', () => {
    for (const { light, dryEndsKg, rows } of studies) {
      if (light === null || light.latestKg === null) throw new Error('no burner to light');
      expect(light.latestKg).toBeGreaterThan(light.earliestKg);
      const ahead = ((dryEndsKg ?? 0) - light.latestKg) / tanker.rateKgS;
      expect(ahead).toBeGreaterThan(light.failureSeenS);
      expect(ahead).toBeLessThan(2 * light.failureSeenS);
      expect(light.use).toBeLessThanOrEqual(1);
      expect(rows.length).toBeLessThan(20);
    }
  });

  it('[CONTACT-13] the offload stops where the thrust margin ends, and says so', () => {
    const { aerodynamics } = sandmartin;
    const aircraft = {
      ...sandmartin,
      aerodynamics: { ...aerodynamics, washDrag: { increment: 0.011, spread: 0.0006 } },
    };
    const plan = makePlan({ ...request, aircraft });
    const [flown] = plan.refuellings;
    const [study] = plan.contacts;
    expect(flown.endedBy).toBe('thrust');
    expect(flown.leastThrustMargin).toBeCloseTo(0, 5);
    expect(Math.abs((study.marginEndsKg ?? 0) - flown.takenKg)).toBeLessThan(5);
    expect(study.rows[study.rows.length - 1].margin).toBeCloseTo(0, 6);
    expect(lessThanAsked(plan, flown)).toEqual(['full tanks asked for, but there the thrust margin ends']);
    expect(contactSentences(plan, study)[0]).toMatch(/The offload stops at .* the thrust margin ends\.$/);
  });
});
