/** Reach of the demonstration: an answer for every minute and failure, worse never better, an unstart by hand. */
import { describe, expect, it } from 'vitest';
import { ENGINEERING } from '../../../src/core/flight/setup.ts';
import { flightAfter } from '../../../src/core/plan/failures.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { ReachLadder } from '../../../src/core/plan/plan.ts';
import { reachOf } from '../../../src/core/plan/reach.ts';
import { areasInReach } from '../../../src/core/plan/reach-area.ts';
import { askedOf } from '../../../src/core/plan/reach-asked.ts';
import { ReachFlight } from '../../../src/core/plan/reach-flight.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';
import { flownThrough } from '../../support/reach-through.ts';

const request = requestOf(longLoopText);
const plan = makePlan(request);
const made = reachOf(request, plan);
const asked = askedOf(request, plan);
if (made === null || asked === null) throw new Error('the demonstration has failures and a flight');
const reach = made;

function ladder(key: string): ReachLadder {
  const found = reach.ladders.find((each) => each.key === key);
  if (!found) throw new Error(`no ladder ${key}`);
  return found;
}

/** NaN where there is no fuel. */
const fuelAt = (of: ReachLadder, end: number, i: number) => of.choices[end].fuelKg[i] ?? Number.NaN;

describe('the reach of the demonstration', () => {
  it('[REACH-6] answers for every failure and every minute in the air, with fuel or with none', () => {
    expect(reach.ladders.map(({ key }) => key)).toEqual([
      'none',
      'oneEngine',
      'inletNotStarted',
      'noAfterburner',
      'noCabin',
      'tankerAbsent',
      'tankerLate',
      'tankerHalf',
      'baseClosed',
    ]);
    const { timeS } = plan.trace.columns;
    const last = timeS[timeS.length - 1];
    expect(last - reach.timeS[reach.timeS.length - 1]).toBeLessThan(60);
    expect(reach.timeS.every((time, i) => i === 0 || time - reach.timeS[i - 1] === 60)).toBe(true);
    for (const { choices, best } of reach.ladders) {
      expect(best).toHaveLength(reach.timeS.length);
      for (const { fuelKg } of choices) {
        expect(fuelKg).toHaveLength(reach.timeS.length);
        expect(fuelKg.every((kg) => kg === null || Number.isFinite(kg))).toBe(true);
      }
    }
  });

  it('[REACH-7] tells of every minute what a flight from there brings, by the height with the most range', () => {
    for (const failure of request.aircraft.failures.filter(({ key }) => key !== 'none')) {
      const flights = new ReachFlight(flightAfter(failure, asked.request.aircraft, request.day), failure);
      reach.timeS.forEach((timeS, i) => {
        if (i % 13 !== 0) return;
        const { fuelKg } = flights.slow(asked.starts.at(timeS), asked.choices[0].goal);
        // The way down begins where the last one from that height says: the order of flights is worth kilograms.
        if (Number.isNaN(fuelKg)) expect(fuelAt(ladder(failure.key), 0, i)).toBeNaN();
        else expect(Math.abs(fuelAt(ladder(failure.key), 0, i) - fuelKg)).toBeLessThan(5);
      });
    }
  });

  it.each(['none', 'oneEngine', 'inletNotStarted', 'noAfterburner', 'noCabin'])(
    '[REACH-7] after %s brings what the phases and the stepper of every other flight bring, to 0.5 % of the fuel',
    (key) => {
      const failure = request.aircraft.failures.find((each) => each.key === key);
      if (!failure) throw new Error(`no failure ${key}`);
      const { aircraft } = asked.request;
      let compared = 0;
      const flights = new ReachFlight(flightAfter(failure, aircraft, request.day), failure);
      // Climbing, in contact, cruising, coming down, in contact, cruising again.
      for (const minute of [8, 25, 40, 60, 75, 90, 105, 118, 140, 160]) {
        for (const { goal } of asked.choices.slice(0, 3)) {
          const start = { ...asked.starts.at(60 * minute) };
          const told = flights.slow(start, goal);
          const ones = failure.pressureAltitudesM.map((heightM) => ({
            ...failure,
            pressureAltitudesM: [heightM],
          }));
          // At the height that was chosen.
          const one = ones.find((each) => {
            const flight = flightAfter(each, aircraft, request.day);
            return Math.abs(new ReachFlight(flight, each).slow(start, goal).fuelKg - told.fuelKg) < 5;
          });
          if (one === undefined) continue;
          const kg = flownThrough(flightAfter(one, aircraft, request.day, ENGINEERING), one, start, goal);
          if (Number.isNaN(kg)) continue;
          compared++;
          const difference = Math.abs(told.fuelKg - kg) / Math.max(2000, Math.abs(kg));
          expect(difference, `${minute} min: ${told.fuelKg} for ${kg} kg`).toBeLessThan(0.005);
        }
      }
      expect(compared).toBeGreaterThan(8);
    },
  );

  it('[REACH-8] a case that is worse for the receiver never shows more', () => {
    const whole = ladder('none');
    for (const key of ['tankerAbsent', 'tankerLate', 'tankerHalf', 'baseClosed']) {
      const worse = ladder(key);
      worse.choices.forEach((choice, end) => {
        choice.fuelKg.forEach((kg, i) => {
          if (kg === null) return;
          // With less fuel on board another height may be the better one, and what a flight brings is right to 0.5 %.
          const slackKg = key === 'tankerHalf' ? 0.005 * Math.max(2000, kg) : 1e-9;
          expect(kg, `${key} ${end} ${i}`).toBeLessThanOrEqual(fuelAt(whole, end, i) + slackKg);
        });
      });
    }
  });

  it('[REACH-8] more drag, thirstier engines or less fuel never bring more home', () => {
    for (const failure of request.aircraft.failures) {
      const { aircraft } = asked.request;
      const dearer = [
        { ...failure, dragIncrement: failure.dragIncrement + 0.001 },
        { ...failure, fuelFlowFactor: failure.fuelFlowFactor * 1.03 },
      ];
      const plain = new ReachFlight(flightAfter(failure, aircraft, request.day), failure);
      for (const minute of [55, 75, 140]) {
        const start = { ...asked.starts.at(minute * 60) };
        const { goal } = asked.choices[2];
        const { fuelKg: kg, timeS } = plain.slow(start, goal);
        // Near the goal drag is of use: down it goes sooner.
        if (timeS - start.timeS < 1200) continue;
        for (const worse of dearer) {
          const less = new ReachFlight(flightAfter(worse, aircraft, request.day), worse).slow(
            start,
            goal,
          ).fuelKg;
          if (Number.isNaN(kg)) expect(less).toBeNaN();
          else if (!Number.isNaN(less)) expect(less).toBeLessThan(kg);
        }
        const lighter = plain.slow({ ...start, massKg: start.massKg - 1000 }, goal).fuelKg;
        // A lighter aircraft burns less: of a tonne less at most a tonne is missing, and never none.
        if (!Number.isNaN(lighter)) expect(kg - lighter).toBeGreaterThan(300);
        if (!Number.isNaN(lighter)) expect(kg - lighter).toBeLessThan(1000);
      }
    }
  });

  it('[REACH-9] names as best the end with most above what it asks for, and an opening wherever there is one', () => {
    for (const { choices, best } of reach.ladders) {
      best.forEach((end, i) => {
        const overs = choices.map(
          ({ fuelKg, requiredKg }) => (fuelKg[i] ?? Number.NaN) - (requiredKg ?? Number.NaN),
        );
        const most = Math.max(...overs.filter((over) => over >= 0));
        if (end === null) expect(most).toBe(Number.NEGATIVE_INFINITY);
        else expect(overs[end]).toBe(most);
      });
    }
  });

  it('[REACH-10] a tanker is a choice until its contact and never without a base behind it', () => {
    const tankers = reach.ends.flatMap(({ kind }, end) => (kind === 'tanker' ? [end] : []));
    expect(tankers).toHaveLength(plan.refuellings.length);
    tankers.forEach((end, k) => {
      const choice = ladder('none').choices[end];
      const { contactS } = plan.refuellings[k];
      choice.open.forEach(({ toS }) => {
        expect(toS).toBeLessThanOrEqual(contactS);
      });
      expect(choice.requiredKg ?? 0).toBeGreaterThan(reach.reserveKg);
    });
  });
});

