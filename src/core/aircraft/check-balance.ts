/** Sanity of masses, tanks and the centre of gravity. */
import { OutsideRange } from '../quantities/errors.ts';
import { shown } from './check-air.ts';
import { highestMach } from './check-limits.ts';
import type { CompiledDeck } from './compile.ts';
import type { Deck, FaultSink } from './deck.ts';
import { expansionAt15 } from './fuel.ts';
import { newLimitInputs } from './limits.ts';

/** Masses, tanks and chord by themselves. */
export function checkMasses(deck: Deck, faults: FaultSink): void {
  deck.masses.forEach((item, index) => {
    if (!(item.massKg > 0)) {
      faults.add(deck.place(['masses', index, 'mass']), `masses.${index}.mass`, 'a mass must be above 0');
    }
  });
  deck.tanks.forEach((tank, index) => {
    const path = `tanks.${index}`;
    if (!(tank.capacityKg > 0)) {
      faults.add(deck.place(['tanks', index, 'capacity']), `${path}.capacity`, 'a capacity must be above 0');
    }
    if (tank.unusableKg < 0 || tank.unusableKg > tank.capacityKg) {
      const message = `unusable fuel must be 0 to the capacity, ${shown(tank.capacityKg)} kg`;
      faults.add(deck.place(['tanks', index, 'unusable']), `${path}.unusable`, message);
    }
  });
  checkTransfers(deck, faults);
  checkFuel(deck, faults);
  const { wing } = deck;
  const bounded = deck.limits.some((limit) => limit.of === 'centreOfGravity');
  if (bounded && (wing.meanChordM === null || wing.leadingEdgeArmM === null)) {
    const message = 'limits of the centre of gravity need meanChord and leadingEdgeArm';
    faults.add(deck.place(['wing']), 'wing', message);
  }
  if (wing.meanChordM !== null && !(wing.meanChordM > 0)) {
    faults.add(deck.place(['wing', 'meanChord']), 'wing.meanChord', 'the mean chord must be above 0');
  }
}

/** Transfers between two tanks of the deck, in order of Mach; a dump that dumps. */
function checkTransfers({ tanks, transfers, dump, landing, place }: Deck, faults: FaultSink): void {
  const names = tanks.map((tank) => tank.name);
  transfers.forEach(({ from, to, massKg, beginsMach, endsMach, rateKgS }, index) => {
    const tell = (key: string, message: string): void =>
      faults.add(place(['transfers', index, key]), `transfers.${index}.${key}`, message);
    for (const [key, name] of [
      ['from', from],
      ['to', to],
    ] as const) {
      if (!names.includes(name)) tell(key, `there is no tank "${name}"; there are ${names.join(', ')}`);
    }
    if (from === to) tell('to', 'a transfer is from one tank to another');
    if (!(massKg > 0)) tell('mass', 'a transfer must be above 0');
    if (!(endsMach > beginsMach)) {
      tell('ends', `a transfer ends above the Mach at which it begins, ${shown(beginsMach)}`);
    }
    if (rateKgS !== null && !(rateKgS > 0)) tell('rate', 'a rate must be above 0');
  });
  if (dump !== null && !(dump.rateKgS > 0)) {
    faults.add(place(['dump', 'rate']), 'dump.rate', 'a rate must be above 0');
  }
  if (dump !== null && !(dump.leastKg >= 0)) {
    faults.add(place(['dump', 'least']), 'dump.least', 'must not be below 0');
  }
  if (
    landing?.maximumMassKg !== undefined &&
    landing.maximumMassKg !== null &&
    !(landing.maximumMassKg > 0)
  ) {
    faults.add(place(['landing', 'maximumMass']), 'landing.maximumMass', 'a mass must be above 0');
  }
}

/** The grade's densities, and volumes that go with the capacities. */
function checkFuel({ fuel, tanks, place }: Deck, faults: FaultSink): void {
  const withVolume = tanks.filter((tank) => tank.volumeM3 !== null).length;
  if (withVolume > 0 && withVolume < tanks.length) {
    const message = `${withVolume} of ${tanks.length} tanks have a volume; give it for all or for none`;
    faults.add(place(['tanks']), 'tanks', message);
  }
  if (fuel === null) return;
  const { densityKgM3, lightestKgM3, heaviestKgM3 } = fuel;
  for (const [key, density] of [
    ['lightest', lightestKgM3],
    ['heaviest', heaviestKgM3],
  ] as const) {
    try {
      expansionAt15(density);
    } catch (error) {
      if (!(error instanceof OutsideRange)) throw error;
      faults.add(place(['fuel', key]), `fuel.${key}`, error.message);
    }
  }
  if (!(lightestKgM3 <= densityKgM3 && densityKgM3 <= heaviestKgM3)) {
    const message = `${shown(densityKgM3)} kg/m3 is outside ${shown(lightestKgM3)} to ${shown(heaviestKgM3)} kg/m3, lightest to heaviest`;
    faults.add(place(['fuel', 'density']), 'fuel.density', message);
  }
  tanks.forEach(({ volumeM3, capacityKg, unusableKg }, index) => {
    if (volumeM3 === null) return;
    const path = `tanks.${index}.volume`;
    if (!(volumeM3 * lightestKgM3 > unusableKg)) {
      faults.add(place(['tanks', index, 'volume']), path, 'must hold more than the fuel that cannot be used');
    } else if (volumeM3 * heaviestKgM3 < capacityKg) {
      const message = `holds ${Math.floor(volumeM3 * heaviestKgM3)} kg of the heaviest fuel at 15 degC, less than the capacity, ${shown(capacityKg)} kg`;
      faults.doubt(place(['tanks', index, 'volume']), path, message);
    }
  });
}

