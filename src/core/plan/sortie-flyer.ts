/** Flies a whole sortie: take-off, leg after leg, contact after contact, to the landing. */
import { newAir } from '../air/day.ts';
import { direct, inverse, newLinePoint } from '../earth/line.ts';
import type { Moment } from '../flight/moment.ts';
import { type RefuelResult, refuel } from '../phases/index.ts';
import type { Recorder } from '../phases/phase.ts';
import { refusedBy, waiversUsed } from './contact-limits.ts';
import { pressureAltitudeAt } from './ground.ts';
import { LegFlyer } from './leg-flyer.ts';
import { copyProgress, type Log, newProgress, type Progress } from './log.ts';
import type { LegDecisions, Refuelling } from './plan.ts';
import { followPumps } from './pumped.ts';
import { type Leaving, leadEstimate, type Route, routeOf } from './route.ts';
import type { Crew, Stopped } from './route-flight.ts';
import type { Contact, Place, Sortie } from './sortie.ts';

/** What one leg was when it was flown. */
export interface LegFlown {
  readonly route: Route;
  readonly decisions: LegDecisions;
  /** At the contact, before fuel came, or over the base. */
  readonly end: Progress;
  readonly endFuelKg: number;
}

export interface SortieFlown {
  readonly legs: LegFlown[];
  readonly refuellings: Refuelling[];
  readonly takeOff: { readonly timeS: number; readonly fuelKg: number; readonly groundRollM: number };
  /** null where nothing stopped it. */
  readonly stopped: Stopped | null;
  /** After the approach; NaN where it never came to land. */
  readonly landingFuelKg: number;
  readonly landingTimeS: number;
}

/** Thrown where the sortie cannot be planned at all, such as a deck without a take-off table. */
export class CannotPlan extends Error {}

const contactEveryS = 30;
const cornerSlackM = 1500;

/** Asked at the end of each leg but the last, before its contact, with what is flown so far: whether to fly on. */
export type GoesOn = (soFar: SortieFlown) => boolean;

/** Flies a sortie; `held` keeps earlier decisions, `log` records. */
export function flySortie(
  crew: Crew,
  held: readonly LegDecisions[] | null,
  log: Log | null,
  goesOn?: GoesOn,
): SortieFlown {
  const { sortie } = crew;
  const progress = newProgress();
  const takeOff = leaveGround(crew, progress);
  if (log) takeOffPhase(sortie, log, takeOff);
  const route = routeOf(sortie.legs[0], sortie.takeOff.base, null);
  const from = { progress, route, legs: [], refuellings: [], takeOff };
  return asPumped(crew, log, flyOn(crew, held, log, from, goesOn));
}

/** What was flown with the centre of gravity as pumped; `log`, of all of it, is changed to that. */
export function asPumped(crew: Crew, log: Log | null, flown: SortieFlown): SortieFlown {
  if (!log || !followPumps(crew.flight.setup.aircraft, log)) return flown;
  const cgAt = (timeS: number): number => log.at(log.columns.cgFraction, timeS);
  const refuellings = flown.refuellings.map((refuelling) => ({
    ...refuelling,
    cgAtContact: cgAt(refuelling.contactS),
    cgAtDisconnect: cgAt(refuelling.disconnectS),
  }));
  return { ...flown, refuellings };
}

/** Where a sortie goes on: in the leg of `progress`, which has a route, after the legs and contacts that were flown. */
export interface Onward extends Pick<SortieFlown, 'takeOff'> {
  /** Is moved along. */
  readonly progress: Progress;
  readonly route: Route;
  readonly legs: readonly LegFlown[];
  readonly refuellings: readonly Refuelling[];
}

/** From the end of a leg that was flown, before its contact and any wait there. */
export function onwardFrom({ legs, refuellings, takeOff }: SortieFlown, leg: number): Onward {
  const { end, route } = legs[leg];
  const progress = newProgress();
  copyProgress(end, progress);
  return {
    progress,
    route,
    legs: legs.slice(0, leg),
    refuellings: refuellings.slice(0, leg),
    takeOff,
  };
}