describe('an unstart', () => {
  // By hand from the deck: one engine keeps a quarter of its thrust, the spilling inlet adds 0.005 q S at 2.6 m; at level flight
  // each engine makes half of the drag.
  it('[REACH-11] yaws by what the deck says of thrust and drag', () => {
    const { columns } = plan.trace;
    const { unstart, propulsion, aerodynamics } = request.aircraft;
    expect(unstart).toMatchObject({ thrustLeft: 0.25, dragIncrement: 0.005, armM: 2.6 });
    const arm = Math.abs(propulsion.engines[0].armM);
    const cruising = reach.unstarts.filter(({ mach }) => Math.abs(mach - 2.85) < 1e-3);
    expect(cruising.length).toBeGreaterThan(3);
    for (const { timeS, mach, pressureAltitudeM, yawNm, restart } of cruising) {
      const node = columns.timeS.findIndex((time) => time >= timeS);
      // Standard pressure above 20 km: 5474.9 Pa there, 1 K each km up from 216.65 K (ISO 2533).
      const kelvin = 216.65 + Math.max(0, pressureAltitudeM - 20_000) / 1000;
      const pressurePa =
        pressureAltitudeM > 20_000
          ? 5474.9 * (kelvin / 216.65) ** (-9.80665 / (0.001 * 287.05287))
          : 5474.9 * Math.exp((-9.80665 * (pressureAltitudeM - 20_000)) / (287.05287 * 216.65));
      const q = 0.7 * pressurePa * mach ** 2;
      const spillNm = 0.005 * q * aerodynamics.wingAreaM2 * 2.6;
      const thrustNm = Math.abs(yawNm) - spillNm;
      // Thrust of both from what it leaves: its lift over drag lies where a slender aircraft's does (from 4 to 4(M + 3)/M).
      const thrustN = (2 * thrustNm) / (0.75 * arm);
      const liftToDrag = (columns.massKg[node] * 9.7) / thrustN;
      expect(liftToDrag).toBeGreaterThan(4);
      expect(liftToDrag).toBeLessThan((4 * (mach + 3)) / mach);
      expect(restart).not.toBeNull();
      if (restart === null) continue;
      expect(restart.mach).toBeLessThanOrEqual(2.2 + 1e-3);
      expect(restart.pressureAltitudeM).toBeLessThanOrEqual(62_000 * 0.3048 + 1);
      expect(restart.machLost).toBeCloseTo(mach - restart.mach, 3);
      expect(restart.afterS).toBeGreaterThan(15);
      // At one equivalent airspeed M^2 p stays the same.
      const before = mach ** 2 * pressurePa;
      const kelvinThen = 216.65;
      const then =
        restart.mach ** 2 *
        5474.9 *
        Math.exp((-9.80665 * (restart.pressureAltitudeM - 20_000)) / (287.05287 * kelvinThen));
      expect(then / before).toBeCloseTo(1, 1);
    }
  });
});

