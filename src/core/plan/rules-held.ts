/** A planned sortie flown again as decided, and planned anew, for values of a driver. */
import { ENGINEERING, type Tolerance } from '../flight/setup.ts';
import { crewOf, type Draft, type PlanRequest } from './draft.ts';
import type { Changed, Driver } from './drivers.ts';
import { EventLog, Log } from './log.ts';
import type { LegDecisions, PlanEvent, RuleGate } from './plan.ts';
import type { Crew } from './route-flight.ts';
import { judged, type Trial, tryOut } from './rules-edge.ts';
import { besidesOf, flownLater, isRefusedLater } from './slip.ts';
import {
  asPumped,
  CannotPlan,
  flyOn,
  flySortie,
  type Onward,
  onwardFrom,
  type SortieFlown,
} from './sortie-flyer.ts';

/** Events nearer than this move no gate by a tenth of a kilogram. */
const tolerance: Tolerance = { ...ENGINEERING, eventTimeS: 1e-5 };

/** What a changed flight has left at each gate, and what it met on the way. */
interface Reflown {
  readonly fuelKg: readonly number[];
  readonly events: readonly PlanEvent[];
}

/** A planned sortie that is flown again as decided. */
export class Held {
  readonly request: PlanRequest;
  readonly gates: readonly RuleGate[];
  readonly asPlanned: Crew;
  readonly flown: SortieFlown;
  readonly log: Log | null;
  readonly decisions: readonly LegDecisions[];
  private readonly altitudes: Crew['altitudes'];
  /** Evaluations of all crews before the last one, which may still fly: none but that is held on to. */
  private before = 0;
  private last: Crew | null = null;

  constructor(request: PlanRequest, altitudes: Crew['altitudes'], log: Log | null) {
    this.request = request;
    this.altitudes = altitudes;
    this.log = log;
    this.asPlanned = this.crew({ request });
    this.flown = flySortie(this.asPlanned, null, log);
    this.decisions = heldDecisions(request, this.flown);
    this.gates = gatesOf(request, this.flown);
  }

  get evaluations(): number {
    return this.before + (this.last?.flight.evaluations ?? 0);
  }

  /** The best altitude stays that of the aircraft as its deck has it: it is what stands on the cards. */
  crew({ request, variation, raisedM }: Changed): Crew {
    const { altitudes } = this;
    const raised: Crew['altitudes'] = (mach) => {
      const table = altitudes(mach);
      return { altitudeM: (massKg, offsetK) => table.altitudeM(massKg, offsetK) + (raisedM ?? 0) };
    };
    const crew = {
      ...crewOf(request, variation, tolerance),
      altitudes: raisedM === undefined ? altitudes : raised,
    };
    this.before = this.evaluations;
    this.last = crew;
    return crew;
  }

  /** Fuel at each gate as decided; NaN from where it is not flown on. */
  fly(changed: Changed, marked = false): Reflown {
    const count = this.gates.length;
    if (this.isSameFlight(changed)) {
      return { fuelKg: fuelAtGates(this.flown, count), events: this.log?.events ?? [] };
    }
    const onward = this.onward(changed);
    const before = onward === null ? [] : (this.log?.beforeContact(onward.progress.leg).events ?? []);
    const log = marked ? new EventLog(before) : null;
    try {
      const crew = this.crew(changed);
      const flown =
        onward === null ? flySortie(crew, this.decisions, log) : flyOn(crew, this.decisions, log, onward);
      return { fuelKg: fuelAtGates(flown, count), events: log?.events ?? [] };
    } catch (error) {
      if (!(error instanceof CannotPlan)) throw error;
      return { fuelKg: this.gates.map(() => Number.NaN), events: [] };
    }
  }

  /** A flight that is only later, on a day that is the same at every time. */
  isSameFlight({ laterS }: Changed): boolean {
    const { request, flown } = this;
    return laterS !== undefined && request.day.steady && !isRefusedLater(request.sortie, flown, laterS);
  }

  /** From the contact before which nothing differs; null where all of it is to be flown. */
  onward({ fromContact }: Changed): Onward | null {
    const isFlown = fromContact !== undefined && this.flown.legs[fromContact] !== undefined;
    return isFlown ? onwardFrom(this.flown, fromContact) : null;
  }
}

/** As decided, but that full tanks are asked for again where the sortie asks for them. */
function heldDecisions({ sortie }: PlanRequest, flown: SortieFlown): LegDecisions[] {
  return flown.legs.map(({ decisions }, index) => {
    const { end } = sortie.legs[index];
    const refuelling = flown.refuellings[index];
    if (end.kind !== 'contact' || end.takeKg !== 'full' || !refuelling) return decisions;
    return { ...decisions, takenKg: refuelling.takenKg + refuelling.offloadLeftKg };
  });
}
/** A sortie planned anew for values of one driver. */
export class Trials {
  private readonly today: Held;
  private readonly drafted: Draft;
  private readonly planned: Trial;
  private readonly driver: Driver;

  constructor(today: Held, { drafted, planned }: { drafted: Draft; planned: Trial }, driver: Driver) {
    this.today = today;
    this.drafted = drafted;
    this.planned = planned;
    this.driver = driver;
  }

  at(value: number): Trial {
    const { today, drafted, planned, driver } = this;
    const changed = driver.change(today.request, value);
    const { laterS, raisedM } = changed;
    const besides = laterS === undefined ? () => [] : besidesOf;
    if (laterS !== undefined && today.isSameFlight(changed)) {
      const later = flownLater(drafted, laterS);
      return judged(later, planned.overKg, besides(later));
    }
    if (value === 0) return planned;
    const crew = { ...today.crew(changed), once: true, near: today.decisions };
    const onward = today.onward(changed);
    if (onward !== null) {
      const { leg } = onward.progress;
      const log = drafted.log.beforeContact(leg);
      return tryOut({ crew, log, besides, knownKg: planned.overKg.slice(0, leg) }, (goesOn) =>
        asPumped(crew, log, flyOn(crew, null, log, onward, goesOn)),
      );
    }
    // Another cruise altitude is reached from the same climb, as decided.
    const held = raisedM === undefined ? null : today.decisions;
    const log = new Log(crew.flight.setup.aircraft.limits);
    return tryOut({ crew, log, besides, knownKg: [] }, (goesOn) => flySortie(crew, held, log, goesOn));
  }
}
function fuelAtGates({ legs, landingFuelKg }: SortieFlown, gates: number): number[] {
  return Array.from({ length: gates }, (_, leg) =>
    leg === gates - 1 ? landingFuelKg : (legs[leg]?.endFuelKg ?? Number.NaN),
  );
}

function gatesOf({ sortie }: PlanRequest, flown: SortieFlown): RuleGate[] {
  const fuelKg = fuelAtGates(flown, sortie.legs.length);
  return sortie.legs.map(({ end }, leg): RuleGate => {
    const lands = end.kind === 'landing';
    const timeS = lands ? flown.landingTimeS : (flown.legs[leg]?.end.state.timeS ?? Number.NaN);
    return {
      leg,
      kind: end.kind,
      name: lands ? end.base.name : end.tanker.name,
      timeS: numberOrNull(timeS - sortie.takeOff.timeS),
      fuelKg: numberOrNull(fuelKg[leg]),
    };
  });
}
export function numberOrNull(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}
