/** The landing at the end of a sortie: what it stands on, its stop by kinematics, and what is left open. */
import { describe, expect, it } from 'vitest';
import { northAt } from '../../../src/core/plan/courses.ts';
import { draftOf, type PlanRequest } from '../../../src/core/plan/draft.ts';
import { landingsOf } from '../../../src/core/plan/landing.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { change, longLoopText, requestOf, sandmartin } from '../../support/demo.ts';

const text = change(longLoopText, [/weather:\n(?: {2}.*\n)+/, 'weather: { offset: 0 K }\n']);
const request = requestOf(text);
const drafted = draftOf(request);
const north = northAt(request.sortie.takeOff.timeS);

function landing(of: PlanRequest) {
  const { landings, missing } = landingsOf(draftOf(of), [], north);
  return { data: landings[0] ?? null, missing };
}

describe('the landing', () => {
  const { landings, missing } = landingsOf(drafted, [], north);
  const [data] = landings;

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
        /^landing at Harrow Flat: pressure altitude 9000 m is outside 0 to 1828\.8 m of .*landing-roll\.csv$/,
      ),
    ]);
  });

  it('[LDG-8] says that a base of landing has no runway', () => {
    const elsewhere = change(
      text,
      ['    land: Harrow Flat', '    land: Otter Bluff'],
      [/\n {4}runway: \{ name: "36".*/, ''],
    );
    const { data, missing } = landing(requestOf(elsewhere));
    expect(data?.runway).toBeNull();
    expect(missing).toEqual(['landing against the runway: the sortie states none at Otter Bluff']);
  });
});

describe('landings of the worst cases', () => {
  const plan = makePlan(request);
  const worst = plan.landings.filter(({ worstCase }) => worstCase !== null);

  it('[LDG-9] there is one for each contact, with the fuel that its recovery lands with, at its base', () => {
    const seen = worst.map(({ worstCase, base, fuelKg }) => ({
      name: worstCase,
      base,
      fuelOnLandingKg: fuelKg,
    }));
    expect(seen).toEqual(
      plan.recoveries.map(({ name, base, fuelOnLandingKg }) => ({ name, base, fuelOnLandingKg })),
    );
    expect(worst.length).toBe(plan.refuellings.length);
  });

  it('[LDG-10] each is after its contact by the flight to the base and the approach', () => {
    worst.forEach(({ timeS }, i) => {
      const approachS = request.sortie.approach.timeS;
      expect(timeS).toBeCloseTo(plan.refuellings[i].contactS + plan.recoveries[i].timeS + approachS, 6);
    });
  });

  it('[LDG-11] the longest run is that of the table or of the stop, on a wet runway the stop', () => {
    for (const { longestM, tableGroundRunM, stop } of plan.landings) {
      expect(longestM).toBe(Math.max(tableGroundRunM, stop?.distanceM ?? Number.NaN));
    }
    const wet = change(text, [
      'length: 3050 m, slope: 0.2 %',
      'length: 3050 m, slope: 0.2 %, condition: wet',
    ]);
    const { data } = landing(requestOf(wet));
    expect(data?.longestM).toBe(data?.stop?.distanceM);
    expect(data?.longestM).toBeGreaterThan(data?.tableGroundRunM ?? Number.NaN);
  });
});
