/**
 * Reading and writing of values with units: "80000 ft", "430 KEAS", "M 2.9", "-56.5 degC".
 *
 * A number needs its unit, and where the unit leaves the kind open (kt, ft) the key must fix it. Commas are refused: in
 * one country they group, in another they are the decimal sign.
 */
import { OutsideRange, QuantityError } from './errors.ts';
import { type Quantity, quantity } from './quantities.ts';
import { findUnit, fromSI, isUnit, toSI, type Unit, unitsOf } from './units.ts';

/** The number and the unit of a text, apart; the unit may stand before it ("M 2.9", "FL 800"). */
function split(text: string, name: string, allowed: readonly string[]): { number: number; unit: string } {
  const clean = text.trim().replaceAll('\u2212', '-').replaceAll('\u00a0', ' ').replaceAll('\u202f', ' ');
  if (clean.includes(',')) throw new QuantityError(name, text, 'a comma is ambiguous', allowed);
  const match =
    /^(?:(M|Mach|FL) ?(?=[+\d.-]))?([+-]?(?:\d{1,3}(?: \d{3})+|\d+)?(?:\.\d+)?(?:[eE][+-]?\d+)?) ?(\S.*)?$/.exec(
      clean,
    );
  const digits = match?.[2].replaceAll(' ', '') ?? '';
  if (!match || !/\d/.test(digits))
    throw new QuantityError(name, text, 'is not a number with a unit', allowed);
  if (match[1] && match[3]) throw new QuantityError(name, text, 'has two units', allowed);
  return { number: Number(digits), unit: match[1] ?? match[3] ?? '' };
}

/** Whether a unit can express a quantity: same dimension, and the kind not another's. */
function fits(unit: Unit, of: Quantity): boolean {
  return unit.dimension === of.dimension && (unit.kind === undefined || unit.kind === of.kind);
}

/** Names of the units in which a quantity may be written; `kindsOnly` keeps those that fix the kind by themselves. */
export function unitNames(of: Quantity, kindsOnly = false): string[] {
  const open = of.kind !== null && kindsOnly;
  const units = unitsOf(of.dimension).filter((unit) => fits(unit, of) && !(open && unit.kind === undefined));
  return units.map((unit) => unit.name);
}

/** A text with a unit as the SI value of the quantity that a key names; throws `QuantityError`. */
export function readQuantity(text: string, key: string): number {
  const of = quantity(key);
  const allowed = unitNames(of);
  const { number, unit: unitName } = split(text, of.name, allowed);
  if (unitName === '' && of.dimension !== 'ratio' && of.dimension !== 'mach') {
    throw new QuantityError(of.name, text, 'has no unit', allowed);
  }
  const unit = findUnit(unitName, of.dimension);
  if (!unit) {
    const reason = isUnit(unitName) ? `"${unitName}" does not measure it` : `unknown unit "${unitName}"`;
    throw new QuantityError(of.name, text, reason, allowed);
  }
  if (!fits(unit, of)) {
    throw new QuantityError(of.name, text, `${unit.name} is ${article(unit.kind as string)}`, allowed);
  }
  return inRange(of, toSI(number, unit), text);
}

function article(kind: string): string {
  return `${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}`;
}

function inRange(of: Quantity, si: number, text: string): number {
  if (of.range === null || (si >= of.range[0] && si <= of.range[1])) return si;
  const unit = findUnit(of.displayUnit, of.dimension) as Unit;
  const [low, high] = [fromSI(of.range[0], unit), fromSI(of.range[1], unit)];
  const span =
    high === Infinity ? `at least ${trim(low)} ${unit.name}` : `${trim(low)} to ${trim(high)} ${unit.name}`;
  throw new QuantityError(of.name, text, `must be ${span}`);
}

function trim(value: number): string {
  return String(Number(value.toPrecision(10)));
}

/** A value whose quantity is known only from its unit, such as a speed that may be Mach, KCAS, KEAS or KTAS. */
export interface ReadAs {
  readonly key: string;
  readonly si: number;
}

