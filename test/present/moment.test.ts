import { describe, expect, it } from 'vitest';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { momentAt } from '../../src/present/moment.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { longLoopText, requestOf } from '../support/demo.ts';

const plan = makePlan(requestOf(longLoopText));
const { columns } = plan.trace;
const textOf = (timeS: number, name: string, of: Plan = plan): string =>
  plainSpaces(momentAt(of, timeS).readings.find((reading) => reading.name === name)?.text ?? '');

describe('a moment of a plan', () => {
  it('[MOM-1] reads the trace at its nodes in the units of the gauges, fuel rounded to the safe side', () => {
    for (const node of [5, 100, 300, 500]) {
      const timeS = columns.timeS[node];
      const fuel = Math.floor(columns.fuelKg[node] / 10 + 1e-7) * 10;
      expect(
        Number(
          textOf(timeS, 'Fuel on board')
            .replace(/ (?=\d)/g, '')
            .replace(' kg', ''),
        ),
      ).toBe(fuel);
      const feet = Math.round(columns.pressureAltitudeM[node] / 0.3048 / 100) * 100;
      expect(
        Number(
          textOf(timeS, 'Height')
            .replace(/ (?=\d)/g, '')
            .replace(' ft', ''),
        ),
      ).toBe(feet);
      expect(textOf(timeS, 'Mach')).toBe(`M ${columns.mach[node].toFixed(2)}`);
    }
  });

  it('[MOM-2] is linear between two nodes, and theirs before the first and after the last', () => {
    const node = columns.timeS.findIndex((time, i) => i > 250 && columns.timeS[i + 1] - time > 20);
    const at = momentAt(plan, 0.5 * (columns.timeS[node] + columns.timeS[node + 1]));
    expect(at.latitudeDeg).toBeCloseTo(0.5 * (columns.latitudeDeg[node] + columns.latitudeDeg[node + 1]), 9);
    expect(momentAt(plan, -1e6).latitudeDeg).toBeCloseTo(columns.latitudeDeg[0], 9);
    expect(momentAt(plan, 1e6).latitudeDeg).toBeCloseTo(
      columns.latitudeDeg[columns.latitudeDeg.length - 1],
      9,
    );
  });

  it('[MOM-3] passes 180 degrees without turning round', () => {
    const longitudeDeg = columns.longitudeDeg.map((_, i) => (i === 10 ? 179.9 : i === 11 ? -179.7 : 0));
    const crossing = { ...plan, trace: { ...plan.trace, columns: { ...columns, longitudeDeg } } };
    const middle = 0.5 * (columns.timeS[10] + columns.timeS[11]);
    expect(Math.abs(momentAt(crossing, middle).longitudeDeg)).toBeCloseTo(179.9, 9);
  });

  it('[MOM-4] what was not computed says so; the limit that is next stands first; every name is explained', () => {
    const fuelRequiredKg = columns.fuelRequiredKg.map(() => Number.NaN);
    const open = { ...plan, trace: { ...plan.trace, columns: { ...columns, fuelRequiredKg } } };
    expect(textOf(3000, 'Fuel required', open)).toBe('not computed');
    expect(textOf(3000, 'In hand', open)).toBe('not computed');
    const node = columns.timeS.findIndex((time) => time > 3000);
    const { margins, readings } = momentAt(plan, columns.timeS[node]);
    const next = plan.limits.find(({ key }) => key === plan.trace.next[node]);
    expect(margins[0].name).toBe(next?.name);
    for (const { means } of [...margins, ...readings]) expect(means.length).toBeGreaterThan(10);
  });
});
