/**
 * Tables over one, two or three axes, piecewise linear, refusing beyond their ends: a look-up gives the value at the
 * nearest edge and a mark, and the caller decides what the mark means.
 *
 * An `Axis` is searched once (`find`) and serves every table built on it, so that thrust and fuel flow share the work. It
 * remembers its cell, which makes a look-up near the last one a comparison of two numbers. Nothing is allocated after
 * construction.
 */

/** Strictly increasing points, and where the value last searched for lies among them. */
export class Axis {
  readonly points: Float64Array;
  /** Cell of the value last found: between points `cell` and `cell + 1`. */
  cell = 0;
  /** Place within the cell, 0 to 1. */
  weight = 0.5;
  /** 0 inside; -1 below the first point, 1 above the last or not a number. */
  outside = 0;

  /** @throws RangeError for fewer than two points, or points that do not increase. */
  constructor(points: ArrayLike<number>) {
    this.points = Float64Array.from(points);
    if (this.points.length < 2) throw new RangeError(`an axis needs two points, not ${this.points.length}`);
    for (let i = 1; i < this.points.length; i++) {
      if (!(this.points[i] > this.points[i - 1])) {
        throw new RangeError(`an axis must increase: ${this.points[i]} follows ${this.points[i - 1]}`);
      }
    }
  }

  get first(): number {
    return this.points[0];
  }

  get last(): number {
    return this.points[this.points.length - 1];
  }

  /** Sets `cell`, `weight` and `outside` for a value; returns `outside`. */
  find(value: number): number {
    const points = this.points;
    let cell = this.cell;
    if (!(value >= points[cell] && value <= points[cell + 1])) {
      if (!(value >= points[0])) return this.setEdge(value < points[0] ? -1 : 1);
      if (value > points[points.length - 1]) return this.setEdge(1);
      cell = search(points, value);
      this.cell = cell;
    }
    this.weight = (value - points[cell]) / (points[cell + 1] - points[cell]);
    this.outside = 0;
    return 0;
  }

  private setEdge(outside: -1 | 1): number {
    this.cell = outside < 0 ? 0 : this.points.length - 2;
    this.weight = outside < 0 ? 0 : 1;
    this.outside = outside;
    return outside;
  }
}

function search(points: Float64Array, value: number): number {
  let low = 0;
  let high = points.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (value >= points[middle]) low = middle;
    else high = middle;
  }
  return low;
}

function checked(values: ArrayLike<number>, size: number): Float64Array {
  if (values.length !== size) throw new RangeError(`a table of ${size} points has ${values.length} values`);
  const copy = Float64Array.from(values);
  for (let i = 0; i < size; i++) {
    if (!Number.isFinite(copy[i])) throw new RangeError(`value ${i} of a table is ${copy[i]}`);
  }
  return copy;
}

/** One value for each point of an axis. */
export class Table1 {
  readonly axis: Axis;
  readonly values: Float64Array;

  /** @throws RangeError where the number of values is not that of the points, or a value is not finite. */
  constructor(axis: Axis, values: ArrayLike<number>) {
    this.axis = axis;
    this.values = checked(values, axis.points.length);
  }

  /** Value at what the axis last found. */
  value(): number {
    const { cell, weight } = this.axis;
    const low = this.values[cell];
    return low + weight * (this.values[cell + 1] - low);
  }

  /** Searches the axis, then `value`; `axis.outside` tells whether the edge was used. */
  at(x: number): number {
    this.axis.find(x);
    return this.value();
  }
}

/** Values over two axes, the second running fastest. Bilinear. */
export class Table2 {
  readonly a: Axis;
  readonly b: Axis;
  readonly values: Float64Array;
  private readonly stride: number;

  /** @throws RangeError as `Table1`. */
  constructor(a: Axis, b: Axis, values: ArrayLike<number>) {
    this.a = a;
    this.b = b;
    this.stride = b.points.length;
    this.values = checked(values, a.points.length * this.stride);
  }

  value(): number {
    const { values, stride } = this;
    const wb = this.b.weight;
    const i = this.a.cell * stride + this.b.cell;
    const j = i + stride;
    const low = values[i] + wb * (values[i + 1] - values[i]);
    const high = values[j] + wb * (values[j + 1] - values[j]);
    return low + this.a.weight * (high - low);
  }

