/** Sandmartin against the requirements it was designed to; each is its own, none describes another aircraft. */
import { describe, expect, it } from 'vitest';
import { equivalentAirspeed, machFromCalibrated } from '../../src/core/air/airdata.ts';
import { standardPressure } from '../../src/core/air/standard.ts';
import { totalTemperature } from '../../src/core/air/thermally-perfect.ts';
import type { LimitInputs } from '../../src/core/aircraft/aircraft.ts';
import { newLimitInputs } from '../../src/core/aircraft/limits.ts';
import { loadDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';
import {
  alongEquivalent,
  altitudeOfEquivalent,
  foot,
  mile,
  QuickMission,
  straight,
} from '../support/quick-mission.ts';

const { aircraft, deck, doubts } = loadDeck(deckFolder('decks/sandmartin'));
const { names, military, maximum, descent } = aircraft.propulsion;
const full = aircraft.balance.fuelCapacityKg;
const knot = mile / 3600;
const degree = Math.PI / 180;

const contactAltitude = 24000 * foot;
const contactMach = machFromCalibrated(320 * knot, standardPressure(contactAltitude));
const wash = aircraft.aerodynamics.washDrag?.increment ?? Number.NaN;

function bound(key: string, inputs: Partial<LimitInputs>): number {
  const limit = aircraft.limits.find((one) => one.key === key);
  if (limit === undefined) throw new Error(`no limit ${key}`);
  return limit.bound({ ...newLimitInputs(), ...inputs });
}

describe('Sandmartin', () => {
  it('[SM-1] is invented, says so, and raises no doubt', () => {
    expect(deck.identity.basis).toBe('notional');
    expect(deck.crew).toBe(3);
    expect(aircraft.propulsion.engines.map((engine) => engine.name)).toEqual(['left', 'right']);
    expect(doubts).toEqual([]);
  });

  it('[SM-2] at full fuel in contact, 320 KCAS at 24 000 ft, needs one engine in afterburner', () => {
    const mission = new QuickMission(aircraft, full);
    const { dragN } = mission.level(contactMach, contactAltitude, wash);
    const dry = mission.power(military, contactMach, contactAltitude).thrustN;
    const lit = mission.power(maximum, contactMach, contactAltitude).thrustN;
    expect(dry).toBeLessThan(0.98 * dragN);
    expect((dry + lit) / 2).toBeGreaterThan(1.02 * dragN);
  });

  it('[SM-3] has 1.2 to 1.3 g to the stall warning in contact at full fuel', () => {
    const mission = new QuickMission(aircraft, full);
    const { angleRad } = mission.level(contactMach, contactAltitude);
    const warning = aircraft.aerodynamics.warningAngleRad(contactMach) ?? Number.NaN;
    expect(warning / angleRad).toBeGreaterThan(1.2);
    expect(warning / angleRad).toBeLessThan(1.3);
    expect(warning).toBe(bound('stallWarning', { mach: contactMach }));
    expect(bound('push', { mach: contactMach })).toBeGreaterThan(warning);
  });

  it('[SM-4] has 1 to 3 % of weight in excess thrust from Mach 1.0 to 1.2 at 33 000 ft and full fuel', () => {
    const mission = new QuickMission(aircraft, full);
    for (let mach = 1; mach <= 1.2001; mach += 0.01) {
      const excess = mission.excess(maximum, mach, 33000 * foot);
      expect(excess).toBeGreaterThan(0.01);
      expect(excess).toBeLessThan(0.03);
    }
  });

  it('[SM-5] saves fuel by a pushover from 33 000 to 29 500 ft, to the same height and Mach', () => {
    const high = 33000 * foot;
    const low = 29500 * foot;
    const level = new QuickMission(aircraft, full - 2500);
    const levelFuel = level.fly(maximum, straight([0.9, high], [1.25, high]));
    const dive = new QuickMission(aircraft, full - 2500);
    const diveFuel =
      dive.fly(maximum, straight([0.9, high], [1.05, low])) +
      dive.fly(maximum, straight([1.05, low], [1.25, low + 1000 * foot])) +
      dive.fly(maximum, straight([1.25, low + 1000 * foot], [1.25, high]));
    expect(diveFuel).toBeLessThan(levelFuel - 200);
  });

  it('[SM-6] flies 1 800 nm from tanker to tanker at Mach 2.85, 66 000 to 77 000 ft, and can then divert 250 nm', () => {
    const mission = new QuickMission(aircraft, full);
    mission.fly(maximum, straight([contactMach, contactAltitude], [0.9, 33000 * foot]));
    mission.fly(maximum, straight([0.9, 33000 * foot], [1.02, 29500 * foot]));
    mission.fly(maximum, straight([1.02, 29500 * foot], [1.2, altitudeOfEquivalent(1.2, 440)]));
    mission.fly(maximum, alongEquivalent(440, 1.2, 2.85));
    const start = mission.distanceM;
    const descentDistance = 230 * mile;
    const { first, last } = mission.cruise(
      2.85,
      1800 * mile - start - descentDistance,
      60000 * foot,
      80000 * foot,
    );
    expect(first / foot).toBeGreaterThan(65500);
    expect(last / foot).toBeLessThan(77000);
    expect(last).toBeGreaterThan(first + 3000 * foot);

    const cruised = mission.distanceM;
    const bled = (part: number): readonly [number, number] => {
      const mach = 2.85 + part * (0.9 - 2.85);
      return [mach, altitudeOfEquivalent(mach, 380 - 80 * Math.min(1, 1.2 * part))];
    };
    mission.fly(descent, bled);
    expect((mission.distanceM - cruised) / descentDistance).toBeGreaterThan(0.85);
    expect((mission.distanceM - cruised) / descentDistance).toBeLessThan(1.15);

    const atTanker = mission.fuelKg;
    let best = 0;
    for (let altitude = 30000; altitude <= 35000; altitude += 1000) {
      best = Math.max(best, mission.specificRange(0.88, altitude * foot, military));
    }
    const divert = (250 * mile) / best;
    // Reserve: the fuel limit, and a fifth more than the divert in still air.
    expect(atTanker).toBeGreaterThan(bound('minimumFuel', {}) + 1.2 * divert);
  });

  it('[SM-7] has an L/D of 5.5 to 6.5 in cruise, under the ceiling 4(M+3)/M', () => {
    for (const [altitude, fuel] of [
      [67000, 24000],
      [70000, 17500],
      [72000, 12000],
    ]) {
      const mission = new QuickMission(aircraft, fuel);
      const { dragN } = mission.level(2.85, altitude * foot);
      const ratio = (mission.massKg * 9.80665) / dragN;
      expect(ratio).toBeGreaterThan(5.5);
      expect(ratio).toBeLessThan(6.5);
      expect(ratio).toBeLessThan((4 * (2.85 + 3)) / 2.85);
    }
  });

  it('[SM-8] meets the inlet limit before Mach 3 on a warm day and Mach 3 first on a cold one', () => {
    const recovery = aircraft.gauges.inletTemperatureRecovery;
    const indicatedAt3 = (staticK: number): number => {
      const total = totalTemperature(staticK, 3 * Math.sqrt(1.4 * 287.052874 * staticK));
      return staticK + recovery * (total - staticK);
    };
    const limit = bound('inletTemperature', {});
    expect(limit).toBe(620);
    expect(bound('mach', {})).toBe(3);
    // The shared IGRA sounding at 78 244 ft: -44.6 C; the cold analysis has 212 to 216 K at 20 to 24 km.
    expect(indicatedAt3(273.15 - 44.6)).toBeGreaterThan(limit);
    expect(indicatedAt3(216)).toBeLessThan(limit);
    expect(indicatedAt3(212)).toBeLessThan(limit);
    // Standard day at 20 km: total temperature 601 K at Mach 3 (thermally perfect air).
    const total = totalTemperature(216.65, 3 * Math.sqrt(1.4 * 287.052874 * 216.65));
    expect(Math.abs(total - 601)).toBeLessThan(1);
  });

  it('[SM-9] keeps climb and cruise between its least and greatest equivalent airspeed', () => {
    for (let mach = 1.2; mach <= 2.85; mach += 0.05) {
      expect(bound('maximumEquivalentAirspeed', { mach })).toBeGreaterThan(450 * knot);
    }
    for (const altitude of [66000, 70000, 77000]) {
      const speed = equivalentAirspeed(2.85, standardPressure(altitude * foot));
      expect(speed).toBeGreaterThan(bound('minimumEquivalentAirspeed', { mach: 2.85 }));
      expect(speed).toBeLessThan(bound('maximumEquivalentAirspeed', { mach: 2.85 }));
    }
    // M a0 sqrt(delta) with 661.47 kt and delta 0.0437 at 70 000 ft (US Standard Atmosphere 1976): 394 KEAS.
    const at70000 = equivalentAirspeed(2.85, standardPressure(70000 * foot)) / knot;
    expect(Math.abs(at70000 - 394)).toBeLessThan(1);
    expect(bound('altitude', {})).toBeCloseTo(82000 * foot, 6);
  });

  it('[SM-10] flies subsonic without afterburner when light, also on one engine', () => {
    const mission = new QuickMission(aircraft, 8000);
    for (const altitude of [30000, 35000]) {
      expect(mission.excess(military, 0.88, altitude * foot)).toBeGreaterThan(0.02);
    }
    // One engine in afterburner at 20 000 ft.
    const { dragN } = mission.level(0.7, 20000 * foot);
    expect(mission.power(maximum, 0.7, 20000 * foot).thrustN / 2).toBeGreaterThan(dragN);
  });

  it('[SM-11] has its settings in order, a step up to the afterburner, and slows down in descent', () => {
    expect(names).toEqual(['idle', 'part', 'military', 'minimumAfterburner', 'maximumAfterburner']);
    expect(aircraft.propulsion.continuousAbove).toEqual([true, true, false, true, false]);
    const mission = new QuickMission(aircraft, 10000);
    expect(mission.excess(descent, 2.85, 70000 * foot)).toBeLessThan(-0.05);
  });

  it('[SM-12] keeps its centre of gravity inside the limits of each Mach it flies with that fuel', () => {
    const { balance } = aircraft;
    const flown: readonly (readonly [mach: number, from: number, to: number])[] = [
      [0.3, 0, full],
      [0.9, 0, full],
      [1.2, 20000, full],
      [2, 15000, 32000],
      [2.85, 6000, 28000],
    ];
    for (const [mach, from, to] of flown) {
      for (let fuelKg = from; fuelKg <= to; fuelKg += 250) {
        const cg = balance.cgFraction(fuelKg);
        expect(cg).toBeGreaterThan(bound('forwardCentreOfGravity', { mach }));
        expect(cg).toBeLessThan(bound('aftCentreOfGravity', { mach }));
      }
    }
  });

  it('[SM-13] allows less load factor while rolling, with more fuel, and at higher Mach', () => {
    const usual = bound('loadFactor', { mach: 1.5, fuelKg: 10000 });
    expect(bound('loadFactor', { mach: 1.5, fuelKg: 10000, rollRateRadS: 4 * degree })).toBeLessThan(usual);
    expect(bound('loadFactor', { mach: 1.5, fuelKg: 30000 })).toBeLessThan(usual);
    expect(bound('loadFactor', { mach: 2.8, fuelKg: 10000 })).toBeLessThan(usual);
  });

  it('[SM-14] lifts off later when heavier, higher or warmer', () => {
    const out = { groundRollM: 0, timeS: 0, fuelKg: 0, liftOffSpeedMS: 0, outside: 0 };
    const roll = (mass: number, altitudeM: number, offset: number): number => {
      aircraft.takeOff?.at(mass, altitudeM, offset, out);
      expect(out.outside).toBe(0);
      return out.groundRollM;
    };
    const usual = roll(57000, 0, 0);
    expect(roll(60000, 0, 0)).toBeGreaterThan(usual);
    expect(roll(57000, 900, 0)).toBeGreaterThan(usual);
    expect(roll(57000, 0, 15)).toBeGreaterThan(usual);
    const landing = aircraft.landing;
    expect(landing?.approachSpeedMS(44000)).toBeLessThan(landing?.approachSpeedMS(50000) ?? 0);
    expect(() => landing?.approachSpeedMS(90000)).toThrow(/mass 90000 kg is outside 36000 to 60000 kg/);
  });
});
