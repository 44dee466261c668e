/** Numbers of tankers and of the fuel that could be changed to free a sortie. */
import { type Lever, replaceLeg, replaceTanker } from './lever.ts';
import type { Contact, Sortie } from './sortie.ts';

const knot = 1852 / 3600;
const degree = Math.PI / 180;

function contactOf(sortie: Sortie, leg: number): Contact | null {
  const end = sortie.legs[leg]?.end;
  return end?.kind === 'contact' ? end : null;
}

/** The speed in contact at the end of a leg, less. */
export function contactSpeed(sortie: Sortie, leg: number): Lever | null {
  const tanker = contactOf(sortie, leg)?.tanker;
  if (!tanker) return null;
  const from = tanker.calibratedAirspeedMS;
  return {
    path: `tankers.${sortie.tankers.indexOf(tanker)}.calibratedAirspeed`,
    also: [],
    name: `speed in contact with ${tanker.name}`,
    quantity: 'calibratedAirspeedMS',
    from,
    towards: from - 60 * knot,
    step: knot,
    set: (calibratedAirspeedMS) => replaceTanker(sortie, tanker, { ...tanker, calibratedAirspeedMS }),
  };
}

/** The bank of the turns onto and off the track of the tanker that ends a leg, less. */
export function contactBank(sortie: Sortie, leg: number): Lever | null {
  const tanker = contactOf(sortie, leg)?.tanker;
  if (!tanker) return null;
  return {
    path: `tankers.${sortie.tankers.indexOf(tanker)}.bank`,
    also: [],
    name: `bank of the turns at ${tanker.name}`,
    quantity: 'bankDeg',
    from: tanker.bankRad / degree,
    towards: 10,
    step: 1,
    set: (bankDeg) => replaceTanker(sortie, tanker, { ...tanker, bankRad: bankDeg * degree }),
  };
}

/** The fuel to be taken at the contact that ends a leg, between none and all that the tanker or the tanks have. */
function taking(
  sortie: Sortie,
  leg: number,
  capacityKg: number,
  towards: (mostKg: number) => number,
): Lever | null {
  const end = contactOf(sortie, leg);
  if (!end) return null;
  const mostKg = Math.min(capacityKg, end.tanker.offloadKg);
  const from = end.takeKg === 'full' ? mostKg : end.takeKg;
  if (from === towards(mostKg)) return null;
  return {
    path: `legs.${leg}.refuel.take`,
    also: [],
    name: `fuel taken from ${end.tanker.name}`,
    quantity: 'fuelKg',
    from,
    towards: towards(mostKg),
    step: 100,
    set: (takeKg) => replaceLeg(sortie, leg, (old) => ({ ...old, end: { ...end, takeKg } })),
  };
}

export function takeLess(sortie: Sortie, leg: number, capacityKg: number): Lever | null {
  return taking(sortie, leg, capacityKg, () => 0);
}

export function takeMore(sortie: Sortie, leg: number, capacityKg: number): Lever | null {
  return taking(sortie, leg, capacityKg, (most) => most);
}

export function moreFuel(sortie: Sortie, capacityKg: number): Lever | null {
  return sortie.aircraft.fuelKg < capacityKg ? fuelAtTakeOff(sortie, capacityKg) : null;
}

/** Less fuel at take-off, for a runway that is too short or tyres that are too slow. */
export function lessFuel(sortie: Sortie): Lever | null {
  return sortie.aircraft.fuelKg > 0 ? fuelAtTakeOff(sortie, 0) : null;
}

function fuelAtTakeOff(sortie: Sortie, towards: number): Lever {
  return {
    path: 'aircraft.fuel',
    also: [],
    name: 'fuel at take-off',
    quantity: 'fuelKg',
    from: sortie.aircraft.fuelKg,
    towards,
    step: 100,
    set: (fuelKg) => ({ ...sortie, aircraft: { ...sortie.aircraft, fuelKg } }),
  };
}
