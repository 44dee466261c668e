/**
 * What the tables of an aircraft say, sampled to be looked at: at one pressure altitude, temperature offset, power and fuel on
 * board, in level flight.
 *
 * Thrust, fuel flow and drag are those of the whole aircraft; angles in degrees. Arrays go with `mach` where nothing else is
 * said; NaN where a table ends, or beyond the pusher or else the warning.
 */
import { quantity } from '../quantities/quantities.ts';
import type { Aircraft, EnginePoint } from './aircraft.ts';
import { ceilingOfLiftToDrag, standardRecovery } from './check-air.ts';
import { type Corridor, corridorOf } from './corridor.ts';
import type { Deck, DeckTable } from './deck.ts';
import { levelFlight } from './level-flight.ts';
import { newLimitInputs } from './limits.ts';

export interface CurvesAt {
  readonly pressureAltitudeM: number;
  readonly temperatureOffsetK: number;
  /** On the ladder of settings; what the scheduled positions are read at. */
  readonly power: number;
  readonly fuelKg: number;
}

export interface Curves {
  readonly at: CurvesAt;
  readonly mach: readonly number[];
  readonly polars: readonly Polar[];
  /** CD without lift by altitude; one without an altitude where the table has none. */
  readonly zeroLiftDrag: readonly {
    readonly pressureAltitudeM: number | null;
    readonly values: readonly number[];
  }[];
  /** Greatest lift over drag at the altitude, and what Kuechemann 1978 gives as its ceiling beyond Mach 1.2. */
  readonly liftToDrag: readonly number[];
  readonly liftToDragCeiling: readonly number[];
  readonly settings: readonly SettingCurve[];
  readonly dragN: readonly number[];
  /** null where the deck has no inlet. */
  readonly inlet: { readonly recovery: readonly number[]; readonly standard: readonly number[] } | null;
  readonly schedules: readonly ScheduleCurve[];
  readonly corridor: Corridor;
  readonly limits: readonly LimitRange[];
  /** null where no centre of gravity is known. */
  readonly balance: BalanceCurve | null;
}

export interface Polar {
  readonly mach: number;
  readonly liftCoefficient: readonly number[];
  readonly dragCoefficient: readonly number[];
}

export interface SettingCurve {
  readonly name: string;
  readonly thrustN: readonly number[];
  readonly fuelFlowKgS: readonly number[];
}

export interface ScheduleCurve {
  readonly key: string;
  readonly name: string;
  readonly quantity: string;
  readonly of: 'engine' | 'side';
  readonly values: readonly number[];
}

/** What a limit is over every Mach and with tanks empty, half and full, at the altitude; angles in degrees. */
export interface LimitRange {
  readonly key: string;
  readonly name: string;
  readonly quantity: string;
  readonly side: 'upper' | 'lower';
  readonly least: number;
  readonly greatest: number;
  /** One standard deviation; 0 where the deck states none. */
  readonly spread: number;
  readonly source: string;
}

/** The travel of the centre of gravity as fuel is burnt, as fractions of the mean chord; arrays go with `fuelKg`. */
export interface BalanceCurve {
  readonly fuelKg: readonly number[];
  readonly cgFraction: readonly number[];
  readonly bounds: readonly {
    readonly name: string;
    readonly mach: number;
    readonly values: readonly number[];
  }[];
}

const everyMach = 0.05;
const polarMachs = [0.5, 0.9, 1.1, 1.6, 2.2, 2.8];
const liftSteps = 24;
/** Where the deck knows no stall. */
const usualLift = 0.8;
const degree = Math.PI / 180;

/** What all curves are drawn from. */
interface Sampled {
  readonly deck: Deck;
  readonly aircraft: Aircraft;
  readonly at: CurvesAt;
  readonly heightM: number;
  readonly mach: readonly number[];
  readonly fly: ReturnType<typeof levelFlight>;
}

