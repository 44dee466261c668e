/**
 * Fuel required: the least with which the rest to the next contact, and from there the worst case that the sortie names,
 * can be flown; on the last leg, the least with which the landing keeps the reserve.
 *
 * It is found by flying: from chosen places on the leg the rest is flown again with other fuel until just enough
 * arrives. The test of the plan flies from places between and finds it at most 20 kg too little and
 * 40 kg too much: the rest chooses its cruise altitude anew from each place.
 */
import { Axis, MonotoneCubic } from '../numerics/tables.ts';
import { LegFlyer } from './leg-flyer.ts';
import { type Anchor, copyProgress, type Log, newProgress, type Progress } from './log.ts';
import type { Recovery } from './plan.ts';
import { type Route, routeOf } from './route.ts';
import type { Crew } from './route-flight.ts';
import type { Contact, Divert, Leg } from './sortie.ts';
import { fuelOf, type LegFlown, leave, placeOn } from './sortie-flyer.ts';

/** An answer this close is corrected along the slope between two flights: it bends by two per cent at the most. */
const closeKg = 500;
const mostFlights = 6;

/** Fuel at the end of what was flown, from fuel at its start; NaN where it could not be flown. */
type FlyWith = (fuelKg: number) => number;

/** A flight that is known: with `fuelKg` at the start `endKg` arrives. */
interface Known {
  readonly fuelKg: number;
  readonly endKg: number;
}

interface Least {
  /** NaN where no fuel was found with which it can be flown. */
  readonly fuelKg: number;
  /** Fuel that arrives for each kilogram at the start. */
  readonly slope: number;
}

/** The least starting fuel with which `fly` arrives with `wantedKg`, from a flight that is known and a guess of the slope. */
function leastFuel(fly: FlyWith, wantedKg: number, known: Known, slope: number): Least {
  let from = known;
  let rate = slope;
  for (let flights = 0; flights < mostFlights; flights++) {
    const fuelKg = from.fuelKg - (from.endKg - wantedKg) / rate;
    if (flights > 0 && Math.abs(from.endKg - wantedKg) < closeKg) return { fuelKg, slope: rate };
    const endKg = fly(fuelKg);
    if (Number.isNaN(endKg)) return { fuelKg: Number.NaN, slope };
    const moved = fuelKg - from.fuelKg;
    if (Math.abs(moved) > 20) rate = Math.min(Math.max((endKg - from.endKg) / moved, 0.2), 1);
    from = { fuelKg, endKg };
  }
  return { fuelKg: Number.NaN, slope };
}

/** What arrives when the rest of a leg is flown from a place with some fuel, decisions held. */
function restOfLeg(
  crew: Crew,
  leg: Leg,
  flown: Pick<LegFlown, 'route' | 'decisions'>,
  from: Readonly<Progress>,
  descended?: (descent: Descent) => void,
): FlyWith {
  const progress = newProgress();
  return (fuelKg) => {
    copyProgress(from, progress);
    progress.state.massKg = crew.flight.setup.zeroFuelMassKg + fuelKg;
    const flyer = new LegFlyer(crew, leg, flown.route, flown.decisions, null);
    const stopped = flyer.fly(progress);
    const endKg = stopped ? Number.NaN : fuelOf(crew, progress);
    descended?.({ startKg: flyer.startDownKg, endKg });
    return endKg;
  };
}

/** The fuel at the start of the descent and that at the end of the leg, of one flight. */
interface Descent {
  readonly startKg: number;
  readonly endKg: number;
}

/**
 * The rest of a leg from a place with some fuel, up to the descent alone. Whoever arrives with what is wanted comes down from the
 * same place with the same fuel, so that between two flights whose descents are known the end follows on a line.
 */
