/** The pushovers of a plan: what to fly, when to stop, and what going level instead would burn. */
import type { Flight } from '../flight/flight.ts';
import { fillLimitInputs } from '../flight/flight.ts';
import type { FlightState } from '../flight/state.ts';
import { brent } from '../numerics/roots.ts';
import { type AccelerationQuestion, levelPath } from '../optimise/acceleration-path.ts';
import { powerOf } from '../phases/phase.ts';
import { seaLevelDensity } from '../quantities/constants.ts';
import { type AccelerationSteps, accelerationSteps, questionOfLeg, stateAt } from './acceleration-start.ts';
import type { Draft } from './draft.ts';
import type { LevelInstead, PlanPhase, PushoverPoint, PushoverTable } from './plan.ts';
import { climbNodes, reached } from './tables.ts';

const degrees = 180 / Math.PI;
/** Equivalent airspeeds between which the slowest pull is looked for, and how near it is found. */
const SPEEDS_MS = { least: 60, most: 330, near: 0.05 };

/** One for each pushover before a supersonic climb that was flown. */
export function pushoversOf(drafted: Draft): PushoverTable[] {
  const { crew, log } = drafted;
  return crew.sortie.legs.flatMap((_, leg) => {
    const steps = accelerationSteps(drafted, leg);
    const phase = log.phases.find((flown) => flown.leg === leg && flown.kind === 'pushover');
    const question = steps?.pushover ? questionOfLeg(drafted, leg, steps) : null;
    return steps && phase && question ? [tableOf(drafted, leg, steps, phase, question)] : [];
  });
}

function tableOf(
  drafted: Draft,
  leg: number,
  steps: AccelerationSteps,
  phase: PlanPhase,
  question: AccelerationQuestion,
): PushoverTable {
  const { crew, flown } = drafted;
  const { sortie, flight } = crew;
  const { pushLoadFactor, pullLoadFactor } = question;
  const pullM = flown.legs[leg].decisions.pushover?.pullStartPressureAltitudeM ?? Number.NaN;
  const pullS = timeAtHeight(drafted, phase, pullM);
  const pull = pointAt(drafted, pullS);
  const bottom = pointAt(drafted, phase.endS);
  return {
    leg,
    name: sortie.legs[leg].name,
    timeS: phase.startS - sortie.takeOff.timeS,
    durationS: phase.endS - phase.startS,
    fuelKg: phase.fuelKg,
    push: pointAt(drafted, phase.startS),
    pull,
    bottom,
    pushLoadFactor,
    pathAngleDeg: (steps.pushover?.angleRad ?? Number.NaN) * degrees,
    pullLoadFactor,
    onsetPerS: flight.setup.aircraft.rates.onsetPerS,
    latestPullMS: latestPull(drafted, question, phase.endS, pull, bottom),
    slowestPullMS: slowestPull(drafted, leg, question, pullS),
    instead: instead(drafted, leg, question, phase),
  };
}

/** When a pushover comes down through a height. */
function timeAtHeight({ log }: Draft, { startS, endS }: PlanPhase, heightM: number): number {
  const { timeS, pressureAltitudeM } = log.columns;
  for (let i = 1; i < log.nodes; i++) {
    if (timeS[i] < startS || timeS[i - 1] > endS || pressureAltitudeM[i] > heightM) continue;
    const fall = pressureAltitudeM[i - 1] - pressureAltitudeM[i];
    const part = fall > 0 ? (pressureAltitudeM[i - 1] - heightM) / fall : 1;
    return timeS[i - 1] + Math.min(Math.max(part, 0), 1) * (timeS[i] - timeS[i - 1]);
  }
  return endS;
}

function pointAt({ log }: Draft, timeS: number): PushoverPoint {
  const { columns } = log;
  return {
    pressureAltitudeM: log.at(columns.pressureAltitudeM, timeS),
    mach: log.at(columns.mach, timeS),
    equivalentAirspeedMS: log.at(columns.equivalentAirspeedMS, timeS),
  };
}

/** The bound at the bottom less what the pull gains, which grows with the square of speed as the height of its arc does. */
function latestPull(
  { log }: Draft,
  { limits }: AccelerationQuestion,
  endS: number,
  pull: PushoverPoint,
  bottom: PushoverPoint,
): number | null {
  const bounds = limits
    .filter(({ limit }) => limit.quantity === 'equivalentAirspeedMS' && limit.side === 'upper')
    .map(({ limit, pad }) => log.at(log.bounds[limit.key], endS) - pad);
  if (bounds.length === 0) return null;
  const bound = Math.min(...bounds);
  const gain = Math.max(0, bottom.equivalentAirspeedMS - pull.equivalentAirspeedMS);
  return bound - gain * (bound / pull.equivalentAirspeedMS) ** 2;
}

/** Where the angle of attack of the pull, as a warning with its lead reads it at the end of the onset, meets the first limit. */
function slowestPull(
  drafted: Draft,
  leg: number,
  question: AccelerationQuestion,
  pullS: number,
): number | null {
  const { flight, limits, pullLoadFactor, power } = question;
  const watched = limits.filter(
    ({ limit }) => limit.quantity === 'angleOfAttackDeg' && limit.side === 'upper',
  );
  const there = stateAt(drafted, leg, pullS);
  if (watched.length === 0 || there === null) return null;
  const { aircraft } = flight.setup;
  const setting = powerOf(aircraft.propulsion, power);
  const { onsetPerS, warningLeadS } = aircraft.rates;
  const lead = Number.isFinite(onsetPerS) ? onsetPerS * warningLeadS : 0;
  const { moment } = flight;
  const margin = (speedMS: number): number => {
    angleAt(flight, there, speedMS, setting, pullLoadFactor + lead);
    const led = flight.forces.angleRad;
    angleAt(flight, there, speedMS, setting, pullLoadFactor);
    flight.describe(moment);
    fillLimitInputs(moment);
    moment.limitInputs.ledAngleOfAttackRad = led;
    const { limitInputs } = moment;
    return Math.min(
      ...watched.map(({ limit, pad }) => limit.bound(limitInputs) - limit.value(limitInputs) - pad),
    );
  };
  const { least, most, near } = SPEEDS_MS;
  const root = brent(margin, least, most, near);
  return root.found ? root.x : null;
}

function angleAt(
  flight: Flight,
  { state, track }: NonNullable<ReturnType<typeof stateAt>>,
  equivalentMS: number,
  power: number,
  loadFactor: number,
): void {
  flight.placeOnTrack(track, state.distanceM, state.pressureAltitudeM, state.timeS);
  const speed = equivalentMS * Math.sqrt(seaLevelDensity / flight.frame.air.densityKgM3);
  flight.atLoadFactor(speed, state.massKg, power, 0, loadFactor);
}

/** Fuel from the start of the push to the reference, as flown and level. */
function instead(
  drafted: Draft,
  leg: number,
  question: AccelerationQuestion,
  phase: PlanPhase,
): LevelInstead {
  const { log } = drafted;
  const { columns } = log;
  const { from, reference } = question;
  const referenceS = reached(log, climbNodes(log, leg), reference.mach);
  const start: FlightState = { ...from };
  const level = levelPath({ ...question, from: start }, from.pressureAltitudeM);
  const lastS = referenceS ?? phase.endS;
  return {
    mach: reference.mach,
    pressureAltitudeM: log.at(columns.pressureAltitudeM, lastS),
    fuelKg: referenceS === null ? null : from.massKg - log.at(columns.massKg, referenceS),
    levelFuelKg: level.refused === null ? level.fuelKg : null,
    levelRefused: level.refused?.text ?? null,
  };
}
