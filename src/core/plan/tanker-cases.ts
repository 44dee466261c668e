/**
 * The tanker matrix: the sortie planned again with a tanker absent, with half its fuel or late, and turned away at the contact. Late,
 * the receiver waits round the contact point at the speed of the contact; with half, it takes what there is.
 */
import { constantCalibratedAirspeed } from '../flight/speed-law.ts';
import { hold } from '../phases/index.ts';
import { crewOf, type Draft, draft, type PlanRequest } from './draft.ts';
import { waiting } from './drivers.ts';
import { toTheEnd } from './explain.ts';
import { replaceTanker } from './lever.ts';
import { copyProgress, newProgress } from './log.ts';
import type {
  FuelAccount,
  Refuelling,
  TankerCase,
  TankerFault,
  TankerGoesOn,
  TankerMatrix,
  TankerOwn,
  TankerRecovery,
  TankerTrouble,
} from './plan.ts';
import { fuelAfterDivert } from './required.ts';
import type { Crew } from './route-flight.ts';
import { judged, overAtEnds } from './rules-edge.ts';
import type { Contact, Sortie } from './sortie.ts';
import { asPumped, flyOn, fuelOf, type LegFlown, onwardFrom } from './sortie-flyer.ts';
import { tankerOwnOf } from './tanker-own.ts';

const lateS = 20 * 60;
const troubles: readonly TankerTrouble[] = ['absent', 'half', 'late'];

export interface TankerQuestion {
  readonly pairs?: boolean;
}

/** Throws `CannotPlan` where the sortie cannot be asked at all. */
export function tankerMatrix(request: PlanRequest, question?: TankerQuestion): TankerMatrix {
  return toTheEnd(tankersInTrouble(request, question));
}

/** The same, with null between two cases, so that who waits can give up. */
export function* tankersInTrouble(
  request: PlanRequest,
  { pairs = false }: TankerQuestion = {},
): Generator<null, TankerMatrix> {
  const { sortie } = request;
  const planned = draft(crewOf(request));
  const matrix = new Matrix(planned);
  let evaluations = planned.crew.flight.evaluations;
  const singles = sortie.legs.flatMap(({ end }, leg): TankerFault[][] =>
    end.kind === 'landing' ? [] : troubles.map((trouble) => [{ leg, tanker: end.tanker.name, trouble }]),
  );
  const twos = pairs
    ? singles.flatMap(([one]) => singles.flatMap(([other]) => (one.leg < other.leg ? [[one, other]] : [])))
    : [];
  const cases: TankerCase[] = [];
  for (const faults of [...singles, ...twos]) {
    const crew = {
      ...crewOf({ ...request, sortie: inTrouble(sortie, faults) }),
      altitudes: planned.crew.altitudes,
      once: true,
      near: planned.flown.legs.map(({ decisions }) => decisions),
    };
    cases.push(matrix.caseOf(crew, faults));
    evaluations += crew.flight.evaluations;
    yield null;
  }
  return { cases, lateS, reserveKg: sortie.landingReserveKg, evaluations };
}

function inTrouble(sortie: Sortie, faults: readonly TankerFault[]): Sortie {
  return faults.reduce((before, { leg, trouble }) => {
    if (trouble === 'late') return waiting(before, leg, lateS);
    const { end } = before.legs[leg];
    if (trouble === 'absent' || end.kind === 'landing') return before;
    const fuels = end.tanker.fuels.map((fuel) => ({ ...fuel, offloadKg: fuel.offloadKg / 2 }));
    return replaceTanker(before, end.tanker, { ...end.tanker, offloadKg: end.tanker.offloadKg / 2, fuels });
  }, sortie);
}

/** The planned sortie, flown again from where a trouble begins. */
class Matrix {
  private readonly planned: Draft;
  private readonly plannedOverKg: readonly number[];
  /** By the end of the leg from which it is waited. */
  private readonly waits = new Map<LegFlown, number | null>();

  constructor(planned: Draft) {
    this.planned = planned;
    this.plannedOverKg = overAtEnds(planned);
  }

