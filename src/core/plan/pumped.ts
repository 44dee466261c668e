/**
 * What the pumps have moved along a flight: each transfer follows its schedule by Mach no faster than its pump, and takes no more
 * than the one tank has to use and the other has room for. At take-off nothing is moved. The drag of trim that a flight has is that
 * of the schedule; its centre of gravity and what that leaves to the limits are as pumped.
 */
import type { Aircraft, Transfer } from '../aircraft/aircraft.ts';
import { centreBetween } from '../aircraft/balance-state.ts';
import type { Log } from './log.ts';
import type { PumpBehind } from './plan.ts';

/** Columns of the flight that decide it, of one length. */
export interface Along {
  readonly timeS: readonly number[];
  readonly fuelKg: readonly number[];
  readonly mach: readonly number[];
}

export interface Pumped {
  /** tanksKg[i][node] of tank i. */
  readonly tanksKg: number[][];
  /** At each node; NaN where the deck has no arms. */
  readonly cgFraction: number[];
  readonly behind: PumpBehind | null;
}

/** Less than this behind is with the schedule [kg]. */
const WITH_IT_KG = 1;

export function pumpedAlong(aircraft: Aircraft, { timeS, fuelKg, mach }: Along): Pumped {
  const { balance } = aircraft;
  const { transfers } = balance;
  const tanksKg = balance.tanks.map(() => new Array<number>(timeS.length));
  const cgFraction = new Array<number>(timeS.length);
  const [scheduled, held] = [0, 1].map(() => new Float64Array(balance.tanks.length));
  const moved = transfers.map(() => 0);
  const worst = { kg: WITH_IT_KG, transfer: -1, node: 0 };
  const least = { margin: Number.POSITIVE_INFINITY, node: 0 };
  for (let node = 0; node < timeS.length; node++) {
    const overS = node === 0 ? 0 : timeS[node] - timeS[node - 1];
    balance.fillTanks(fuelKg[node], 0, held);
    transfers.forEach((transfer, i) => {
      const wanted = bounded(wantedAt(transfer, mach[node]), transfer, balance.tanks, held);
      const now = bounded(toward(moved[i], wanted, transfer.rateKgS, overS), transfer, balance.tanks, held);
      moved[i] = now;
      held[transfer.from] -= now;
      held[transfer.to] += now;
      if (Math.abs(wanted - now) > worst.kg) {
        Object.assign(worst, { kg: Math.abs(wanted - now), transfer: i, node });
      }
    });
    for (let tank = 0; tank < held.length; tank++) tanksKg[tank][node] = held[tank];
    cgFraction[node] = balance.cgOfTanks(held);
    const { marginFraction } = centreBetween(aircraft, cgFraction[node], fuelKg[node], mach[node]);
    if (marginFraction !== null && marginFraction < least.margin) {
      Object.assign(least, { margin: marginFraction, node });
    }
  }
  if (worst.transfer < 0) return { tanksKg, cgFraction, behind: null };
  const { from, to, rateKgS } = transfers[worst.transfer];
  balance.fillTanks(fuelKg[worst.node], mach[worst.node], scheduled);
  return {
    tanksKg,
    cgFraction,
    behind: {
      from: balance.tanks[from].name,
      to: balance.tanks[to].name,
      rateKgS: rateKgS ?? Number.NaN,
      behindKg: worst.kg,
      timeS: timeS[worst.node] - timeS[0],
      mach: mach[worst.node],
      cgFraction: cgFraction[worst.node],
      scheduledFraction: balance.cgOfTanks(scheduled),
      leastMarginFraction: Number.isFinite(least.margin) ? least.margin : null,
      leastTimeS: timeS[least.node] - timeS[0],
    },
  };
}

/**
 * Puts the centre of gravity as pumped, and its margins, into a log that was flown with that of the schedule; false where all pumps
 * keep to it.
 */
export function followPumps(aircraft: Aircraft, log: Log): boolean {
  const { balance, limits } = aircraft;
  if (balance.transfers.every(({ rateKgS }) => rateKgS === null)) return false;
  const { cgFraction, behind } = pumpedAlong(aircraft, log.columns);
  if (behind === null || Number.isNaN(behind.cgFraction)) return false;
  const flown = log.columns.cgFraction;
  for (const { key, quantity, side } of limits) {
    if (quantity !== 'cgFraction') continue;
    const toward = side === 'upper' ? -1 : 1;
    log.margins[key].forEach((margin, node) => {
      log.margins[key][node] = margin + toward * (cgFraction[node] - flown[node]);
    });
  }
  cgFraction.forEach((value, node) => {
    flown[node] = value;
  });
  return true;
}

/** By schedule, whatever the tanks hold. */
function wantedAt({ massKg, beginsMach, endsMach }: Transfer, mach: number): number {
  return massKg * Math.min(Math.max((mach - beginsMach) / (endsMach - beginsMach), 0), 1);
}

function toward(now: number, wanted: number, rateKgS: number | null, overS: number): number {
  if (rateKgS === null) return wanted;
  const most = rateKgS * overS;
  return now + Math.min(Math.max(wanted - now, -most), most);
}

function bounded(
  kg: number,
  { from, to }: Transfer,
  tanks: Aircraft['balance']['tanks'],
  held: Float64Array,
): number {
  const most = Math.min(held[from] - tanks[from].unusableKg, tanks[to].capacityKg - held[to]);
  return Math.max(0, Math.min(kg, most));
}
