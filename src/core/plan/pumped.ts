/**
 * What the pumps have moved along a flight: each transfer follows its schedule by Mach no faster than its pump, and takes no more
 * than the one tank has to use and the other has room for. At take-off nothing is moved. The flight itself is flown with the
 * centre of gravity of the schedule; what stands here is how far behind that the fuel is.
 */
import type { Aircraft, Transfer } from '../aircraft/aircraft.ts';
import { centreBetween } from '../aircraft/balance-state.ts';
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
  readonly behind: PumpBehind | null;
}

/** Less than this behind is with the schedule [kg]. */
const WITH_IT_KG = 1;

export function pumpedAlong(aircraft: Aircraft, { timeS, fuelKg, mach }: Along): Pumped {
  const { balance } = aircraft;
  const { transfers } = balance;
  const tanksKg = balance.tanks.map(() => new Array<number>(timeS.length));
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
    const { marginFraction } = centreBetween(aircraft, balance.cgOfTanks(held), fuelKg[node], mach[node]);
    if (marginFraction !== null && marginFraction < least.margin) {
      Object.assign(least, { margin: marginFraction, node });
    }
  }
  if (worst.transfer < 0) return { tanksKg, behind: null };
  const { from, to, rateKgS } = transfers[worst.transfer];
  for (let tank = 0; tank < held.length; tank++) held[tank] = tanksKg[tank][worst.node];
  balance.fillTanks(fuelKg[worst.node], mach[worst.node], scheduled);
  return {
    tanksKg,
    behind: {
      from: balance.tanks[from].name,
      to: balance.tanks[to].name,
      rateKgS: rateKgS ?? Number.NaN,
      behindKg: worst.kg,
      timeS: timeS[worst.node] - timeS[0],
      mach: mach[worst.node],
      cgFraction: balance.cgOfTanks(held),
      scheduledFraction: balance.cgOfTanks(scheduled),
      leastMarginFraction: Number.isFinite(least.margin) ? least.margin : null,
      leastTimeS: timeS[least.node] - timeS[0],
    },
  };
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
