import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EnginePoint } from '../../../src/core/aircraft/aircraft.ts';
import {
  OUTSIDE_ALTITUDE,
  OUTSIDE_MACH,
  OUTSIDE_TEMPERATURE,
} from '../../../src/core/aircraft/propulsion.ts';
import { loadDeck } from '../../../src/files/deck.ts';
import { deckFolder } from '../../../src/files/deck-folder.ts';

const { propulsion } = loadDeck(deckFolder('decks/sandmartin')).aircraft;
const out: EnginePoint = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };

function at(power: number, mach: number, altitude: number, offset: number): EnginePoint {
  propulsion.at(power, mach, altitude, altitude, offset, out);
  return { ...out };
}

const flown = {
  mach: fc.double({ min: 0, max: 3.2, noNaN: true }),
  altitude: fc.double({ min: 0, max: 26000, noNaN: true }),
  offset: fc.double({ min: -40, max: 40, noNaN: true }),
};

describe('propulsion', () => {
  it('[ENG-1] is linear between neighbouring settings', () => {
    const low = at(3, 1.7, 15000, 4);
    const high = at(4, 1.7, 15000, 4);
    const middle = at(3.25, 1.7, 15000, 4);
    expect(middle.thrustN).toBeCloseTo(low.thrustN + 0.25 * (high.thrustN - low.thrustN), 6);
    expect(middle.fuelFlowKgS).toBeCloseTo(low.fuelFlowKgS + 0.25 * (high.fuelFlowKgS - low.fuelFlowKgS), 9);
  });

  it('[ENG-2] is continuous over the edges of cells in every direction', () => {
    const tiny = 1e-9;
    for (const [mach, altitude, offset] of [
      [1.1, 10058.4, -10],
      [2.5, 18288, 0],
      [0.9, 9144, 20],
    ]) {
      const here = at(4, mach, altitude, offset).thrustN;
      expect(at(4, mach - tiny, altitude, offset).thrustN).toBeCloseTo(here, 1);
      expect(at(4, mach + tiny, altitude, offset).thrustN).toBeCloseTo(here, 1);
      expect(at(4, mach, altitude - tiny, offset).thrustN).toBeCloseTo(here, 1);
      expect(at(4, mach, altitude, offset - tiny).thrustN).toBeCloseTo(here, 1);
    }
  });

  it('[ENG-3] gives back the power of a thrust, wherever the engine is continuous', () => {
    fc.assert(
      fc.property(
        flown.mach,
        flown.altitude,
        flown.offset,
        fc.constantFrom(0, 1, 3),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (mach, altitude, offset, setting, part) => {
          const wanted = at(setting + part, mach, altitude, offset);
          propulsion.powerFor(wanted.thrustN, mach, altitude, altitude, offset, out);
          expect(out.thrustN).toBeCloseTo(wanted.thrustN, 5);
          expect(at(out.power, mach, altitude, offset).thrustN).toBeCloseTo(wanted.thrustN, 4);
          expect(out.fuelFlowKgS).toBeCloseTo(wanted.fuelFlowKgS, 6);
        },
      ),
      { seed: 1, numRuns: 300 },
    );
  });

  it('[ENG-4] takes the next setting where the engine does not run, idle below it, NaN above the greatest', () => {
    const military = at(2, 0.8, 9000, 0);
    const lit = at(3, 0.8, 9000, 0);
    propulsion.powerFor((military.thrustN + lit.thrustN) / 2, 0.8, 9000, 9000, 0, out);
    expect(out.power).toBe(3);
    expect(out.thrustN).toBe(lit.thrustN);
    propulsion.powerFor(-1e6, 0.8, 9000, 9000, 0, out);
    expect(out.power).toBe(0);
    expect(out.thrustN).toBe(at(0, 0.8, 9000, 0).thrustN);
    const greatest = at(4, 0.8, 9000, 0);
    propulsion.powerFor(greatest.thrustN * 1.01, 0.8, 9000, 9000, 0, out);
    expect(out.power).toBeNaN();
    expect(out.thrustN).toBe(greatest.thrustN);
    expect(out.fuelFlowKgS).toBe(greatest.fuelFlowKgS);
  });

  it('[ENG-5] marks what lies outside, each axis by itself, and answers with the edge', () => {
    expect(at(2, 3.3, 9000, 0).outside).toBe(OUTSIDE_MACH);
    expect(at(2, 1, 27000, 0).outside).toBe(OUTSIDE_ALTITUDE);
    expect(at(2, 1, 9000, 41).outside).toBe(OUTSIDE_TEMPERATURE);
    expect(at(2, Number.NaN, 9000, 0).outside).toBe(OUTSIDE_MACH);
    expect(at(2, 1, 9000, 41).thrustN).toBeCloseTo(at(2, 1, 9000, 40).thrustN, 6);
    expect(at(2, 3.2, 26000, -40).outside).toBe(0);
  });

  it('[ENG-6] loses thrust with warmth where turbine-inlet temperature or speed limits the engine', () => {
    expect(at(2, 1.8, 14000, 15).thrustN).toBeLessThan(at(2, 1.8, 14000, 0).thrustN);
    expect(at(4, 2.85, 21000, 8).thrustN).toBeLessThan(0.98 * at(4, 2.85, 21000, 0).thrustN);
  });
});