function restToDescent(
  crew: Crew,
  leg: Leg,
  flown: Pick<LegFlown, 'route' | 'decisions'>,
  from: Readonly<Progress>,
  [one, other]: readonly [Descent, Descent],
): FlyWith {
  const rate = (one.endKg - other.endKg) / (one.startKg - other.startKg);
  const progress = newProgress();
  return (fuelKg) => {
    copyProgress(from, progress);
    progress.state.massKg = crew.flight.setup.zeroFuelMassKg + fuelKg;
    const stopped = new LegFlyer(crew, leg, flown.route, flown.decisions, null).flyToDescent(progress);
    return stopped ? Number.NaN : one.endKg + rate * (fuelOf(crew, progress) - one.startKg);
  };
}

/** A divert as a leg: climb, cruise and descent at the sortie's numbers. */
function divertLeg(crew: Crew, divert: Divert): Leg {
  const { propulsion } = crew.flight.setup.aircraft;
  return {
    name: divert.name,
    through: [],
    fly: [
      {
        kind: 'climb',
        power: propulsion.military,
        speed: { kind: 'CAS', valueMS: divert.climbCalibratedAirspeedMS },
        bleed: null,
        mach: divert.mach,
        to: divert.pressureAltitudeM,
        levelOffLoadFactor: 0.9,
      },
      { kind: 'cruise', mach: divert.mach, altitude: divert.pressureAltitudeM },
      {
        kind: 'descend',
        power: 0,
        equivalentAirspeedMS: divert.descentEquivalentAirspeedMS,
        levelM: 10_000,
      },
    ],
    end: { kind: 'landing', base: divert.base },
  };
}

/** The worst case of a contact flown from where a leg ended, with what is on board there. */
function diverted(crew: Crew, contact: Contact, flown: LegFlown) {
  const { worstCase } = contact;
  const divert = divertLeg(crew, worstCase);
  const from = newProgress();
  copyProgress(flown.end, from);
  from.step = 0;
  from.track = 0;
  const leaving = leave(crew, contact, flown.route, flown.end, worstCase.base);
  const route: Route = routeOf(divert, placeOn(leaving), leaving);
  const progress = newProgress();
  copyProgress(from, progress);
  const flyer = new LegFlyer(crew, divert, route, null, null);
  const stopped = flyer.fly(progress);
  const endKg = stopped ? Number.NaN : fuelOf(crew, progress);
  const timeS = progress.state.timeS - from.state.timeS;
  return { divert, from, route, decisions: flyer.decisions, endKg, timeS };
}

/** What lands after the worst case of a contact with the fuel on board; NaN where it cannot be flown. */
export function fuelAfterDivert(crew: Crew, contact: Contact, flown: LegFlown): number {
  return diverted(crew, contact, flown).endKg - crew.sortie.approach.fuelKg;
}

/** Fuel required at a contact to fly its worst case and land with the reserve; also what lands with the fuel on board. */
export function recoveryFrom(crew: Crew, contact: Contact, flown: LegFlown, leg: number): Recovery {
  const { sortie } = crew;
  const { worstCase } = contact;
  const { divert, from, route, decisions, endKg, timeS } = diverted(crew, contact, flown);
  const fly = restOfLeg(crew, divert, { route, decisions }, from);
  const wanted = sortie.landingReserveKg + sortie.approach.fuelKg;
  const capacity = crew.flight.setup.aircraft.balance.fuelCapacityKg;
  const known = Number.isNaN(endKg)
    ? { fuelKg: capacity, endKg: fly(capacity) }
    : { fuelKg: flown.endFuelKg, endKg };
  const answer = leastFuel(fly, wanted, known, 0.95);
  return {
    name: worstCase.name,
    leg,
    base: worstCase.base.name,
    fuelRequiredKg: answer.fuelKg,
    fuelOnLandingKg: endKg - sortie.approach.fuelKg,
    distanceM: route.tracks.slice(1).reduce((sum, track) => sum + track.lengthM, 0),
    timeS,
  };
}

/** Fuel required at a node of the log, solved for by flying the rest. */
export interface RequiredAt {
  readonly node: number;
  readonly fuelKg: number;
}