/** Flies the rest of a sortie; of what is written to `log` nothing is before it. */
export function flyOn(
  crew: Crew,
  held: readonly LegDecisions[] | null,
  log: Log | null,
  { progress, route: first, legs, refuellings: earlier, takeOff }: Onward,
  goesOn?: GoesOn,
): SortieFlown {
  const { sortie } = crew;
  const flown: LegFlown[] = [...legs];
  const refuellings: Refuelling[] = [...earlier];
  let route = first;
  const stop = (stopped: Stopped | null): SortieFlown => ({
    legs: flown,
    refuellings,
    takeOff,
    stopped,
    landingFuelKg: Number.NaN,
    landingTimeS: Number.NaN,
  });
  for (let index = progress.leg; index < sortie.legs.length; index++) {
    const leg = sortie.legs[index];
    const flyer: LegFlyer = new LegFlyer(crew, leg, route, held?.[index] ?? null, log);
    const stopped = flyer.fly(progress);
    if (stopped) return stop(stopped);
    const end = newProgress();
    copyProgress(progress, end);
    flown.push({ route, decisions: flyer.decisions, end, endFuelKg: fuelOf(crew, progress) });
    if (leg.end.kind === 'landing') break;
    if (goesOn?.(stop(null)) === false) return stop(null);
    const contact = leg.end;
    log?.event('contact', contact.tanker.name, progress.state.timeS, fuelOf(crew, progress));
    const offer = { heldKg: held?.[index]?.takenKg ?? null, leftKg: leftIn(contact.tanker, refuellings) };
    const taken = takeFuel(crew, contact, route, progress, offer, log);
    if ('reason' in taken) return stop(taken);
    if (!held) flyer.decisions.takenKg = taken.takenKg;
    refuellings.push(taken);
    log?.event('disconnect', contact.tanker.name, progress.state.timeS, fuelOf(crew, progress));
    if (index + 1 === sortie.legs.length) break;
    const leaving = leave(crew, contact, route, progress, nextPlace(sortie, index + 1));
    route = routeOf(sortie.legs[index + 1], placeOn(leaving), leaving);
    progress.leg = index + 1;
    progress.step = 0;
    progress.track = 0;
  }
  const { approach } = sortie;
  const landingFuelKg = fuelOf(crew, progress) - approach.fuelKg;
  const landingTimeS = progress.state.timeS + approach.timeS;
  log?.event('landing', landingName(sortie), landingTimeS, landingFuelKg);
  return { legs: flown, refuellings, takeOff, stopped: null, landingFuelKg, landingTimeS };
}

export function fuelOf(crew: Crew, progress: Readonly<Progress>): number {
  return progress.state.massKg - crew.flight.setup.zeroFuelMassKg;
}

function landingName(sortie: Sortie): string {
  const end = sortie.legs[sortie.legs.length - 1].end;
  return end.kind === 'landing' ? end.base.name : end.tanker.name;
}

/** The ground roll by the deck's table; afterwards the state is at lift-off over the base, on the course of the first line. */
function leaveGround(crew: Crew, progress: Progress): { timeS: number; fuelKg: number; groundRollM: number } {
  const { sortie, flight } = crew;
  const { aircraft, day, zeroFuelMassKg } = flight.setup;
  const { takeOff } = aircraft;
  if (!takeOff) throw new CannotPlan('take-off not computed: the deck has no take-off table');
  const { base, timeS } = sortie.takeOff;
  const air = newAir();
  const altitude = pressureAltitudeAt(day, base, base.elevationM, timeS);
  day.sample(base.latitudeRad, base.longitudeRad, altitude, timeS, air);
  const massKg = zeroFuelMassKg + sortie.aircraft.fuelKg;
  const roll = { groundRollM: 0.5, timeS: 0.5, fuelKg: 0.5, liftOffSpeedMS: 0.5, outside: 0 };
  takeOff.at(massKg, altitude, air.temperatureOffsetK, roll);
  if (roll.outside !== 0) {
    throw new CannotPlan(
      `take-off mass ${Math.round(massKg)} kg at ${Math.round(altitude)} m and ${air.temperatureOffsetK.toFixed(1)} K from standard is outside the deck's take-off table`,
    );
  }
  const state = progress.state;
  state.timeS = timeS + roll.timeS;
  state.distanceM = roll.groundRollM;
  state.pressureAltitudeM = altitude;
  state.trueAirspeedMS = roll.liftOffSpeedMS;
  state.pathAngleRad = 0;
  state.massKg = massKg - roll.fuelKg;
  state.latitudeRad = base.latitudeRad;
  state.longitudeRad = base.longitudeRad;
  state.headingRad = inverse(base, nextPlace(sortie, 0)).initialCourseRad;
  state.bankRad = 0;
  return { timeS: roll.timeS, fuelKg: roll.fuelKg, groundRollM: roll.groundRollM };
}

