/** What moves a sortie off its plan: each driver as a change of the request, by an amount in SI. */
import { warmerDay } from '../air/warmer-day.ts';
import type { Aircraft, Balance, InletError, Limit } from '../aircraft/aircraft.ts';
import { newInletErrorPoint, withInletError } from '../aircraft/inlet-error.ts';
import type { Variation } from '../flight/setup.ts';
import { brent } from '../numerics/roots.ts';
import type { PlanRequest } from './draft.ts';
import type { Log } from './log.ts';
import type { DriverKey } from './plan-rules.ts';
import { slipped } from './slip.ts';
import type { Sortie } from './sortie.ts';

/** A request that differs from the planned one. */
export interface Changed {
  readonly request: Pick<PlanRequest, 'sortie' | 'aircraft' | 'day'>;
  readonly variation?: Partial<Variation>;
  /** Added to the best cruise altitude [m]. */
  readonly raisedM?: number;
  /** Nothing else differs than that it all is so much later. */
  readonly laterS?: number;
  /** The leg before whose contact nothing differs. */
  readonly fromContact?: number;
}

export interface Driver {
  readonly key: DriverKey;
  readonly of: string | null;
  readonly quantity: string;
  readonly step: number;
  /** How far its rule is looked at, each way. */
  readonly ruleTo: number;
  /** How far the failing value is looked for each way; 0 where that way has no meaning. */
  readonly least: number;
  readonly most: number;
  /** Ways in which the failing value is looked for: the adverse one first. */
  readonly edges: readonly ('more' | 'less')[];
  change(request: PlanRequest, value: number): Changed;
  /** Without a flight: about where the sortie fails, by what it met as planned; null where that does not tell. */
  guess?(planned: Log, towards: 'more' | 'less'): number | null;
}

const knot = 1852 / 3600;
const foot = 0.3048;
const minute = 60;
const degree = Math.PI / 180;

/** Temperature of the whole column, wind against the motion everywhere, and the other causes of a fuel that is not as planned. */
const everywhere: readonly Driver[] = [
  {
    key: 'temperature',
    of: null,
    quantity: 'temperatureOffsetK',
    step: 1,
    ruleTo: 5,
    least: -15,
    most: 25,
    edges: ['more'],
    change: (request, value) => ({ request: { ...request, day: warmerDay(request.day, value) } }),
  },
  {
    key: 'headwind',
    of: null,
    quantity: 'windSpeedMS',
    step: 10 * knot,
    ruleTo: 50 * knot,
    least: -80 * knot,
    most: 100 * knot,
    edges: ['more'],
    change: (request, headwindMS) => ({ request, variation: { headwindMS } }),
  },
  {
    key: 'drag',
    of: null,
    quantity: 'fraction',
    step: 0.01,
    ruleTo: 0.05,
    least: -0.1,
    most: 0.15,
    edges: ['more'],
    change: (request, value) => ({ request, variation: { dragFactor: 1 + value } }),
  },
  {
    key: 'fuelFlow',
    of: null,
    quantity: 'fraction',
    step: 0.01,
    ruleTo: 0.1,
    least: -0.1,
    most: 0.3,
    edges: ['more'],
    change: (request, value) => ({ request, variation: { fuelFlowFactor: 1 + value } }),
  },
  {
    key: 'mass',
    of: null,
    quantity: 'massKg',
    step: 100,
    ruleTo: 500,
    least: -1000,
    most: 4000,
    edges: ['more'],
    change: (request, value) => ({ request: heavier(request, value) }),
  },
  {
    key: 'cruiseAltitude',
    of: null,
    quantity: 'pressureAltitudeM',
    step: 1000 * foot,
    ruleTo: 5000 * foot,
    least: -5000 * foot,
    most: 2000 * foot,
    edges: ['less'],
    change: (request, raisedM) => ({ request, raisedM }),
  },
];