describe('what can be reached from one moment', () => {
  const areas = areasInReach(asked, 100 * 60);

  it('[REACH-12] the edge is where the reserve and an approach are left: flown to, that is what arrives', () => {
    expect(areas.map(({ key }) => key)).toEqual(request.aircraft.failures.map(({ key }) => key));
    const area = areas.find(({ key }) => key === 'oneEngine');
    const failure = request.aircraft.failures.find(({ key }) => key === 'oneEngine');
    if (!area?.ringDeg || !failure) throw new Error('something is in reach');
    const flights = new ReachFlight(flightAfter(failure, asked.request.aircraft, request.day), failure);
    const { sortie } = request;
    const degree = Math.PI / 180;
    const start = { ...asked.starts.at(100 * 60) };
    const inside = area.ringDeg.filter((_, i) => i % 5 === 0);
    const arrived = inside.map(([longitudeDeg, latitudeDeg]) => {
      const goal = {
        latitudeRad: latitudeDeg * degree,
        longitudeRad: longitudeDeg * degree,
        pressureAltitudeM: asked.choices[0].goal.pressureAltitudeM,
        calibratedAirspeedMS: null,
        approach: sortie.approach,
      };
      return flights.slow(start, goal);
    });
    // Where the weather ends before the fuel there is no flight to the edge, or more is left.
    const flown = arrived.filter(({ reason }) => !reason.startsWith('outside'));
    const fuels = flown.map(({ fuelKg }) => fuelKg);
    expect(flown.length).toBeGreaterThan(2);
    for (const kg of fuels) expect(kg).toBeGreaterThan(sortie.landingReserveKg - 100);
    expect(Math.min(...fuels)).toBeLessThan(sortie.landingReserveKg + 150);
  });

  it('[REACH-12] reaches less far after a failure than without', () => {
    const farthest = (key: string) => {
      const ring = areas.find((area) => area.key === key)?.ringDeg ?? [];
      const start = asked.starts.at(100 * 60);
      const degree = 180 / Math.PI;
      return Math.max(...ring.map(([, latitude]) => Math.abs(latitude - start.latitudeRad * degree)));
    };
    expect(farthest('oneEngine')).toBeLessThan(farthest('none'));
  });
});
