/** What the reader of a file of gridded weather is asked, and what it answers, whatever the format. */

/** What part of a file is needed; the nodes around it are read too, so that it can be interpolated. */
export interface WeatherWindow {
  readonly southRad: number;
  readonly northRad: number;
  readonly westRad: number;
  readonly eastRad: number;
  readonly fromS: number;
  readonly toS: number;
}

/** One field of a file, for the table that `ramrise day FILE` prints. */
export interface WeatherVariable {
  readonly role: FieldRole;
  readonly name: string;
  readonly units: string;
}

export interface WeatherDescription {
  readonly file: string;
  /** Of an ensemble; none where the file is of no ensemble. */
  readonly members: readonly number[];
  readonly timesS: readonly number[];
  readonly pressuresPa: readonly number[];
  readonly latitudesDeg: readonly number[];
  readonly longitudesDeg: readonly number[];
  readonly variables: readonly WeatherVariable[];
  readonly attribution: readonly string[];
}

/** The four quantities of a gridded day. */
export type FieldRole = 'temperature' | 'geopotential' | 'windEast' | 'windNorth';

/** Indices [from, to). */
export type Range = readonly [number, number];

/** The nodes from `low` to `high` and their neighbours on an axis that runs one way. */
export function around(values: Float64Array, low: number, high: number): Range | null {
  let first = values.length;
  let last = -1;
  const rising = values.length < 2 || values[1] > values[0];
  for (let i = 0; i < values.length; i++) {
    if (rising ? values[i] <= low : values[i] >= high) first = i;
    if (last < 0 && (rising ? values[i] >= high : values[i] <= low)) last = i;
  }
  if (first === values.length) first = 0;
  if (last < 0) last = values.length - 1;
  return [Math.max(first - 1, 0), Math.min(last + 2, values.length)];
}

/**
 * As `around` for longitudes; null, the whole axis, where the window does not lie in one piece of it. A window may reach
 * beyond an axis that is not the whole turn.
 */
export function aroundTurn(values: Float64Array, west: number, east: number): Range | null {
  const turn = 2 * Math.PI;
  const low = Math.min(values[0], values[values.length - 1]);
  const high = Math.max(values[0], values[values.length - 1]);
  const whole = (high - low) * (1 + 1 / (values.length - 1)) > turn - 1e-6;
  const pieces = [0, turn, -turn]
    .map((shift) => [west + shift, east + shift])
    .filter(([from, to]) => (whole ? from >= low && to <= high : from <= high && to >= low));
  if (pieces.length !== 1) return null;
  const [[from, to]] = pieces;
  return around(values, Math.max(from, low), Math.min(to, high));
}