  at(x: number, y: number): number {
    this.a.find(x);
    this.b.find(y);
    return this.value();
  }
}

/** Values over three axes, the third running fastest. Trilinear. */
export class Table3 {
  readonly a: Axis;
  readonly b: Axis;
  readonly c: Axis;
  readonly values: Float64Array;
  private readonly strideA: number;
  private readonly strideB: number;

  /** @throws RangeError as `Table1`. */
  constructor(a: Axis, b: Axis, c: Axis, values: ArrayLike<number>) {
    this.a = a;
    this.b = b;
    this.c = c;
    this.strideB = c.points.length;
    this.strideA = b.points.length * this.strideB;
    this.values = checked(values, a.points.length * this.strideA);
  }

  value(): number {
    const { values, strideB } = this;
    const wb = this.b.weight;
    const wc = this.c.weight;
    const i = this.a.cell * this.strideA + this.b.cell * strideB + this.c.cell;
    const j = i + this.strideA;
    const i0 = values[i] + wc * (values[i + 1] - values[i]);
    const i1 = values[i + strideB] + wc * (values[i + strideB + 1] - values[i + strideB]);
    const j0 = values[j] + wc * (values[j + 1] - values[j]);
    const j1 = values[j + strideB] + wc * (values[j + strideB + 1] - values[j + strideB]);
    const low = i0 + wb * (i1 - i0);
    const high = j0 + wb * (j1 - j0);
    return low + this.a.weight * (high - low);
  }

  at(x: number, y: number, z: number): number {
    this.a.find(x);
    this.b.find(y);
    this.c.find(z);
    return this.value();
  }
}

/**
 * A monotone cubic through the points of an axis: no overshoot between points, continuous slope. Slopes by Fritsch and
 * Butland's weighted harmonic mean (SIAM J. Sci. Stat. Comput. 5, 1984), one-sided three-point at the ends (Moler, Numerical
 * Computing with MATLAB, section 3.4, from memory).
 */
export class MonotoneCubic {
  readonly axis: Axis;
  readonly values: Float64Array;
  private readonly slopes: Float64Array;

  /** @throws RangeError as `Table1`. */
  constructor(axis: Axis, values: ArrayLike<number>) {
    this.axis = axis;
    this.values = checked(values, axis.points.length);
    this.slopes = monotoneSlopes(axis.points, this.values);
  }

  value(): number {
    const { cell, weight: t, points } = this.axis;
    const h = points[cell + 1] - points[cell];
    const y0 = this.values[cell];
    const y1 = this.values[cell + 1];
    const s = 1 - t;
    const bend = s * this.slopes[cell] - t * this.slopes[cell + 1];
    return y0 + t * t * (3 - 2 * t) * (y1 - y0) + t * s * h * bend;
  }

  at(x: number): number {
    this.axis.find(x);
    return this.value();
  }
}

function monotoneSlopes(x: Float64Array, y: Float64Array): Float64Array {
  const n = x.length;
  const slopes = new Float64Array(n);
  const h = (i: number) => x[i + 1] - x[i];
  const d = (i: number) => (y[i + 1] - y[i]) / h(i);
  if (n === 2) return slopes.fill(d(0));
  for (let i = 1; i < n - 1; i++) {
    const before = d(i - 1);
    const after = d(i);
    if (before * after <= 0) continue;
    const w1 = 2 * h(i) + h(i - 1);
    const w2 = h(i) + 2 * h(i - 1);
    slopes[i] = (w1 + w2) / (w1 / before + w2 / after);
  }
  slopes[0] = endSlope(h(0), h(1), d(0), d(1));
  slopes[n - 1] = endSlope(h(n - 2), h(n - 3), d(n - 2), d(n - 3));
  return slopes;
}

function endSlope(h0: number, h1: number, d0: number, d1: number): number {
  const slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
  if (slope * d0 <= 0) return 0;
  if (d0 * d1 < 0 && Math.abs(slope) > 3 * Math.abs(d0)) return 3 * d0;
  return slope;
}
