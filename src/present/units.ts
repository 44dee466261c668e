/**
 * Quantities in the units of the aircraft's own gauges, rounded to the safe side: what is required up, what is available
 * down, a margin down and never across zero, a spread up.
 *
 * Takes values as a plan carries them: SI, angles in degrees.
 */
import type { Plan } from '../core/plan/plan.ts';
import { QuantityError } from '../core/quantities/errors.ts';
import { type Quantity, quantity } from '../core/quantities/quantities.ts';
import { findUnit, fromSI, type Unit } from '../core/quantities/units.ts';
import { unitNames } from '../core/quantities/values.ts';

export const NOT_COMPUTED = 'not computed';

/** Which way is safe: more where it is required, less where it is available. */
export type Side = 'required' | 'available' | 'nearest';

/** One quantity as its gauge reads it. */
export interface Gauge {
  readonly quantity: Quantity;
  /** Unit with its kind in full, such as "ft pressure altitude" or "KEAS". */
  readonly unit: string;
  /** Unit as it stands behind a figure. */
  readonly shortUnit: string;
  /** Unit of a difference: K where the gauge reads degrees Celsius. */
  readonly differenceUnit: string;
  /** Steps in which figures are given. */
  readonly step: number;
  /** A plan's value on the gauge; null, which is not computed, becomes NaN. */
  fromSi(value: number | null): number;
  /** A difference of a plan's values on the gauge. */
  differenceFromSi(value: number | null): number;
}

export type Gauges = (key: string) => Gauge;

/** Steps of figures by unit, and by key where a quantity asks for another. */
const STEP_OF_UNIT: Readonly<Record<string, number>> = {
  Mach: 0.01,
  ft: 100,
  m: 50,
  km: 1,
  nm: 1,
  kg: 10,
  L: 10,
  lb: 20,
  t: 0.01,
  g: 0.01,
  '%': 0.1,
  deg: 0.1,
};
const STEP_OF_KEY: Readonly<Record<string, number>> = {
  bankDeg: 1,
  courseDeg: 1,
  massKg: 100,
  radiusM: 0.1,
  lengthM: 10,
};

const PRINTED: Readonly<Record<string, string>> = {
  degC: '°C',
  degF: '°F',
  degR: '°R',
  deg: '°',
  'deg/s': '°/s',
  'm/s2': 'm/s²',
  m2: 'm²',
  'kg/m3': 'kg/m³',
  '1': '',
};

/** Gauges of the plan's aircraft. */
export function gaugesOf(plan: Plan): Gauges {
  return gaugesIn(plan.aircraft.gaugeUnits);
}

/** Gauges in units by key; a quantity that they leave out is shown in the unit of the table of quantities. */
export function gaugesIn(units: Readonly<Record<string, string>>): Gauges {
  const known = new Map<string, Gauge>();
  return (key) => {
    const found = known.get(key);
    if (found !== undefined) return found;
    const made = newGauge(quantity(key), units[key]);
    known.set(key, made);
    return made;
  };
}

function newGauge(of: Quantity, asked: string | undefined): Gauge {
  const name = asked ?? of.displayUnit;
  const unit = findUnit(name, of.dimension);
  if (unit === null || (unit.kind !== undefined && unit.kind !== of.kind)) {
    throw new QuantityError(`gauge unit of ${of.name}`, name, 'does not measure it', unitNames(of));
  }
  const shortUnit = PRINTED[unit.name] ?? unit.name;
  // A file carries degrees where the table of units converts from radians.
  const inMemory = of.dimension === 'angle' ? Math.PI / 180 : 1;
  return {
    quantity: of,
    unit: withKind(of, unit, shortUnit),
    shortUnit,
    differenceUnit: unit.name === 'degC' ? 'K' : shortUnit,
    step: STEP_OF_KEY[of.key] ?? STEP_OF_UNIT[unit.name] ?? 1,
    fromSi: (value) => (value === null ? Number.NaN : fromSI(value * inMemory, unit)),
    differenceFromSi: (value) => (value === null ? Number.NaN : (value * inMemory) / unit.factor),
  };
}