  caseOf(crew: Crew, faults: readonly TankerFault[]): TankerCase {
    const { planned } = this;
    const from = this.firstDifferent(faults);
    const drafted = from === null ? { ...planned, crew } : this.flownFrom(crew, from);
    const absent = faults.find(({ trouble }) => trouble === 'absent');
    const reached = faults.filter(({ leg }) => absent === undefined || leg <= absent.leg);
    const same = from ?? planned.flown.legs.length;
    const recoveries = reached.flatMap((fault) => this.recoveryOf(drafted, fault, fault.leg <= same));
    const goesOn = absent === undefined ? goesOnOf(drafted, this.plannedOverKg.slice(0, same)) : null;
    const flown = recoveries.filter(({ overReserveKg }) => overReserveKg !== null);
    const least = flown.reduce<TankerRecovery | null>(
      (worst, each) => (worst === null || over(each) < over(worst) ? each : worst),
      null,
    );
    // Of two troubles the second is met at its own contact: there the crew turns away, at once or while it waits.
    const last = recoveries.at(-1);
    const own = ownIn(drafted, faults, absent?.leg ?? null);
    const turnsAway = last !== undefined && (over(last) >= 0 || last.decideByS !== null);
    return {
      faults,
      goesOn,
      recoveries,
      binding: least?.tanker ?? null,
      safe: goesOn?.flyable === true || turnsAway,
      tankers: own.map(({ tanker, overReserveKg }) => ({ tanker, overReserveKg })),
      account: accountOf(drafted, absent?.leg ?? null, own),
    };
  }

  /** The first leg whose contact differs from the planned one: with half of its fuel a tanker gives less at each of its contacts. */
  private firstDifferent(faults: readonly TankerFault[]): number | null {
    const { legs } = this.planned.crew.sortie;
    const different = faults.flatMap(({ leg, tanker, trouble }) => {
      if (trouble === 'absent') return [];
      if (trouble === 'late') return [leg];
      return [legs.findIndex(({ end }) => end.kind === 'contact' && end.tanker.name === tanker)];
    });
    return different.length === 0 ? null : Math.min(...different);
  }

  private flownFrom(crew: Crew, leg: number): Draft {
    const { log: before, flown } = this.planned;
    if (flown.legs[leg] === undefined) return { ...this.planned, crew };
    const log = before.beforeContact(leg);
    return { crew, log, flown: asPumped(crew, log, flyOn(crew, null, log, onwardFrom(flown, leg))) };
  }

  /**
   * Turned away at a contact, or where half of the fuel came at the disconnect; none where it is not reached. `isAsPlanned` tells that
   * the contact is come to as planned.
   */
  private recoveryOf(
    drafted: Draft,
    { leg, tanker, trouble }: TankerFault,
    isAsPlanned: boolean,
  ): TankerRecovery[] {
    const { crew, flown } = drafted;
    const { end } = crew.sortie.legs[leg];
    const at = flown.legs[leg];
    if (end.kind === 'landing' || at === undefined) return [];
    const half = trouble === 'half';
    const refuelling = flown.refuellings[leg];
    if (half && refuelling === undefined) return [];
    const turned = half ? atDisconnect(drafted, at, refuelling) : at;
    const { fuelOnLandingKg, pressureAltitudeM } = turnAway(crew, end, turned);
    const landed = Number.isNaN(fuelOnLandingKg) ? null : fuelOnLandingKg;
    const takeOffS = crew.sortie.takeOff.timeS;
    const arrived = isAsPlanned ? this.planned.flown.legs[leg] : arrivedAt(drafted, at, leg);
    const waitsFrom = half ? turned : arrived;
    const waitS = this.lastWaitS(crew, end, waitsFrom);
    return [
      {
        tanker,
        base: end.worstCase.base.name,
        pressureAltitudeM,
        timeS: turned.end.state.timeS - takeOffS,
        fuelKg: turned.endFuelKg,
        fuelOnLandingKg: landed,
        overReserveKg: landed === null ? null : landed - crew.sortie.landingReserveKg,
        aboveLandingMassKg: landed === null ? null : aboveLandingMass(crew, landed),
        decideByS: waitS === null ? null : waitsFrom.end.state.timeS + waitS - takeOffS,
      },
    ];
  }

  private lastWaitS(crew: Crew, contact: Contact, at: LegFlown): number | null {
    const known = this.waits.get(at);
    if (known !== undefined) return known;
    const waitS = lastWaitS(crew, contact, at);
    this.waits.set(at, waitS);
    return waitS;
  }
}

