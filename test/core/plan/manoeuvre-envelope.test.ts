/** Load factor against speed and pushes low over the base: against closed forms on a simple jet, and within the demonstration's plan. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import type { Aircraft, Limit } from '../../../src/core/aircraft/aircraft.ts';
import { ROTATING_EARTH } from '../../../src/core/flight/earth-model.ts';
import { ENGINEERING } from '../../../src/core/flight/flight.ts';
import { crewOf } from '../../../src/core/plan/draft.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { ManoeuvreBounds } from '../../../src/core/plan/manoeuvre-bounds.ts';
import { envelopeOf } from '../../../src/core/plan/manoeuvre-envelope.ts';
import { answerManoeuvre } from '../../../src/core/plan/manoeuvre-question.ts';
import { pushAt } from '../../../src/core/plan/manoeuvre-table.ts';
import type { ManoeuvreRules } from '../../../src/core/plan/sortie.ts';
import { lowPushCards } from '../../../src/present/card/manoeuvre.ts';
import { turnMarginCards } from '../../../src/present/card/turns.ts';
import { envelopeFigure } from '../../../src/present/chart/manoeuvre.ts';
import { PAPER } from '../../../src/present/theme.ts';
import { gaugesOf } from '../../../src/present/units.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';
import { idealJet } from '../../support/ideal-jet.ts';

const plan = makePlan(requestOf(longLoopText));
const gauges = gaugesOf(plan);
const figureOf = (text: string) => Number(text.replaceAll(/[\u2009\u00a0°]/g, ''));

const base = idealJet({
  areaM2: 100,
  zeroLiftDrag: 0.02,
  inducedFactor: 0,
  liftSlope: 3,
  fullThrustN: 1e5,
  consumption: 0,
});
const jet: Aircraft = {
  ...base,
  aerodynamics: { ...base.aerodynamics, warningAngleRad: () => 0.2, pushAngleRad: () => 0.25 },
};

/** With 15 t of fuel at 3000 m. */
function boundsOf(aircraft: Aircraft, heldTo: ManoeuvreRules['heldTo'] = []): ManoeuvreBounds {
  const zeroFuelMassKg = aircraft.balance.emptyMassKg;
  const setup = { aircraft, day: standardDay, earth: ROTATING_EARTH, tolerance: ENGINEERING, zeroFuelMassKg };
  const rules = { loadFactors: [], banksRad: [], push: null, clearanceM: 0, heldTo };
  const bounds = new ManoeuvreBounds(setup, rules);
  bounds.placeIn(3000, (air) => standardDay.sample(0, 0, 3000, 0, air));
  bounds.load(15_000);
  return bounds;
}

function structureOf(symmetric: number, rolling: number): Limit {
  return {
    key: 'structure',
    name: 'Structure',
    quantity: 'loadFactor',
    side: 'upper',
    spread: 0,
    source: 'invented',
    value: ({ loadFactor }) => loadFactor,
    bound: ({ rollRateRadS }) => (rollRateRadS === 0 ? symmetric : rolling),
  };
}

