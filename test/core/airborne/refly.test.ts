/** The rest of a sortie flown on from its middle: the plan where nothing is off, and as much as a hand calculation where something is. */
import { beforeAll, describe, expect, it } from 'vitest';
import { advising } from '../../../src/core/airborne/advice.ts';
import type { Deviation } from '../../../src/core/airborne/deviation.ts';
import { stateWhere } from '../../../src/core/airborne/deviation.ts';
import { ORDER } from '../../../src/core/airborne/model.ts';
import { areasNow, flyingReach, plannedAt } from '../../../src/core/airborne/reach-flown.ts';
import { beyondFor, FlyingOn, type Now } from '../../../src/core/airborne/refly.ts';
import { toTheEnd } from '../../../src/core/plan/explain.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { asWritten } from '../../../src/files/plan.ts';
import { longLoopText, requestOf, sandmartin } from '../../support/demo.ts';
import { QuickMission } from '../../support/quick-mission.ts';

const asPlanned: Deviation = {
  fuelKg: 0,
  flow: 0,
  drag: 0,
  temperatureK: 0,
  headwindMS: 0,
  lagM: 0,
  leakKgS: 0,
};
const request = requestOf(longLoopText);
let plan: Plan;
let on: FlyingOn;

beforeAll(() => {
  plan = asWritten(makePlan(request));
  on = new FlyingOn(request, plan);
});

const nowAt = (minute: number): Now => ({
  timeS: minute * 60,
  planTimeS: minute * 60,
  takeOffS: request.sortie.takeOff.timeS,
});

const off = (minute: number, deviation: Partial<Deviation>) =>
  on.fly(nowAt(minute), { ...asPlanned, ...deviation });

const contact = (flown: ReturnType<FlyingOn['fly']>) => {
  const found = flown.gates.find(({ kind, name }) => kind === 'contact' && name === 'Ewer Two');
  if (found === undefined) throw new Error('the contact with Ewer Two is ahead');
  return found;
};

describe('[AIRFLY-1] with nothing off, the plan comes out', () => {
  it.each([
    ['in the first climb', 3],
    ['in contact', 20],
    ['in a climb through the drag rise', 45],
    ['in a cruise', 70],
    ['in a turn', 66],
    ['in a descent', 105],
    ['on the way home', 155],
  ])('%s', (_, minute) => {
    const { gates, stopped } = off(minute, {});
    expect(stopped).toBeNull();
    expect(gates.length).toBeGreaterThan(1);
    for (const gate of gates) {
      // Fuel of a leg is right to about 5 kg.
      expect(Math.abs(gate.fuelKg - gate.plannedKg)).toBeLessThan(8);
      expect(Math.abs(gate.timeS - gate.planTimeS)).toBeLessThan(2);
      if (gate.requiredKg === null || gate.plannedRequiredKg === null) continue;
      expect(Math.abs(gate.requiredKg - gate.plannedRequiredKg)).toBeLessThan(8);
    }
  });

  it('later by as much as the flight is behind its plan in time', () => {
    const { gates } = on.fly({ ...nowAt(90), timeS: 90 * 60 + 600 }, asPlanned);
    for (const { timeS, planTimeS } of gates) expect(timeS - planTimeS).toBeCloseTo(600, -1);
  });
});

