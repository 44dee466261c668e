/** Values of a sortie that a slider may move, as they stand in its text. */
import { quantity } from '../../core/quantities/quantities.ts';
import { readTime, showTime } from '../../core/quantities/time.ts';
import { findUnit, fromSI } from '../../core/quantities/units.ts';
import { readQuantity } from '../../core/quantities/values.ts';

export interface Handle {
  /** Path of the value in the text. */
  readonly path: string;
  readonly name: string;
  /** As written. */
  readonly text: string;
  /** In the unit written; seconds since 1970 for a time. */
  readonly value: number;
  readonly least: number;
  readonly greatest: number;
  readonly step: number;
  /** The text of another value. */
  write(value: number): string;
}

/** How far a slider reaches on either side of what is written, and its step, in SI. */
const reach: Readonly<Record<string, readonly [around: number, step: number]>> = {
  equivalentAirspeedMS: [(60 * 1852) / 3600, 1852 / 3600],
  mach: [0.3, 0.01],
  pressureAltitudeM: [6000 * 0.3048, 100 * 0.3048],
  temperatureOffsetK: [15, 0.5],
  fuelKg: [10_000, 100],
};

type Data = Record<string, unknown>;

/** Every value that can be moved, in the order of the file; what cannot be read is left out. `data` is that of the sortie's text. */
export function handlesOf(data: unknown): readonly Handle[] {
  if (data === null || typeof data !== 'object') return [];
  const sortie = data as Data;
  const handles: (Handle | null)[] = [timeHandle(sortie)];
  const add = (path: string, name: string, key: string, value: unknown) =>
    handles.push(valueHandle(path, name, key, value));
  add('aircraft.fuel', 'Fuel at take-off', 'fuelKg', at(sortie, 'aircraft.fuel'));
  for (const key of ['offset', 'temperatureOffset']) {
    add(`weather.${key}`, 'Air warmer by', 'temperatureOffsetK', at(sortie, `weather.${key}`));
  }
  const legs = Array.isArray(sortie.legs) ? (sortie.legs as Data[]) : [];
  legs.forEach((leg, i) => {
    const of = String(leg.name ?? `leg ${i + 1}`);
    const steps = Array.isArray(leg.fly) ? (leg.fly as Data[]) : [];
    steps.forEach((step, j) => {
      const path = `legs.${i}.fly.${j}`;
      const value = (key: string) => at(step, key);
      add(
        `${path}.climb.equivalentAirspeed`,
        `Climb speed, ${of}`,
        'equivalentAirspeedMS',
        value('climb.equivalentAirspeed'),
      );
      add(
        `${path}.pushover.bottom`,
        `Bottom of the pushover, ${of}`,
        'pressureAltitudeM',
        value('pushover.bottom'),
      );
      if (value('climb.equivalentAirspeed') === undefined) {
        add(`${path}.cruise.mach`, `Cruise, ${of}`, 'mach', value('cruise.mach'));
      }
    });
    add(`legs.${i}.refuel.take`, `Fuel to take, ${of}`, 'fuelKg', at(leg, 'refuel.take'));
  });
  return handles.filter((handle) => handle !== null);
}

function at(data: unknown, path: string): unknown {
  let value = data;
  for (const key of path.split('.')) {
    if (typeof value !== 'object' || value === null) return undefined;
    value = (value as Data)[key];
  }
  return value;
}

/** Take-off, in minutes between the earliest and the latest for which the cards hold. */
function timeHandle(sortie: Data): Handle | null {
  try {
    const [text, from, to] = ['time', 'from', 'to'].map((key) => String(at(sortie, `takeOff.${key}`)));
    const [value, least, greatest] = [text, from, to].map((time) => readTime(time));
    return {
      path: 'takeOff.time',
      name: 'Take-off',
      text,
      value,
      least,
      greatest,
      step: 60,
      write: showTime,
    };
  } catch {
    return null;
  }
}

function valueHandle(path: string, name: string, key: string, written: unknown): Handle | null {
  if (typeof written !== 'string') return null;
  const parts = /^\s*([-+]?[\d.]+)\s*(.+?)\s*$/.exec(written);
  if (!parts) return null;
  try {
    const si = readQuantity(written, key);
    const unit = findUnit(parts[2], quantity(key).dimension);
    if (unit === null) return null;
    const [around, stepSi] = reach[key];
    const step = tidy(stepSi / unit.factor);
    const value = fromSI(si, unit);
    const middle = Math.round(value / step) * step;
    const span = Math.round(around / unit.factor / step) * step;
    const least = key === 'temperatureOffsetK' ? -span : Math.max(0, middle - span);
    const greatest = key === 'temperatureOffsetK' ? span : middle + span;
    const decimals = Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));
    const write = (moved: number) => `${moved.toFixed(decimals)} ${parts[2]}`;
    return { path, name, text: written, value, least, greatest, step, write };
  } catch {
    return null;
  }
}

/** A step without the last bits of a conversion. */
function tidy(step: number): number {
  return Number(step.toPrecision(6));
}