/** The drivers of a sortie: those of every flight, inlets off their schedule, a later take-off, each tanker late. */
export function driversOf({ sortie, aircraft }: Pick<PlanRequest, 'sortie' | 'aircraft'>): Driver[] {
  const slip: Driver = {
    key: 'takeOffSlip',
    of: null,
    quantity: 'durationS',
    step: 10 * minute,
    ruleTo: 60 * minute,
    least: 0,
    most: 120 * minute,
    edges: ['more'],
    change: (request, laterS) => ({
      request: { ...request, sortie: slipped(request.sortie, laterS) },
      laterS,
    }),
  };
  const late = sortie.legs.flatMap(({ end }, leg): Driver[] => {
    if (end.kind === 'landing') return [];
    return [
      {
        key: 'lateTanker',
        of: end.tanker.name,
        quantity: 'durationS',
        step: 5 * minute,
        ruleTo: 40 * minute,
        least: 0,
        most: 120 * minute,
        edges: ['more'],
        change: (request, waitS) => ({
          request: { ...request, sortie: waiting(request.sortie, leg, waitS) },
          fromContact: leg,
        }),
      },
    ];
  });
  return [...everywhere, ...inletsOf(aircraft), slip, ...late];
}

/** Every inlet off its schedule alike, as far as the deck's table goes; none where it has no table. */
function inletsOf({ inletError, schedules }: Aircraft): Driver[] {
  if (inletError === null) return [];
  const { leastRad, mostRad } = inletError;
  return [
    {
      key: 'inlet',
      of: schedules.find(({ key }) => key === inletError.schedule)?.name ?? null,
      quantity: 'angleDeg',
      step: 0.5,
      ruleTo: 3,
      least: leastRad / degree,
      most: mostRad / degree,
      edges: ['more', 'less'],
      change: (request, errorDeg) => ({
        request: { ...request, aircraft: inletsOff(request.aircraft, inletError, errorDeg * degree) },
      }),
      guess: ({ columns }, towards) => {
        const root = brent(
          (errorRad) => leastShockMargin(inletError, columns.mach, errorRad),
          0,
          towards === 'more' ? mostRad : leastRad,
          nearRad,
        );
        return root.found ? root.x / degree : null;
      },
    },
  ];
}

/** An error is known so nearly. */
const nearRad = 1e-5;

/** Angle left to expelling the shock with an error, the least at some Mach numbers; Infinity where none is above 1. */
function leastShockMargin(inletError: InletError, machs: readonly number[], errorRad: number): number {
  const point = newInletErrorPoint();
  return machs.reduce((least, mach) => {
    if (mach <= 1) return least;
    inletError.at(mach, errorRad, point);
    return Math.min(least, point.shockMarginRad);
  }, Number.POSITIVE_INFINITY);
}

/** The aircraft flown so, with one more limit: the shock stays in the inlets above Mach 1. */
function inletsOff(aircraft: Aircraft, inletError: InletError, errorRad: number): Aircraft {
  const point = newInletErrorPoint();
  const shock: Limit = {
    key: 'inletShock',
    name: 'Angle left to expelling the shock',
    quantity: 'angleDeg',
    side: 'lower',
    spread: 0,
    value: ({ mach }) => {
      if (mach <= 1) return Number.POSITIVE_INFINITY;
      inletError.at(mach, errorRad, point);
      return point.shockMarginRad;
    },
    bound: () => 0,
    source: 'the table of the inlet off its schedule',
  };
  return { ...withInletError(aircraft, errorRad), limits: [...aircraft.limits, shock] };
}

/** The same aircraft with more mass that is not fuel, where its centre of gravity does not move for it. */
function heavier(request: PlanRequest, byKg: number): PlanRequest {
  const more = (balance: Balance): Balance => ({
    ...balance,
    emptyMassKg: balance.emptyMassKg + byKg,
    heldAt: (density) => more(balance.heldAt(density)),
  });
  return { ...request, aircraft: { ...request.aircraft, balance: more(request.aircraft.balance) } };
}

/** The receiver waits at the contact that ends a leg. */
export function waiting(sortie: Sortie, leg: number, waitS: number): Sortie {
  return {
    ...sortie,
    legs: sortie.legs.map((each, i) =>
      i === leg && each.end.kind === 'contact' ? { ...each, end: { ...each.end, waitS } } : each,
    ),
  };
}
