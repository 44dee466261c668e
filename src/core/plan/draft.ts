/** A sortie flown once and written down: what every answer of a plan is worked out of. */
import type { Day } from '../air/day.ts';
import type { Aircraft } from '../aircraft/aircraft.ts';
import { ROTATING_EARTH } from '../flight/earth-model.ts';
import { Flight } from '../flight/flight.ts';
import { ENGINEERING, type Tolerance, type Variation } from '../flight/setup.ts';
import { AltitudeTable, type CruiseQuestion } from '../optimise/cruise-altitude.ts';
import { fuelled } from './fuel-today.ts';
import { Log } from './log.ts';
import type { PlanInput, Recovery } from './plan.ts';
import { fillRequired, recoveryFrom, requiredOnLeg } from './required.ts';
import type { Crew } from './route-flight.ts';
import type { Sortie } from './sortie.ts';
import { CannotPlan, flySortie, type SortieFlown } from './sortie-flyer.ts';

/** All that a plan is made from, read and checked. */
export interface PlanRequest {
  readonly sortie: Sortie;
  readonly aircraft: Aircraft;
  readonly day: Day;
  /** Identity of the inputs, printed and compared; the core does not read them. */
  readonly inputs: readonly PlanInput[];
  readonly fingerprint: string;
  readonly program: string;
}

/** A flown sortie with its log, before it is put into words and columns. */
export interface Draft {
  readonly crew: Crew;
  readonly log: Log;
  readonly flown: SortieFlown;
}

/** Masses and offsets at which the best cruise altitude is prepared, for the cruise to follow. */
const tableMasses = 6;
const tableOffsetsK = [-30, -20, -10, 0, 10, 20, 30];

export interface CountedCrew extends Crew {
  readonly counted: { readonly evaluations: number };
}

/** One aircraft and day made ready to fly; altitude tables are prepared once for each Mach. */
export function crewOf(
  request: Pick<PlanRequest, 'sortie' | 'aircraft' | 'day'>,
  variation?: Partial<Variation>,
  tolerance: Tolerance = ENGINEERING,
): CountedCrew {
  const { sortie, day } = request;
  const aircraft = fuelled(request.aircraft, sortie.aircraft);
  const zeroFuelMassKg = aircraft.balance.emptyMassKg;
  const flight = new Flight({
    aircraft,
    day,
    earth: ROTATING_EARTH,
    tolerance,
    zeroFuelMassKg,
    ...(variation ? { variation } : {}),
  });
  const tables = new Map<number, AltitudeTable>();
  const counted = {
    get evaluations(): number {
      return [...tables.values()].reduce((sum, table) => sum + table.evaluations, 0);
    },
  };
  const altitudes = (mach: number): AltitudeTable => {
    let table = tables.get(mach);
    if (!table) {
      const capacity = aircraft.balance.fuelCapacityKg;
      const masses = Array.from(
        { length: tableMasses },
        (_, i) => zeroFuelMassKg + (capacity * (i + 0.5)) / tableMasses,
      );
      table = new AltitudeTable(questionOf(request, mach), masses, tableOffsetsK);
      tables.set(mach, table);
    }
    return table;
  };
  return { flight, sortie, altitudes, counted };
}

export function questionOf(request: Pick<PlanRequest, 'sortie' | 'aircraft'>, mach: number): CruiseQuestion {
  const { aircraft, sortie } = request;
  return { aircraft, mach, zeroFuelMassKg: aircraft.balance.emptyMassKg, pads: sortie.pads };
}

export function draft(crew: Crew): Draft {
  const log = new Log(crew.flight.setup.aircraft.limits);
  return { crew, log, flown: flySortie(crew, null, log) };
}

/** A sortie on the ground, where nothing is guessed: throws `CannotPlan` on a day or beyond a table that gives no answer. */
export function draftOf(
  request: Pick<PlanRequest, 'sortie' | 'aircraft' | 'day'>,
): Draft & { readonly crew: CountedCrew } {
  refuseNotHydrostatic(request);
  const crew = crewOf(request);
  const { log, flown } = draft(crew);
  const { stopped } = flown;
  if (stopped?.reason.startsWith('outside:')) throw new CannotPlan(`${stopped.phase}: ${stopped.text}`);
  return { crew, log, flown };
}

/** A sortie climbs and descends, which has no meaning where the pressures are not those of the air's own weight. */
function refuseNotHydrostatic({ day }: Pick<PlanRequest, 'day'>): void {
  const { title, hydrostatic } = day.description;
  if (hydrostatic) return;
  throw new CannotPlan(
    `${title}: no sortie is planned on it, since it must not be climbed or descended through: it is not hydrostatic, its temperatures belong to no one column of air; plan on a tropical, polar or offset day, a sounding or an analysis`,
  );
}

export interface Required {
  /** At every node; NaN where the leg was not flown to its end. */
  readonly requiredKg: number[];
  readonly recoveries: Recovery[];
}

/** Fuel required along every leg that was flown to its end; NaN elsewhere. */
export function requiredOf(drafted: Draft): Required {
  const { crew, log, flown } = drafted;
  const { sortie } = crew;
  const requiredKg = new Array<number>(log.nodes).fill(Number.NaN);
  const recoveries: Recovery[] = [];
  flown.legs.forEach((leg, index) => {
    const spec = sortie.legs[index];
    let wantedKg = sortie.landingReserveKg + sortie.approach.fuelKg;
    if (spec.end.kind === 'contact') {
      const recovery = recoveryFrom(crew, spec.end, leg, index);
      recoveries.push(recovery);
      wantedKg = recovery.fuelRequiredKg;
    }
    const anchors = log.anchors.filter((anchor) => anchor.progress.leg === index);
    const answers = requiredOnLeg(crew, spec, leg, anchors, log, wantedKg);
    fillRequired(log, answers, requiredKg);
    if (spec.end.kind === 'contact') holdInContact(log, index, wantedKg, requiredKg);
  });
  return { requiredKg, recoveries };
}

/** While fuel comes the next thing is still the divert: what it needs stays required until the disconnect. */
function holdInContact(log: Log, leg: number, wantedKg: number, out: number[]): void {
  for (let node = 0; node < log.nodes; node++) {
    const phase = log.phases[log.phaseOf[node]];
    if (phase?.leg === leg && phase.kind === 'contact') out[node] = wantedKg;
  }
}