/** The curves of a compiled deck; throws `OutsideRange` for a temperature offset beyond 50 K. */
export function curvesOf(deck: Deck, aircraft: Aircraft, at: CurvesAt): Curves {
  const tables = [deck.aerodynamics.lift, deck.aerodynamics.drag, deck.propulsion.table];
  const mach = machsOf(deck.inlet === null ? tables : [...tables, deck.inlet]);
  const fly = levelFlight(aircraft, at.fuelKg, at.temperatureOffsetK);
  const heightM = fly(mach[0], at.pressureAltitudeM).geometricHeightM;
  const of: Sampled = { deck, aircraft, at, heightM, mach, fly };
  const { names } = aircraft.propulsion;
  const last = mach[mach.length - 1];
  const shown = polarMachs.filter((m) => m >= mach[0] && m <= last);
  const machs = shown.length > 0 ? shown : [mach[0], last];
  return {
    at,
    mach,
    polars: machs.map((m) => polarAt(of, m)),
    zeroLiftDrag: dragRise(of),
    liftToDrag: mach.map((m) => greatestLiftToDrag(of, m)),
    liftToDragCeiling: mach.map((m) => (m > 1.2 ? ceilingOfLiftToDrag(m) : Number.NaN)),
    settings: names.map((name, power) => settingCurve(of, name, power)),
    dragN: levelDrag(of),
    inlet: inletCurves(of),
    schedules: scheduleCurves(of),
    corridor: corridorOf(aircraft, at.fuelKg, at.temperatureOffsetK, last, highestOf(deck.propulsion.table)),
    limits: limitRanges(of),
    balance: balanceCurve(
      aircraft,
      machs.filter((_, i) => i % 2 === 1),
    ),
  };
}

/** The Mach numbers of all tables, and even steps between. */
function machsOf(tables: readonly DeckTable[]): number[] {
  const own = tables.flatMap((table) => Array.from(table.numbers.get('mach') ?? []));
  const last = own.reduce((a, b) => Math.max(a, b), 0);
  const first = own.reduce((a, b) => Math.min(a, b), last);
  const even = Array.from(
    { length: Math.floor((last - first) / everyMach) },
    (_, i) => first + i * everyMach,
  );
  const rounded = [...own, ...even].map((mach) => Number(mach.toFixed(6)));
  return [...new Set(rounded)].sort((a, b) => a - b);
}

function highestOf(table: DeckTable): number {
  const altitudes = table.numbers.get('pressureAltitude') ?? table.numbers.get('geometricAltitude') ?? [];
  return Array.from(altitudes).reduce((a, b) => Math.max(a, b), 0);
}

/** Lift from 0 to the pusher, or else the warning, or else 0.8. */
function polarAt({ aircraft, at, fly }: Sampled, mach: number): Polar {
  const { aero } = fly(mach, at.pressureAltitudeM);
  const angle = greatestAngle(aircraft, mach);
  const most = angle === null ? usualLift : aero.liftSlope * (angle - aero.zeroLiftAngleRad);
  const lift = Array.from({ length: liftSteps + 1 }, (_, i) => (most * i) / liftSteps);
  const known = aero.outside === 0;
  return {
    mach,
    liftCoefficient: lift,
    dragCoefficient: lift.map((cl) =>
      known ? aero.zeroLiftDrag + aero.inducedFactor * cl * cl : Number.NaN,
    ),
  };
}

function greatestAngle({ aerodynamics }: Aircraft, mach: number): number | null {
  return aerodynamics.pushAngleRad(mach) ?? aerodynamics.warningAngleRad(mach);
}

/** At the lowest, a middle and the highest altitude of the table, and at the one that is looked at. */
function dragRise({ deck, at, mach, fly }: Sampled): Curves['zeroLiftDrag'] {
  const { numbers } = deck.aerodynamics.drag;
  const axis = numbers.get('pressureAltitude') ?? numbers.get('geometricAltitude');
  const points = [...new Set(axis ?? [])].sort((a, b) => a - b);
  const curve = (altitude: number) =>
    mach.map((m) => {
      const { aero } = fly(m, altitude);
      return aero.outside === 0 ? aero.zeroLiftDrag : Number.NaN;
    });
  if (points.length === 0) return [{ pressureAltitudeM: null, values: curve(at.pressureAltitudeM) }];
  const middle = points[Math.floor(points.length / 2)];
  const altitudes = [...new Set([points[0], middle, points[points.length - 1], at.pressureAltitudeM])];
  return altitudes.sort((a, b) => a - b).map((m) => ({ pressureAltitudeM: m, values: curve(m) }));
}

/** 1 / (2 sqrt(CD0 K)), at the lift at which drag due to lift is that without. */
function greatestLiftToDrag({ at, fly }: Sampled, mach: number): number {
  const { aero } = fly(mach, at.pressureAltitudeM);
  return aero.outside === 0 ? 1 / (2 * Math.sqrt(aero.zeroLiftDrag * aero.inducedFactor)) : Number.NaN;
}