describe('[AIRFLY-2] what is off is flown with the equations of the plan', () => {
  // From minute 90 to the contact at 116 min the plan burns what its own trace says.
  const burntKg = () => {
    const { timeS, fuelKg } = plan.trace.columns;
    return plannedAt(timeS, fuelKg, 90 * 60) - contact(off(90, {})).plannedKg;
  };

  it('fuel that is missing is missing at the gate, but for what a lighter aircraft saves', () => {
    const lost = contact(off(90, { fuelKg: -500 }));
    const missing = lost.plannedKg - lost.fuelKg;
    expect(missing).toBeLessThan(500);
    expect(missing).toBeGreaterThan(450);
  });

  it('3 % more fuel flow takes 3 % of what is burnt', () => {
    const more = contact(off(90, { flow: 0.03 }));
    const extra = more.plannedKg - more.fuelKg;
    expect(extra / (0.03 * burntKg())).toBeGreaterThan(0.95);
    expect(extra / (0.03 * burntKg())).toBeLessThan(1.03);
  });

  it('a leak of 9 kg/min for 26 min takes 9 kg each minute', () => {
    const leaking = contact(off(90, { leakKgS: 0.15 }));
    const seconds = leaking.timeS - 90 * 60;
    expect(leaking.plannedKg - leaking.fuelKg).toBeGreaterThan(0.95 * 0.15 * seconds);
    expect(leaking.plannedKg - leaking.fuelKg).toBeLessThan(1.02 * 0.15 * seconds);
  });

  it('a headwind makes it later by the way that it takes, and dearer', () => {
    const slow = contact(off(90, { headwindMS: 15 }));
    const { timeS, planTimeS, fuelKg, plannedKg } = slow;
    // 26 min at a mean ground speed between 150 and 850 m/s.
    const share = (timeS - planTimeS) / (planTimeS - 90 * 60);
    expect(share).toBeGreaterThan(15 / 850);
    expect(share).toBeLessThan(15 / 150);
    expect(fuelKg).toBeLessThan(plannedKg);
  });

  it('full tanks wipe a deviation out at a contact for full tanks, a fixed mass does not', () => {
    const full = off(10, { fuelKg: -300 });
    const after = full.gates.find(({ kind, leg }) => kind === 'gate' && leg === 1);
    expect(Math.abs((after?.fuelKg ?? 0) - (after?.plannedKg ?? 0))).toBeLessThan(15);
    const fixed = off(90, { fuelKg: -300 });
    const beyond = fixed.gates.find(({ kind, leg }) => kind === 'gate' && leg === 2);
    expect((beyond?.plannedKg ?? 0) - (beyond?.fuelKg ?? 0)).toBeGreaterThan(200);
  });

  it('a sortie that cannot be flown on says why, and what is beyond it stays empty', () => {
    const { stopped, gates } = off(90, { fuelKg: -12_000 });
    expect(stopped?.reason).toBe('fuel');
    expect(gates.at(-1)?.fuelKg).toBeNaN();
  });

  it('where the decided start of the descent leaves no room another is solved for', () => {
    // 97 kt of tailwind more: at the mean speed of a descent, 300 m/s over the ground, a sixth farther down 250 km.
    const { gates, newStartDowns, stopped } = off(75, { headwindMS: -50 });
    expect(stopped).toBeNull();
    expect(newStartDowns).toContain(1);
    const down = gates.find(({ kind }) => kind === 'start-down');
    expect(down?.timeS).toBeLessThan((down?.planTimeS ?? 0) - 60);
    expect(off(88, { temperatureK: 5 }).newStartDowns).toEqual([]);
  });

  it('warmer air is flown through at the Mach of the plan', () => {
    const state = (temperatureK: number) =>
      on.begin(nowAt(90), { ...asPlanned, temperatureK })?.progress.state.trueAirspeedMS ?? Number.NaN;
    const { timeS, temperatureK } = plan.trace.columns;
    const airK = plannedAt(timeS, temperatureK, 5400);
    // V = M sqrt(gamma R T).
    expect(state(10) / state(0)).toBeCloseTo(Math.sqrt((airK + 10) / airK), 6);
  });

  it('every margin ahead: a warmer layer leaves less to the limit of the inlet', () => {
    const inlet = (flown: ReturnType<FlyingOn['fly']>) =>
      flown.limits.find(({ key }) => key === 'inletTemperature')?.leastMargin ?? Number.NaN;
    // About 2.55 to 2.8 K at the inlet for each kelvin of the air at Mach 2.85 (thermally perfect air).
    const lost = (inlet(off(90, {})) - inlet(off(90, { temperatureK: 5 }))) / 5;
    expect(lost).toBeGreaterThan(2.3);
    expect(lost).toBeLessThan(2.8);
  });
});

describe('[AIRFLY-3] the state one standard deviation worse', () => {
  it('is the mean given the sum: by hand for two states', () => {
    const mean = new Float64Array(ORDER);
    const covariance = new Float64Array(ORDER * ORDER);
    // Variances 4 and 9, covariance 3; along their sum the variance is 4 + 9 + 2 * 3 = 19.
    [covariance[0], covariance[1], covariance[ORDER], covariance[ORDER + 1]] = [4, 3, 3, 9];
    const row = new Float64Array(ORDER);
    [row[0], row[1]] = [1, 1];
    const worse = stateWhere({ mean, covariance }, row, 1);
    expect(worse[0]).toBeCloseTo(-7 / Math.sqrt(19), 12);
    expect(worse[1]).toBeCloseTo(-12 / Math.sqrt(19), 12);
    expect(worse[0] + worse[1]).toBeCloseTo(-Math.sqrt(19), 12);
  });
});

describe('[AIRFLY-4] how long a margin is used up', () => {
  it('on straight lines between readings', () => {
    // From 2 to -2 in 60 s: half of it; from -2 to -2: all; from -2 to 1 in 30 s: two thirds.
    expect(beyondFor([0, 60, 120, 150], [2, -2, -2, 1])).toBeCloseTo(30 + 60 + 20, 9);
    expect(beyondFor([5], [-1])).toBe(0);
  });
});

