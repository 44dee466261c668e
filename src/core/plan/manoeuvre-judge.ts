/** One manoeuvre judged before it is flown: each bound by itself, the one that is met first, thrust, and the height that a push costs. */
import type { Limit } from '../aircraft/aircraft.ts';
import { fileUnit } from './limits.ts';
import { boundsStructure, levelTurn, type ManoeuvreBounds, onsetOfRoll } from './manoeuvre-bounds.ts';
import { manoeuvresMissing, pushAt } from './manoeuvre-table.ts';
import type { GaugeSpeeds, PushRecovery } from './plan.ts';

export interface AskedManoeuvre {
  readonly mach: number;
  readonly fuelKg: number;
  /** 0 is wings level. */
  readonly bankRad: number;
  /** Lift over weight; null is that of level flight at the bank. */
  readonly loadFactor: number | null;
  /** Height of the ground above sea level; null where it does not matter. */
  readonly groundM: number | null;
}

/** 'entry': the warning while the load factor builds up at the deck's rates. */
export type BoundKey = 'entry' | 'warning' | 'push' | 'rolling' | 'symmetric' | 'held';

/** A load factor that is not passed. */
export interface ManoeuvreBound {
  readonly key: BoundKey;
  readonly loadFactor: number;
  /** Of the level turn with that load factor; null below 1. */
  readonly bankDeg: number | null;
  /** Of load factor; negative is passed. */
  readonly margin: number;
  /** Of angle of attack, for what bounds it: steady, without the part that thrust carries. */
  readonly angleMarginDeg: number | null;
  /** Who says so. */
  readonly source: string;
}

/** Another limit of the deck in the manoeuvre, in the unit of a file. */
export interface LimitThere {
  readonly key: string;
  readonly name: string;
  readonly quantity: string;
  readonly side: Limit['side'];
  readonly value: number;
  readonly bound: number;
  readonly margin: number;
  readonly source: string;
}

export interface JudgedManoeuvre {
  readonly allowed: boolean;
  /** Keys of what is passed, the bounds of load factor before other limits; 'height' where the ground is too near. */
  readonly passed: readonly string[];
  /** Of the bounds of load factor the one that is met first, were the load factor raised from 1; null where there is none. */
  readonly first: BoundKey | null;
  readonly at: GaugeSpeeds & {
    readonly pressureAltitudeM: number;
    readonly temperatureOffsetK: number;
    readonly fuelKg: number;
    readonly massKg: number;
    readonly cgFraction: number;
  };
  readonly bankDeg: number;
  readonly loadFactor: number;
  readonly angleOfAttackDeg: number | null;
  /** From the least load factor. */
  readonly bounds: readonly ManoeuvreBound[];
  /** Rate of roll up to which the warning stays silent in the entry [deg/s]; null where it does not bind or the wings stay level. */
  readonly silentRollDegS: number | null;
  readonly limits: readonly LimitThere[];
  readonly thrust: ThrustThere | null;
  readonly height: HeightThere | null;
  readonly notComputed: readonly string[];
}

/** At the greatest thrust, level. */
export interface ThrustThere {
  /** Load factor that is sustained; 0 where drag is more than thrust at no lift. */
  readonly sustained: number;
  readonly thrustN: number;
  readonly dragN: number;
  readonly specificExcessPowerMS: number;
  /** Of true airspeed in level flight; negative is losing speed. */
  readonly accelerationMS2: number;
}

export interface HeightThere extends PushRecovery {
  readonly clearanceM: number;
  readonly aboveGroundM: number | null;
}

/** Judges a manoeuvre in the air in which `bounds` is placed. */
export function judgeManoeuvre(bounds: ManoeuvreBounds, asked: AskedManoeuvre): JudgedManoeuvre {
  const { mach, fuelKg, bankRad } = asked;
  bounds.load(fuelKg);
  const loadFactor = asked.loadFactor ?? levelTurn(bankRad).loadFactor;
  const all = boundsOf(bounds, mach, loadFactor, entryRate(bounds, asked));
  const angle = bounds.angleFor(mach, loadFactor);
  const limits = limitsThere(bounds, mach, loadFactor, bankRad, angle);
  const height = heightThere(bounds, asked);
  const low =
    height !== null &&
    height.aboveGroundM !== null &&
    !(height.aboveGroundM >= (height.leastHeightM ?? Number.POSITIVE_INFINITY));
  const counted = all.filter(({ key }) => key !== 'rolling' || bankRad !== 0);
  const passed = [
    ...counted.filter(({ margin }) => margin < 0).map(({ key }) => key),
    ...limits.filter(({ margin }) => !(margin >= 0)).map(({ key }) => key),
    ...(low ? ['height'] : []),
  ];
  return {
    allowed: passed.length === 0 && !Number.isNaN(angle),
    passed,
    first: counted[0]?.key ?? null,
    at: {
      ...bounds.speeds(mach),
      pressureAltitudeM: bounds.pressureAltitudeM,
      temperatureOffsetK: bounds.air.temperatureOffsetK,
      fuelKg,
      massKg: bounds.inputs.massKg,
      cgFraction: bounds.cgFraction(mach),
    },
    bankDeg: degrees(bankRad),
    loadFactor,
    angleOfAttackDeg: Number.isNaN(angle) ? null : degrees(angle),
    bounds: all,
    silentRollDegS: silentRoll(bounds, mach, asked, loadFactor),
    limits,
    thrust: thrustThere(bounds, mach, loadFactor),
    height,
    notComputed: missing(bounds, height, angle),
  };
}

