/**
 * The difference of two plans split by cause: one input after the other is moved from the old plan to the new, in a stated
 * order, and what the sortie comes to is flown again each time. The changes on that way add up to the whole; each cause is
 * also moved alone, and what the causes moved alone leave over is their interaction.
 */
import type { Day } from '../air/day.ts';
import type { Aircraft } from '../aircraft/aircraft.ts';
import { flyOutcome, type Outcome } from './outcome.ts';
import { changedParts, type Part } from './parts.ts';
import type { Sortie } from './sortie.ts';
import { CannotPlan } from './sortie-flyer.ts';

export type Side = 'old' | 'new';

/** The inputs of two plans. What is gone throws `CannotPlan`, which says so. */
export interface Sources {
  readonly weatherChanged: boolean;
  readonly aircraftChanged: boolean;
  /** What the reader has to know of inputs that were replaced. */
  readonly remarks: readonly string[];
  day(of: Side): Day;
  aircraft(of: Side): Aircraft;
  /** A sortie as it reads with one of the aircraft. */
  sortie(of: Side, on: Side): Sortie;
}

export interface Cause {
  readonly key: string;
  readonly name: string;
  /** Whether the sortie can be flown when this and every cause before it has been moved; null where that was not flown. */
  readonly flyable: boolean | null;
}

/** One cause's part in one number. null: it could not be told apart, and comes with the next one that has a number. */
export interface CauseChange {
  readonly cause: string;
  readonly change: number | null;
  /** When nothing else is moved; null where it could not be flown. */
  readonly alone: number | null;
}

/** A number that both plans have: of a mark, or the least margin of a limit. */
export interface Measure {
  /** Key of the mark or of the limit. */
  readonly of: string;
  readonly what: 'timeS' | 'fuelKg' | 'inHandKg' | 'leastMargin';
  readonly quantity: string;
  readonly from: number;
  readonly to: number;
  readonly change: number;
  readonly causes: readonly CauseChange[];
  /** The whole change less all causes moved alone; null where one of them could not be flown. */
  readonly interaction: number | null;
}

export interface Split {
  /** In the order in which they were moved. */
  readonly causes: readonly Cause[];
  readonly measures: readonly Measure[];
  /** Why some of it could not be flown. */
  readonly notFlown: readonly string[];
}

/** What was flown, or why it could not be. */
type Run = { readonly outcome: Outcome | null; readonly reason: string | null };

interface Step {
  readonly key: string;
  readonly name: string;
  /** With all that is moved so far. */
  readonly after: Run;
  readonly alone: Run;
}

/**
 * `from` and `to` are what the plans themselves hold, so that what the program changed since shows as a cause of its own.
 * Null where too little is left to fly the new plan again, or nothing between the two; `notFlown` says why.
 */
export function splitByCause(
  from: Outcome,
  to: Outcome,
  sources: Sources,
): { readonly split: Split | null; readonly notFlown: readonly string[] } {
  const base = attempt(sources, 'old', 'old', () => sources.sortie('old', 'old'));
  const end = attempt(sources, 'new', 'new', () => sources.sortie('new', 'new'));
  const steps: Step[] = [
    { key: 'program', name: 'program', after: base, alone: base },
    ...movedInputs(sources),
    ...movedParts(sources),
    { key: 'programSince', name: 'program since', after: done(to), alone: done(to) },
  ];
  const reasons = [base, ...steps.flatMap(({ after, alone }) => [after, alone]), end].map(
    ({ reason }) => reason,
  );
  const notFlown = [...new Set([...reasons.filter((reason) => reason !== null), ...sources.remarks])];
  const between = steps.slice(0, -1).some(({ after }) => after.outcome !== null);
  if (end.outcome === null || !between) return { split: null, notFlown };
  const measures = measuresOf(from, to).map((measure) => splitMeasure(measure, steps, base, end));
  const causes = steps
    .filter(({ key }) => measures.some((measure) => counts(measure, key)) || !key.startsWith('program'))
    .map(({ key, name, after }) => ({ key, name, flyable: after.outcome?.flyable ?? null }));
  const kept = measures.map((measure) => ({
    ...measure,
    causes: measure.causes.filter(({ cause }) => causes.some(({ key }) => key === cause)),
  }));
  return { split: { causes, measures: kept, notFlown }, notFlown };
}

function movedInputs(sources: Sources): Step[] {
  const steps: Step[] = [];
  if (sources.weatherChanged) {
    const run = attempt(sources, 'new', 'old', () => sources.sortie('old', 'old'));
    steps.push({ key: 'weather', name: 'weather', after: run, alone: run });
  }
  if (sources.aircraftChanged) {
    const sortie = () => sources.sortie('old', 'new');
    steps.push({
      key: 'aircraft',
      name: 'aircraft',
      after: attempt(sources, 'new', 'new', sortie),
      alone: attempt(sources, 'old', 'new', sortie),
    });
  }
  return steps;
}

