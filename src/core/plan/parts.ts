/** The parts of a sortie that can be moved from one version of it to another, one at a time. */
import type { Leg, Sortie } from './sortie.ts';

export interface Part {
  readonly key: string;
  readonly name: string;
  /** `from` with this part as it is in `to`. */
  move(from: Sortie, to: Sortie): Sortie;
}

const takeOff: Part = {
  key: 'takeOff',
  name: 'take-off time and wind',
  move: (from, to) => {
    const { timeS, fromS, toS, wind } = to.takeOff;
    return { ...from, takeOff: { ...from.takeOff, timeS, fromS, toS, wind } };
  },
};

const load: Part = {
  key: 'load',
  name: 'load',
  move: (from, to) => ({ ...from, aircraft: to.aircraft }),
};

const route: Part = {
  key: 'route',
  name: 'route',
  move: (from, to) => ({
    ...from,
    bases: to.bases,
    areas: to.areas,
    corridorHalfWidthM: to.corridorHalfWidthM,
    takeOff: { ...from.takeOff, base: to.takeOff.base },
    legs: legs(from, to, (leg, other) => ({
      ...leg,
      through: other.through,
      end: leg.end.kind === 'landing' ? other.end : leg.end,
    })),
  }),
};

const tankers: Part = {
  key: 'tankers',
  name: 'tankers',
  move: (from, to) => ({
    ...from,
    tankers: to.tankers,
    legs: legs(from, to, (leg, other) => {
      if (leg.end.kind !== 'contact' || other.end.kind !== 'contact') return leg;
      return { ...leg, end: { ...other.end, worstCase: leg.end.worstCase } };
    }),
  }),
};

const steps: Part = {
  key: 'steps',
  name: 'speeds and steps',
  move: (from, to) => ({
    ...from,
    legs: legs(from, to, (leg, other) => ({ ...leg, name: other.name, fly: other.fly })),
  }),
};

const reserves: Part = {
  key: 'reserves',
  name: 'reserves and pads',
  move: (from, to) => ({
    ...from,
    landingReserveKg: to.landingReserveKg,
    approach: to.approach,
    pads: to.pads,
    legs: legs(from, to, (leg, other) => {
      if (leg.end.kind !== 'contact' || other.end.kind !== 'contact') return leg;
      return { ...leg, end: { ...leg.end, worstCase: other.end.worstCase } };
    }),
  }),
};

/** Where the legs are not the same in number and ends, nothing of one can be put into the other: they move as a whole. */
const wholeLegs: Part = {
  key: 'legs',
  name: 'route, tankers and steps',
  move: (from, to) => ({
    ...from,
    legs: to.legs,
    bases: to.bases,
    tankers: to.tankers,
    areas: to.areas,
    corridorHalfWidthM: to.corridorHalfWidthM,
    takeOff: { ...from.takeOff, base: to.takeOff.base },
  }),
};

/** What the sorties differ in, in the order in which it is moved; after the last of them `from` has become `to`. */
export function changedParts(from: Sortie, to: Sortie): Part[] {
  const named = [takeOff, load, ...(sameShape(from, to) ? [route, tankers, steps] : [wholeLegs]), reserves];
  const rest: Part = {
    key: 'rest',
    name: 'the rest of the sortie',
    move: (old, other) => named.reduce((sortie, part) => part.move(sortie, old), other),
  };
  const changed: Part[] = [];
  let sortie = from;
  for (const part of [...named, rest]) {
    const moved = part.move(sortie, to);
    if (!same(moved, sortie)) changed.push(part);
    sortie = moved;
  }
  return changed;
}

function sameShape(from: Sortie, to: Sortie): boolean {
  return (
    from.legs.length === to.legs.length && from.legs.every((leg, i) => leg.end.kind === to.legs[i].end.kind)
  );
}

function legs(from: Sortie, to: Sortie, move: (leg: Leg, other: Leg) => Leg): Leg[] {
  if (!sameShape(from, to)) return [...from.legs];
  return from.legs.map((leg, i) => move(leg, to.legs[i]));
}

/** What the weather is called flies nothing. */
function same(a: Sortie, b: Sortie): boolean {
  const plain = ({ weather, ...flown }: Sortie): string => JSON.stringify(flown);
  return plain(a) === plain(b);
}
