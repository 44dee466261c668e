/** The benchmark deck against the tables of its paper (test/published/data/minimum-time-climb-*.csv). */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { AeroPoint, EnginePoint } from '../../src/core/aircraft/aircraft.ts';
import { loadDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';

const { aircraft, doubts } = loadDeck(deckFolder('decks/benchmark-interceptor'));
const poundForce = 0.45359237 * 9.80665;
const pound = 0.45359237;
const foot = 0.3048;

function published(name: string): string[][] {
  return readFileSync(`test/published/data/minimum-time-climb-${name}.csv`, 'utf8')
    .split('\n')
    .filter((line) => /^\d/.test(line))
    .map((line) => line.split(','));
}

const aero = published('aero').map((row) => row.map(Number));
const thrust = published('thrust');
const point: AeroPoint = { liftSlope: 0, zeroLiftAngleRad: 0, zeroLiftDrag: 0, inducedFactor: 0, outside: 0 };
const engine: EnginePoint = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };

describe('benchmark interceptor', () => {
  it('[DECK-40] has the wing area of the paper and no doubts', () => {
    expect(aircraft.aerodynamics.wingAreaM2).toBeCloseTo(530 * foot * foot, 10);
    expect(doubts).toEqual([]);
  });

  it('[DECK-41] gives CL = CLalpha alpha and CD = CD0 + eta CLalpha alpha^2 with each piecewise linear in Mach', () => {
    expect(aero).toHaveLength(9);
    const alpha = 0.1;
    for (let i = 0; i + 1 < aero.length; i++) {
      for (const part of [0, 0.25, 0.5, 1]) {
        const [mach, slope, zeroLift, eta] = aero[i].map(
          (value, c) => value + part * (aero[i + 1][c] - value),
        );
        aircraft.aerodynamics.at(mach, 0, 0, Number.NaN, point);
        const lift = point.liftSlope * (alpha - point.zeroLiftAngleRad);
        expect(lift).toBeCloseTo(slope * alpha, 12);
        const drag = point.zeroLiftDrag + point.inducedFactor * lift * lift;
        expect(drag).toBeCloseTo(zeroLift + eta * slope * alpha * alpha, 12);
        expect(point.outside).toBe(0);
      }
    }
  });

  it('[DECK-42] gives every cell of column filledA and burns thrust/(1600 s g0)', () => {
    expect(thrust).toHaveLength(100);
    for (const row of thrust) {
      const [mach, altitudeFt, , filledA] = row.map(Number);
      aircraft.propulsion.at(1, mach, 0, altitudeFt * foot, 30, engine);
      expect(engine.outside).toBe(0);
      expect(engine.thrustN / (filledA * poundForce)).toBeCloseTo(1, 12);
      expect(engine.fuelFlowKgS).toBeCloseTo((filledA / 1600) * pound, 10);
    }
  });

  it('[DECK-43] interpolates thrust bilinearly in Mach and geometric altitude', () => {
    // Cells of filledA at Mach 0.8 and 1.0, 30 000 and 40 000 ft: the mean of the four in the middle.
    const cells = thrust.filter(
      (row) => ['0.8', '1.0'].includes(row[0]) && ['30000', '40000'].includes(row[1]),
    );
    expect(cells).toHaveLength(4);
    const mean = cells.reduce((sum, row) => sum + Number(row[3]), 0) / 4;
    aircraft.propulsion.at(1, 0.9, 1, 35000 * foot, 0, engine);
    expect(engine.thrustN).toBeCloseTo(mean * poundForce, 6);
  });

  it('[DECK-44] idles without thrust and without flow, and is linear between idle and full', () => {
    aircraft.propulsion.at(0, 1.2, 0, 9000, 0, engine);
    expect([engine.thrustN, engine.fuelFlowKgS]).toEqual([0, 0]);
    aircraft.propulsion.at(1, 1.2, 0, 9000, 0, engine);
    const full = { ...engine };
    aircraft.propulsion.powerFor(full.thrustN * 0.3, 1.2, 0, 9000, 0, engine);
    expect(engine.power).toBeCloseTo(0.3, 12);
    expect(engine.fuelFlowKgS).toBeCloseTo(full.fuelFlowKgS * 0.3, 12);
  });

  it('[DECK-45] knows no limits, masses, runway or centre of gravity', () => {
    expect(aircraft.limits).toEqual([]);
    expect(aircraft.balance.emptyMassKg).toBe(0);
    expect(aircraft.balance.cgFraction(0)).toBeNaN();
    expect(aircraft.takeOff).toBeNull();
    expect(aircraft.landing).toBeNull();
    expect(aircraft.aerodynamics.washDrag).toBeNull();
    expect(aircraft.aerodynamics.warningAngleRad(0.8)).toBeNull();
  });
});
