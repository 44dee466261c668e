/**
 * The closed list of units, with exact factors, and the dimension each measures.
 *
 * Factors: 1 ft = 0.3048 m, 1 nm = 1852 m, 1 lb = 0.45359237 kg, 1 slug = 1 lbf s2/ft (international yard and pound
 * agreement 1959; NIST SP 811 appendix B). A unit may carry a kind: "KEAS" is a knot of equivalent airspeed and nothing else.
 */

export type Dimension =
  | 'ratio'
  | 'mach'
  | 'speed'
  | 'vertical speed'
  | 'length'
  | 'area'
  | 'time'
  | 'angle'
  | 'per angle'
  | 'angular rate'
  | 'temperature'
  | 'temperature difference'
  | 'pressure'
  | 'density'
  | 'viscosity'
  | 'mass'
  | 'mass flow'
  | 'fuel per distance'
  | 'force'
  | 'thrust-specific fuel flow'
  | 'acceleration'
  | 'rate'
  | 'volume'
  | 'geopotential'
  | 'specific energy'
  | 'energy';

export interface Unit {
  readonly name: string;
  readonly dimension: Dimension;
  /** SI value = number * factor + shift. */
  readonly factor: number;
  readonly shift?: number;
  /** The one kind of quantity this unit can stand for. */
  readonly kind?: string;
  readonly aliases?: readonly string[];
}

const foot = 0.3048;
const nauticalMile = 1852;
const knot = 1852 / 3600;
const pound = 0.45359237;
const poundForce = pound * 9.80665;
const slug = poundForce / foot;
const degree = Math.PI / 180;

