/** Mass and centre of gravity of an aircraft whose tanks are filled and emptied in the deck's order. */
import type { Balance, Transfer } from './aircraft.ts';
import type { MassItem, Tank, Wing } from './deck.ts';
import { type Filling, fillingOf, fillTanks, transferMoment } from './tanks.ts';

/**
 * The balance of masses and tanks. Fuel that cannot be used is the last in every tank. A deck without masses, tanks or mean
 * chord has no known centre of gravity: `cgFraction` is NaN. Without a density every tank holds its capacity by mass.
 */
export function balanceOf(
  masses: readonly MassItem[],
  tanksOfDeck: readonly Tank[],
  wing: Wing,
  transfers: readonly Transfer[] = [],
  densityKgM3 = Number.POSITIVE_INFINITY,
): Balance {
  const tanks = tanksOfDeck.map((tank) => ({
    ...tank,
    capacityKg: Math.min(tank.capacityKg, (tank.volumeM3 ?? Number.POSITIVE_INFINITY) * densityKgM3),
  }));
  const volumes = tanks.map((tank) => tank.volumeM3).filter((volume) => volume !== null);
  const emptyMassKg = masses.reduce((sum, item) => sum + item.massKg, 0);
  const emptyMoment = masses.reduce((sum, item) => sum + item.massKg * item.armM, 0);
  const filling = fillingOf(tanks, transfers);
  const { fuel, moment } = fillingLine(filling);
  const fuelCapacityKg = fuel[fuel.length - 1];
  const unusableFuelKg = tanks.reduce((sum, tank) => sum + tank.unusableKg, 0);
  const chord = wing.meanChordM ?? Number.NaN;
  const edge = wing.leadingEdgeArmM ?? Number.NaN;
  const known = masses.length > 0 && tanks.length > 0;
  const held = new Float64Array(tanks.length);
  const firstMach = transfers.reduce((least, { beginsMach }) => Math.min(least, beginsMach), Infinity);

  function cgFraction(fuelKg: number, mach = 0): number {
    if (!known) return Number.NaN;
    let i = 0;
    while (i < fuel.length - 2 && fuelKg > fuel[i + 1]) i++;
    let fuelMoment = moment[i] + ((fuelKg - fuel[i]) * (moment[i + 1] - moment[i])) / (fuel[i + 1] - fuel[i]);
    if (mach > firstMach) fuelMoment += transferMoment(filling, fuelKg, mach, held);
    return ((emptyMoment + fuelMoment) / (emptyMassKg + fuelKg) - edge) / chord;
  }

  function cgOfTanks(heldKg: ArrayLike<number>): number {
    if (!known) return Number.NaN;
    let [mass, moments] = [emptyMassKg, emptyMoment];
    for (let tank = 0; tank < tanks.length; tank++) {
      mass += heldKg[tank];
      moments += heldKg[tank] * tanks[tank].armM;
    }
    return (moments / mass - edge) / chord;
  }

  return {
    emptyMassKg,
    fuelCapacityKg,
    unusableFuelKg,
    cgFraction,
    cgOfTanks,
    corners: fuel,
    tanks,
    transfers,
    fillTanks: (fuelKg, mach, out) => fillTanks(filling, fuelKg, mach, out),
    volumeM3: volumes.length < tanks.length ? null : volumes.reduce((sum, volume) => sum + volume, 0),
    heldAt: (density) => balanceOf(masses, tanksOfDeck, wing, transfers, density),
  };
}

/** Fuel on board and its moment at each point where another tank begins to fill, from empty to full. */
function fillingLine({ stretches, tanks }: Filling): { fuel: Float64Array; moment: Float64Array } {
  const fuel = [0];
  const moment = [0];
  for (const { toKg, sharesKg } of stretches) {
    fuel.push(toKg);
    const added = sharesKg.reduce((sum, [tank, kg]) => sum + kg * tanks[tank].armM, 0);
    moment.push(moment[moment.length - 1] + added);
  }
  return { fuel: Float64Array.from(fuel), moment: Float64Array.from(moment) };
}