/** One step for each part of the sortie that changed; the sortie as a whole where its parts cannot be told apart. */
function movedParts(sources: Sources): Step[] {
  const moved: Part[] = [];
  return partsOf(sources).map((part) => {
    moved.push(part);
    const sofar = [...moved];
    const move = (parts: readonly Part[], on: Side): Sortie =>
      parts.reduce((sortie, { move }) => move(sortie, sources.sortie('new', on)), sources.sortie('old', on));
    return {
      key: part.key,
      name: part.name,
      after: attempt(sources, 'new', 'new', () => move(sofar, 'new')),
      alone: attempt(sources, 'old', 'old', () => move([part], 'old')),
    };
  });
}

const wholeSortie: Part = { key: 'sortie', name: 'the sortie', move: (_from, to) => to };

function partsOf(sources: Sources): readonly Part[] {
  for (const on of ['new', 'old'] as const) {
    const both = orReason(() => [sources.sortie('old', on), sources.sortie('new', on)] as const);
    if (typeof both !== 'string') return changedParts(...both);
  }
  return [wholeSortie];
}

function attempt(sources: Sources, day: Side, aircraft: Side, sortie: () => Sortie): Run {
  const outcome = orReason(() =>
    flyOutcome({ day: sources.day(day), aircraft: sources.aircraft(aircraft), sortie: sortie() }),
  );
  return typeof outcome === 'string' ? { outcome: null, reason: outcome } : done(outcome);
}

function done(outcome: Outcome): Run {
  return { outcome, reason: null };
}

function orReason<T extends object>(work: () => T): T | string {
  try {
    return work();
  } catch (error) {
    if (error instanceof CannotPlan) return error.message;
    throw error;
  }
}

type Bare = Omit<Measure, 'causes' | 'interaction'>;

/** All numbers that both have. */
function measuresOf(from: Outcome, to: Outcome): Bare[] {
  const what = ['timeS', 'fuelKg', 'inHandKg', 'leastMargin'] as const;
  const named = [
    ...from.marks.flatMap(({ key }) =>
      what
        .slice(0, 3)
        .map((kind) => ({ of: key, what: kind, quantity: kind === 'timeS' ? 'timeS' : 'fuelKg' })),
    ),
    ...from.limits.map(({ key, quantity }) => ({ of: key, what: what[3], quantity })),
  ];
  return named.flatMap((name) => {
    const [before, after] = [numberOf(from, name), numberOf(to, name)];
    if (before === null || after === null) return [];
    return [{ ...name, from: before, to: after, change: after - before }];
  });
}

function numberOf(outcome: Outcome | null, { of, what }: Pick<Measure, 'of' | 'what'>): number | null {
  if (what === 'leastMargin') return outcome?.limits.find(({ key }) => key === of)?.leastMargin ?? null;
  return outcome?.marks.find(({ key }) => key === of)?.[what] ?? null;
}

function splitMeasure(measure: Bare, steps: readonly Step[], base: Run, end: Run): Measure {
  const started = numberOf(base.outcome, measure);
  const ended = numberOf(end.outcome, measure);
  let before = measure.from;
  const causes = steps.map(({ key, after, alone }): CauseChange => {
    const value = numberOf(after.outcome, measure);
    const change = value === null ? null : value - before;
    before = value ?? before;
    if (key === 'program') return { cause: key, change, alone: change };
    if (key === 'programSince') {
      return { cause: key, change, alone: ended === null ? null : measure.to - ended };
    }
    const only = numberOf(alone.outcome, measure);
    return { cause: key, change, alone: only === null || started === null ? null : only - started };
  });
  const sum = causes.reduce<number | null>(
    (total, { alone }) => (total === null || alone === null ? null : total + alone),
    0,
  );
  return { ...measure, causes, interaction: sum === null ? null : measure.change - sum };
}

/** A plan file keeps nine digits: what is less than this was changed by no one. */
const digitsOf: Readonly<Record<string, number>> = { fuelKg: 1e-3, timeS: 1e-3 };

/** Whether a difference of a quantity is more than the digits that a plan file keeps. */
export function differs(quantity: string, from: number, to: number): boolean {
  return Math.abs(to - from) > (digitsOf[quantity] ?? 1e-6 * Math.max(1, Math.abs(from), Math.abs(to)));
}

function counts({ quantity, causes, to }: Measure, key: string): boolean {
  const change = causes.find(({ cause }) => cause === key)?.change ?? 0;
  return differs(quantity, to - change, to);
}