describe('the envelope of load factor', () => {
  it('[MAN-20] rises with the square of equivalent airspeed from 1 g where the pusher acts (n = (V / V1)^2 at one lift coefficient)', () => {
    const bounds = boundsOf(jet);
    const { points } = envelopeOf(bounds) ?? { points: [] };
    expect(points.length).toBeGreaterThan(10);
    const slowest = points[0].at.equivalentAirspeedMS;
    for (const { at, bounds: there } of points) {
      const square = (at.equivalentAirspeedMS / slowest) ** 2;
      expect((there.push ?? 0) / square).toBeCloseTo(1, 3);
      // Warned at 0.2 rad, pushed at 0.25: four fifths of the lift.
      expect((there.warning ?? 0) / (there.push ?? 1)).toBeCloseTo(0.8, 9);
    }
  });

  it('[MAN-25] is warned up to where n = 0.8 (V / V1)^2 meets a bound: V1 sqrt(n / 0.8)', () => {
    const warned = { ...jet, limits: [structureOf(2.2, 1.6)] };
    const { points, warnedUpTo } = envelopeOf(
      boundsOf(warned, [{ fromFuelKg: 0, loadFactor: 1.2, source: 'us' }]),
    ) ?? {
      points: [],
      warnedUpTo: [],
    };
    const slowest = points[0].at.equivalentAirspeedMS;
    expect(warnedUpTo.map(({ bound }) => bound)).toEqual(['symmetric', 'rolling', 'held']);
    [2.2, 1.6, 1.2].forEach((loadFactor, i) => {
      expect(warnedUpTo[i].loadFactor).toBeCloseTo(loadFactor, 9);
      // Mach to 1e-4, so that speed is good to 0.03 m/s.
      expect(warnedUpTo[i].at.equivalentAirspeedMS / slowest).toBeCloseTo(Math.sqrt(loadFactor / 0.8), 3);
    });
  });

  it('[MAN-28] has warning and bound at one load factor where it says so, in the table of a question asked there too', () => {
    const request = requestOf(longLoopText);
    for (const { pressureAltitudeM, envelope } of plan.manoeuvres) {
      for (const { bound, at, loadFactor } of envelope?.warnedUpTo ?? []) {
        const answer = answerManoeuvre(request, {
          pressureAltitudeM,
          speed: { key: 'mach', si: at.mach },
          // Full tanks are full to a rounding.
          fuelKg: Math.min(envelope?.fuelKg ?? Number.NaN, plan.aircraft.fuelCapacityKg),
          bankRad: null,
          loadFactor: null,
          place: null,
          timeS: null,
          groundM: null,
        });
        if (!('table' in answer)) throw new Error('a question without a bank asks for the table');
        const [{ bounds }] = answer.table.rows;
        expect(bounds[bound]).toBeCloseTo(loadFactor, 7);
        // Mach to 1e-4, at which the warning rises by some 4 g for each Mach.
        expect(Math.abs((bounds.warning ?? 0) - loadFactor)).toBeLessThan(1e-3);
      }
    }
  });

  it('[MAN-21] ends where a limit of speed of the deck is met, and names it', () => {
    for (const { envelope, at } of plan.manoeuvres) {
      if (envelope === null) throw new Error('the deck has a stall table');
      const last = envelope.points[envelope.points.length - 1];
      expect(envelope.endedBy).toBe('Maximum equivalent airspeed');
      expect(last.at.mach).toBeGreaterThan(at.mach);
      const speeds = envelope.points.map((point) => point.at.calibratedAirspeedMS);
      expect(speeds).toEqual([...speeds].sort((a, b) => a - b));
      expect(envelope.points[0].bounds.push).toBeCloseTo(1, 3);
    }
  });

  it('[MAN-22] is drawn with every bound by its own name and curve, none merged', () => {
    const figure = envelopeFigure(plan.manoeuvres[0], gauges, { theme: PAPER, width: 760 });
    for (const name of ['warning', 'push', 'structure', 'structure, rolling', 'held to', 'thrust']) {
      expect(figure?.svg).toContain(`>${name}<`);
    }
    expect(figure?.table.rows[0]).toHaveLength(figure?.table.columns.length ?? 0);
  });
});

