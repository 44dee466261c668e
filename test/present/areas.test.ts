import { describe, expect, it } from 'vitest';
import type { PlanArea } from '../../src/core/plan/plan.ts';
import { areaSentences } from '../../src/present/areas.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { testPlan } from '../support/plan.ts';

const mile = 1852;
const at = {
  timeS: 9_600,
  latitudeDeg: 41,
  longitudeDeg: -96,
  pressureAltitudeM: 21_000,
  phase: 'Turn at W3',
};
const area: PlanArea = {
  name: 'Marten',
  hours: null,
  floorPressureAltitudeM: null,
  ceilingPressureAltitudeM: null,
  corridorHalfWidthM: 0,
  polygonsDeg: [],
  incursions: [],
  nearest: null,
  vertical: null,
};

function told(more: Partial<PlanArea>): string {
  return plainSpaces(areaSentences({ ...testPlan(), areas: [{ ...area, ...more }] })[0]);
}

describe('areas in sentences', () => {
  it('[AREAWORDS-1] what is left beside an area is rounded down, the corridor taken off and named', () => {
    expect(told({ nearest: { ...at, distanceM: 14.9 * mile } })).toBe('Marten cleared by 14 nm at 2:40.');
    const corridor = { corridorHalfWidthM: 5 * mile, nearest: { ...at, distanceM: 14.9 * mile } };
    expect(told(corridor)).toBe('Marten cleared by 9 nm beyond the 5 nm kept beside it at 2:40.');
  });

  it('[AREAWORDS-2] height above or below it is rounded down, its heights and hours are told', () => {
    const over = {
      vertical: { ...at, clearanceM: 23_399 * 0.3048, side: 'over' as const },
      ceilingPressureAltitudeM: 45_000 * 0.3048,
      hours: { kind: 'daily' as const, from: '22:00Z', to: '06:00Z' },
    };
    expect(told(over)).toBe(
      'Marten cleared: 23 300 ft above it at 2:40; it holds from 22:00Z to 06:00Z each day, up to 45 000 ft.',
    );
    expect(told({})).toBe('Marten cleared: it never holds at the hour and height flown.');
  });

  it('[AREAWORDS-3] each way through is told with its depth and its times', () => {
    const way = {
      entry: at,
      exit: { ...at, timeS: 9_720 },
      deepest: at,
      depthM: 12 * mile,
      outCourseDeg: 280,
    };
    const again = { ...way, entry: { ...at, timeS: 12_000 }, exit: { ...at, timeS: 12_060 } };
    expect(told({ incursions: [way, again] })).toBe(
      'The route goes 12 nm into Marten, 2:40 to 2:42, and again 12 nm into Marten, 3:20 to 3:21.',
    );
  });
});
