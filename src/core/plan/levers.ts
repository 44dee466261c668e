/** What in a sortie could be changed to free it, for each thing that can stop it. */
import { Line, newLinePoint } from '../earth/line.ts';
import type { Fault } from './failure.ts';
import type { Leg, Sortie, Step } from './sortie.ts';

/** One number of a sortie that can be moved. */
export interface Lever {
  /** Path of the key in the sortie's file. */
  readonly path: string;
  readonly name: string;
  /** Key of the table of quantities. */
  readonly quantity: string;
  readonly from: number;
  /** How far it may be moved, and in what steps it is set. */
  readonly towards: number;
  readonly step: number;
  set(value: number): Sortie;
}

const knot = 1852 / 3600;
const foot = 0.3048;
const mile = 1852;

/** Levers that may free a fault, the one to be tried first in front. `takenKg` is what each contact gave or should have. */
export function leversFor(fault: Fault, sortie: Sortie, capacityKg: number): Lever[] {
  const levers = (): (Lever | null)[] => {
    const { leg } = fault;
    switch (fault.key) {
      case 'mach':
      case 'inletTemperature':
        return [cruiseMach(sortie, leg)];
      case 'maximumEquivalentAirspeed':
        return fault.phaseKind === 'pushover' ? [pushoverBottom(sortie, leg, 1)] : [climbSpeed(sortie, leg)];
      case 'thrust':
        if (fault.phaseKind === 'contact') return [takeLess(sortie, leg, capacityKg)];
        return [pushoverBottom(sortie, leg, -1), takeLess(sortie, leg - 1, capacityKg)];
      case 'fuel':
      case 'minimumFuel':
      case 'fuelRequired':
        return [
          leg === 0 ? moreFuel(sortie, capacityKg) : takeMore(sortie, leg - 1, capacityKg),
          tankerNearer(sortie, leg),
        ];
      default:
        return [];
    }
  };
  return levers().filter((lever) => lever !== null);
}

function replaceLeg(sortie: Sortie, index: number, change: (leg: Leg) => Leg): Sortie {
  return { ...sortie, legs: sortie.legs.map((leg, i) => (i === index ? change(leg) : leg)) };
}

/** The steps of a leg, each with its place in the file. */
function stepsOf(sortie: Sortie, leg: number): { step: Step; path: string }[] {
  return (sortie.legs[leg]?.fly ?? []).map((step, i) => ({
    step,
    path: `legs.${leg}.fly.${i}.${step.kind}`,
  }));
}

function replaceSteps(sortie: Sortie, leg: number, change: (step: Step) => Step): Sortie {
  return replaceLeg(sortie, leg, (old) => ({ ...old, fly: old.fly.map(change) }));
}

/** The cruise Mach of a leg; every climb and cruise of the sortie that aims at the same Mach goes with it. */
function cruiseMach(sortie: Sortie, leg: number): Lever | null {
  const found = stepsOf(sortie, leg).find(({ step }) => step.kind === 'cruise' && step.mach > 1);
  if (found?.step.kind !== 'cruise') return null;
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

/** The bottom of a leg's pushover, lower (-1) for more speed or higher (+1) for less. */
function pushoverBottom(sortie: Sortie, leg: number, sign: 1 | -1): Lever | null {
  const found = stepsOf(sortie, leg).find(({ step }) => step.kind === 'pushover');
  if (found?.step.kind !== 'pushover') return null;
  const from = found.step.bottomM;
  return {
    path: `${found.path}.bottom`,
    name: 'bottom of the pushover',
    quantity: 'pressureAltitudeM',
    from,
    towards: from + sign * 8000 * foot,
    step: 100 * foot,
    set: (bottomM) =>
      replaceSteps(sortie, leg, (step) => (step.kind === 'pushover' ? { ...step, bottomM } : step)),
  };
}

function climbSpeed(sortie: Sortie, leg: number): Lever | null {
  const found = stepsOf(sortie, leg).find(({ step }) => step.kind === 'climb' && step.speed.kind === 'EAS');
  if (found?.step.kind !== 'climb') return null;
  const from = found.step.speed.valueMS;
  return {
    path: `${found.path}.equivalentAirspeed`,
    name: `climb speed of ${sortie.legs[leg].name}`,
    quantity: 'equivalentAirspeedMS',
    from,
    towards: from - 100 * knot,
    step: knot,
    set: (valueMS) =>
      replaceSteps(sortie, leg, (step) =>
        step.kind === 'climb' && step.speed.kind === 'EAS'
          ? { ...step, speed: { kind: 'EAS', valueMS } }
          : step,
      ),
  };
}

/** The fuel to be taken at the contact that ends a leg, between none and all that the tanker or the tanks have. */
function taking(
  sortie: Sortie,
  leg: number,
  capacityKg: number,
  towards: (mostKg: number) => number,
): Lever | null {
  const end = sortie.legs[leg]?.end;
  if (end?.kind !== 'contact') return null;
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

function takeLess(sortie: Sortie, leg: number, capacityKg: number): Lever | null {
  return taking(sortie, leg, capacityKg, () => 0);
}

function takeMore(sortie: Sortie, leg: number, capacityKg: number): Lever | null {
  return taking(sortie, leg, capacityKg, (most) => most);
}

function moreFuel(sortie: Sortie, capacityKg: number): Lever | null {
  const from = sortie.aircraft.fuelKg;
  if (from >= capacityKg) return null;
  return {
    path: 'aircraft.fuel',
    name: 'fuel at take-off',
    quantity: 'fuelKg',
    from,
    towards: capacityKg,
    step: 100,
    set: (fuelKg) => ({ ...sortie, aircraft: { ...sortie.aircraft, fuelKg } }),
  };
}

/** The contact point that ends a leg, moved back along the line to it by a distance. */
function tankerNearer(sortie: Sortie, leg: number): Lever | null {
  const { end, through } = sortie.legs[leg];
  if (end.kind !== 'contact') return null;
  const before = sortie.legs[leg - 1]?.end;
  const from =
    through[through.length - 1] ?? (before?.kind === 'contact' ? before.tanker : sortie.takeOff.base);
  const line = new Line(from, end.tanker);
  const index = sortie.tankers.indexOf(end.tanker);
  return {
    path: `tankers.${index}.at`,
    name: `contact point of ${end.tanker.name}, moved towards ${from.name}`,
    quantity: 'distanceM',
    from: 0,
    towards: 0.8 * line.lengthM,
    step: 5 * mile,
    set: (backM) => {
      const point = newLinePoint();
      line.at(line.lengthM - backM, point);
      const tanker = { ...end.tanker, latitudeRad: point.latitudeRad, longitudeRad: point.longitudeRad };
      const moved = replaceLeg(sortie, leg, (old) => ({ ...old, end: { ...end, tanker } }));
      return { ...moved, tankers: sortie.tankers.map((old, i) => (i === index ? tanker : old)) };
    },
  };
}