function takeOffPhase(
  sortie: Sortie,
  log: Log,
  roll: { timeS: number; fuelKg: number; groundRollM: number },
): void {
  const { timeS, base } = sortie.takeOff;
  log.event('take-off', base.name, timeS, sortie.aircraft.fuelKg);
  log.phases.push({
    kind: 'take-off',
    name: `Take-off from ${base.name}`,
    leg: 0,
    startS: timeS,
    endS: timeS + roll.timeS,
    distanceM: roll.groundRollM,
    fuelKg: roll.fuelKg,
  });
}

/** The first place that a leg makes for. */
function nextPlace(sortie: Sortie, leg: number): Place {
  const { through, end } = sortie.legs[leg];
  if (through.length > 0) return through[0];
  return end.kind === 'landing' ? end.base : end.tanker;
}

/** Turns back by more than this are made in two. */
const oneTurnRad = 2.2;

/** Where the refuelling track is left for a place: as soon as a turn can begin. */
export function leave(
  crew: Crew,
  contact: Contact,
  route: Route,
  at: Readonly<Progress>,
  towards: Place,
): Leaving {
  const { state } = at;
  const { day, aircraft } = crew.flight.setup;
  const track = route.tracks[route.tracks.length - 1];
  const point = newLinePoint();
  track.at(state.distanceM, point);
  const air = newAir();
  day.sample(point.latitudeRad, point.longitudeRad, state.pressureAltitudeM, state.timeS, air);
  const turnBy = inverse(point, towards).initialCourseRad - point.courseRad;
  const change = turnBy - 2 * Math.PI * Math.round(turnBy / (2 * Math.PI));
  const wind = Math.sqrt(air.windEastMS ** 2 + air.windNorthMS ** 2);
  const { bankRad } = contact.tanker;
  const back = Math.abs(change) > oneTurnRad;
  const first = back ? change / 2 : change;
  const speed = state.trueAirspeedMS + wind;
  const lead = leadEstimate(speed, wind, bankRad, aircraft.rates.rollRadPerS, first) + cornerSlackM;
  const cornerM = state.distanceM + lead;
  if (!back) return { track, cornerM, bankRad, via: null };
  track.at(cornerM, point);
  const via = direct(point, point.courseRad + first, 2.5 * lead);
  return { track, cornerM, bankRad, via: { name: 'turning back', ...via } };
}

/** The place where a refuelling track is left. */
export function placeOn(leaving: Leaving): Place {
  const point = newLinePoint();
  leaving.track.at(leaving.cornerM, point);
  return { name: 'disconnect', latitudeRad: point.latitudeRad, longitudeRad: point.longitudeRad };
}

/** What is taken where that was decided, and what the tanker has left to give. */
interface Offer {
  readonly heldKg: number | null;
  readonly leftKg: number;
}

/** Of what the receiver may burn, after earlier contacts with the same tanker. */
function leftIn({ name, offloadKg }: Contact['tanker'], earlier: readonly Refuelling[]): number {
  return earlier.reduce((left, { tanker, takenKg }) => (tanker === name ? left - takenKg : left), offloadKg);
}

/**
 * In contact: both engines dry as long as that is enough, then one in afterburner, until the fuel asked for is in, the
 * tanks are full or the tanker has no more.
 */
