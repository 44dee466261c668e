import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withInletError } from '../../../src/core/aircraft/inlet-error.ts';
import { crewOf, draftOf } from '../../../src/core/plan/draft.ts';
import { inletAsFlown } from '../../../src/core/plan/inlet-flown.ts';
import { LegFlyer } from '../../../src/core/plan/leg-flyer.ts';
import { copyProgress, newProgress } from '../../../src/core/plan/log.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { fuelOf } from '../../../src/core/plan/sortie-flyer.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const request = requestOf(longLoopText);
const inlet = inletAsFlown(request);
const plan = makePlan(request);

describe('a leg with its inlets off schedule', () => {
  it('[INL-10] is flown for every supersonic leg, and begins where the plan does', () => {
    expect(inlet?.legs.map(({ leg }) => leg)).toEqual([1, 2]);
    const arrival = plan.refuellings[1].fuelOnContactKg - plan.recoveries[1].fuelRequiredKg;
    // The integration is right to about 5 kg of fuel on a leg.
    expect(Math.abs((inlet?.legs[0].inHandKg ?? 0) - arrival)).toBeLessThan(5);
  });

  it('[INL-11] costs more fuel with each step away from the schedule, one inlet alone less than all', () => {
    for (const { rows } of inlet?.legs ?? []) {
      for (const side of [-1, 1]) {
        const fuels = rows
          .filter(({ errorDeg }) => errorDeg * side > 0)
          .sort((a, b) => Math.abs(a.errorDeg) - Math.abs(b.errorDeg))
          .filter(({ fuelKg }) => fuelKg !== null);
        expect(fuels.length).toBeGreaterThan(1);
        fuels.forEach(({ fuelKg, oneInletFuelKg }, i) => {
          expect(fuelKg as number).toBeGreaterThan(i === 0 ? 0 : (fuels[i - 1].fuelKg as number));
          expect(oneInletFuelKg as number).toBeLessThan(fuelKg as number);
        });
      }
    }
  });

  it('[INL-15] costs no less fuel the further off it is held, for any two errors of one side that can be flown', () => {
    const { crew, log, flown } = draftOf(request);
    const progress = newProgress();
    const arrivesWith = (leg: number, errorRad: number): number => {
      const aircraft = withInletError(request.aircraft, errorRad);
      const fresh = { ...crewOf({ ...request, aircraft }), altitudes: crew.altitudes };
      const from = log.anchors.find((anchor) => anchor.progress.leg === leg)?.progress;
      if (!from) throw new Error('every leg has a place to be flown from');
      copyProgress(from, progress);
      const { route, decisions } = flown.legs[leg];
      const stopped = new LegFlyer(fresh, crew.sortie.legs[leg], route, decisions, null).fly(progress);
      return stopped ? Number.NaN : fuelOf(fresh, progress);
    };
    const least = (request.aircraft.inletError?.leastRad ?? Number.NaN) / 2;
    const pairs = fc.record({
      leg: fc.constantFrom(1, 2),
      // Up to the error that expels the shock, a little over one degree.
      side: fc.constantFrom(least, Math.PI / 180),
      near: fc.double({ min: 0, max: 0.9, noNaN: true }),
      beyond: fc.double({ min: 0.1, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(pairs, ({ leg, side, near, beyond }) => {
        const [less, more] = [near, near + beyond * (1 - near)].map((part) => part * side);
        const [a, b] = [less, more].map((errorRad) => arrivesWith(leg, errorRad));
        // The integration is right to about 5 kg of fuel on a leg.
        expect(b).toBeLessThan(a + 5);
      }),
      { numRuns: 12, seed: 7 },
    );
  });

  it('[INL-12] is not flown beyond the error that expels the shock, which the edge names', () => {
    for (const { rows, high } of inlet?.legs ?? []) {
      expect(high.by).toBe('expelled');
      const nearest = rows.find(({ errorDeg }) => errorDeg === 1);
      // One degree of error for one degree of margin.
      expect(high.errorDeg).toBeCloseTo(1 + (nearest?.shockMarginDeg ?? 0), 1);
      expect(rows.find(({ errorDeg }) => errorDeg === 2)).toMatchObject({
        stopped: 'expelled',
        fuelKg: null,
      });
    }
  });

  it('[INL-13] is out of reach where it costs more than is in hand', () => {
    const inHandKg = inlet?.legs[1].inHandKg ?? 0;
    // All but 100 kg of what was in hand is asked for as a reserve.
    const reserve = Math.floor(2000 + inHandKg - 100);
    const tight = inletAsFlown(
      requestOf(change(longLoopText, ['landing: 2000 kg', `landing: ${reserve} kg`])),
    );
    const leg = tight?.legs[1];
    expect(leg?.low.by).toBe('fuel');
    const [half, one] = [-0.5, -1].map((error) => leg?.rows.find(({ errorDeg }) => errorDeg === error));
    expect(half?.fuelKg ?? 0).toBeLessThan(leg?.inHandKg ?? 0);
    expect(one?.fuelKg ?? 0).toBeGreaterThan(leg?.inHandKg ?? 0);
    expect(leg?.low.errorDeg ?? 0).toBeLessThan(-0.5);
    expect(leg?.low.errorDeg ?? 0).toBeGreaterThan(-1);
  });

  it('[INL-14] is not computed for a deck without a table of it', () => {
    expect(inletAsFlown({ ...request, aircraft: { ...request.aircraft, inletError: null } })).toBe(null);
  });
});
