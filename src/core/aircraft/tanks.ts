/** Fuel in its tanks: how they fill and empty in the deck's order, and what is transferred between them by Mach. */
import type { Transfer } from './aircraft.ts';
import type { Tank } from './deck.ts';

/** A stretch of filling, from one amount on board to another, shared out among the tanks of one order. */
interface Stretch {
  readonly fromKg: number;
  readonly toKg: number;
  /** What each tank takes of it, by its place in the deck. */
  readonly sharesKg: readonly (readonly [tank: number, kg: number])[];
}

export interface Filling {
  readonly stretches: readonly Stretch[];
  readonly transfers: readonly Transfer[];
  readonly tanks: readonly Pick<Tank, 'capacityKg' | 'unusableKg' | 'armM'>[];
}

/** Fuel that cannot be used comes first, in every tank alike; then tank after tank, the last order first. */
export function fillingOf(tanks: readonly Tank[], transfers: readonly Transfer[]): Filling {
  const stretches: Stretch[] = [];
  let onBoard = 0;
  const add = (shares: readonly (readonly [number, number])[]): void => {
    const kg = shares.reduce((sum, [, share]) => sum + share, 0);
    if (!(kg > 0)) return;
    stretches.push({ fromKg: onBoard, toKg: onBoard + kg, sharesKg: shares });
    onBoard += kg;
  };
  add(tanks.map(({ unusableKg }, i) => [i, unusableKg]));
  for (const order of [...new Set(tanks.map((tank) => tank.order))].sort((a, b) => b - a)) {
    const together = tanks.map((tank, i) => ({ tank, i })).filter(({ tank }) => tank.order === order);
    add(together.map(({ tank, i }) => [i, tank.capacityKg - tank.unusableKg]));
  }
  return { stretches, transfers, tanks };
}

/**
 * Fuel in each tank [kg] into `out`, with what is transferred at a Mach; the sum is the fuel on board, from 0 to full.
 * A transfer takes no more than the one tank has to use and the other has room for; of two transfers the first goes first.
 */
export function fillTanks(filling: Filling, fuelKg: number, mach: number, out: Float64Array): void {
  fillInOrder(filling, fuelKg, out);
  for (const transfer of filling.transfers) {
    const kg = transferred(filling, transfer, mach, out);
    out[transfer.from] -= kg;
    out[transfer.to] += kg;
  }
}

function fillInOrder({ stretches }: Filling, fuelKg: number, out: Float64Array): void {
  out.fill(0);
  for (let i = 0; i < stretches.length; i++) {
    const { fromKg, toKg, sharesKg } = stretches[i];
    if (fuelKg <= fromKg) return;
    const part = Math.min(1, (fuelKg - fromKg) / (toKg - fromKg));
    for (let k = 0; k < sharesKg.length; k++) out[sharesKg[k][0]] += part * sharesKg[k][1];
  }
}

function transferred({ tanks }: Filling, transfer: Transfer, mach: number, held: Float64Array): number {
  const { from, to, massKg, beginsMach, endsMach } = transfer;
  const wanted = massKg * Math.min(Math.max((mach - beginsMach) / (endsMach - beginsMach), 0), 1);
  const most = Math.min(held[from] - tanks[from].unusableKg, tanks[to].capacityKg - held[to]);
  return Math.max(0, Math.min(wanted, most));
}

/** What transfers at a Mach add to the moment of the fuel [kg m]; `held` is room for the tanks. */
export function transferMoment(filling: Filling, fuelKg: number, mach: number, held: Float64Array): number {
  fillInOrder(filling, fuelKg, held);
  let moment = 0;
  for (const transfer of filling.transfers) {
    const { from, to } = transfer;
    const kg = transferred(filling, transfer, mach, held);
    held[from] -= kg;
    held[to] += kg;
    moment += kg * (filling.tanks[to].armM - filling.tanks[from].armM);
  }
  return moment;
}
