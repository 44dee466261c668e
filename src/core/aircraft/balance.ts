/** Mass and centre of gravity of an aircraft whose tanks are filled and emptied in the deck's order. */
import type { Balance } from './aircraft.ts';
import type { MassItem, Tank, Wing } from './deck.ts';

/**
 * The balance of masses and tanks. Fuel that cannot be used is the last in every tank. A deck without masses, tanks or mean
 * chord has no known centre of gravity: `cgFraction` is NaN. Without a density every tank holds its capacity by mass.
 */
export function balanceOf(
  masses: readonly MassItem[],
  tanksOfDeck: readonly Tank[],
  wing: Wing,
  densityKgM3 = Number.POSITIVE_INFINITY,
): Balance {
  const tanks = tanksOfDeck.map((tank) => ({
    ...tank,
    capacityKg: Math.min(tank.capacityKg, (tank.volumeM3 ?? Number.POSITIVE_INFINITY) * densityKgM3),
  }));
  const volumes = tanks.map((tank) => tank.volumeM3).filter((volume) => volume !== null);
  const emptyMassKg = masses.reduce((sum, item) => sum + item.massKg, 0);
  const emptyMoment = masses.reduce((sum, item) => sum + item.massKg * item.armM, 0);
  const { fuel, moment } = fillingLine(tanks);
  const fuelCapacityKg = fuel[fuel.length - 1];
  const unusableFuelKg = tanks.reduce((sum, tank) => sum + tank.unusableKg, 0);
  const chord = wing.meanChordM ?? Number.NaN;
  const edge = wing.leadingEdgeArmM ?? Number.NaN;
  const known = masses.length > 0 && tanks.length > 0;

  function cgFraction(fuelKg: number): number {
    if (!known) return Number.NaN;
    let i = 0;
    while (i < fuel.length - 2 && fuelKg > fuel[i + 1]) i++;
    const fuelMoment =
      moment[i] + ((fuelKg - fuel[i]) * (moment[i + 1] - moment[i])) / (fuel[i + 1] - fuel[i]);
    return ((emptyMoment + fuelMoment) / (emptyMassKg + fuelKg) - edge) / chord;
  }

  return {
    emptyMassKg,
    fuelCapacityKg,
    unusableFuelKg,
    cgFraction,
    corners: fuel,
    volumeM3: volumes.length < tanks.length ? null : volumes.reduce((sum, volume) => sum + volume, 0),
    heldAt: (density) => balanceOf(masses, tanksOfDeck, wing, density),
  };
}

/** Fuel on board and its moment at each point where another tank begins to fill, from empty to full. */
function fillingLine(tanks: readonly Tank[]): { fuel: Float64Array; moment: Float64Array } {
  const fuel = [0];
  const moment = [0];
  function add(massKg: number, momentKgM: number): void {
    if (massKg <= 0) return;
    fuel.push(fuel[fuel.length - 1] + massKg);
    moment.push(moment[moment.length - 1] + momentKgM);
  }
  let unusable = 0;
  let unusableMoment = 0;
  for (const tank of tanks) {
    unusable += tank.unusableKg;
    unusableMoment += tank.unusableKg * tank.armM;
  }
  add(unusable, unusableMoment);
  const orders = [...new Set(tanks.map((tank) => tank.order))].sort((a, b) => b - a);
  for (const order of orders) {
    const together = tanks.filter((tank) => tank.order === order);
    const usable = together.map((tank) => tank.capacityKg - tank.unusableKg);
    const mass = usable.reduce((sum, value) => sum + value, 0);
    add(
      mass,
      together.reduce((sum, tank, index) => sum + usable[index] * tank.armM, 0),
    );
  }
  return { fuel: Float64Array.from(fuel), moment: Float64Array.from(moment) };
}
