/** Where the centre of gravity stands with some fuel at some Mach, between which limits, and with which fuel it leaves them. */
import { brent } from '../numerics/roots.ts';
import type { Aircraft, Limit } from './aircraft.ts';
import { newLimitInputs } from './limits.ts';

/** A loading at a Mach: fractions of the mean chord; NaN where the deck has no arms, null where it has no such limit. */
export interface BalanceState {
  readonly fuelKg: number;
  readonly massKg: number;
  readonly mach: number;
  readonly cgFraction: number;
  readonly forwardLimit: number | null;
  readonly aftLimit: number | null;
  /** To the nearer limit, negative beyond it; null where there is none. */
  readonly marginFraction: number | null;
  /** In each tank, in the deck's order. */
  readonly tanksKg: readonly number[];
}

/** Fuel with which the centre of gravity is beyond a limit. */
export interface OutsideBalance {
  readonly side: 'forward' | 'aft';
  readonly fromKg: number;
  readonly toKg: number;
  /** The most by which it is beyond, as a fraction of the mean chord, and the fuel there. */
  readonly mostFraction: number;
  readonly mostAtKg: number;
}

type Side = OutsideBalance['side'];

/** Bounds of one side: the one that binds is the least margin. */
function marginOf(
  aircraft: Aircraft,
  limits: readonly Limit[],
  fuelKg: number,
  mach: number,
  cgFraction = aircraft.balance.cgFraction(fuelKg, mach),
): number {
  const { balance } = aircraft;
  const inputs = newLimitInputs();
  inputs.mach = mach;
  inputs.fuelKg = fuelKg;
  inputs.massKg = balance.emptyMassKg + fuelKg;
  inputs.cgFraction = cgFraction;
  return limits.reduce((least, limit) => {
    const above = inputs.cgFraction - limit.bound(inputs);
    return Math.min(least, limit.side === 'upper' ? -above : above);
  }, Number.POSITIVE_INFINITY);
}

function limitsOf(aircraft: Aircraft, side: Side): readonly Limit[] {
  const sign = side === 'forward' ? 'lower' : 'upper';
  return aircraft.limits.filter((limit) => limit.quantity === 'cgFraction' && limit.side === sign);
}

/** Where a centre of gravity stands between its limits with some fuel at a Mach. */
export function centreBetween(
  aircraft: Aircraft,
  cgFraction: number,
  fuelKg: number,
  mach: number,
): Pick<BalanceState, 'cgFraction' | 'forwardLimit' | 'aftLimit' | 'marginFraction'> {
  const forward = limitsOf(aircraft, 'forward');
  const aft = limitsOf(aircraft, 'aft');
  const toForward = forward.length > 0 ? marginOf(aircraft, forward, fuelKg, mach, cgFraction) : null;
  const toAft = aft.length > 0 ? marginOf(aircraft, aft, fuelKg, mach, cgFraction) : null;
  const margins = [toForward, toAft].filter((value) => value !== null);
  return {
    cgFraction,
    forwardLimit: toForward === null ? null : cgFraction - toForward,
    aftLimit: toAft === null ? null : cgFraction + toAft,
    marginFraction: margins.length > 0 ? Math.min(...margins) : null,
  };
}

/** Fuel from 0 to full; its tanks hold what is transferred at the Mach. */
export function balanceState(aircraft: Aircraft, fuelKg: number, mach: number): BalanceState {
  const { balance } = aircraft;
  const tanks = new Float64Array(balance.tanks.length);
  balance.fillTanks(fuelKg, mach, tanks);
  return {
    fuelKg,
    massKg: balance.emptyMassKg + fuelKg,
    mach,
    ...centreBetween(aircraft, balance.cgFraction(fuelKg, mach), fuelKg, mach),
    tanksKg: Array.from(tanks),
  };
}

/** Fuel states so near each other that no loading between them leaves a limit and comes back unseen. */
const everyKg = 50;

/** Every range of fuel with which the centre of gravity is beyond a limit at a Mach, by fuel; none where no CG is known. */
export function outsideBalance(aircraft: Aircraft, mach: number): OutsideBalance[] {
  const { corners } = aircraft.balance;
  if (Number.isNaN(aircraft.balance.cgFraction(0))) return [];
  const found: OutsideBalance[] = [];
  for (const side of ['forward', 'aft'] as const) {
    const limits = limitsOf(aircraft, side);
    if (limits.length === 0) continue;
    const margin = (fuelKg: number): number => marginOf(aircraft, limits, fuelKg, mach);
    found.push(...rangesBelow0(margin, statesOf(corners)).map((range) => ({ side, ...range })));
  }
  return found.sort((a, b) => a.fromKg - b.fromKg);
}

function statesOf(corners: Float64Array): number[] {
  const states = [0];
  for (let i = 1; i < corners.length; i++) {
    const steps = Math.max(1, Math.ceil((corners[i] - corners[i - 1]) / everyKg));
    for (let k = 1; k <= steps; k++) {
      states.push(corners[i - 1] + ((corners[i] - corners[i - 1]) * k) / steps);
    }
  }
  return states;
}

/** Where a margin crosses 0 is found to a gram. */
const nearKg = 1e-3;

function rangesBelow0(
  margin: (fuelKg: number) => number,
  states: readonly number[],
): Omit<OutsideBalance, 'side'>[] {
  const values = states.map(margin);
  const ranges: Omit<OutsideBalance, 'side'>[] = [];
  const crossing = (i: number): number => brent(margin, states[i - 1], states[i], nearKg).x;
  for (let i = 0; i < states.length; i++) {
    if (values[i] >= 0) continue;
    const fromKg = i === 0 ? states[0] : crossing(i);
    let worst = i;
    while (i < states.length && values[i] < 0) {
      if (values[i] < values[worst]) worst = i;
      i++;
    }
    const toKg = i === states.length ? states[i - 1] : crossing(i);
    ranges.push({ fromKg, toKg, mostFraction: -values[worst], mostAtKg: states[worst] });
  }
  return ranges;
}

/** The balance at one Mach, from no fuel to full. */
export interface BalanceTable {
  readonly mach: number;
  readonly states: readonly BalanceState[];
  readonly outside: readonly OutsideBalance[];
}

/** States at each of the amounts [kg] that the tanks hold; every `stepKg` and where another tank begins to fill if none is given. */
export function balanceTable(
  aircraft: Aircraft,
  mach: number,
  stepKg: number,
  amountsKg: readonly number[] | null = null,
): BalanceTable {
  const { corners, fuelCapacityKg } = aircraft.balance;
  const even = Array.from({ length: Math.ceil(fuelCapacityKg / stepKg) }, (_, i) => i * stepKg);
  const apart = even.filter((kg) => [...corners].every((corner) => Math.abs(corner - kg) > 1));
  const amounts = amountsKg ?? [...apart, ...corners].sort((a, b) => a - b);
  return {
    mach,
    states: amounts.map((fuelKg) => balanceState(aircraft, fuelKg, mach)),
    outside: outsideBalance(aircraft, mach),
  };
}