describe('pushes low over the base', () => {
  const { lowPushes } = plan;
  if (lowPushes === null) throw new Error('the demonstration says what its pusher does');

  it('[MAN-23] stand from full tanks down, wings level and at each bank that the sortie names', () => {
    expect(lowPushes.rows[0].fuelKg).toBe(plan.aircraft.fuelCapacityKg);
    for (const { pushes } of lowPushes.rows) {
      expect(pushes.map(({ bankDeg }) => Math.round(bankDeg))).toEqual([0, 30, 40]);
      const speeds = pushes.map(({ from }) => from.calibratedAirspeedMS);
      // Common practice: the steeper the turn, the faster its stall and the more height its push costs.
      expect(speeds).toEqual([...speeds].sort((a, b) => a - b));
      expect(pushes[2].lostM ?? 0).toBeGreaterThan(pushes[0].lostM ?? Number.POSITIVE_INFINITY);
      for (const { lostM, leastHeightM } of pushes) expect(leastHeightM).toBeCloseTo((lostM ?? 0) + 300, 9);
    }
  });

  it('[MAN-27] cost no less height with more fuel (but for a metre), for any two amounts, where the sortie holds both to the same', () => {
    const { sortie, ...request } = requestOf(longLoopText);
    const { setup } = crewOf({ sortie, ...request }).flight;
    const bounds = new ManoeuvreBounds(setup, { ...sortie.manoeuvres, heldTo: [] });
    bounds.placeIn(600, (air) => standardDay.sample(0, 0, 600, 0, air));
    const amounts = fc.record({
      lessKg: fc.double({ min: 1000, max: 38_500, noNaN: true }),
      moreKg: fc.double({ min: 1000, max: 38_500, noNaN: true }),
      bankRad: fc.constantFrom(0, Math.PI / 6, Math.PI / 4.5),
    });
    fc.assert(
      fc.property(amounts, ({ lessKg, moreKg, bankRad }) => {
        const [less, more] = [lessKg, moreKg]
          .sort((a, b) => a - b)
          .map((fuelKg) => {
            bounds.load(fuelKg);
            return pushAt(bounds, bankRad)?.lostM ?? Number.NaN;
          });
        // Nearly empty it is the slower aircraft that comes to the steeper path, by some 0.5 m of 172.
        expect(more).toBeGreaterThan(less - 1);
      }),
      { numRuns: 60 },
    );
  });

  it('[MAN-24] are begun no lower than the costliest of them with full tanks needs', () => {
    const heaviest = Math.max(...lowPushes.rows[0].pushes.map(({ leastHeightM }) => leastHeightM ?? 0));
    // Pressure altitude and height over the base differ by the day alone: to 100 m so low.
    expect(Math.abs(lowPushes.pressureAltitudeM - lowPushes.groundM - heaviest)).toBeLessThan(100);
  });

  it('[CARD-94] print heights up to the next hundred feet', () => {
    const [card] = lowPushCards(plan);
    const rows = card.table?.rows ?? [];
    expect(rows).toHaveLength(lowPushes.rows.length);
    lowPushes.rows.forEach(({ pushes }, i) => {
      pushes.forEach(({ leastHeightM }, k) => {
        expect(figureOf(rows[i][k + 1].figure)).toBe(Math.ceil((leastHeightM ?? 0) / 30.48) * 100);
      });
    });
    const most = Math.max(...lowPushes.rows.map(({ pushes }) => pushes[2].leastHeightM ?? 0));
    const feet = Math.ceil(most / 30.48) * 100;
    expect(card.answer[0].replaceAll(/[\u2009\u00a0]/g, '')).toContain(`${feet}ft`);
    expect(lowPushCards({ ...plan, lowPushes: null })).toEqual([]);
  });
});

describe('cards of the margins in turns', () => {
  it('[CARD-95] have a row for each turn of the leg with what may be pulled rounded down and what is flown up', () => {
    const turns = plan.turns.filter(({ leg }) => leg === 1);
    const rows = turnMarginCards(plan, 1).flatMap(({ table }) => table?.rows ?? []);
    expect(rows).toHaveLength(turns.length);
    turns.forEach(({ nearest: { loadFactor, bounds } }, i) => {
      const [, flown, warning, structure] = rows[i];
      expect(figureOf(flown.figure)).toBeGreaterThanOrEqual(loadFactor - 1e-9);
      expect(figureOf(warning.figure)).toBeLessThanOrEqual((bounds.warning ?? 0) + 1e-9);
      expect(figureOf(warning.below)).toBeLessThanOrEqual((bounds.push ?? 0) + 1e-9);
      expect(figureOf(structure.below)).toBeLessThanOrEqual((bounds.rolling ?? 0) + 1e-9);
    });
  });
});