/** Reads a text as the one of several quantities that its unit fits; refuses a unit that fits none or more than one. */
export function readOneOf(text: string, name: string, keys: readonly string[]): ReadAs {
  const candidates = keys.map(quantity);
  const allowed = [...new Set(candidates.flatMap((of) => unitNames(of, true)))];
  const { number, unit: unitName } = split(text, name, allowed);
  if (unitName === '') throw new QuantityError(name, text, 'has no unit', allowed);
  const matches: { of: Quantity; unit: Unit }[] = [];
  for (const of of candidates) {
    const unit = findUnit(unitName, of.dimension);
    if (unit && fits(unit, of)) matches.push({ of, unit });
  }
  if (matches.length > 1) {
    const kinds = matches.map((match) => match.of.name).join(', ');
    throw new QuantityError(name, text, `"${unitName}" may be ${kinds}`, allowed);
  }
  if (matches.length === 0) {
    const reason = isUnit(unitName) ? `"${unitName}" does not measure it` : `unknown unit "${unitName}"`;
    throw new QuantityError(name, text, reason, allowed);
  }
  const { of, unit } = matches[0];
  return { key: of.key, si: inRange(of, toSI(number, unit), text) };
}

/** The keys among which a speed is chosen by its unit. */
export const speedKeys = ['mach', 'calibratedAirspeedMS', 'equivalentAirspeedMS', 'trueAirspeedMS'] as const;

/**
 * The SI value of a number in a bracketed unit of a column header ("thrust [lbf]"); throws `QuantityError` naming the
 * column when the unit does not measure the quantity of the key.
 */
export function columnUnit(unitName: string, key: string, column: string): Unit {
  const of = quantity(key);
  const unit = findUnit(unitName, of.dimension);
  if (!unit || !fits(unit, of)) {
    throw new QuantityError(
      `unit of column ${column}`,
      unitName,
      `does not measure ${of.name}`,
      unitNames(of),
    );
  }
  return unit;
}

export interface ShowOptions {
  /** A unit other than the quantity's display unit. */
  readonly unit?: string;
  /** Decimals other than the quantity's. */
  readonly decimals?: number;
  /** Required fuel is rounded up, available down. */
  readonly round?: 'nearest' | 'up' | 'down';
  /** Leaves the unit away. */
  readonly bare?: boolean;
}

/** An SI value as text in the display unit ("349 KEAS"); the safe side of rounding is the caller's to name. */
export function show(key: string, si: number, options: ShowOptions = {}): string {
  const of = quantity(key);
  const name = options.unit ?? of.displayUnit;
  const unit = findUnit(name, of.dimension);
  if (!unit) throw new QuantityError(of.name, name, 'cannot be shown in this unit', unitNames(of));
  if (Number.isNaN(si)) return 'not computed';
  const number = roundTo(fromSI(si, unit), options.decimals ?? of.decimals, options.round ?? 'nearest');
  if (options.bare || unit.name === '1') return number;
  if (unit.name === 'Mach') return `M ${number}`;
  return unit.name === '%' ? `${number}%` : `${number} ${unit.name}`;
}

/** A number as text with fixed decimals, rounded as asked, never "-0". */
function roundTo(value: number, decimals: number, round: 'nearest' | 'up' | 'down'): string {
  if (round === 'nearest') return value.toFixed(decimals).replace(/^-(0(?:\.0*)?)$/, '$1');
  const scale = 10 ** decimals;
  // A value that is a whole step but for the last bits of its double is not pushed to the next.
  const slack = 1e-9 * Math.max(1, Math.abs(value * scale)) * 1e-3;
  const steps = round === 'up' ? Math.ceil(value * scale - slack) : Math.floor(value * scale + slack);
  return (steps / scale).toFixed(decimals).replace(/^-(0(?:\.0*)?)$/, '$1');
}

/** Throws `OutsideRange` unless a value lies in a range; NaN never does. */
export function requireInside(
  key: string,
  si: number,
  minimum: number,
  maximum: number,
  where: string,
): void {
  if (si >= minimum && si <= maximum) return;
  const of = quantity(key);
  throw new OutsideRange(of.name, si, of.siUnit, minimum, maximum, where);
}
