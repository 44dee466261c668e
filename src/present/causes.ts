/** The causes of a difference between two plans in words and figures, as text and drawings show them. */
import type { Measure, Split } from '../core/plan/causes.ts';
import type { Comparison, MarkChange } from '../core/plan/compare.ts';
import type { Mark } from '../core/plan/outcome.ts';
import type { Plan } from '../core/plan/plan.ts';
import { signed, signedTime } from './change.ts';
import { eventName, limitName, lowerFirst, upperFirst } from './names.ts';
import { fuelDifference } from './sentences.ts';
import { hoursMinutesSeconds } from './time.ts';
import { gaugesOf, type Margin, margin, NOT_COMPUTED } from './units.ts';

/** Where one thing has to be enough for the next. */
export function decides({ kind }: Pick<MarkChange, 'kind'>): boolean {
  return kind === 'contact' || kind === 'landing';
}

/** A landing is named by what it is, not by its base. */
export function placed({ kind, name }: Pick<MarkChange, 'kind' | 'name'>): { kind: string; name: string } {
  return { kind, name: kind === 'landing' ? 'landing' : name };
}

/** How no change reads. */
const nothing = ['0', '0:00'];

/** The numbers that decide and change by what can be read, each with its causes. */
export function headlines({ marks, limits }: Comparison, split: Split, plan: Plan): readonly Measure[] {
  const deciding = marks.filter(decides).map(({ key }) => key);
  const landing = marks.findLast(({ kind }) => kind === 'landing')?.key;
  const nearest = limits.at(0)?.limit;
  const decisive = split.measures.filter(
    ({ of, what }) =>
      (what === 'inHandKg' && deciding.includes(of)) ||
      (what === 'timeS' && of === landing) ||
      (what === 'leastMargin' && of === nearest),
  );
  return decisive.filter((measure) =>
    measure.causes.some(({ change }) => !nothing.includes(changeText(plan, measure, change))),
  );
}

export function measureName({ marks }: Comparison, plan: Plan, { of, what }: Measure): string {
  if (what === 'leastMargin') return `Least margin: ${lowerFirst(limitName(plan, of))}`;
  const mark = marks.find(({ key }) => key === of);
  const name = mark ? eventName(plan, placed(mark)) : of;
  if (what === 'timeS') return `Time of ${name} since take-off`;
  return `${what === 'inHandKg' ? 'Fuel in hand' : 'Fuel on board'} at ${name}`;
}

/** A cause's words and figures; `change` and `alone` are in the measure's quantity. */
export interface CauseRow {
  readonly name: string;
  readonly change: number;
  readonly changeText: string;
  readonly aloneText: string;
}

/**
 * The causes of a number, the greatest first, without those that change nothing of it; causes that could not be told apart
 * stand as one ("weather and aircraft").
 */
export function ranked(split: Split, measure: Measure, plan: Plan): readonly CauseRow[] {
  const rows: CauseRow[] = [];
  let names: string[] = [];
  for (const { cause, change, alone } of measure.causes) {
    names.push(causeName(split, cause));
    if (change === null) continue;
    rows.push({
      name: names.join(' and '),
      change,
      changeText: changeText(plan, measure, change),
      aloneText: changeText(plan, measure, names.length > 1 ? null : alone),
    });
    names = [];
  }
  return rows
    .filter(({ changeText: figure, aloneText }) => !nothing.includes(figure) || !nothing.includes(aloneText))
    .sort((a, b) => Math.abs(b.change) - Math.abs(a.change));
}

function causeName(split: Split, key: string): string {
  return split.causes.find((cause) => cause.key === key)?.name ?? key;
}

/** What is in hand, as the figures of fuel on board and required beside it add up. */
export function inHandMargin(plan: Plan, { fuelKg, inHandKg }: Pick<Mark, 'fuelKg' | 'inHandKg'>): Margin {
  return fuelDifference(gaugesOf(plan)('fuelKg'), fuelKg, inHandKg === null ? null : fuelKg - inHandKg);
}

export function changeText(plan: Plan, { what, quantity }: Measure, si: number | null): string {
  if (si === null) return NOT_COMPUTED;
  return what === 'timeS' ? signedTime(si) : signed(gaugesOf(plan)(quantity), si);
}

export function measureUnit(plan: Plan, { what, quantity }: Measure): string {
  return what === 'timeS' ? 'min:s' : gaugesOf(plan)(quantity).differenceUnit;
}

/** "6 010 to 5 210 kg, −800". */
export function measureSpan({ marks }: Comparison, plan: Plan, measure: Measure): string {
  const { of, what, quantity, from, to, change } = measure;
  const total = changeText(plan, measure, change);
  if (what === 'timeS') return `${hoursMinutesSeconds(from)} to ${hoursMinutesSeconds(to)}, ${total}`;
  const mark = what === 'inHandKg' ? marks.find(({ key }) => key === of) : undefined;
  const [before, after] = mark
    ? [inHandMargin(plan, mark.from), inHandMargin(plan, mark.to)]
    : [from, to].map((si) => margin(gaugesOf(plan)(quantity), si));
  return `${before.figure} to ${after.text}, ${total}`;
}

/** Whether what the causes moved alone leave over is more than a hundredth of the whole. */
export function interacts({ interaction, change }: Measure): boolean {
  return interaction !== null && Math.abs(interaction) > 0.01 * Math.abs(change);
}

/** In which order the inputs were moved, whether the causes add up, and which of them ends the flight. */
export function orderSentences(split: Split, measures: readonly Measure[]): readonly string[] {
  const list = split.causes.map(({ name }) => name).join(', ');
  const apart = measures.some(interacts);
  const told = measures.every(({ interaction }) => interaction !== null);
  const alone = apart
    ? 'moved each alone they do not: what is left over stands as interaction'
    : 'moved each alone they do so within 1 %';
  const sums = split.causes.length < 2 ? '' : told ? `; ${alone}` : '; not every one could be moved alone';
  const ends = split.causes.find(
    ({ flyable }, i) => flyable === false && split.causes[i - 1]?.flyable !== false,
  );
  const sentence = `By cause, moved from old to new one after the other: ${list}. In this order they add up to the whole${sums}.`;
  return ends ? [sentence, `${upperFirst(ends.name)}: from there on it cannot be flown.`] : [sentence];
}
