/** Reach of the demonstration: an answer for every minute and failure, worse never better, an unstart by hand. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ENGINEERING } from '../../../src/core/flight/setup.ts';
import { flightAfter } from '../../../src/core/plan/failures.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { ReachLadder } from '../../../src/core/plan/plan.ts';
import { reachOf } from '../../../src/core/plan/reach.ts';
import { areasInReach } from '../../../src/core/plan/reach-area.ts';
import { askedOf } from '../../../src/core/plan/reach-asked.ts';
import { halfFuelled } from '../../../src/core/plan/reach-cases.ts';
import { ReachFlight } from '../../../src/core/plan/reach-flight.ts';
import { whyAt } from '../../../src/core/plan/reach-times.ts';
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

  it('[REACH-8] more drag or thirstier engines never bring more home, less fuel on board never as much', () => {
    const { aircraft } = asked.request;
    const minute = fc.constantFrom(...reach.timeS);
    const failure = fc.constantFrom(...request.aircraft.failures);
    const drag = fc.double({ min: 2e-4, max: 4e-3, noNaN: true });
    const flow = fc.double({ min: 1, max: 1.1, noNaN: true });
    const lessKg = fc.double({ min: 100, max: 3000, noNaN: true });
    const worse = fc.property(minute, failure, drag, flow, lessKg, (timeS, before, more, thirst, less) => {
      const after = {
        ...before,
        dragIncrement: before.dragIncrement + more,
        fuelFlowFactor: before.fuelFlowFactor * thirst,
      };
      const start = { ...asked.starts.at(timeS) };
      const { goal } = asked.choices[2];
      const plain = new ReachFlight(flightAfter(before, aircraft, request.day), before);
      const { fuelKg: kg, timeS: arrivalS } = plain.slow(start, goal);
      // Near the goal drag is of use: down it goes sooner.
      if (!(arrivalS - start.timeS > 1200)) return;
      // Heights are chosen by what they burn at the start: 0.5 % may be had from another one.
      const slackKg = 0.005 * Math.max(2000, Math.abs(kg));
      const dearer = new ReachFlight(flightAfter(after, aircraft, request.day), after);
      const draggy = dearer.slow(start, goal).fuelKg;
      if (!Number.isNaN(draggy)) expect(draggy).toBeLessThan(kg + slackKg);
      const lighter = plain.slow({ ...start, massKg: start.massKg - less }, goal).fuelKg;
      if (!Number.isNaN(lighter)) expect(lighter).toBeLessThan(kg + slackKg);
    });
    fc.assert(worse, { numRuns: 150, seed: 11 });
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

describe('a tanker or the base in trouble, by hand', () => {
  const whole = ladder('none');
  const next = (timeS: number) => plan.refuellings.find(({ contactS }) => contactS >= timeS)?.tanker ?? '';

  it('[REACH-13] absent: the next tanker is no end, everything else as it is', () => {
    compareWith('tankerAbsent', (end, timeS) => (reach.ends[end].name === next(timeS) ? 'absent' : 0));
  });

  it('[REACH-13] 20 min late: waiting costs 1200 s of the flow of level flight before fuel comes', () => {
    const { columns } = plan.trace;
    const flowKgS = plan.refuellings.map(({ contactS }) => {
      const node = columns.timeS.findIndex((time) => time >= contactS - 1e-6);
      // That flow by hand: level at the speed of the contact thrust is drag, and what the engines burn for it is the deck's.
      expect(columns.dragN[node] / columns.thrustN[node]).toBeCloseTo(1, 1);
      return columns.fuelFlowKgS[node];
    });
    compareWith('tankerLate', (end, timeS) => {
      const tanker = plan.refuellings.findIndex((each) => each.tanker === reach.ends[end].name);
      return tanker >= 0 && reach.ends[end].name === next(timeS) ? 1200 * flowKgS[tanker] : 0;
    });
  });

  it('[REACH-13] closed: the base of landing is no end, everything else as it is', () => {
    compareWith('baseClosed', (end) => (reach.ends[end].name === 'Harrow Flat' ? 'closed' : 0));
  });

  it('[REACH-13] half: what the receiver has less its tanker keeps, to 0.1 kg at every minute', () => {
    const half = halfFuelled(asked);
    reach.timeS.forEach((timeS) => {
      const last = plan.refuellings.findLastIndex(({ contactS }) => contactS <= timeS);
      const lessKg = asked.starts.at(timeS).massKg - half.starts.at(timeS).massKg;
      if (last < 0) {
        expect(lessKg).toBe(0);
        return;
      }
      // By hand: fuel comes evenly from contact to disconnect, and no more once half of it is in.
      const { contactS, disconnectS, takenKg } = plan.refuellings[last];
      const part = Math.min(1, (timeS - contactS) / (disconnectS - contactS));
      const given = Math.min(part, 0.5) * takenKg;
      const keptKg = part * takenKg - given;
      expect(Math.abs(lessKg - keptKg)).toBeLessThan(0.1);
    });
  });

  it('[REACH-13] half: less arrives by what is missing, and what is not carried home is not burnt for it', () => {
    const [first] = plan.refuellings;
    const fromS = first.disconnectS;
    // By Breguet's formula a way burns in proportion to mass: what is missing on board is missing in the proportion of the masses.
    const missingKg = first.takenKg / 2;
    reach.timeS.forEach((timeS, i) => {
      if (timeS < fromS + 600 || timeS > fromS + 1800) return;
      const [kg, halfKg] = [fuelAt(whole, 2, i), fuelAt(ladder('tankerHalf'), 2, i)];
      const startKg = asked.starts.at(timeS).massKg;
      const endKg = request.aircraft.balance.emptyMassKg + kg;
      const byHandKg = (missingKg * endKg) / startKg;
      expect((kg - halfKg) / byHandKg, `at ${timeS} s`).toBeGreaterThan(0.85);
      expect((kg - halfKg) / byHandKg, `at ${timeS} s`).toBeLessThan(1.15);
    });
  });

  function compareWith(
    key: string,
    less: (end: number, timeS: number) => number | 'absent' | 'closed',
  ): void {
    let changed = 0;
    ladder(key).choices.forEach((choice, end) => {
      reach.timeS.forEach((timeS, i) => {
        const before = whole.choices[end].fuelKg[i];
        const lessKg = less(end, timeS);
        if (lessKg !== 0) changed++;
        if (typeof lessKg === 'string') {
          expect(choice.fuelKg[i]).toBeNull();
          expect(whyAt(choice, timeS)).toBe(lessKg);
        } else if (before === null) expect(choice.fuelKg[i]).toBeNull();
        else expect(choice.fuelKg[i]).toBeCloseTo(before - lessKg, 6);
      });
    });
    expect(changed).toBeGreaterThan(10);
  }
});

describe('why nothing arrives', () => {
  it('[REACH-15] is told of every minute and end without fuel on arrival, and of no other', () => {
    for (const { choices } of reach.ladders) {
      for (const choice of choices) {
        reach.timeS.forEach((timeS, i) => {
          expect(whyAt(choice, timeS) === null, `${timeS}`).toBe(choice.fuelKg[i] !== null);
        });
      }
    }
    const [first] = plan.refuellings;
    const tanker = ladder('none').choices[reach.ends.findIndex(({ name }) => name === first.tanker)];
    expect(whyAt(tanker, Math.ceil(first.contactS / 60) * 60 + 60)).toBe('gone');
  });

  it('[REACH-15] is the fuel that is missing, where more of it would do: with it on board what was asked for arrives', () => {
    const failure = request.aircraft.failures.find(({ key }) => key === 'none');
    if (!failure) throw new Error('the whole aircraft is told of');
    const flights = new ReachFlight(flightAfter(failure, asked.request.aircraft, request.day), failure);
    const half = halfFuelled(asked);
    let told = 0;
    for (const minute of [63, 66, 155, 170]) {
      const i = reach.timeS.indexOf(60 * minute);
      const kg = fuelAt(ladder('tankerHalf'), 1, i);
      const start = { ...half.starts.at(60 * minute) };
      const slow = flights.slow(start, asked.choices[1].goal).fuelKg;
      if (!(kg < 0) || Math.abs(slow - kg) > 5) continue;
      told++;
      const arrives = flights.slow({ ...start, massKg: start.massKg - kg }, asked.choices[1].goal).fuelKg;
      // What is carried along costs fuel itself: less is left of it than was missing, by no more than its share of the burn.
      expect(arrives).toBeLessThan(20);
      expect(arrives).toBeGreaterThan(0.3 * kg);
    }
    expect(told).toBeGreaterThan(1);
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
    let straight = 0;
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
      // Of level flight, half from each engine: as flown by the plan there, straight and following its best height.
      if (Math.abs(columns.bankDeg[node]) > 2 || Math.abs(columns.climbRateMS[node]) > 1) continue;
      straight++;
      const thrustN = columns.thrustN[node];
      const byHandNm = (thrustN / 2) * (1 - 0.25) * arm + spillNm;
      expect(Math.abs(yawNm) / byHandNm, `at ${timeS} s`).toBeGreaterThan(0.98);
      expect(Math.abs(yawNm) / byHandNm, `at ${timeS} s`).toBeLessThan(1.02);
    }
    expect(straight).toBeGreaterThan(2);
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