function settingCurve(
  { aircraft: { propulsion }, at, heightM, mach }: Sampled,
  name: string,
  power: number,
): SettingCurve {
  const point: EnginePoint = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };
  const engines = propulsion.engines.length;
  const thrustN: number[] = [];
  const fuelFlowKgS: number[] = [];
  for (const m of mach) {
    propulsion.at(power, m, at.pressureAltitudeM, heightM, at.temperatureOffsetK, point);
    thrustN.push(point.outside === 0 ? engines * point.thrustN : Number.NaN);
    fuelFlowKgS.push(point.outside === 0 ? engines * point.fuelFlowKgS : Number.NaN);
  }
  return { name, thrustN, fuelFlowKgS };
}

/** Drag of level flight; NaN for an aircraft whose mass is not known. */
function levelDrag({ aircraft, at, mach, fly }: Sampled): number[] {
  return mach.map((m) => {
    const { dragN, limitInputs } = fly(m, at.pressureAltitudeM);
    const most = greatestAngle(aircraft, m) ?? Number.POSITIVE_INFINITY;
    return limitInputs.massKg > 0 && limitInputs.angleOfAttackRad <= most ? dragN : Number.NaN;
  });
}

function inletCurves({ deck: { inlet }, mach }: Sampled): Curves['inlet'] {
  const machs = inlet?.numbers.get('mach');
  const recoveries = inlet?.numbers.get('recovery');
  if (!machs || !recoveries) return null;
  return {
    recovery: mach.map((m) => straight(machs, recoveries, m)),
    standard: mach.map(standardRecovery),
  };
}

/** A column beside a rising one, straight between rows; NaN outside. */
function straight(from: Float64Array, to: Float64Array, value: number): number {
  const after = from.findIndex((point) => point >= value);
  if (after < 0 || value < from[0]) return Number.NaN;
  if (from[after] === value) return to[after];
  const part = (value - from[after - 1]) / (from[after] - from[after - 1]);
  return to[after - 1] + part * (to[after] - to[after - 1]);
}

function scheduleCurves({ aircraft: { schedules }, at, heightM, mach }: Sampled): ScheduleCurve[] {
  return schedules.map((schedule) => {
    const { key, name, of } = schedule;
    const perUnit = unitOf(schedule.quantity);
    const values = mach.map(
      (m) => schedule.at(at.power, m, at.pressureAltitudeM, heightM, at.temperatureOffsetK) / perUnit,
    );
    return { key, name, quantity: schedule.quantity, of, values };
  });
}

/** What is held in memory for one of a file: files carry degrees. */
function unitOf(key: string): number {
  return quantity(key).dimension === 'angle' ? degree : 1;
}

function limitRanges({ aircraft, at, mach }: Sampled): LimitRange[] {
  const full = aircraft.balance.fuelCapacityKg;
  const points = [0, full / 2, full].map((fuelKg) => levelFlight(aircraft, fuelKg, at.temperatureOffsetK));
  return aircraft.limits.map((limit) => {
    const { key, name, side, source } = limit;
    const unit = unitOf(limit.quantity);
    let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const fly of points) {
      for (const m of mach) {
        const bound = limit.bound(fly(m, at.pressureAltitudeM).limitInputs) / unit;
        least = Math.min(least, bound);
        greatest = Math.max(greatest, bound);
      }
    }
    return {
      key,
      name,
      quantity: limit.quantity,
      side,
      least,
      greatest,
      spread: limit.spread / unit,
      source,
    };
  });
}

/** Bounds at each Mach, each only once where it does not change. */
function balanceCurve({ balance, limits }: Aircraft, machs: readonly number[]): BalanceCurve | null {
  const fuelKg = Array.from(balance.corners);
  const cgFraction = fuelKg.map((fuel) => balance.cgFraction(fuel));
  if (cgFraction.some(Number.isNaN)) return null;
  const inputs = newLimitInputs();
  const bounds = limits
    .filter((limit) => limit.quantity === 'cgFraction')
    .flatMap((limit) => {
      const seen = new Set<string>();
      return machs.flatMap((mach) => {
        const values = fuelKg.map((fuel) => {
          Object.assign(inputs, { mach, fuelKg: fuel, massKg: balance.emptyMassKg + fuel });
          inputs.cgFraction = balance.cgFraction(fuel, mach);
          return limit.bound(inputs);
        });
        const text = values.map((value) => value.toFixed(6)).join(' ');
        if (seen.has(text)) return [];
        seen.add(text);
        return [{ name: limit.name, mach, values }];
      });
    });
  return { fuelKg, cgFraction, bounds };
}
