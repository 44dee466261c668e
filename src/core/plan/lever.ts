/** What could be changed in a sortie to free it, and how a sortie is changed. */
import type { Contact, Leg, Place, Sortie } from './sortie.ts';

/** One number of a sortie that can be moved. */
export interface Lever {
  /** Path of the key in the sortie's file. */
  readonly path: string;
  /** Paths of other keys that hold the same value and go with it. */
  readonly also: readonly string[];
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

export function replaceLeg(sortie: Sortie, index: number, change: (leg: Leg) => Leg): Sortie {
  return { ...sortie, legs: sortie.legs.map((leg, i) => (i === index ? change(leg) : leg)) };
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