/** Centre of gravity against its limits, and masses against the tables of the runway. */
export function checkBalance(deck: Deck, compiled: CompiledDeck, faults: FaultSink): void {
  const bounded = deck.limits.some((limit) => limit.of === 'centreOfGravity');
  const known = deck.masses.length > 0 && deck.tanks.length > 0 && (deck.wing.meanChordM ?? 0) > 0;
  if (bounded && known) checkReach(deck, compiled, faults);
  const { emptyMassKg, fuelCapacityKg } = compiled.aircraft.balance;
  const heaviest = emptyMassKg + fuelCapacityKg;
  const { takeOff, landingRoll } = compiled.grids;
  if (takeOff !== null && takeOff.axes[0].last < heaviest) {
    const message = `the masses end at ${shown(takeOff.axes[0].last)} kg, full tanks make ${shown(heaviest)} kg`;
    faults.doubt({ file: takeOff.file, line: 0, column: 0 }, 'mass', message);
  }
  if (landingRoll !== null && landingRoll.axes[0].first > emptyMassKg) {
    const message = `the masses begin at ${shown(landingRoll.axes[0].first)} kg, above the aircraft without fuel`;
    faults.doubt({ file: landingRoll.file, line: 0, column: 0 }, 'mass', message);
  }
}

/** The fuel states between the corners of filling, where the CG turns, and some between. */
function fuelStates(corners: Float64Array): number[] {
  const states: number[] = [];
  for (let i = 0; i + 1 < corners.length; i++) {
    for (let part = 0; part < 8; part++) states.push(corners[i] + ((corners[i + 1] - corners[i]) * part) / 8);
  }
  states.push(corners[corners.length - 1]);
  return states;
}

/** At every Mach some loading must lie within the limits; at low speed each one should. */
function checkReach(deck: Deck, { aircraft, grids }: CompiledDeck, faults: FaultSink): void {
  const limits = aircraft.limits.filter((limit) => limit.quantity === 'cgFraction');
  const inputs = newLimitInputs();
  const states = fuelStates(aircraft.balance.corners);
  const machs = [...grids.lift.axes[0].points];
  const inside = (mach: number, fuelKg: number): boolean => {
    inputs.mach = mach;
    inputs.fuelKg = fuelKg;
    inputs.massKg = aircraft.balance.emptyMassKg + fuelKg;
    inputs.cgFraction = aircraft.balance.cgFraction(fuelKg, mach);
    return limits.every((limit) =>
      limit.side === 'upper'
        ? inputs.cgFraction <= limit.bound(inputs)
        : inputs.cgFraction >= limit.bound(inputs),
    );
  };
  const firstLimit = deck.limits.findIndex((limit) => limit.of === 'centreOfGravity');
  const place = deck.place(['limits', firstLimit]);
  const span = states.map((fuelKg) => aircraft.balance.cgFraction(fuelKg));
  const reach = `${(100 * Math.min(...span)).toFixed(1)} to ${(100 * Math.max(...span)).toFixed(1)} %`;
  const highest = highestMach(deck);
  for (const mach of machs) {
    if (mach > highest || states.some((fuelKg) => inside(mach, fuelKg))) continue;
    const message = `no loading has its centre of gravity within the limits at Mach ${mach}: tanks reach ${reach}`;
    faults.add(place, `limits.${firstLimit}`, message);
    break;
  }
  const outside = states.filter((fuelKg) => !inside(machs[0], fuelKg));
  if (outside.length > 0 && outside.length < states.length) {
    const cg = (100 * aircraft.balance.cgFraction(outside[0])).toFixed(1);
    const message = `at Mach ${machs[0]} the centre of gravity is outside its limits with ${shown(outside[0])} kg of fuel (${cg} %)`;
    faults.doubt(deck.place(['tanks']), 'tanks', message);
  }
}
