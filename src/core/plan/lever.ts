/** Numbers of a sortie that could be changed to free it: what is flown, and the fuel. */
import type { Contact, Leg, Place, Sortie, Step } from './sortie.ts';

/** One number of a sortie that can be moved. */
export interface Lever {
  /** Path of the key in the sortie's file. */
  readonly path: string;
  readonly name: string;
  /** Key of the table of quantities. */
  readonly quantity: string;
  /** In SI, angles in degrees. */
  readonly from: number;
  /** How far it may be moved, and in what steps it is set. */
  readonly towards: number;
  readonly step: number;
  set(value: number): Sortie;
  /** Where a value moves the place to that is to be written; only for levers that move one. */
  place?(value: number): Place;
}

const knot = 1852 / 3600;
const foot = 0.3048;
const degree = Math.PI / 180;

export function replaceLeg(sortie: Sortie, index: number, change: (leg: Leg) => Leg): Sortie {
  return { ...sortie, legs: sortie.legs.map((leg, i) => (i === index ? change(leg) : leg)) };
}

type StepOf<K extends Step['kind']> = Extract<Step, { kind: K }>;

/** The first step of a kind in a leg that meets a condition, with its path in the file. */
function stepOf<K extends Step['kind']>(
  sortie: Sortie,
  leg: number,
  kind: K,
  meets: (step: StepOf<K>) => boolean = () => true,
): { readonly step: StepOf<K>; readonly path: string; set(step: StepOf<K>): Sortie } | null {
  const fly = sortie.legs[leg]?.fly ?? [];
  const index = fly.findIndex((step) => step.kind === kind && meets(step as StepOf<K>));
  if (index < 0) return null;
  return {
    step: fly[index] as StepOf<K>,
    path: `legs.${leg}.fly.${index}.${kind}`,
    set: (changed) =>
      replaceLeg(sortie, leg, (old) => ({ ...old, fly: old.fly.map((s, i) => (i === index ? changed : s)) })),
  };
}

/** The cruise Mach of a leg; every climb and cruise of the sortie that aims at the same Mach goes with it. */
export function cruiseMach(sortie: Sortie, leg: number): Lever | null {
  const found = stepOf(sortie, leg, 'cruise', ({ mach }) => mach > 1);
  if (!found) return null;
  const from = found.step.mach;
  const change = (step: Step, mach: number): Step =>
    (step.kind === 'cruise' || step.kind === 'climb') && step.mach === from ? { ...step, mach } : step;
  return {
    path: `${found.path}.mach`,
    name: 'cruise Mach',
    quantity: 'mach',
    from,
    towards: from - 0.6,
    step: 0.01,
    set: (mach) => ({
      ...sortie,
      legs: sortie.legs.map((old) => ({ ...old, fly: old.fly.map((step) => change(step, mach)) })),
    }),
  };
}

/** The altitude of a leg's level cruise, towards the one its climb ends at, or lower where that is the same. */
export function cruiseAltitude(sortie: Sortie, leg: number): Lever | null {
  const found = stepOf(sortie, leg, 'cruise', ({ altitude }) => altitude !== 'optimum');
  if (!found) return null;
  const from = found.step.altitude as number;
  const climb = stepOf(sortie, leg, 'climb', ({ to }) => to !== 'optimum' && to !== from);
  const apart = climb ? (climb.step.to as number) - from : 0;
  return {
    path: `${found.path}.altitude`,
    name: `cruise altitude of ${sortie.legs[leg].name}`,
    quantity: 'pressureAltitudeM',
    from,
    towards: apart === 0 ? from - 20_000 * foot : from + apart,
    step: apart === 0 ? 100 * foot : Math.abs(apart),
    set: (altitude) => found.set({ ...found.step, altitude }),
  };
}

/** The bottom of a leg's pushover, lower (-1) for more speed or higher (+1) for less. */
export function pushoverBottom(sortie: Sortie, leg: number, sign: 1 | -1): Lever | null {
  const found = stepOf(sortie, leg, 'pushover');
  if (!found) return null;
  const from = found.step.bottomM;
  return {
    path: `${found.path}.bottom`,
    name: 'bottom of the pushover',
    quantity: 'pressureAltitudeM',
    from,
    towards: from + sign * 8000 * foot,
    step: 100 * foot,
    set: (bottomM) => found.set({ ...found.step, bottomM }),
  };
}

