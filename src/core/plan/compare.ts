/** Two plans side by side: what went into them, and what came out at each moment that both have. */
import { differs, type Split } from './causes.ts';
import { type Mark, type Outcome, outcomeOf } from './outcome.ts';
import type { Plan, PlanInput } from './plan.ts';

export interface Comparison {
  readonly from: Compared;
  readonly to: Compared;
  /** The same inputs and program, and the same numbers. */
  readonly nothingChanged: boolean;
  readonly changed: readonly Changed[];
  /** Keys of the sortie files, as they are written. */
  readonly keys: readonly Changed[];
  readonly marks: readonly MarkChange[];
  /** Moments that only one of them has. */
  readonly onlyFrom: readonly Mark[];
  readonly onlyTo: readonly Mark[];
  readonly limits: readonly LimitChange[];
  /** null where the inputs to fly the difference again are not there. */
  readonly split: Split | null;
  readonly notFlown: readonly string[];
}

export type Compared = Pick<
  Plan,
  'title' | 'fingerprint' | 'program' | 'takeOff' | 'validity' | 'flyable' | 'failure'
>;

/** Something that went into a plan: an input by its hash, or what the plan says of it. null where it has none. */
export interface Changed {
  readonly what: string;
  readonly from: string | null;
  readonly to: string | null;
}

export interface MarkChange {
  readonly key: string;
  readonly kind: string;
  readonly name: string;
  readonly from: Pick<Mark, 'timeS' | 'fuelKg' | 'inHandKg'>;
  readonly to: Pick<Mark, 'timeS' | 'fuelKg' | 'inHandKg'>;
  readonly change: Pick<Mark, 'timeS' | 'fuelKg' | 'inHandKg'>;
  /** Margin there to the limit that is next in the new plan; null where the old one has no such limit. */
  readonly next: MarginChange | null;
}

export interface MarginChange {
  readonly limit: string;
  readonly quantity: string;
  readonly from: number;
  readonly to: number;
  readonly change: number;
}

/** The least margin of a limit over the sortie. */
export interface LimitChange extends MarginChange {
  readonly name: string;
}

/** What the inputs of two plans add to what stands in the plans themselves. */
export type FromInputs = Pick<Comparison, 'keys' | 'split' | 'notFlown'>;

/** Compares two plans as their files hold them. */
export function comparePlans(from: Plan, to: Plan, inputs: FromInputs): Comparison {
  const [before, after] = [outcomeOf(from), outcomeOf(to)];
  const marks = markChanges(from, to, before, after);
  const limits = limitChanges(before, after);
  const lacks = (of: Outcome) => (mark: Mark) => !of.marks.some(({ key }) => key === mark.key);
  const onlyFrom = before.marks.filter(lacks(after));
  const onlyTo = after.marks.filter(lacks(before));
  const equal =
    onlyFrom.length + onlyTo.length === 0 &&
    limits.every(({ quantity, from: a, to: b }) => !differs(quantity, a, b)) &&
    marks.every(({ from: a, to: b }) => !differs('timeS', a.timeS, b.timeS) && sameFuel(a, b));
  const changed = changedBetween(from, to);
  return {
    from: compared(from),
    to: compared(to),
    nothingChanged: changed.length === 0 && equal,
    changed,
    marks,
    onlyFrom,
    onlyTo,
    limits,
    ...inputs,
  };
}

function compared(plan: Plan): Compared {
  const { title, fingerprint, program, takeOff, validity, flyable, failure } = plan;
  return { title, fingerprint, program, takeOff, validity, flyable, failure };
}

function sameFuel(a: MarkChange['from'], b: MarkChange['from']): boolean {
  const inHand = a.inHandKg === null || b.inHandKg === null ? a.inHandKg === b.inHandKg : null;
  return (
    !differs('fuelKg', a.fuelKg, b.fuelKg) && (inHand ?? !differs('fuelKg', a.inHandKg ?? 0, b.inHandKg ?? 0))
  );
}

