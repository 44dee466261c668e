/**
 * Fuel required: the least with which the rest to the next contact, and from there the worst case that the sortie names,
 * can be flown; on the last leg, the least with which the landing keeps the reserve.
 *
 * It is found by flying: from chosen places on the leg the rest is flown again with other fuel until just enough
 * arrives. Between those places the difference between fuel on board and fuel required is linear in time; the test of the
 * plan flies from places between and finds it right to 0.1 % of the fuel required.
 */
import { type Crew, LegFlyer } from './leg-flyer.ts';
import { type Anchor, copyProgress, type Log, newProgress, type Progress } from './log.ts';
import type { LegDecisions, Recovery } from './plan.ts';
import { type Route, routeOf } from './route.ts';
import type { Contact, Divert, Leg } from './sortie.ts';
import { fuelOf, type LegFlown, leave, placeOn } from './sortie-flyer.ts';

/** Fuel left at the end is right to this. */
const toleranceKg = 2;
/** A first answer this close is corrected along the slope without flying again: the slope is known to a few per cent. */
const closeKg = 250;

/** Fuel at the end of what was flown, from fuel at its start; NaN where it could not be flown. */
type FlyWith = (fuelKg: number) => number;

/**
 * The least starting fuel with which `fly` arrives with `wantedKg`. `knownKg` arrives with `knownEndKg`; `slope` is a guess of
 * the fuel that arrives for each kilogram at the start.
 */
export function leastFuel(
  fly: FlyWith,
  wantedKg: number,
  knownKg: number,
  knownEndKg: number,
  slope: number,
): { fuelKg: number; slope: number } {
  let from = { fuel: knownKg, over: knownEndKg - wantedKg };
  let rate = slope;
  for (let flights = 0; flights < 8; flights++) {
    const fuel = from.fuel - from.over / rate;
    if (Math.abs(from.over) < (flights === 0 ? toleranceKg : closeKg)) return { fuelKg: fuel, slope: rate };
    const over = fly(fuel) - wantedKg;
    if (Number.isNaN(over)) return { fuelKg: Number.NaN, slope };
    if (Math.abs(fuel - from.fuel) > 20)
      rate = Math.min(Math.max((from.over - over) / (from.fuel - fuel), 0.2), 1);
    from = { fuel, over };
  }
  return { fuelKg: Number.NaN, slope };
}

