/** Which changes of a sortie may free it from what stops it, the one to be tried first in front. */
import type { Fault } from './failure.ts';
import type { Lever } from './lever.ts';
import { contactBank, contactSpeed, lessFuel, moreFuel, takeLess, takeMore } from './lever-fuel.ts';
import { tankerNearer, waypointBank, waypointMoved, waypointOnward } from './lever-places.ts';
import {
  climbSpeed,
  cruiseAltitude,
  cruiseMach,
  descentSpeed,
  pullOut,
  push,
  pushoverBottom,
} from './lever-steps.ts';
import type { Sortie } from './sortie.ts';

type Levers = readonly (Lever | null)[];

export function leversFor(fault: Fault, sortie: Sortie, capacityKg: number): Lever[] {
  const found = fault.limit
    ? leversOfLimit(fault, fault.limit, sortie, capacityKg)
    : leversOfStop(fault, sortie, capacityKg);
  return found.filter((lever) => lever !== null);
}

/** Whether a fault is one of fuel: only then do trials work out the fuel required. */
export function isAboutFuel({ key, limit }: Fault): boolean {
  return key === 'fuel' || key === 'fuelRequired' || limit?.quantity === 'fuelKg';
}

/** By what the limit bounds and where it is passed. */
function leversOfLimit(
  { leg, phase, phaseKind }: Fault,
  { quantity, side }: NonNullable<Fault['limit']>,
  sortie: Sortie,
  capacityKg: number,
): Levers {
  const upper = side === 'upper';
  const fed = phaseKind === 'contact' ? leg : leg - 1;
  switch (quantity) {
    case 'mach':
    case 'temperatureK':
    case 'inletTemperatureK':
      return [cruiseMach(sortie, leg)];
    case 'pressureAltitudeM':
      return [cruiseAltitude(sortie, leg), cruiseMach(sortie, leg)];
    case 'equivalentAirspeedMS':
    case 'calibratedAirspeedMS': {
      const sign = upper ? -1 : 1;
      if (['deceleration', 'descent'].includes(phaseKind)) return [descentSpeed(sortie, leg, sign)];
      const bottom = upper ? pushoverBottom(sortie, leg, 1) : null;
      const climb = climbSpeed(sortie, leg, sign);
      return phaseKind === 'pushover' ? [bottom, climb] : [climb, bottom];
    }
    case 'angleOfAttackDeg':
    case 'loadFactor':
    case 'bankDeg':
      if (phaseKind === 'pushover') return [upper ? pullOut(sortie, leg) : push(sortie, leg)];
      if (phaseKind !== 'turn') return [takeLess(sortie, fed, capacityKg)];
      return turnLevers(sortie, leg, phase, capacityKg);
    case 'massKg':
      return [takeLess(sortie, fed, capacityKg)];
    case 'fuelKg':
      return upper ? [takeLess(sortie, fed, capacityKg)] : fuelLevers(sortie, leg, capacityKg);
    case 'cgFraction':
      return [
        phaseKind === 'contact' ? null : cruiseMach(sortie, leg),
        ...loadLevers(sortie, fed, capacityKg),
      ];
    default:
      return [];
  }
}

/** The fuel with which a leg is begun, less or more. */
function loadLevers(sortie: Sortie, fed: number, capacityKg: number): Levers {
  if (fed < 0) return [lessFuel(sortie), moreFuel(sortie, capacityKg)];
  return [takeLess(sortie, fed, capacityKg), takeMore(sortie, fed, capacityKg)];
}

/** Of a turn at a waypoint, onto the track of the tanker that ends the leg, or off that of the tanker before. */
function turnLevers(sortie: Sortie, leg: number, phase: string, capacityKg: number): Levers {
  const { through, end } = sortie.legs[leg];
  const waypoint = through.findIndex(({ name }) => phase === `Turn at ${name}`);
  if (waypoint >= 0) return [waypointBank(sortie, leg, waypoint)];
  if (end.kind === 'contact' && phase === `Turn at ${end.tanker.name}`) return [contactBank(sortie, leg)];
  return [contactBank(sortie, leg - 1), takeLess(sortie, leg - 1, capacityKg)];
}

function leversOfStop(
  { key, leg, phase, phaseKind, through }: Fault,
  sortie: Sortie,
  capacityKg: number,
): Levers {
  switch (key) {
    case 'thrust':
      if (phaseKind === 'contact') return [takeLess(sortie, leg, capacityKg)];
      return [pushoverBottom(sortie, leg, -1), takeLess(sortie, leg - 1, capacityKg)];
    case 'fuel':
    case 'fuelRequired':
      return fuelLevers(sortie, leg, capacityKg);
    case 'area':
      return through ? waypointMoved(sortie, leg, through) : [];
    case 'route':
      return [...waypointOnward(sortie, leg), cruiseAltitude(sortie, leg)];
    case 'manoeuvre':
      // A manoeuvre that cannot be begun is no phase of the flight.
      if (phase.startsWith('Turn at ')) return waypointOnward(sortie, leg);
      return [pushoverBottom(sortie, leg, -1)];
    case 'runway':
    case 'tyreSpeed':
      return [lessFuel(sortie)];
    case 'cabinRate':
      return [descentSpeed(sortie, leg, -1)];
    case 'tankerMach':
    case 'tankerSpeed':
      return [contactSpeed(sortie, leg)];
    default:
      return [];
  }
}

function fuelLevers(sortie: Sortie, leg: number, capacityKg: number): Levers {
  const more = leg === 0 ? moreFuel(sortie, capacityKg) : takeMore(sortie, leg - 1, capacityKg);
  return [more, tankerNearer(sortie, leg)];
}
