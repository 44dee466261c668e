/** One axis of a grid: where a value lies between its nodes. */

export interface Axis {
  /** Ascending nodes. */
  readonly values: Float64Array;
  /** Where the data of a node begin, counted in values of the field. */
  readonly offsets: Int32Array;
  readonly count: number;
  /** The cell of the last look-up, its width, and the place in it from 0 to 1. */
  cell: number;
  width: number;
  fraction: number;
}

/**
 * The axis of nodes that run one way, up or down; `stride` is the step in the data from one node to the next. A cyclic
 * axis is in radians: it may pass a full turn once, and one that goes round the globe is closed.
 */
export function makeAxis(name: string, nodes: Float64Array, stride: number, cyclic: boolean): Axis {
  const ascending = cyclic ? unwrapped(nodes) : Float64Array.from(nodes);
  const falling = ascending.length > 1 && ascending[1] < ascending[0];
  const offsets = Int32Array.from(ascending, (_, i) => i * stride);
  if (falling) {
    ascending.reverse();
    offsets.reverse();
  }
  for (let i = 1; i < ascending.length; i++) {
    if (!(ascending[i] > ascending[i - 1])) throw new Error(`the ${name}s of the grid do not run one way`);
  }
  if (!cyclic || !closes(ascending)) return axisOf(ascending, offsets);
  const values = Float64Array.of(...ascending, ascending[0] + 2 * Math.PI);
  return axisOf(values, Int32Array.of(...offsets, offsets[0]));
}

function axisOf(values: Float64Array, offsets: Int32Array): Axis {
  const width = values.length > 1 ? values[1] - values[0] : 1;
  return { values, offsets, count: values.length, cell: 0, width, fraction: 0 };
}

/** Angles without their jumps of a full turn. */
function unwrapped(angles: Float64Array): Float64Array {
  const turn = 2 * Math.PI;
  const out = Float64Array.from(angles);
  for (let i = 1; i < out.length; i++) {
    const step = out[i] - out[i - 1];
    out[i] = out[i - 1] + step - turn * Math.round(step / turn);
  }
  return out;
}

/** Whether one more step of the axis's own width completes the turn, to a hundredth of the step. */
function closes(values: Float64Array): boolean {
  const count = values.length;
  if (count < 3) return false;
  const step = (values[count - 1] - values[0]) / (count - 1);
  return Math.abs(values[count - 1] + step - values[0] - 2 * Math.PI) < 0.01 * step;
}

/** Finds the cell and fraction of a value within the axis; starts from the last cell, since flights go on from there. */
export function locate(axis: Axis, value: number): void {
  const { values, count } = axis;
  if (count === 1) return;
  let cell = axis.cell;
  if (value < values[cell] || value > values[cell + 1]) {
    if (cell > 0 && value >= values[cell - 1] && value <= values[cell]) cell--;
    else if (cell + 2 < count && value >= values[cell + 1] && value <= values[cell + 2]) cell++;
    else cell = search(values, value);
    axis.cell = cell;
    axis.width = values[cell + 1] - values[cell];
  }
  axis.fraction = (value - values[cell]) / axis.width;
}

function search(values: Float64Array, value: number): number {
  let low = 0;
  let high = values.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (value < values[middle]) high = middle;
    else low = middle;
  }
  return low;
}
