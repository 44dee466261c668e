/** What goes from the planner to the page: no more than changed, and nothing is lost on the way. */
import { describe, expect, it } from 'vitest';
import { planning, type Stage } from '../../src/core/plan/make-plan.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { type Changes, changesFrom, withChanges } from '../../src/web/changes.ts';
import { longLoopText, requestOf } from '../support/demo.ts';

const stages = [...planning(requestOf(longLoopText))].filter((stage) => stage !== null);

/** What is sent of each stage, as it arrives. */
function sent(made: readonly Stage[]): Changes[] {
  return made.map((stage, i) => structuredClone(changesFrom(made[i - 1]?.plan ?? null, stage)));
}

describe('the stages of a plan', () => {
  it('[SENT-1] arrive as they were made', () => {
    let plan: Plan | null = null;
    sent(stages).forEach((changes, i) => {
      const stage = withChanges(plan, changes);
      plan = stage.plan;
      expect(stage).toEqual(stages[i]);
    });
    expect(stages).toHaveLength(2);
  });

  it('[SENT-2] bring of the trace what is required, and nothing that follows from the flight alone', () => {
    const [, { parts, columns, pending }] = sent(stages);
    expect(pending).toEqual([]);
    expect(Object.keys(columns ?? {})).toEqual(['fuelRequiredKg']);
    expect(Object.keys(parts)).not.toContain('trace');
    expect(Object.keys(parts)).not.toContain('contacts');
    expect(Object.keys(parts)).toContain('ladder');
  });

  it('[SENT-3] bring the whole trace where more of it changed', () => {
    const [first] = stages;
    const other = { ...first.plan, trace: { ...first.plan.trace, phase: [...first.plan.trace.phase] } };
    const { parts, columns } = changesFrom(first.plan, { plan: other, pending: [] });
    expect([parts.trace, columns]).toEqual([other.trace, null]);
  });
});
