/** The stepper against the public integrator odex, on the minimal model of the benchmark interceptor, at equal error at the end. */
import { createRequire } from 'node:module';
import { Stepper, type System } from '../src/core/numerics/stepper.ts';
import { keep, line, nanoseconds } from './support/clock.ts';
import { durationS, minimalDerivative, start } from './support/minimal.ts';

/** What is used of odex. */
interface OdexSolver {
  relativeTolerance: number;
  absoluteTolerance: number | number[];
  solve(f: (t: number, y: number[]) => number[], t0: number, y0: number[], t1: number): { y: number[] };
}

/** Loaded as the CommonJS module that it is: the loader of this run would take the TypeScript file that lies beside it. */
const { Solver } = createRequire(import.meta.url)('odex') as { Solver: new (size: number) => OdexSolver };

const system: System = { size: 5, derivative: minimalDerivative };
/** What an error is measured against: metres, metres, m/s, rad, kg. */
const scales = [1e4, 1e4, 300, 0.1, 1e4];
const stepper = new Stepper(5);
const state = new Float64Array(5);

function ours(tolerance: number): ArrayLike<number> {
  state.set(start);
  const control = { relative: 0, absolute: scales.map((scale) => tolerance * scale) };
  stepper.run(system, 0, state, durationS, control);
  return state;
}

function theirs(tolerance: number): ArrayLike<number> {
  const solver = new Solver(5);
  solver.relativeTolerance = 1e-300;
  solver.absoluteTolerance = scales.map((scale) => tolerance * scale);
  const rates = new Float64Array(5);
  return solver.solve(
    (t: number, y: number[]) => {
      minimalDerivative(t, y, rates);
      return Array.from(rates);
    },
    0,
    [...start],
    durationS,
  ).y;
}

interface Point {
  readonly error: number;
  readonly timeS: number;
}

function measure(solve: (tolerance: number) => ArrayLike<number>, truth: ArrayLike<number>): Point[] {
  const points: Point[] = [];
  for (let power = 3; power <= 11; power += 0.5) {
    const tolerance = 10 ** -power;
    const end = solve(tolerance);
    const error = Math.max(...scales.map((scale, i) => Math.abs(end[i] - truth[i]) / scale));
    const time = nanoseconds(20, (count) => {
      for (let i = 0; i < count; i++) keep(solve(tolerance)[0]);
    });
    points.push({ error, timeS: time * 1e-9 });
  }
  return points;
}

/** Least time of all runs that were at least so right. */
function timeFor(points: readonly Point[], error: number): number {
  return Math.min(...points.filter((point) => point.error <= error).map((point) => point.timeS));
}

export function bench(): void {
  const truth = Float64Array.from(ours(1e-14));
  const check = theirs(1e-13);
  const apart = Math.max(...scales.map((scale, i) => Math.abs(check[i] - truth[i]) / scale));
  line(
    'odex and the stepper at their finest differ by',
    apart.toExponential(1),
    'of the scale of each state',
  );
  const own = measure(ours, truth);
  const other = measure(theirs, truth);
  for (const error of [1e-4, 1e-5, 1e-6, 1e-7, 1e-8]) {
    const a = timeFor(own, error);
    const b = timeFor(other, error);
    const times = `${(a * 1e6).toFixed(0)} us against ${(b * 1e6).toFixed(0)} us`;
    line(`odex / stepper, time for an error of ${error.toExponential(0)}`, (b / a).toFixed(1), times);
  }
}