describe('[AIRFLY-5] what to do now', () => {
  /** Read at minute 90 at an altitude. */
  const at = (altitudeM: number) => {
    const { timeS, pressureAltitudeM } = plan.trace.columns;
    return { raisedM: altitudeM - plannedAt(timeS, pressureAltitudeM, 5400), machMore: null };
  };
  const advice = (
    minute: number,
    deviation: Partial<Deviation>,
    flown: Parameters<typeof advising>[3] = null,
  ) => toTheEnd(advising(on, nowAt(minute), { ...asPlanned, ...deviation }, flown));

  it('below the best altitude it is to climb, and more is saved the lower one is', () => {
    // The plan flies at its best altitude, about 21.7 km at minute 90.
    const low = advice(90, {}, at(20_000));
    const lower = advice(90, {}, at(19_000));
    expect(low?.best.raisedM).toBeGreaterThan(900);
    expect(low?.best.savesKg).toBeGreaterThan(150);
    expect(lower?.best.savesKg).toBeGreaterThan(low?.best.savesKg ?? Number.NaN);
  });

  it('2000 ft more save what the specific range of level flight says, by an independent solution', () => {
    // QuickMission, test/support: energy alone, no flight of the project. From minute 90 at 20 km to the start of the descent.
    const { timeS, distanceM, fuelKg } = plan.trace.columns;
    const down = plan.events.find((event) => event.kind === 'start-down' && event.timeS > 5400)?.timeS ?? 0;
    const wayM = plannedAt(timeS, distanceM, down) - plannedAt(timeS, distanceM, 5400);
    const quick = new QuickMission(sandmartin, plannedAt(timeS, fuelKg, 5400));
    const burnt = (altitudeM: number) => wayM / quick.specificRange(2.85, altitudeM);
    const said = advice(90, {}, at(20_000));
    const saves = said?.choices.find(({ raisedM }) => raisedM > 600)?.savesKg ?? Number.NaN;
    // The way up costs some of it, and what is burnt makes the aircraft lighter.
    const ratio = saves / (burnt(20_000) - burnt(20_609.6));
    expect(ratio).toBeGreaterThan(0.75);
    expect(ratio).toBeLessThan(1.05);
  });

  it('what it says to save is what flying both ways differs by, inside every limit with two of its standard deviations', () => {
    const said = advice(90, {}, at(20_000));
    expect(said?.best.passes).toBeNull();
    expect(said?.best.machMore).toBeLessThan(0.15);
    for (const choice of said?.choices ?? []) {
      if (choice.forbidden === null) expect(said?.best.savesKg).toBeGreaterThanOrEqual(choice.savesKg);
    }
  });

  it('where going on as now passes a limit, the way out comes before fuel', () => {
    // With 6 K the inlet is 46 K inside its limit at Mach 2.85: a crew that keeps 60 K has to slow down.
    const careful = { ...request, sortie: { ...request.sortie, pads: { inletTemperature: 60 } } };
    const hot = toTheEnd(
      advising(new FlyingOn(careful, plan), nowAt(90), { ...asPlanned, temperatureK: 6 }, null),
    );
    expect(hot?.passesNow?.key).toBe('inletTemperature');
    expect(hot?.best.machMore).toBeLessThan(0);
    expect(hot?.best.passes).toBeNull();
  });

  it('is silent where no cruise is left', () => {
    expect(advice(105, {})).toBeNull();
  });
});

describe('[AIRFLY-6] what can be reached now', () => {
  const reached = (deviation: Partial<Deviation>) =>
    toTheEnd(flyingReach(on, nowAt(90), { ...asPlanned, ...deviation })).ends;

  it('has every failure of the deck and every end, and less with less fuel, more drag, wind against it and a leak', () => {
    const usual = reached({});
    expect([...usual.keys()]).toEqual(request.aircraft.failures.map(({ key }) => key));
    for (const worse of [{ fuelKg: -800 }, { drag: 0.05 }, { headwindMS: 20 }, { leakKgS: 0.2 }]) {
      const other = reached(worse);
      for (const [key, ends] of usual) {
        ends.forEach(({ fuelKg }, i) => {
          const left = other.get(key)?.[i].fuelKg ?? Number.NEGATIVE_INFINITY;
          if (fuelKg !== null) expect(left).toBeLessThan(fuelKg);
        });
      }
    }
  });

  it('a tailwind that was found helps no way back', () => {
    expect(reached({ headwindMS: -20 })).toEqual(reached({}));
  });

  it('the area shrinks with less fuel', () => {
    const size = (fuelKg: number): number => {
      const areas = toTheEnd(areasNow(on, nowAt(90), { ...asPlanned, fuelKg }));
      const ring = areas.find(({ key }) => key === 'noCabin')?.ringDeg ?? [];
      return Math.abs(
        ring.slice(1).reduce((sum, [x, y], i) => sum + 0.5 * (ring[i][0] * y - x * ring[i][1]), 0),
      );
    };
    const [full, less] = [size(0), size(-4000)];
    expect(less).toBeGreaterThan(0);
    expect(less).toBeLessThan(0.9 * full);
  });
});