/** The load factor of the pull-out, less. */
export function pullOut(sortie: Sortie, leg: number): Lever | null {
  const found = stepOf(sortie, leg, 'pushover');
  if (!found) return null;
  return {
    path: `${found.path}.pull`,
    name: 'load factor of the pull-out',
    quantity: 'loadFactor',
    from: found.step.pullLoadFactor,
    towards: 1.05,
    step: 0.05,
    set: (pullLoadFactor) => found.set({ ...found.step, pullLoadFactor }),
  };
}

/** The load factor of the push, more. */
export function push(sortie: Sortie, leg: number): Lever | null {
  const found = stepOf(sortie, leg, 'pushover');
  if (!found) return null;
  return {
    path: `${found.path}.push`,
    name: 'load factor of the push',
    quantity: 'loadFactor',
    from: found.step.loadFactor,
    towards: 0.9,
    step: 0.05,
    set: (loadFactor) => found.set({ ...found.step, loadFactor }),
  };
}

/** The equivalent airspeed of a leg's climb, less (-1) or more (+1). */
export function climbSpeed(sortie: Sortie, leg: number, sign: 1 | -1): Lever | null {
  const found = stepOf(sortie, leg, 'climb', ({ speed }) => speed.kind === 'EAS');
  if (!found) return null;
  const from = found.step.speed.valueMS;
  return {
    path: `${found.path}.equivalentAirspeed`,
    name: `climb speed of ${sortie.legs[leg].name}`,
    quantity: 'equivalentAirspeedMS',
    from,
    towards: from + sign * 100 * knot,
    step: knot,
    set: (valueMS) => found.set({ ...found.step, speed: { kind: 'EAS', valueMS } }),
  };
}

/** The equivalent airspeed of a leg's descent, less (-1) or more (+1). */
export function descentSpeed(sortie: Sortie, leg: number, sign: 1 | -1): Lever | null {
  const found = stepOf(sortie, leg, 'descend');
  if (!found) return null;
  const from = found.step.equivalentAirspeedMS;
  return {
    path: `${found.path}.equivalentAirspeed`,
    name: `descent speed of ${sortie.legs[leg].name}`,
    quantity: 'equivalentAirspeedMS',
    from,
    towards: from + sign * 100 * knot,
    step: knot,
    set: (equivalentAirspeedMS) => found.set({ ...found.step, equivalentAirspeedMS }),
  };
}

function contactOf(sortie: Sortie, leg: number): Contact | null {
  const end = sortie.legs[leg]?.end;
  return end?.kind === 'contact' ? end : null;
}

/** A sortie with one of its tankers changed, in the list and in every leg that ends there. */
export function replaceTanker(sortie: Sortie, tanker: Contact['tanker'], changed: Contact['tanker']): Sortie {
  return {
    ...sortie,
    tankers: sortie.tankers.map((old) => (old === tanker ? changed : old)),
    legs: sortie.legs.map((leg) =>
      leg.end.kind === 'contact' && leg.end.tanker === tanker
        ? { ...leg, end: { ...leg.end, tanker: changed } }
        : leg,
    ),
  };
}

/** The speed in contact at the end of a leg, less. */
export function contactSpeed(sortie: Sortie, leg: number): Lever | null {
  const tanker = contactOf(sortie, leg)?.tanker;
  if (!tanker) return null;
  const from = tanker.calibratedAirspeedMS;
  return {
    path: `tankers.${sortie.tankers.indexOf(tanker)}.calibratedAirspeed`,
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
    name: 'fuel at take-off',
    quantity: 'fuelKg',
    from: sortie.aircraft.fuelKg,
    towards,
    step: 100,
    set: (fuelKg) => ({ ...sortie, aircraft: { ...sortie.aircraft, fuelKg } }),
  };
}