const list: readonly Unit[] = [
  { name: '1', dimension: 'ratio', factor: 1, aliases: [''] },
  { name: '%', dimension: 'ratio', factor: 0.01 },
  { name: 'Mach', dimension: 'mach', factor: 1, kind: 'Mach', aliases: ['mach', 'M', '1', ''] },
  { name: 'm/s', dimension: 'speed', factor: 1 },
  { name: 'km/h', dimension: 'speed', factor: 1 / 3.6 },
  { name: 'ft/s', dimension: 'speed', factor: foot },
  { name: 'kt', dimension: 'speed', factor: knot },
  { name: 'KCAS', dimension: 'speed', factor: knot, kind: 'calibrated airspeed', aliases: ['kt CAS'] },
  { name: 'KEAS', dimension: 'speed', factor: knot, kind: 'equivalent airspeed', aliases: ['kt EAS'] },
  { name: 'KTAS', dimension: 'speed', factor: knot, kind: 'true airspeed', aliases: ['kt TAS'] },
  { name: 'kt GS', dimension: 'speed', factor: knot, kind: 'ground speed', aliases: ['KGS'] },
  { name: 'm/s CAS', dimension: 'speed', factor: 1, kind: 'calibrated airspeed' },
  { name: 'm/s EAS', dimension: 'speed', factor: 1, kind: 'equivalent airspeed' },
  { name: 'm/s TAS', dimension: 'speed', factor: 1, kind: 'true airspeed' },
  { name: 'm/s GS', dimension: 'speed', factor: 1, kind: 'ground speed' },
  { name: 'm/s', dimension: 'vertical speed', factor: 1 },
  { name: 'ft/min', dimension: 'vertical speed', factor: foot / 60, aliases: ['fpm'] },
  { name: 'm', dimension: 'length', factor: 1 },
  { name: 'km', dimension: 'length', factor: 1000 },
  { name: 'ft', dimension: 'length', factor: foot },
  { name: 'nm', dimension: 'length', factor: nauticalMile, aliases: ['NM', 'nmi'] },
  { name: 'ft pressure', dimension: 'length', factor: foot, kind: 'pressure altitude' },
  { name: 'm pressure', dimension: 'length', factor: 1, kind: 'pressure altitude' },
  { name: 'ft geometric', dimension: 'length', factor: foot, kind: 'geometric height' },
  { name: 'm geometric', dimension: 'length', factor: 1, kind: 'geometric height' },
  { name: 'ft geopotential', dimension: 'length', factor: foot, kind: 'geopotential height' },
  { name: 'm geopotential', dimension: 'length', factor: 1, kind: 'geopotential height', aliases: ['gpm'] },
  { name: 'FL', dimension: 'length', factor: 100 * foot, kind: 'pressure altitude' },
  { name: 'm2', dimension: 'area', factor: 1 },
  { name: 'ft2', dimension: 'area', factor: foot * foot },
  { name: 'm3', dimension: 'volume', factor: 1 },
  { name: 'L', dimension: 'volume', factor: 0.001, aliases: ['l'] },
  { name: 's', dimension: 'time', factor: 1 },
  { name: 'min', dimension: 'time', factor: 60 },
  { name: 'h', dimension: 'time', factor: 3600 },
  { name: 'rad', dimension: 'angle', factor: 1 },
  { name: 'deg', dimension: 'angle', factor: degree, aliases: ['°'] },
  { name: '1/rad', dimension: 'per angle', factor: 1 },
  { name: '1/deg', dimension: 'per angle', factor: 1 / degree },
  { name: 'rad/s', dimension: 'angular rate', factor: 1 },
  { name: 'deg/s', dimension: 'angular rate', factor: degree },
  { name: 'K', dimension: 'temperature', factor: 1 },
  { name: 'degC', dimension: 'temperature', factor: 1, shift: 273.15, aliases: ['°C'] },
  { name: 'degF', dimension: 'temperature', factor: 5 / 9, shift: 459.67 * (5 / 9), aliases: ['°F'] },
  { name: 'degR', dimension: 'temperature', factor: 5 / 9, aliases: ['°R'] },
  { name: 'K', dimension: 'temperature difference', factor: 1 },
  { name: 'degC', dimension: 'temperature difference', factor: 1, aliases: ['°C'] },
  { name: 'degF', dimension: 'temperature difference', factor: 5 / 9, aliases: ['°F'] },
  { name: 'degR', dimension: 'temperature difference', factor: 5 / 9, aliases: ['°R'] },
  { name: 'Pa', dimension: 'pressure', factor: 1 },
  { name: 'hPa', dimension: 'pressure', factor: 100, aliases: ['mbar', 'mb', 'millibars'] },
  { name: 'kPa', dimension: 'pressure', factor: 1000 },
  { name: 'bar', dimension: 'pressure', factor: 1e5 },
  { name: 'psi', dimension: 'pressure', factor: (poundForce / (foot * foot)) * 144 },
  { name: 'lbf/ft2', dimension: 'pressure', factor: poundForce / (foot * foot), aliases: ['psf'] },
  { name: 'kg/m3', dimension: 'density', factor: 1 },
  { name: 'kg/L', dimension: 'density', factor: 1000, aliases: ['kg/l'] },
  { name: 'lb/ft3', dimension: 'density', factor: pound / foot ** 3 },
  { name: 'slug/ft3', dimension: 'density', factor: slug / foot ** 3 },
  { name: 'Pa s', dimension: 'viscosity', factor: 1 },
  { name: 'kg', dimension: 'mass', factor: 1 },
  { name: 't', dimension: 'mass', factor: 1000 },
  { name: 'lb', dimension: 'mass', factor: pound, aliases: ['lbs'] },
  { name: 'slug', dimension: 'mass', factor: slug },
  { name: 'kg/s', dimension: 'mass flow', factor: 1 },
  { name: 'kg/min', dimension: 'mass flow', factor: 1 / 60 },
  { name: 'kg/h', dimension: 'mass flow', factor: 1 / 3600 },
  { name: 't/h', dimension: 'mass flow', factor: 1 / 3.6 },
  { name: 'lb/s', dimension: 'mass flow', factor: pound },
  { name: 'lb/min', dimension: 'mass flow', factor: pound / 60 },
  { name: 'lb/h', dimension: 'mass flow', factor: pound / 3600 },
  { name: 'kg/m', dimension: 'fuel per distance', factor: 1 },
  { name: 'kg/km', dimension: 'fuel per distance', factor: 0.001 },
  { name: 'kg/nm', dimension: 'fuel per distance', factor: 1 / nauticalMile },
  { name: 'lb/nm', dimension: 'fuel per distance', factor: pound / nauticalMile },
  { name: 'N', dimension: 'force', factor: 1 },
  { name: 'kN', dimension: 'force', factor: 1000 },
  { name: 'lbf', dimension: 'force', factor: poundForce },
  { name: 'kg/(N s)', dimension: 'thrust-specific fuel flow', factor: 1 },
  { name: 'kg/(N h)', dimension: 'thrust-specific fuel flow', factor: 1 / 3600 },
  { name: 'g/(kN s)', dimension: 'thrust-specific fuel flow', factor: 1e-6 },
  { name: 'lb/(lbf h)', dimension: 'thrust-specific fuel flow', factor: pound / poundForce / 3600 },
  { name: 'm/s2', dimension: 'acceleration', factor: 1 },
  { name: 'ft/s2', dimension: 'acceleration', factor: foot },
  { name: 'g', dimension: 'acceleration', factor: 9.80665 },
  { name: 'g', dimension: 'ratio', factor: 1 },
  { name: '1/s', dimension: 'rate', factor: 1 },
  { name: 'm2/s2', dimension: 'geopotential', factor: 1, aliases: ['m**2 s**-2', 'm2 s-2'] },
  { name: 'J/kg', dimension: 'specific energy', factor: 1 },
  { name: 'J', dimension: 'energy', factor: 1 },
  { name: 'MJ', dimension: 'energy', factor: 1e6 },
  { name: 'ft lbf', dimension: 'energy', factor: foot * poundForce },
];

/** Every unit of a dimension, in the order in which messages offer them. */
export function unitsOf(dimension: Dimension): readonly Unit[] {
  return list.filter((unit) => unit.dimension === dimension);
}

/** The unit of a dimension with a name or alias, exactly as written; null where the list has none. */
export function findUnit(name: string, dimension: Dimension): Unit | null {
  const trimmed = name.trim();
  for (const unit of list) {
    if (unit.dimension !== dimension) continue;
    if (unit.name === trimmed || unit.aliases?.includes(trimmed)) return unit;
  }
  return null;
}

/** Whether any dimension knows a unit by this name. */
export function isUnit(name: string): boolean {
  return list.some((unit) => unit.name === name || unit.aliases?.includes(name));
}

/** A value in a unit, in SI. */
export function toSI(value: number, unit: Unit): number {
  return value * unit.factor + (unit.shift ?? 0);
}

/** An SI value in a unit. */
export function fromSI(si: number, unit: Unit): number {
  return (si - (unit.shift ?? 0)) / unit.factor;
}