function over({ overReserveKg }: TankerRecovery): number {
  return overReserveKg ?? Number.NEGATIVE_INFINITY;
}

function goesOnOf(drafted: Draft, knownKg: readonly number[]): TankerGoesOn {
  const { failure, leastInHandKg } = judged(drafted, overAtEnds(drafted, knownKg));
  const { stopped, landingFuelKg } = drafted.flown;
  return {
    flyable: failure === null,
    failure: failure && (failure.text ?? failure.name),
    phase: failure?.phase ?? null,
    leastInHandKg: stopped ? null : leastInHandKg,
    fuelOnLandingKg: stopped ? null : landingFuelKg,
  };
}

/** null where the deck states no greatest mass on landing. */
function aboveLandingMass(crew: Crew, fuelKg: number): number | null {
  const { aircraft, zeroFuelMassKg } = crew.flight.setup;
  const most = aircraft.landing?.maximumMassKg ?? null;
  return most === null ? null : Math.max(zeroFuelMassKg + fuelKg - most, 0);
}

interface TurnedAway {
  readonly fuelOnLandingKg: number;
  readonly pressureAltitudeM: number;
}

/** The divert of the sortie; who is too heavy to climb to its height on the way stays at that of the contact. */
function turnAway(crew: Crew, contact: Contact, at: LegFlown): TurnedAway {
  const { worstCase, tanker } = contact;
  const fuelOnLandingKg = fuelAfterDivert(crew, contact, at);
  if (!Number.isNaN(fuelOnLandingKg))
    return { fuelOnLandingKg, pressureAltitudeM: worstCase.pressureAltitudeM };
  const { pressureAltitudeM } = tanker;
  const level = { ...contact, worstCase: { ...worstCase, pressureAltitudeM } };
  return { fuelOnLandingKg: fuelAfterDivert(crew, level, at), pressureAltitudeM };
}

function atDisconnect(
  { log }: Draft,
  at: LegFlown,
  { takenKg, burntKg, contactS, disconnectS }: Refuelling,
): LegFlown {
  const alongM = log.at(log.distanceM, disconnectS) - log.at(log.distanceM, contactS);
  return withFuel(at, takenKg - burntKg, disconnectS, alongM);
}

/** The end of a leg with more fuel on board, later, and further on along the refuelling track. */
function withFuel(at: LegFlown, moreKg: number, timeS: number, alongM = 0): LegFlown {
  const end = newProgress();
  copyProgress(at.end, end);
  end.state.massKg += moreKg;
  end.state.timeS = timeS;
  end.state.distanceM += alongM;
  return { ...at, end, endFuelKg: at.endFuelKg + moreKg };
}

/** Before any wait there; a wait goes round the contact point and changes time and mass alone. */
function arrivedAt({ log }: Draft, at: LegFlown, leg: number): LegFlown {
  const wait = log.phases.find((phase) => phase.leg === leg && phase.kind === 'hold');
  return wait === undefined ? at : withFuel(at, wait.fuelKg, wait.startS);
}

const nearKg = 1;
const mostRounds = 8;

/** Of each kilogram less so much less lands: a lighter aircraft burns less on the way. */
const arrives = 0.95;
const probeS = 60;

/** How long the receiver can wait where it is and still land with the reserve; null where it cannot from the start. */
function lastWaitS(crew: Crew, contact: Contact, at: LegFlown): number | null {
  const overAfter = (waited: LegFlown | null): number =>
    waited === null
      ? Number.NaN
      : turnAway(crew, contact, waited).fuelOnLandingKg - crew.sortie.landingReserveKg;
  const atOnce = overAfter(at);
  const probe = waitedFor(crew, contact, at, probeS);
  if (!(atOnce >= 0)) return null;
  let rateKgS = probe === null ? 1 : (arrives * (at.endFuelKg - probe.endFuelKg)) / probeS;
  let known = { waitS: 0, overKg: atOnce };
  for (let round = 0; round < mostRounds && known.overKg > nearKg; round++) {
    // Short of the line, so that what is answered has its reserve.
    const waitS = known.waitS + (known.overKg - nearKg / 2) / rateKgS;
    const overKg = overAfter(waitedFor(crew, contact, at, waitS));
    if (overKg >= 0) {
      rateKgS = Math.max((known.overKg - overKg) / (waitS - known.waitS), 1e-3);
      known = { waitS, overKg };
    } else rateKgS = Number.isNaN(overKg) ? 2 * rateKgS : (known.overKg - overKg) / (waitS - known.waitS);
  }
  return known.waitS;
}