/** What arrives when the rest of a leg is flown from a place with some fuel, decisions held. */
function restOfLeg(
  crew: Crew,
  leg: Leg,
  flown: Pick<LegFlown, 'route' | 'decisions'>,
  from: Readonly<Progress>,
): FlyWith {
  const progress = newProgress();
  return (fuelKg) => {
    copyProgress(from, progress);
    progress.state.massKg = crew.flight.setup.zeroFuelMassKg + fuelKg;
    const stopped = new LegFlyer(crew, leg, flown.route, flown.decisions, null).fly(progress);
    return stopped ? Number.NaN : fuelOf(crew, progress);
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

/** Fuel required at a contact to fly its worst case and land with the reserve; also what lands with the fuel on board. */
export function recoveryFrom(crew: Crew, contact: Contact, flown: LegFlown, leg: number): Recovery {
  const { sortie } = crew;
  const { worstCase } = contact;
  const divert = divertLeg(crew, worstCase);
  const from = newProgress();
  copyProgress(flown.end, from);
  from.step = 0;
  from.track = 0;
  const leaving = leave(crew, contact, flown.route, flown.end, worstCase.base);
  const route: Route = routeOf(divert, placeOn(leaving), leaving);
  const first = new LegFlyer(crew, divert, route, null, null);
  const progress = newProgress();
  copyProgress(from, progress);
  const startS = progress.state.timeS;
  const stopped = first.fly(progress);
  const decisions: LegDecisions = first.decisions;
  const onBoard = flown.endFuelKg;
  const landed = stopped ? Number.NaN : fuelOf(crew, progress) - sortie.approach.fuelKg;
  const fly = restOfLeg(crew, divert, { route, decisions }, from);
  const wanted = sortie.landingReserveKg + sortie.approach.fuelKg;
  const known = stopped ? crew.flight.setup.aircraft.balance.fuelCapacityKg : onBoard;
  const knownEnd = stopped ? fly(known) : landed + sortie.approach.fuelKg;
  const answer = leastFuel(fly, wanted, known, knownEnd, 0.9);
  return {
    name: worstCase.name,
    leg,
    base: worstCase.base.name,
    fuelRequiredKg: answer.fuelKg,
    fuelOnLandingKg: landed,
    distanceM: route.tracks.slice(1).reduce((sum, track) => sum + track.lengthM, 0),
    timeS: progress.state.timeS - startS,
  };
}

/** Fuel required at a node of the log, solved for by flying the rest. */
export interface RequiredAt {
  readonly node: number;
  readonly fuelKg: number;
}

/** The first and the last place of a leg, and those between that are this far apart in time. */
const apartS = 1000;

function spread(anchors: readonly Anchor[], log: Log): Anchor[] {
  const { timeS } = log.columns;
  const kept: Anchor[] = [];
  let nextS = Number.POSITIVE_INFINITY;
  for (let i = anchors.length - 1; i >= 0; i--) {
    const time = timeS[anchors[i].node];
    if (i > 0 && time > nextS) continue;
    kept.push(anchors[i]);
    nextS = time - apartS;
  }
  return kept;
}

/** Fuel required at every anchor of a leg that was flown to its end, in order of time. */
export function requiredOnLeg(
  crew: Crew,
  leg: Leg,
  flown: LegFlown,
  anchors: readonly Anchor[],
  log: Log,
  wantedKg: number,
): RequiredAt[] {
  const { fuelKg, timeS } = log.columns;
  const answers: RequiredAt[] = [];
  /** Fuel on board less required at the place after, and how it grows with each second before it. */
  let difference = flown.endFuelKg - wantedKg;
  let growth = 0;
  let slope = 0.97;
  let afterS = Number.NaN;
  for (const anchor of spread(anchors, log)) {
    const onBoard = fuelKg[anchor.node];
    const beforeS = timeS[anchor.node];
    if (answers.length === 0) {
      answers.push({ node: anchor.node, fuelKg: onBoard - difference });
      afterS = beforeS;
      continue;
    }
    const fly = restOfLeg(crew, leg, flown, anchor.progress);
    const guess = onBoard - difference - growth * (afterS - beforeS);
    const end = fly(guess);
    const answer = Number.isNaN(end)
      ? leastFuel(fly, wantedKg, onBoard, flown.endFuelKg, slope)
      : leastFuel(fly, wantedKg, guess, end, slope);
    if (Number.isNaN(answer.fuelKg)) continue;
    slope = answer.slope;
    growth = (onBoard - answer.fuelKg - difference) / (afterS - beforeS);
    difference = onBoard - answer.fuelKg;
    afterS = beforeS;
    answers.push({ node: anchor.node, fuelKg: answer.fuelKg });
  }
  return answers.reverse();
}

/** Fuel required at every node from the first to the last answer: the difference to fuel on board linear in time between. */
export function fillRequired(log: Log, answers: readonly RequiredAt[], out: number[]): void {
  const { fuelKg, timeS } = log.columns;
  for (let k = 0; k + 1 < answers.length; k++) {
    const [a, b] = [answers[k], answers[k + 1]];
    const differenceA = fuelKg[a.node] - a.fuelKg;
    const differenceB = fuelKg[b.node] - b.fuelKg;
    const span = timeS[b.node] - timeS[a.node];
    for (let node = a.node; node <= b.node; node++) {
      const part = span > 0 ? (timeS[node] - timeS[a.node]) / span : 1;
      out[node] = fuelKg[node] - (differenceA + part * (differenceB - differenceA));
    }
  }
}
