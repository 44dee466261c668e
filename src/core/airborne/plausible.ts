/** Whether a reading can be what it says, and if not, what slip of hand or unit would explain it. Nothing is corrected here: it is asked. */
import { calibratedAirspeed, equivalentAirspeed } from '../air/airdata.ts';
import { standardPressure } from '../air/standard.ts';
import type { Expected } from './expectation.ts';
import type { Entry, ReadKey } from './reading.ts';

export interface Suspicion {
  /** 'transposed' digits, 'unit', 'decimal' point, 'kind' of speed, or null where no slip explains it. */
  readonly slip: 'transposed' | 'unit' | 'decimal' | 'kind' | null;
  /** What it would be without the slip, in SI; null where none explains it. */
  readonly meant: number | null;
  /** In words: "lb", "knots". */
  readonly as: string | null;
}

export interface Question extends Suspicion {
  readonly entry: Entry;
  readonly expected: number;
  /** How far from what is expected it may lie before it is asked about. */
  readonly within: number;
}

const pound = 0.45359237;
const foot = 0.3048;
const knot = 1852 / 3600;

interface Slip {
  readonly as: string;
  /** What was meant by a value that reads `si`. */
  readonly meant: (si: number) => number;
}

const masses: readonly Slip[] = [
  { as: 'lb', meant: (si) => si * pound },
  { as: 'kg taken for lb', meant: (si) => si / pound },
];
const flows: readonly Slip[] = [
  ...masses,
  { as: 'a minute taken for an hour', meant: (si) => si * 60 },
  { as: 'an hour taken for a minute', meant: (si) => si / 60 },
];
const speeds: readonly Slip[] = [
  { as: 'knots', meant: (si) => si * knot },
  { as: 'm/s taken for knots', meant: (si) => si / knot },
];
const units: Readonly<Partial<Record<ReadKey, readonly Slip[]>>> = {
  fuelKg: masses,
  fuelUsedKg: masses,
  fuelFlowKgS: flows,
  fuelFlowLeftKgS: flows,
  fuelFlowRightKgS: flows,
  inletTemperatureK: [
    { as: 'K taken for degC', meant: (si) => si - 273.15 },
    { as: 'degC taken for K', meant: (si) => si + 273.15 },
    { as: 'degF taken for degC', meant: (si) => (si - 273.15 - 32) / 1.8 + 273.15 },
  ],
  pressureAltitudeM: [
    { as: 'ft taken for m', meant: (si) => si * foot },
    { as: 'm taken for ft', meant: (si) => si / foot },
  ],
  groundSpeedMS: speeds,
};

/**
 * Finds the slip that explains a value: `typed` is the number as it was written, in a unit of which `scale` makes SI (with `zero`
 * for degC); a slip explains it where what was meant lies within `near` of `expected`.
 */
export function suspect(
  { key, value }: Pick<Entry, 'key' | 'value'>,
  { expected, near, scale, zero }: Written,
  at: Expected,
): Suspicion {
  const close = (si: number): boolean => Math.abs(si - expected) <= near;
  const nearest = (found: readonly number[]): number | null =>
    found.filter(close).sort((a, b) => Math.abs(a - expected) - Math.abs(b - expected))[0] ?? null;
  const transposed = nearest(swaps((value - zero) / scale).map((typed) => typed * scale + zero));
  if (transposed !== null) return { slip: 'transposed', meant: transposed, as: null };
  for (const slip of units[key] ?? []) {
    const meant = slip.meant(value);
    if (close(meant)) return { slip: 'unit', meant, as: slip.as };
  }
  const decimal = nearest([10, 0.1, 100, 0.01, 1000, 0.001].map((by) => (value - zero) * by + zero));
  if (decimal !== null) return { slip: 'decimal', meant: decimal, as: null };
  const kind = key === 'groundSpeedMS' ? otherSpeed(value, at) : null;
  return kind === null ? { slip: null, meant: null, as: null } : { slip: 'kind', meant: null, as: kind };
}

/** How a reading was written and what it is held against. */
export interface Written {
  readonly expected: number;
  readonly near: number;
  readonly scale: number;
  readonly zero: number;
}

/** A number with two neighbouring digits exchanged, each way there is. */
export function swaps(typed: number): number[] {
  const text = String(Number(Math.abs(typed).toPrecision(9)));
  const digits = [...text].flatMap((each, i) => (each === '.' ? [] : [i]));
  return digits.slice(1).flatMap((place, i) => {
    const before = digits[i];
    if (text[before] === text[place]) return [];
    const other = [...text];
    [other[before], other[place]] = [other[place], other[before]];
    return [Math.sign(typed || 1) * Number(other.join(''))];
  });
}

/** The airspeed that a value is, where it is none over the ground: to 3 % of what the plan has there. */
function otherSpeed(value: number, { mach, pressureAltitudeM, trueAirspeedMS }: Expected): string | null {
  const pressure = standardPressure(pressureAltitudeM);
  const kinds: readonly (readonly [string, number])[] = [
    ['equivalent airspeed', equivalentAirspeed(mach, pressure)],
    ['calibrated airspeed', calibratedAirspeed(mach, pressure)],
    ['true airspeed', trueAirspeedMS],
  ];
  const found = kinds.filter(([, speed]) => Math.abs(value - speed) < 0.03 * speed);
  found.sort((a, b) => Math.abs(value - a[1]) - Math.abs(value - b[1]));
  return found[0]?.[0] ?? null;
}
