/** The least value of a function of one variable between two points. */

export interface Optimum {
  readonly x: number;
  readonly value: number;
  readonly evaluations: number;
}

/** 2 - golden ratio. */
const GOLDEN = 0.3819660112501051;

/**
 * Brent's minimum (Algorithms for Minimization without Derivatives, 1973, chapter 5): golden sections and parabolas. Right to
 * `tolerance` in x for a function with one minimum in the interval (a smooth one is flat there: nothing below about
 * 1e-8 of x can be told); else a local minimum, the ends included. +Infinity marks forbidden x.
 */
export function minimise(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
  most = 100,
): Optimum {
  let a = low;
  let b = high;
  let x = a + GOLDEN * (b - a);
  let w = x;
  let v = x;
  let fx = f(x);
  let fw = fx;
  let fv = fx;
  let step = 0;
  let before = 0;
  let evaluations = 1;
  while (evaluations < most) {
    const middle = 0.5 * (a + b);
    const least = 1e-10 * Math.abs(x) + tolerance / 3;
    if (Math.abs(x - middle) <= 2 * least - 0.5 * (b - a)) break;
    const parabola = parabolaStep(x, fx, w, fw, v, fv);
    const inside = x + parabola > a && x + parabola < b;
    if (Math.abs(before) > least && inside && Math.abs(parabola) < 0.5 * Math.abs(before)) {
      before = step;
      step = parabola;
    } else {
      before = (x < middle ? b : a) - x;
      step = GOLDEN * before;
    }
    const u = x + (Math.abs(step) >= least ? step : Math.sign(step || 1) * least);
    const fu = f(u);
    evaluations++;
    if (fu <= fx) {
      if (u < x) b = x;
      else a = x;
      v = w;
      fv = fw;
      w = x;
      fw = fx;
      x = u;
      fx = fu;
    } else {
      if (u < x) a = u;
      else b = u;
      if (fu <= fw || w === x) {
        v = w;
        fv = fw;
        w = u;
        fw = fu;
      } else if (fu <= fv || v === x || v === w) {
        v = u;
        fv = fu;
      }
    }
  }
  return atBestEnd(f, low, high, tolerance, { x, value: fx, evaluations });
}

/** Step from x to the lowest point of the parabola through three points; NaN or infinite where there is none. */
function parabolaStep(x: number, fx: number, w: number, fw: number, v: number, fv: number): number {
  const r = (x - w) * (fx - fv);
  const q = (x - v) * (fx - fw);
  return -((x - v) * q - (x - w) * r) / (2 * (q - r));
}

/** The method never reaches an end: looks there where the minimum lies beside one. */
function atBestEnd(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
  found: Optimum,
): Optimum {
  const end = found.x - low < 3 * tolerance ? low : high - found.x < 3 * tolerance ? high : Number.NaN;
  if (Number.isNaN(end)) return found;
  const value = f(end);
  const evaluations = found.evaluations + 1;
  return value <= found.value ? { x: end, value, evaluations } : { ...found, evaluations };
}
