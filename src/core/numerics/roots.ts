/** Roots of a function of one variable, between two points where it has opposite signs. Failure is a value, not an exception. */

export interface Root {
  /** The root, or the last iterate where `found` is false. */
  readonly x: number;
  /** f(x). */
  readonly residual: number;
  readonly evaluations: number;
  readonly found: boolean;
  /** Why not, in words; empty where found. */
  readonly reason: string;
}

/**
 * Brent's method (Algorithms for Minimization without Derivatives, 1973, chapter 4). Ends where the bracket is shorter than
 * `tolerance` or f is 0; fails where f has the same sign at both ends, is not a number, or after `most` evaluations.
 */
export function brent(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
  most = 100,
): Root {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (!(fa * fb <= 0)) {
    const [x, residual] = Math.abs(fa) < Math.abs(fb) ? [a, fa] : [b, fb];
    return {
      x,
      residual,
      evaluations: 2,
      found: false,
      reason: `no change of sign between ${low} and ${high}`,
    };
  }
  let c = a;
  let fc = fa;
  let step = b - a;
  let before = step;
  for (let evaluations = 2; ; evaluations++) {
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const least = 2 * Number.EPSILON * Math.abs(b) + 0.5 * tolerance;
    const half = 0.5 * (c - b);
    if (fb === 0 || Math.abs(half) <= least)
      return { x: b, residual: fb, evaluations, found: true, reason: '' };
    if (evaluations >= most || Number.isNaN(fb)) {
      const reason = Number.isNaN(fb) ? `not a number at ${b}` : `not found in ${most} evaluations`;
      return { x: b, residual: fb, evaluations, found: false, reason };
    }
    const trial =
      Math.abs(before) >= least && Math.abs(fa) > Math.abs(fb) ? interpolated(a, fa, b, fb, c, fc) : half;
    const accepted =
      Math.abs(2 * trial) < Math.min(Math.abs(3 * half) - least, Math.abs(before)) && trial * half > 0;
    before = accepted ? step : half;
    step = accepted ? trial : half;
    a = b;
    fa = fb;
    b += Math.abs(step) > least ? step : Math.sign(half) * least;
    fb = f(b);
    if (fb * fc > 0) {
      c = a;
      fc = fa;
      step = b - a;
      before = step;
    }
  }
}

/** Step from b by inverse quadratic interpolation, or by the secant where only two points differ. */
function interpolated(a: number, fa: number, b: number, fb: number, c: number, fc: number): number {
  const s = fb / fa;
  if (a === c) return ((b - c) * s) / (1 - s);
  const q = fa / fc;
  const r = fb / fc;
  const p = s * ((c - b) * q * (q - r) - (b - a) * (r - 1));
  return -p / ((q - 1) * (r - 1) * (s - 1));
}

/**
 * Secant steps from two guesses, kept between `low` and `high` and inside the bracket as soon as one is known: for functions
 * that are costly and nearly linear. Ends where |f| <= `residual`, or fails after `most` evaluations.
 */
export function secant(
  f: (x: number) => number,
  first: number,
  second: number,
  residual: number,
  low: number,
  high: number,
  most = 20,
): Root {
  let a = first;
  let fa = f(a);
  if (Math.abs(fa) <= residual) return { x: a, residual: fa, evaluations: 1, found: true, reason: '' };
  let b = second;
  let below = Number.NaN;
  let above = Number.NaN;
  for (let evaluations = 2; ; evaluations++) {
    const fb = f(b);
    if (Math.abs(fb) <= residual) return { x: b, residual: fb, evaluations, found: true, reason: '' };
    if (evaluations >= most || Number.isNaN(fb)) {
      const reason = Number.isNaN(fb) ? `not a number at ${b}` : `not found in ${most} evaluations`;
      return { x: b, residual: fb, evaluations, found: false, reason };
    }
    if (fa * fb < 0) {
      below = Math.min(a, b);
      above = Math.max(a, b);
    } else if (below === a) below = b;
    else if (above === a) above = b;
    let next = b - (fb * (b - a)) / (fb - fa);
    const floor = Number.isNaN(below) ? low : below;
    const ceiling = Number.isNaN(above) ? high : above;
    if (!(next >= floor && next <= ceiling)) {
      next = Number.isNaN(below) ? Math.min(Math.max(next, low), high) : 0.5 * (floor + ceiling);
    }
    if (next === b || Number.isNaN(next)) {
      return {
        x: b,
        residual: fb,
        evaluations,
        found: false,
        reason: `stopped at ${b}, the edge of what is allowed`,
      };
    }
    a = b;
    fa = fb;
    b = next;
  }
}
