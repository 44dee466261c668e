/** Errors of one subject, gathered by quantity and held against their tolerances. */
import type { PublishedTable } from './csv.ts';

/** A tolerance in the measure of its quantity, with the physical or numerical reason for it. */
export interface Tolerance {
  readonly mean: number;
  readonly max: number;
  readonly reason: string;
}

/** The tolerance of values printed with a number of digits: half of the last, most where the first is 1, and the input's. */
export function printedTo(digits: number): Tolerance {
  const last = 10 ** (1 - digits);
  return { mean: 0.5 * last, max: last, reason: `the file prints ${digits} digits` };
}

export interface CheckResult {
  readonly subject: string;
  readonly quantity: string;
  /** In what the errors are given: 'relative', 'last digit' or a unit. */
  readonly measure: string;
  readonly rows: number;
  readonly mean: number;
  readonly max: number;
  readonly tolerance: Tolerance;
  /** The row of the greatest error. */
  readonly worst: string;
  readonly passed: boolean;
  /** No row of the file has the quantity: a fault in the project's own data, no fault in another folder. */
  readonly absent?: true;
}

/** One file of published values and the comparison with it; throws `MissingFile` where the folder has no such file. */
export interface Check {
  readonly name: string;
  readonly check: (directory: string) => CheckResult[] | Promise<CheckResult[]>;
}

interface Gathered {
  readonly measure: string;
  rows: number;
  sum: number;
  max: number;
  worst: string;
}

export class Tally {
  private readonly subject: string;
  private readonly gathered = new Map<string, Gathered>();

  constructor(subject: string) {
    this.subject = subject;
  }

  /**
   * Adds one comparison. `compute` runs only where a value is published; what it throws, and NaN, count as an infinite
   * error. `scale` divides the difference: the published value itself makes a relative error.
   */
  add(
    quantity: string,
    measure: string,
    published: number | null,
    compute: () => number,
    scale: number,
    row: string,
  ): void {
    if (published === null) return;
    let error = Number.POSITIVE_INFINITY;
    let note = '';
    try {
      const difference = Math.abs(compute() - published);
      error = difference === 0 ? 0 : difference / Math.abs(scale);
      if (Number.isNaN(error)) error = Number.POSITIVE_INFINITY;
    } catch (fault) {
      note = `: ${fault instanceof Error ? fault.message : String(fault)}`;
    }
    const entry = this.gathered.get(quantity) ?? { measure, rows: 0, sum: 0, max: -1, worst: '' };
    entry.rows++;
    entry.sum += error;
    if (error > entry.max) {
      entry.max = error;
      entry.worst = `${row}${note}`;
    }
    this.gathered.set(quantity, entry);
  }

  relative(quantity: string, published: number | null, compute: () => number, row: string): void {
    this.add(quantity, 'relative', published, compute, published ?? 1, row);
  }

  absolute(
    quantity: string,
    unit: string,
    published: number | null,
    compute: () => number,
    row: string,
  ): void {
    this.add(quantity, unit, published, compute, 1, row);
  }

  /**
   * The results against the table of tolerances. A quantity of the table that no row has is `absent`; a quantity without
   * tolerance and a column that nothing was compared with are failures.
   */
  results(tolerances: Readonly<Record<string, Tolerance>>, table?: PublishedTable): CheckResult[] {
    const results: CheckResult[] = [];
    for (const [quantity, tolerance] of Object.entries(tolerances)) {
      const entry = this.gathered.get(quantity);
      if (!entry) {
        results.push({ ...this.failure(quantity, 'no row of the file has it', tolerance), absent: true });
        continue;
      }
      const mean = entry.sum / entry.rows;
      const passed = mean <= tolerance.mean && entry.max <= tolerance.max;
      const { measure, rows, max, worst } = entry;
      results.push({ subject: this.subject, quantity, measure, rows, mean, max, tolerance, worst, passed });
    }
    for (const quantity of this.gathered.keys()) {
      if (!(quantity in tolerances)) results.push(this.failure(quantity, 'has no tolerance'));
    }
    for (const column of table?.unread() ?? [])
      results.push(this.failure(column, 'the column is not compared'));
    return results;
  }

  private failure(
    quantity: string,
    reason: string,
    tolerance = { mean: 0, max: 0, reason: '' },
  ): CheckResult {
    const none = Number.POSITIVE_INFINITY;
    const { subject } = this;
    return {
      subject,
      quantity,
      measure: '',
      rows: 0,
      mean: none,
      max: none,
      tolerance,
      worst: reason,
      passed: false,
    };
  }
}