/** Inputs by their hashes, the program, and then what the plans say of them in words. */
function changedBetween(from: Plan, to: Plan): Changed[] {
  const inputs = inputsChanged(from.inputs, to.inputs);
  const said: Changed[] = [
    { what: 'program', from: from.program, to: to.program },
    { what: 'title', from: from.title, to: to.title },
    { what: 'aircraft', from: aircraftWords(from), to: aircraftWords(to) },
    { what: 'take-off', from: from.takeOff, to: to.takeOff },
    { what: 'valid from', from: from.validity.from, to: to.validity.from },
    { what: 'valid to', from: from.validity.to, to: to.validity.to },
    { what: 'day', from: from.weather.title, to: to.weather.title },
    { what: 'flyable', from: yesOrNo(from.flyable), to: yesOrNo(to.flyable) },
  ];
  return [...inputs, ...said.filter((one) => one.from !== one.to)];
}

function yesOrNo(flyable: boolean): string {
  return flyable ? 'yes' : 'no';
}

function aircraftWords({ aircraft }: Plan): string {
  return `${aircraft.name} ${aircraft.tail}, deck ${aircraft.edition}`;
}

/** The inputs of each role whose content is not the same. */
function inputsChanged(from: readonly PlanInput[], to: readonly PlanInput[]): Changed[] {
  const roles = [...new Set([...from, ...to].map(({ role }) => role))];
  return roles.flatMap((role) => {
    const [before, after] = [from, to].map((inputs) => inputs.filter((input) => input.role === role));
    const hashes = (inputs: readonly PlanInput[]): string => inputs.map(({ sha256 }) => sha256).join();
    if (hashes(before) === hashes(after)) return [];
    const names = (inputs: readonly PlanInput[]): string | null =>
      inputs.length === 0
        ? null
        : inputs.map(({ name, sha256 }) => `${name} (${sha256.slice(0, 8)})`).join(', ');
    return [{ what: role, from: names(before), to: names(after) }];
  });
}

function markChanges(from: Plan, to: Plan, before: Outcome, after: Outcome): MarkChange[] {
  return before.marks.flatMap((mark) => {
    const other = after.marks.find(({ key }) => key === mark.key);
    if (!other) return [];
    const { key, kind, name } = other;
    const inHandKg =
      mark.inHandKg === null || other.inHandKg === null ? null : other.inHandKg - mark.inHandKg;
    return [
      {
        key,
        kind,
        name,
        from: numbers(mark),
        to: numbers(other),
        change: { timeS: other.timeS - mark.timeS, fuelKg: other.fuelKg - mark.fuelKg, inHandKg },
        next: nextThere(from, mark.timeS, to, other.timeS),
      },
    ];
  });
}

function numbers({ timeS, fuelKg, inHandKg }: Mark): MarkChange['from'] {
  return { timeS, fuelKg, inHandKg };
}

/** The margin to the limit that is next at a moment of the new plan, and to the same limit at that of the old one. */
function nextThere(from: Plan, fromS: number, to: Plan, toS: number): MarginChange | null {
  const [a, b] = [nodeAt(from, fromS), nodeAt(to, toS)];
  if (a === null || b === null) return null;
  const limit = to.trace.next[b];
  const [before, after] = [from.trace.margins[limit]?.[a] ?? null, to.trace.margins[limit]?.[b] ?? null];
  const summary = to.limits.find(({ key }) => key === limit);
  if (before === null || after === null || !summary) return null;
  return { limit, quantity: summary.quantity, from: before, to: after, change: after - before };
}

/** Every event has its node; null before the first and after the last. */
function nodeAt({ trace }: Plan, timeS: number): number | null {
  const node = trace.columns.timeS.findIndex((time) => time >= timeS - 1e-3);
  return node < 0 || trace.columns.timeS[node] > timeS + 1 ? null : node;
}

function limitChanges(from: Outcome, to: Outcome): LimitChange[] {
  return to.limits.flatMap(({ key, name, quantity, leastMargin }) => {
    const before = from.limits.find((limit) => limit.key === key);
    if (!before) return [];
    const change = leastMargin - before.leastMargin;
    return [{ limit: key, name, quantity, from: before.leastMargin, to: leastMargin, change }];
  });
}
