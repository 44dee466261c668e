/** The landing at the end of a sortie: what it stands on, its stop by kinematics, and what is left open. */
import { describe, expect, it } from 'vitest';
import { northAt } from '../../../src/core/plan/courses.ts';
import { draftOf, type PlanRequest } from '../../../src/core/plan/draft.ts';
import { landingOf } from '../../../src/core/plan/landing.ts';
import { change, longLoopText, requestOf, sandmartin } from '../../support/demo.ts';

const text = change(longLoopText, [/weather:\n(?: {2}.*\n)+/, 'weather: { offset: 0 K }\n']);
const request = requestOf(text);
const drafted = draftOf(request);
const north = northAt(request.sortie.takeOff.timeS);

function landing(of: PlanRequest) {
  return landingOf(draftOf(of), north);
}

describe('the landing', () => {
  const { data, missing } = landingOf(drafted, north);
  if (data === null) throw new Error('it does not land');

  it('[LDG-1] is with the fuel that the flight has left after its approach', () => {
    expect(data.fuelKg).toBe(drafted.flown.landingFuelKg);
    expect(data.massKg).toBeCloseTo(sandmartin.balance.emptyMassKg + data.fuelKg, 6);
    expect([data.base, data.reserveKg]).toEqual(['Harrow Flat', 2000]);
    expect(missing).toEqual([]);
  });

  it('[LDG-2] has the equivalent airspeed and the ground run of the tables of the deck', () => {
    const { landing: tables } = sandmartin;
    expect(data.approach.equivalentAirspeedMS).toBeCloseTo(tables?.approachSpeedMS(data.massKg) ?? 0, 6);
    expect(data.tableGroundRunM).toBe(
      tables?.groundRollM(data.massKg, data.pressureAltitudeM, data.temperatureOffsetK),
    );
  });

  it('[LDG-3] does not feel the wind of a day without one', () => {
    expect(data.runway?.headwindMS).toBeCloseTo(0, 12);
    expect(data.approach.groundSpeedMS).toBeCloseTo(data.approach.trueAirspeedMS, 9);
  });

  it('[LDG-4] stops between v^2/2a of all that can slow it and of half the friction (kinematics)', () => {
    // 0.3 g on all the weight and 0.5 rho v^2 S CD of 0.1 at the approach speed is more than there ever is.
    const v = data.approach.trueAirspeedMS;
    const most = 0.3 * 9.81 + (0.5 * 1.25 * v * v * 200 * 0.1) / data.massKg;
    const least = 0.15 * 9.79;
    const distance = data.stop?.distanceM ?? Number.NaN;
    expect(distance).toBeGreaterThan((v * v) / (2 * most));
    expect(distance).toBeLessThan((v * v) / (2 * least));
  });

  it('[LDG-5] leaves the brakes less than the energy of motion where a parachute helps (energy)', () => {
    const motion = 0.5 * data.massKg * data.approach.groundSpeedMS ** 2;
    expect(data.stop?.brakeEnergyJ).toBeLessThan(motion);
    const { ground } = sandmartin;
    const without = landing({
      ...request,
      aircraft: { ...sandmartin, ground: ground && { ...ground, brakingDrag: 0 } },
    });
    expect(without.data?.stop?.brakeEnergyJ).toBeGreaterThan(data.stop?.brakeEnergyJ ?? 0);
  });
});

describe('what is left open of a landing', () => {
  it('[LDG-6] without landing data it is none; without ground data only the stop is none', () => {
    expect(landing({ ...request, aircraft: { ...sandmartin, landing: null } }).data).toBeNull();
    const { data } = landing({ ...request, aircraft: { ...sandmartin, ground: null } });
    expect(data?.stop).toBeNull();
    expect(data?.tableGroundRunM).toBeGreaterThan(0);
  });

  it('[LDG-7] outside a table of the deck it is none, and a sentence names value and range', () => {
    const { landing: tables } = sandmartin;
    const high = tables && {
      ...tables,
      groundRollM: (massKg: number, _altitudeM: number, offsetK: number) =>
        tables.groundRollM(massKg, 9000, offsetK),
    };
    const { data, missing } = landing({ ...request, aircraft: { ...sandmartin, landing: high } });
    expect(data).toBeNull();
    expect(missing).toEqual([
      expect.stringMatching(
        /^landing: pressure altitude 9000 m is outside 0 to 1828\.8 m of .*landing-roll\.csv$/,
      ),
    ]);
  });

  it('[LDG-8] says that a base of landing has no runway, once where it is that of take-off', () => {
    const elsewhere = change(
      text,
      ['    land: Harrow Flat', '    land: Otter Bluff'],
      [/\n {4}runway: \{ name: "36".*/, ''],
    );
    expect(landing(requestOf(elsewhere)).missing).toEqual([
      'landing against the runway: the sortie states none at Otter Bluff',
    ]);
    const home = change(text, [/\n {4}runway: \{ name: "17".*/, '']);
    expect(landing(requestOf(home)).missing).toEqual([]);
  });
});
