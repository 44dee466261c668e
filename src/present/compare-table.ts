/** The difference of two plans as rows of numbers in SI: of each moment and limit the old, the new, and each cause's part. */
import type { Comparison, MarkChange } from '../core/plan/compare.ts';
import type { Plan } from '../core/plan/plan.ts';
import { placed } from './causes.ts';
import { eventName } from './names.ts';
import type { Column, Table } from './table.ts';

const word = (name: string): Column => ({ name, unit: '', align: 'left' });

/** `quantity` is the key of the number, with its SI unit; a number that was not computed is empty. */
export function comparisonTable(comparison: Comparison, plan: Plan): Table {
  const causes = comparison.split?.causes ?? [];
  const columns = [
    ...['at', 'what', 'quantity', 'old', 'new', 'change'],
    ...causes.flatMap(({ name }) => [name, `${name} alone`]),
    ...(causes.length > 0 ? ['interaction'] : []),
  ];
  const marks = comparison.marks.flatMap((mark) =>
    (['timeS', 'fuelKg', 'inHandKg'] as const).map((what) =>
      rowOf(comparison, {
        at: eventName(plan, placed(mark)),
        of: mark.key,
        what,
        quantity: what === 'timeS' ? 'timeS' : 'fuelKg',
        numbers: [mark.from[what], mark.to[what], mark.change[what]],
      }),
    ),
  );
  const limits = comparison.limits.map(({ limit, name, quantity, from, to, change }) =>
    rowOf(comparison, { at: name, of: limit, what: 'leastMargin', quantity, numbers: [from, to, change] }),
  );
  return { title: '', columns: columns.map(word), rows: [...marks, ...limits] };
}

interface Row {
  readonly at: string;
  readonly of: MarkChange['key'];
  readonly what: string;
  readonly quantity: string;
  readonly numbers: readonly (number | null)[];
}

function rowOf({ split }: Comparison, { at, of, what, quantity, numbers }: Row): string[] {
  const measure = split?.measures.find((one) => one.of === of && one.what === what);
  const parts = (split?.causes ?? []).flatMap(({ key }) => {
    const part = measure?.causes.find(({ cause }) => cause === key);
    return [part?.change ?? null, part?.alone ?? null];
  });
  const left = (split?.causes.length ?? 0) > 0 ? [measure?.interaction ?? null] : [];
  return [at, what, quantity, ...[...numbers, ...parts, ...left].map(digits)];
}

/** Nine digits, as in a plan file. */
function digits(value: number | null): string {
  return value === null ? '' : String(Number(value.toPrecision(9)));
}