function waitedFor(crew: Crew, { tanker }: Contact, at: LegFlown, waitS: number): LegFlown | null {
  if (waitS <= 0) return at;
  const end = newProgress();
  copyProgress(at.end, end);
  const track = at.route.tracks[end.track];
  const speed = constantCalibratedAirspeed(tanker.calibratedAirspeedMS);
  const held = hold(crew.flight, end.state, track, { timeS: waitS, speed });
  return held.reason === 'time' ? { ...at, end, endFuelKg: fuelOf(crew, end) } : null;
}

/** The tankers that are met before one is absent; one that is late comes on station later by as much. */
function ownIn(drafted: Draft, faults: readonly TankerFault[], absentLeg: number | null): TankerOwn[] {
  const late = faults.filter(({ trouble }) => trouble === 'late');
  const delays = new Map(late.map(({ tanker }) => [tanker, lateS]));
  const { flown } = drafted;
  const refuellings = flown.refuellings.filter((_, leg) => absentLeg === null || leg < absentLeg);
  return tankerOwnOf({ ...drafted, flown: { ...flown, refuellings } }, delays);
}

/** Up to the contact whose tanker is absent, or as far as the sortie was flown. */
function accountOf(
  { crew, log, flown }: Draft,
  absentLeg: number | null,
  own: readonly TankerOwn[],
): FuelAccount {
  const { sortie } = crew;
  const used = flown.refuellings.filter((_, leg) => absentLeg === null || leg < absentLeg);
  const takenKg = used.reduce((sum, each) => sum + each.takenKg, 0);
  const landed = absentLeg === null && flown.stopped === null;
  const flying = log.phases.filter(
    ({ leg, kind }) => kind !== 'contact' && (absentLeg === null || leg <= absentLeg),
  );
  const burntKg =
    flying.reduce((sum, { fuelKg }) => sum + fuelKg, 0) +
    used.reduce((sum, each) => sum + each.burntKg, 0) +
    (landed ? sortie.approach.fuelKg : 0);
  const forOffloadKg = sortie.tankers.reduce((sum, { offloadKg }) => sum + offloadKg, 0);
  const lastFuelKg = log.columns.fuelKg[log.nodes - 1];
  const onBoardAtEndKg = landed
    ? flown.landingFuelKg
    : absentLeg === null
      ? lastFuelKg
      : (flown.legs[absentLeg]?.endFuelKg ?? lastFuelKg);
  return {
    atTakeOffKg: sortie.aircraft.fuelKg,
    forOffloadKg,
    takenKg,
    burntKg,
    onBoardAtEndKg,
    keptByTankersKg: keptOf(sortie, used),
    ...ownAccount(own),
  };
}

/** Of those whose way home is known. */
function ownAccount(own: readonly TankerOwn[]): Pick<FuelAccount, 'ownKg' | 'ownBurntKg' | 'ownLeftKg'> {
  const home = own.filter(({ onLandingKg }) => onLandingKg !== null);
  const sum = (of: (each: TankerOwn) => number): number => home.reduce((all, each) => all + of(each), 0);
  return {
    ownKg: sum(({ ownKg }) => ownKg),
    ownBurntKg: sum(({ waitedKg, contactKg, home: way }) => waitedKg + contactKg + (way?.burntKg ?? 0)),
    ownLeftKg: sum(({ onLandingKg }) => onLandingKg ?? 0),
  };
}

/** What each tanker has left after its last contact, all of it where it had none. */
function keptOf({ tankers }: Sortie, used: Draft['flown']['refuellings']): number {
  return tankers.reduce((sum, { name, offloadKg }) => {
    const last = used.findLast(({ tanker }) => tanker === name);
    return sum + (last?.offloadLeftKg ?? offloadKg);
  }, 0);
}
