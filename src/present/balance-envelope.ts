/** The centre of gravity of a flight against Mach, between its limits. */
import type { Plan } from '../core/plan/plan.ts';

/** In fractions of the mean chord, node by node; limits by rising Mach. */
export interface BalanceEnvelope {
  readonly mach: readonly number[];
  readonly cgFraction: readonly number[];
  readonly limits: readonly {
    readonly name: string;
    readonly mach: readonly number[];
    readonly bound: readonly number[];
  }[];
}

/** Bounds nearer together in Mach than this are one point of their line. */
const APART = 0.01;

/** null where no centre of gravity is known. */
export function balanceEnvelope({ trace, limits }: Plan): BalanceEnvelope | null {
  const { mach, cgFraction } = trace.columns;
  if (mach.length < 2 || cgFraction.some((value) => value === null || Number.isNaN(value))) return null;
  const order = mach.map((_, node) => node).sort((a, b) => mach[a] - mach[b]);
  const apart = order.filter(
    (node, i) => i === 0 || Math.floor(mach[node] / APART) > Math.floor(mach[order[i - 1]] / APART),
  );
  return {
    mach,
    cgFraction,
    limits: limits
      .filter(({ quantity }) => quantity === 'cgFraction')
      .map(({ key, name }) => ({
        name,
        mach: apart.map((node) => mach[node]),
        bound: apart.map((node) => trace.bounds[key][node]),
      })),
  };
}
