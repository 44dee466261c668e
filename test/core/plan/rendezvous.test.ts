/** One speed in four languages, and the contacts of the demonstration. */
import { describe, expect, it } from 'vitest';
import { machFromCalibrated } from '../../../src/core/air/airdata.ts';
import { standardPressure, standardTemperature } from '../../../src/core/air/standard.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { fourSpeeds } from '../../../src/core/plan/rendezvous.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

const knot = 1852 / 3600;
const plan = makePlan(requestOf(longLoopText));

describe('one speed in four languages', () => {
  // Worked out independently from the impact pressure of NACA Report 1135 and the standard atmosphere.
  it.each([
    { kcas: 320, keas: 308, mach: 0.747, ktas: 451 },
    { kcas: 330, keas: 316, mach: 0.769, ktas: 465 },
  ])('[REND-1] $kcas KCAS at 24 000 ft is $keas KEAS, M $mach, $ktas KTAS', ({ kcas, keas, mach, ktas }) => {
    const altitudeM = 24_000 * 0.3048;
    const flown = machFromCalibrated(kcas * knot, standardPressure(altitudeM));
    const speeds = fourSpeeds(flown, altitudeM, standardTemperature(altitudeM));
    expect(speeds.mach.toFixed(3)).toBe(mach.toFixed(3));
    expect(Math.round(speeds.calibratedAirspeedMS / knot)).toBe(kcas);
    expect(Math.round(speeds.equivalentAirspeedMS / knot)).toBe(keas);
    expect(Math.round(speeds.trueAirspeedMS / knot)).toBe(ktas);
  });

  it('[REND-2] the four of a contact belong to each other by subsonic air data', () => {
    for (const at of plan.rendezvous) {
      // Standard pressure of the troposphere, and the impact pressure of NACA Report 1135 below Mach 1.
      const ratio = (1 - (0.0065 * at.pressureAltitudeM) / 288.15) ** 5.25588;
      for (const speeds of [at.contact, at.greatest]) {
        const impact = ratio * ((1 + 0.2 * speeds.mach ** 2) ** 3.5 - 1);
        const calibrated = 340.294 * Math.sqrt(5 * ((impact + 1) ** (2 / 7) - 1));
        expect(speeds.calibratedAirspeedMS).toBeCloseTo(calibrated, 2);
        expect(speeds.equivalentAirspeedMS).toBeCloseTo(speeds.mach * 340.294 * Math.sqrt(ratio), 2);
        const trueAirspeed = speeds.mach * Math.sqrt(1.4 * 287.0529 * at.temperatureK);
        expect(speeds.trueAirspeedMS).toBeCloseTo(trueAirspeed, 2);
      }
    }
  });
});

describe('the contacts of the demonstration', () => {
  it('[REND-3] each stands by its refuelling, below the greatest Mach of its tanker', () => {
    expect(plan.rendezvous.map(({ tanker }) => tanker)).toEqual(plan.refuellings.map(({ tanker }) => tanker));
    for (const { contact, greatest } of plan.rendezvous) {
      expect(greatest.mach).toBe(0.8);
      expect(contact.calibratedAirspeedMS / knot).toBeCloseTo(320, 6);
      expect(contact.mach).toBeLessThan(greatest.mach);
    }
  });

  it('[REND-4] the track flown in contact is the time on the boom at the speed over the ground, to 3 %', () => {
    plan.rendezvous.forEach(({ trackM, groundSpeedMS }, i) => {
      const { contactS, disconnectS } = plan.refuellings[i];
      expect(Math.abs(trackM / (groundSpeedMS * (disconnectS - contactS)) - 1)).toBeLessThan(0.03);
    });
  });

  it('[REND-5] the mass at disconnect is the empty mass, the fuel on contact and what was taken less what was burnt', () => {
    plan.rendezvous.forEach(({ massAtDisconnectKg }, i) => {
      const { fuelOnContactKg, takenKg, burntKg } = plan.refuellings[i];
      const mass = plan.aircraft.emptyMassKg + fuelOnContactKg + takenKg - burntKg;
      expect(Math.abs(massAtDisconnectKg - mass)).toBeLessThan(0.1);
    });
  });
});
