import { describe, expect, it } from 'vitest';
import type { DeckTable, LimitData } from '../../../src/core/aircraft/deck.ts';
import { limitOf, newLimitInputs } from '../../../src/core/aircraft/limits.ts';
import { Faults } from '../../../src/files/faults.ts';

function table(columns: Readonly<Record<string, readonly number[]>>): DeckTable {
  const rows = Object.values(columns)[0].length;
  return {
    file: 'table.csv',
    rows,
    numbers: new Map(Object.entries(columns).map(([name, values]) => [name, Float64Array.from(values)])),
    words: new Map(),
    lines: Int32Array.from({ length: rows }, (_, row) => row + 2),
  };
}

const base: LimitData = {
  key: 'loadFactor',
  name: 'Load factor',
  of: 'loadFactor',
  side: 'upper',
  bound: {
    table: table({ mach: [0, 0, 2, 2], fuel: [0, 8000, 0, 8000], loadFactor: [4, 3, 3, 2] }),
    column: 'loadFactor',
  },
  rolling: { table: table({ mach: [0, 2], loadFactor: [2.5, 1.5] }), column: 'loadFactor' },
  spread: 0.1,
};

function compiled(data: LimitData) {
  const made = limitOf(data, 'deck.yaml:7', new Faults());
  if (made === null) throw new Error('no limit');
  return made.limit;
}

describe('limits', () => {
  it('[LIM-1] read their bound from a table over Mach and fuel', () => {
    const limit = compiled(base);
    expect(limit.bound({ ...newLimitInputs(), mach: 1, fuelKg: 4000, loadFactor: 9 })).toBeCloseTo(3, 12);
    expect(limit.value({ ...newLimitInputs(), loadFactor: 1.7 })).toBe(1.7);
    expect([limit.quantity, limit.side, limit.spread, limit.source]).toEqual([
      'loadFactor',
      'upper',
      0.1,
      'deck.yaml:7',
    ]);
  });

  it('[LIM-2] have their own bound while rolling, either way', () => {
    const limit = compiled(base);
    for (const rollRateRadS of [0.05, -0.05]) {
      expect(limit.bound({ ...newLimitInputs(), mach: 1, rollRateRadS })).toBeCloseTo(2, 12);
    }
    expect(limit.bound({ ...newLimitInputs(), mach: 1, rollRateRadS: 0 })).toBeCloseTo(3.5, 12);
  });

  it('[LIM-3] hold the end of the table beyond it', () => {
    expect(compiled(base).bound({ ...newLimitInputs(), mach: 5 })).toBe(3);
  });

  it('[LIM-4] keep stall and structure, gauge and lead apart', () => {
    const at = {
      ...newLimitInputs(),
      angleOfAttackRad: 0.1,
      ledAngleOfAttackRad: 0.12,
      indicatedInletTemperatureK: 600,
      staticTemperatureK: 217,
      bankRad: -0.5,
    };
    const value = (of: string) => compiled({ ...base, of, bound: 1, rolling: null }).value(at);
    expect(value('angleOfAttack')).toBe(0.1);
    expect(value('ledAngleOfAttack')).toBe(0.12);
    expect(value('inletTemperature')).toBe(600);
    expect(value('staticTemperature')).toBe(217);
    expect(value('bank')).toBe(0.5);
  });

  it('[LIM-5] with an unsound table are none, and say why', () => {
    const faults = new Faults();
    const holed = table({ mach: [0, 0, 2], fuel: [0, 8000, 0], loadFactor: [4, 3, 3] });
    expect(limitOf({ ...base, bound: { table: holed, column: 'loadFactor' } }, '', faults)).toBeNull();
    expect(faults.list).toHaveLength(1);
  });
});