/** The unit with the kind beside it, where the unit alone leaves the kind open. */
function withKind(of: Quantity, unit: Unit, printed: string): string {
  const open = of.kind !== null && unit.kind === undefined && unit.dimension === 'length';
  return open && of.kind !== 'distance' && of.kind !== 'length' ? `${printed} ${of.kind}` : printed;
}

/** Part of a step by which a value may miss a whole step and still count as on it: the last bits of a double. */
const SLACK = 1e-7;

/** A number to whole steps, to the safe side. */
export function rounded(value: number, step: number, side: Side): number {
  const steps = value / step;
  if (side === 'required') return Math.ceil(steps - SLACK) * step;
  if (side === 'available') return Math.floor(steps + SLACK) * step;
  return Math.round(steps) * step;
}

/** A value on the gauge as figures: thousands set apart by a thin space, a true minus; "not computed" where there is none. */
export function figures(gauge: Gauge, value: number, side: Side = 'nearest', step = gauge.step): string {
  return Number.isFinite(value) ? numeral(rounded(value, step, side), step) : NOT_COMPUTED;
}

/** A number that stands for itself, with the decimals of a step, such as a mark on an axis. */
export function numeral(value: number, step: number): string {
  return grouped(value, decimalsOf(step));
}

/** A plan's value as figures on the gauge. */
export function read(gauge: Gauge, si: number | null, side: Side = 'nearest'): string {
  return figures(gauge, gauge.fromSi(si), side);
}

/** A plan's value with its unit, such as "66 400 ft"; Mach stands before its figures. */
export function shown(gauge: Gauge, si: number | null, side: Side = 'nearest'): string {
  const text = read(gauge, si, side);
  if (si === null || !Number.isFinite(si)) return text;
  if (gauge.shortUnit === 'Mach') return `M\u00a0${text}`;
  return joined(text, gauge.shortUnit);
}

/** A margin and its parts; `spread` is null where the plan states none. */
export interface Margin {
  readonly figure: string;
  readonly spread: string | null;
  readonly unit: string;
  /** The whole, such as "12 ± 5 K". */
  readonly text: string;
}

/** A margin down to the gauge's step, or to a hundredth of it where a step would round it to zero or past it. */
export function margin(gauge: Gauge, si: number | null, spreadSi = 0): Margin {
  const unit = gauge.differenceUnit;
  const value = gauge.differenceFromSi(si);
  if (!Number.isFinite(value)) return { figure: NOT_COMPUTED, spread: null, unit, text: NOT_COMPUTED };
  const { figure, step } = marginFigure(value, gauge.step);
  const spread =
    spreadSi > 0
      ? `±\u00a0${grouped(rounded(gauge.differenceFromSi(spreadSi), step, 'required'), decimalsOf(step))}`
      : null;
  const text = joined(spread === null ? figure : `${figure}\u00a0${spread}`, unit);
  return { figure, spread, unit, text };
}

/** The figure of a margin and the step in which it is given; its spread is given in the same. */
function marginFigure(value: number, coarsest: number): { figure: string; step: number } {
  if (value === 0) return { figure: grouped(0, decimalsOf(coarsest)), step: coarsest };
  for (const step of [coarsest, coarsest / 10, coarsest / 100]) {
    const whole = rounded(value, step, 'available');
    const kept = Math.abs(value) >= step * (1 - SLACK);
    if (kept && whole !== 0) return { figure: grouped(whole, decimalsOf(step)), step };
  }
  const step = coarsest / 100;
  const least = grouped(step, decimalsOf(step));
  return { figure: value > 0 ? `< ${least}` : `−${least}`, step };
}

function joined(text: string, unit: string): string {
  if (unit === '') return text;
  return unit === '°' ? `${text}${unit}` : `${text}\u00a0${unit}`;
}

function decimalsOf(step: number): number {
  return Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));
}

function grouped(value: number, decimals: number): string {
  const [whole, part] = Math.abs(value).toFixed(decimals).split('.');
  const figuresOnly = whole.replace(/\B(?=(\d{3})+$)/g, '\u2009') + (part === undefined ? '' : `.${part}`);
  return value < 0 && /[1-9]/.test(figuresOnly) ? `−${figuresOnly}` : figuresOnly;
}

/** Figures for a terminal: thin and no-break spaces become spaces. */
export function plainSpaces(text: string): string {
  return text.replaceAll(/[\u2009\u00a0]/g, ' ');
}