/**
 * The first and the last place of a leg, and those between that are this far apart in time, or nearer where the next one would
 * be half as far again: the whole plan of a sortie of three hours stays under 30 000 evaluations.
 */
const apartS = 400;

function spread(anchors: readonly Anchor[], log: Log): Anchor[] {
  const { timeS } = log.columns;
  const time = (i: number): number => timeS[anchors[i].node];
  const kept: Anchor[] = [];
  let afterS = Number.POSITIVE_INFINITY;
  for (let i = anchors.length - 1; i >= 0; i--) {
    const near = afterS - time(i) < apartS;
    if (near && i > 0 && afterS - time(i - 1) < 1.5 * apartS) continue;
    kept.push(anchors[i]);
    afterS = time(i);
  }
  return kept;
}

/** Time in which a cruise has closed on the best altitude of another mass. */
const settledS = 600;
/** Two descents whose fuel differs by less tell no rate. */
const apartKg = 200;

/** Fuel required at every anchor of a leg that was flown to its end, in order of time. */
export function requiredOnLeg(
  crew: Crew,
  leg: Leg,
  flown: LegFlown,
  anchors: readonly Anchor[],
  log: Log,
  wantedKg: number,
): RequiredAt[] {
  const { fuelKg, massKg } = log.columns;
  const answers: RequiredAt[] = [];
  let slope = 1;
  const begun = anchors.find(({ progress }) => leg.fly[progress.step]?.kind === 'descend');
  const planned = begun && { startKg: fuelKg[begun.node], endKg: flown.endFuelKg };
  let other: Descent | null = null;
  for (const anchor of spread(anchors, log)) {
    const onBoard = fuelKg[anchor.node];
    if (answers.length === 0) {
      answers.push({ node: anchor.node, fuelKg: onBoard - (flown.endFuelKg - wantedKg) });
      continue;
    }
    // An aircraft lighter by the fuel in hand is at its own altitude some minutes before the descent, not at once.
    const cruises = begun && log.columns.timeS[begun.node] - log.columns.timeS[anchor.node] > settledS;
    const fly =
      planned && other
        ? restToDescent(crew, leg, flown, anchor.progress, [planned, other])
        : restOfLeg(crew, leg, flown, anchor.progress, (descent) => {
            if (cruises && Math.abs(descent.startKg - fuelKg[begun.node]) > apartKg) other = descent;
          });
    const known = { fuelKg: onBoard, endKg: flown.endFuelKg };
    // A heavier aircraft burns more in proportion: less of each kilogram is left by the place that was answered last.
    const burntKg = onBoard - fuelKg[answers[answers.length - 1].node];
    const guess = slope * Math.exp(-burntKg / massKg[anchor.node]);
    const answer = leastFuel(fly, wantedKg, known, guess);
    if (Number.isNaN(answer.fuelKg)) continue;
    slope = answer.slope;
    answers.push({ node: anchor.node, fuelKg: answer.fuelKg });
  }
  return answers.reverse();
}

/**
 * Fuel required at every node from the first to the last answer. Between answers the difference to fuel on board follows a
 * monotone cubic of the fuel on board: with less mass a cruise burns less in proportion, which makes it a straight line there.
 */
export function fillRequired(log: Log, answers: readonly RequiredAt[], out: number[]): void {
  const { fuelKg } = log.columns;
  const apart = answers.filter(({ node }, i) => i === 0 || fuelKg[node] < fuelKg[answers[i - 1].node] - 1e-6);
  if (apart.length < 2) return;
  const burnt = (node: number): number => fuelKg[apart[0].node] - fuelKg[node];
  const difference = new MonotoneCubic(
    new Axis(apart.map(({ node }) => burnt(node))),
    apart.map((answer) => fuelKg[answer.node] - answer.fuelKg),
  );
  const last = answers[answers.length - 1].node;
  for (let node = apart[0].node; node <= last; node++) out[node] = fuelKg[node] - difference.at(burnt(node));
}
