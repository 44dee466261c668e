/** The way through the drag rise of the demonstration: what its pushover table says against what is flown, and the search. */
import { describe, expect, it } from 'vitest';
import { accelerationOf } from '../../../src/core/plan/acceleration.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { Plan, TraceColumn } from '../../../src/core/plan/plan.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const knot = 1852 / 3600;
const flyable = makePlan(requestOf(longLoopText));
/** The weather of the demonstration taken away: still, standard air. */
const standardText = change(longLoopText, [/^weather:\n( {2}.*\n)+/m, 'weather: { day: standard }\n']);

function at({ trace: { columns } }: Plan, column: TraceColumn, timeS: number): number {
  const high = Math.max(
    1,
    columns.timeS.findIndex((time) => time >= timeS - 1e-6),
  );
  const [before, after] = [columns.timeS[high - 1], columns.timeS[high]];
  const part = after > before ? (timeS - before) / (after - before) : 1;
  return columns[column][high - 1] + part * (columns[column][high] - columns[column][high - 1]);
}

/** The least margin of a limit in the pull of the first pushover. */
function leastInPull(plan: Plan, limit: string): number {
  const { pull, timeS, durationS } = plan.pushovers[0];
  const { columns } = plan.trace;
  const inPull = columns.timeS.flatMap((time, i) => {
    const late = time >= timeS && time <= timeS + durationS + 1e-6;
    return late && columns.pressureAltitudeM[i] <= pull.pressureAltitudeM + 1 ? [i] : [];
  });
  return Math.min(...inPull.map((i) => plan.trace.margins[limit][i]));
}

describe('the pushover table', () => {
  it('[ACCEL-10] begins and ends where the trace has the pushover, with the fuel between', () => {
    expect(flyable.pushovers.map(({ leg }) => leg)).toEqual([1, 2]);
    for (const pushover of flyable.pushovers) {
      const endS = pushover.timeS + pushover.durationS;
      expect(pushover.push.mach).toBeCloseTo(0.91, 6);
      expect(pushover.bottom.pressureAltitudeM).toBeCloseTo(28_500 * 0.3048, -1);
      expect(pushover.bottom.mach).toBeCloseTo(at(flyable, 'mach', endS), 6);
      const burnt = at(flyable, 'fuelKg', pushover.timeS) - at(flyable, 'fuelKg', endS);
      expect(pushover.fuelKg).toBeCloseTo(burnt, 1);
      expect(pushover.pathAngleDeg).toBeCloseTo(-7, 9);
    }
  });

  it('[ACCEL-11] going level from the same state to the same Mach burns more, both heavy and light', () => {
    for (const { instead } of flyable.pushovers) {
      expect(instead.levelRefused).toBeNull();
      expect(instead.fuelKg).toBeLessThan(instead.levelFuelKg ?? 0);
    }
  });

  it.each([28_000, 26_500, 25_500, 25_000, 24_500, 24_000])(
    '[ACCEL-12] bottom at %d ft: begun slower than the latest speed the pull keeps the greatest airspeed, begun 5 kt faster it does not',
    (bottom) => {
      const plan = makePlan(requestOf(change(longLoopText, ['bottom: 28500 ft', `bottom: ${bottom} ft`])));
      const [{ pull, latestPullMS }] = plan.pushovers;
      const over = pull.equivalentAirspeedMS - (latestPullMS ?? Number.NaN);
      const margin = leastInPull(plan, 'maximumEquivalentAirspeed');
      if (over <= 0) expect(margin).toBeGreaterThanOrEqual(0);
      else if (over > 5 * knot) expect(margin).toBeLessThan(0);
    },
  );

  it.each([1.2, 1.5, 1.7, 1.9, 2.1])(
    '[ACCEL-13] pull at %f g: faster than the least speed the stall warning is kept, 5 kt slower it is not',
    (loadFactor) => {
      const shallow = change(
        longLoopText,
        ['bottom: 28500 ft', 'bottom: 31300 ft'],
        ['pull: 1.3 g', `pull: ${loadFactor} g`],
      );
      const plan = makePlan(requestOf(shallow));
      const [{ pull, slowestPullMS }] = plan.pushovers;
      const over = pull.equivalentAirspeedMS - (slowestPullMS ?? Number.NaN);
      const margin = leastInPull(plan, 'stallWarning');
      if (over > 0) expect(margin).toBeGreaterThanOrEqual(0);
      else if (over < -5 * knot) expect(margin).toBeLessThan(0);
    },
  );
});

describe('the acceleration of a sortie', () => {
  const legs = accelerationOf(requestOf(longLoopText));

  it('[ACCEL-14] the best pushover burns no more than the planned one and than the best level acceleration', () => {
    expect(legs.map(({ leg }) => leg)).toEqual([1, 2]);
    for (const { planned, bestLevel, bestPushover } of legs) {
      const best = bestPushover?.fuelKg ?? Number.NaN;
      expect(best).toBeLessThanOrEqual((planned.fuelKg ?? 0) + 0.1);
      expect(best).toBeLessThanOrEqual(bestLevel?.fuelKg ?? 0);
    }
  });

  it('[ACCEL-15] the planned way burns what the plan burns from there to the same Mach, to 10 kg', () => {
    legs.forEach(({ planned }, i) => {
      const { instead } = flyable.pushovers[i];
      expect(Math.abs((planned.fuelKg ?? 0) - (instead.fuelKg ?? 0))).toBeLessThan(10);
    });
  });

  it('[ACCEL-16] every 15 degrees is flown, the least fuel is named, and the wind gives least where fuel is most', () => {
    for (const { headings, bestHeading } of legs) {
      expect(headings).toHaveLength(24);
      const fuels = headings.map(({ fuelKg }) => fuelKg ?? Number.POSITIVE_INFINITY);
      expect(bestHeading).toBe(fuels.indexOf(Math.min(...fuels)));
      const worst = headings[fuels.indexOf(Math.max(...fuels))];
      const best = headings[bestHeading ?? 0];
      expect(best.windEnergyM ?? 0).toBeGreaterThan((worst.windEnergyM ?? 0) + 500);
    }
  });

  it('[ACCEL-17] in still standard air no heading has anything from the wind, and all burn alike to 2 %', () => {
    for (const { headings } of accelerationOf(requestOf(standardText))) {
      const fuels = headings.map(({ fuelKg }) => fuelKg ?? Number.NaN);
      for (const { windEnergyM } of headings) expect(Math.abs(windEnergyM ?? 1)).toBeLessThan(1e-6);
      expect(Math.max(...fuels) / Math.min(...fuels)).toBeLessThan(1.02);
    }
  });
});