function takeFuel(
  crew: Crew,
  contact: Contact,
  route: Route,
  progress: Progress,
  { heldKg, leftKg }: Offer,
  log: Log | null,
): Refuelling | Stopped {
  const { flight } = crew;
  const { tanker, takeKg } = contact;
  const { propulsion, balance } = flight.setup.aircraft;
  const { state } = progress;
  const track = route.tracks[route.tracks.length - 1];
  const wanted = heldKg ?? Math.min(wantedOf(takeKg), leftKg);
  const contactS = state.timeS;
  const tooFast = refusedBy(tanker, contactS);
  if (tooFast) return tooFast;
  const fuelOnContactKg = fuelOf(crew, progress);
  const name = `Contact with ${tanker.name}`;
  const seen = new Disconnect(log?.recorder(contactEveryS));
  log?.beginPhase('contact', name, progress.leg, state, fuelOnContactKg);
  const options = {
    calibratedAirspeedMS: tanker.calibratedAirspeedMS,
    rateKgS: tanker.rateKgS,
    recorder: log ? seen : undefined,
  };
  const dry = refuel(flight, state, track, {
    ...options,
    takeKg: wanted,
    sharing: 'alike',
    stops: [{ at: 'custom', name: 'afterburner', value: (at) => at.power - propulsion.military - 1e-9 }],
  });
  let afterburnerFromKg: number | null = null;
  let end: RefuelResult = dry;
  let { takenKg, burntKg } = dry;
  if (dry.stop === 0 && propulsion.minimumAfterburner !== null) {
    afterburnerFromKg = takenKg;
    log?.event('afterburner', 'one engine in afterburner', state.timeS, fuelOf(crew, progress));
    const rest = { ...options, takeKg: wanted - takenKg, sharing: 'oneAfterburner' as const, stops: [] };
    end = refuel(flight, state, track, rest);
    takenKg += end.takenKg;
    burntKg += end.burntKg;
  }
  log?.endPhase(state, fuelOf(crew, progress));
  const endedBy = endOf(end.reason, takenKg, heldKg === null && leftKg < wantedOf(takeKg));
  if (endedBy === null) return { reason: end.reason, text: end.text, phase: name };
  return {
    tanker: tanker.name,
    contactS,
    disconnectS: state.timeS,
    pressureAltitudeM: tanker.pressureAltitudeM,
    calibratedAirspeedMS: tanker.calibratedAirspeedMS,
    equivalentAirspeedMS: seen.equivalentAirspeedMS,
    trueAirspeedMS: state.trueAirspeedMS,
    mach: seen.mach,
    fuelOnContactKg,
    takenKg,
    burntKg,
    rateKgS: tanker.rateKgS,
    cgAtContact: balance.cgFraction(fuelOnContactKg),
    cgAtDisconnect: balance.cgFraction(fuelOf(crew, progress)),
    endedBy,
    leastThrustMargin: end.leastThrustMargin,
    enginesAtDisconnect: propulsion.engines.map((engine, i) => ({
      name: engine.name,
      power: seen.powers[i],
    })),
    afterburnerFromKg,
    offloadLeftKg: leftKg - takenKg,
    waivers: waiversUsed(tanker, contactS),
  };
}

function wantedOf(takeKg: Contact['takeKg']): number {
  return takeKg === 'full' ? Number.POSITIVE_INFINITY : takeKg;
}

/** A contact in which less comes than this has failed. */
const leastTakenKg = 1;

/** How a contact ended that gave something; null where it failed. */
function endOf(reason: string, takenKg: number, tankerEmpty: boolean): Refuelling['endedBy'] | null {
  if (reason === 'taken') return tankerEmpty ? 'tanker' : 'asked';
  if (reason === 'full') return 'full';
  return reason === 'thrust' && takenKg > leastTakenKg ? 'thrust' : null;
}

/** Passes moments on and remembers the last one. */
class Disconnect implements Recorder {
  readonly everyS: number;
  mach = Number.NaN;
  equivalentAirspeedMS = Number.NaN;
  readonly powers: number[] = [];
  private readonly next: Recorder | undefined;

  constructor(next: Recorder | undefined) {
    this.next = next;
    this.everyS = next?.everyS ?? Number.POSITIVE_INFINITY;
  }

  moment(at: Moment): void {
    this.mach = at.mach;
    this.equivalentAirspeedMS = at.equivalentAirspeedMS;
    for (let i = 0; i < at.enginePowers.length; i++) this.powers[i] = at.enginePowers[i];
    this.next?.moment?.(at);
  }
}
