import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bankOfLoadFactor, bankOfRate, levelTurn } from '../../../src/core/flight/turn-kinematics.ts';
import { OutsideRange } from '../../../src/core/quantities/errors.ts';

describe('the level turn', () => {
  it('[TURN-1] speed is rate times radius, and the banks come back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 1000, noNaN: true }),
        fc.double({ min: 0.01, max: 1.4, noNaN: true }),
        (speed, bank) => {
          const turn = levelTurn(speed, bank, 9.7);
          expect(turn.rateRadS * turn.radiusM).toBeCloseTo(speed, 9);
          expect(bankOfRate(turn.rateRadS, speed, 9.7)).toBeCloseTo(bank, 12);
          expect(bankOfLoadFactor(turn.loadFactor)).toBeCloseTo(bank, 9);
        },
      ),
    );
  });

  it.each([0, -0.1, Math.PI / 2, Number.NaN])('[TURN-2] refuses a bank of %d rad', (bank) => {
    expect(() => levelTurn(200, bank, 9.8)).toThrow(OutsideRange);
  });

  it('[TURN-2] refuses a load factor below 1', () => {
    expect(() => bankOfLoadFactor(0.99)).toThrow(OutsideRange);
  });
});