/** n' with which the manoeuvre is entered: rolled into, or pulled at the deck's onset; 0 for level flight. */
function entryRate({ aircraft }: ManoeuvreBounds, { bankRad, loadFactor }: AskedManoeuvre): number {
  const { onsetPerS, rollRadPerS } = aircraft.rates;
  if (loadFactor !== null) return loadFactor > 1 ? onsetPerS : 0;
  return onsetOfRoll(Math.abs(bankRad), rollRadPerS);
}

function boundsOf(
  bounds: ManoeuvreBounds,
  mach: number,
  loadFactor: number,
  entryOnset: number,
): ManoeuvreBound[] {
  const there = bounds.at(mach);
  const lead = bounds.lead(entryOnset);
  const entry = there.warning === null || !(lead > 0) ? null : there.warning - lead;
  const angle = bounds.angleFor(mach, loadFactor);
  const angles: Partial<Record<BoundKey, number | null>> = {
    warning: bounds.aircraft.aerodynamics.warningAngleRad(mach),
    push: bounds.aircraft.aerodynamics.pushAngleRad(mach),
  };
  const values: Record<BoundKey, number | null> = {
    entry,
    warning: there.warning,
    push: there.push,
    rolling: there.rolling,
    symmetric: there.symmetric,
    held: there.held,
  };
  return (Object.keys(values) as BoundKey[])
    .flatMap((key) => {
      const value = values[key];
      if (value === null) return [];
      const of = angles[key] ?? null;
      return [
        {
          key,
          loadFactor: value,
          bankDeg: value >= 1 ? degrees(Math.acos(1 / value)) : null,
          margin: value - loadFactor,
          angleMarginDeg: of === null ? null : degrees(of - angle),
          source: sourceOf(bounds, key),
        },
      ];
    })
    .sort((a, b) => a.loadFactor - b.loadFactor);
}

function sourceOf({ aircraft, heldTo, structureSource }: ManoeuvreBounds, key: BoundKey): string {
  if (key === 'held') return heldTo?.source ?? '';
  if (key === 'symmetric' || key === 'rolling') return structureSource;
  const table = 'stall table of the deck';
  return key === 'entry' ? `${table}, warned ${aircraft.rates.warningLeadS} s ahead` : table;
}

/** All limits of the deck but those of load factor from above and of angle of attack, which are bounds by themselves. */
function limitsThere(
  bounds: ManoeuvreBounds,
  mach: number,
  loadFactor: number,
  bankRad: number,
  angleRad: number,
): LimitThere[] {
  const { inputs, aircraft } = bounds;
  bounds.fill(mach);
  inputs.loadFactor = loadFactor;
  inputs.bankRad = bankRad;
  inputs.angleOfAttackRad = angleRad;
  inputs.ledAngleOfAttackRad = angleRad;
  return aircraft.limits
    .filter((limit) => limit.quantity !== 'angleOfAttackDeg' && !boundsStructure(limit))
    .map(({ key, name, quantity, side, source, value: read, bound: boundAt }) => {
      const unit = fileUnit(quantity);
      const [value, bound] = [read(inputs) * unit, boundAt(inputs) * unit];
      const margin = side === 'upper' ? bound - value : value - bound;
      return { key, name, quantity, side, value, bound, margin, source };
    });
}

function thrustThere(bounds: ManoeuvreBounds, mach: number, loadFactor: number): ThrustThere | null {
  const sustained = bounds.sustained(mach);
  if (sustained === null) return null;
  const { forces, inputs, weightN } = bounds;
  bounds.balanceAt(mach);
  forces.usePower(bounds.aircraft.propulsion.maximum);
  forces.useLift(loadFactor * weightN);
  const { alongN, thrustN, dragN, speedMS } = forces;
  return {
    sustained,
    thrustN,
    dragN,
    specificExcessPowerMS: (alongN * speedMS) / weightN,
    accelerationMS2: alongN / inputs.massKg,
  };
}

function heightThere(bounds: ManoeuvreBounds, { bankRad, groundM }: AskedManoeuvre): HeightThere | null {
  const push = pushAt(bounds, Math.abs(bankRad));
  if (push === null) return null;
  const { clearanceM } = bounds.rules;
  return {
    ...push,
    clearanceM,
    aboveGroundM: groundM === null ? null : bounds.air.geometricHeightM - groundM,
  };
}

/** Up to this rate of roll n + lead n' stays below the warning. */
function silentRoll(
  bounds: ManoeuvreBounds,
  mach: number,
  { bankRad, loadFactor: pulled }: AskedManoeuvre,
  loadFactor: number,
): number | null {
  const { rollRadPerS, warningLeadS } = bounds.aircraft.rates;
  const warning = bounds.stall('warning', mach);
  if (bankRad === 0 || pulled !== null || warning === null || !(warningLeadS > 0)) return null;
  const spare = warning - loadFactor;
  const rate = spare / (warningLeadS * onsetOfRoll(Math.abs(bankRad), 1));
  return spare > 0 && rate < rollRadPerS ? degrees(rate) : null;
}

function missing(
  { aircraft, rules }: ManoeuvreBounds,
  height: HeightThere | null,
  angleRad: number,
): string[] {
  const beyond = Number.isNaN(angleRad)
    ? ['angle of attack: the tables of the deck do not reach this Mach and height']
    : [];
  const endless =
    height?.lostM === null
      ? ['height lost in a push: not level after two minutes, or outside the tables of the deck']
      : [];
  return [...beyond, ...manoeuvresMissing(aircraft, rules), ...endless];
}

function degrees(rad: number): number {
  return (rad * 180) / Math.PI;
}
