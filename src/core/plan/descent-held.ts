/** A descent as flown against what the deck asks of it: the power kept for each system, and the rate of the cabin. */
import { type Cabin, cabinAltitude, cabinSlope, type DescentRule, holds } from '../aircraft/descent.ts';
import type { Draft } from './draft.ts';
import type { Log } from './log.ts';
import type { DescentCabin, DescentHeld, DescentRuleHeld } from './plan.ts';

const propulsionRule = 'propulsion.descent of the deck';
/** Less than this from the start to level is a change of speed, not a descent. */
const leastDescentM = 500;

/** From where it is begun to its level-off, both in seconds since 1970. */
export interface Descent {
  readonly leg: number;
  readonly startS: number;
  readonly levelS: number;
}

/** Each descent that was flown to its level-off. */
export function descentsOf(log: Log): Descent[] {
  return log.events.flatMap(({ kind, timeS: startS }) => {
    if (kind !== 'start-down') return [];
    const capture = log.captures.find(({ timeS }) => timeS > startS);
    if (!capture) return [];
    const fromM = log.at(log.columns.pressureAltitudeM, startS);
    const follows = log.captures.find(({ timeS }) => timeS > startS + 1e-6) === capture;
    if (!follows || fromM - capture.pressureAltitudeM < leastDescentM) return [];
    return [{ leg: capture.leg, startS, levelS: capture.timeS }];
  });
}

/** What was asked of a descent, and how it was flown against that. */
export function descentHeld(drafted: Draft, descent: Descent): DescentHeld {
  const { crew, log } = drafted;
  const { aircraft } = crew.flight.setup;
  const { names, descent: least } = aircraft.propulsion;
  const { timeS } = log.columns;
  const nodes = nodesOf(log, descent);
  const takeOffS = crew.sortie.takeOff.timeS;
  const engines: DescentRule = {
    of: 'engine',
    aboveMach: 1,
    abovePressureAltitudeM: null,
    setting: least,
    source: propulsionRule,
  };
  const rules = [engines, ...aircraft.descentRules].flatMap((rule): DescentRuleHeld[] => {
    const { mach, pressureAltitudeM, power } = log.columns;
    const held = nodes.filter((node) => holds(rule, mach[node], pressureAltitudeM[node]));
    if (rule.setting === 0 || held.length === 0) return [];
    const { setting, ...rest } = rule;
    const flownPower = held.reduce((least, node) => Math.min(least, power[node]), Number.POSITIVE_INFINITY);
    const untilS = timeS[held[held.length - 1]] - takeOffS;
    return [{ ...rest, setting: names[setting], leastPower: setting, flownPower, untilS }];
  });
  return { rules, cabin: cabinOn(drafted, descent) };
}

/** Where the cabin comes down faster than the deck allows: the first such node, and by how much at the worst [m/s]; null where nowhere. */
export function cabinTooFast(
  drafted: Draft,
  descent: Descent,
): { readonly node: number; readonly excessMS: number } | null {
  const { cabin } = drafted.crew.flight.setup.aircraft;
  if (cabin === null || cabin.greatestRateMS === null) return null;
  const { greatestRateMS: allowed } = cabin;
  const node = nodesOf(drafted.log, descent).find((at) => cabinRateMS(cabin, drafted.log, at) > allowed);
  if (node === undefined) return null;
  return { node, excessMS: (cabinOn(drafted, descent)?.greatestRateMS ?? allowed) - allowed };
}

/** By how much the cabin stays below the rate that the deck allows, in the descent that comes nearest [m/s]; null where it states none. */
export function cabinMarginMS(drafted: Draft): number | null {
  const margins = descentsOf(drafted.log).flatMap((descent) => {
    const cabin = cabinOn(drafted, descent);
    return cabin === null || cabin.allowedRateMS === null ? [] : [cabin.allowedRateMS - cabin.greatestRateMS];
  });
  return margins.length === 0 ? null : Math.min(...margins);
}

/** Between the start and the level-off. */
function nodesOf({ columns: { timeS } }: Log, { startS, levelS }: Descent): number[] {
  const first = timeS.findIndex((time) => time > startS + 1e-6);
  const last = timeS.findLastIndex((time) => time < levelS - 1e-6);
  return Array.from({ length: Math.max(last - first + 1, 0) }, (_, i) => first + i);
}

/** The shortest time over which a mean is taken: nodes that mark an event may lie closer. */
const leastMeanS = 1;

/** Of a cabin, down: that at a node, or the mean since the node before where that is more. */
function cabinRateMS(cabin: Cabin, { columns }: Log, node: number): number {
  const { timeS, pressureAltitudeM, climbRateMS } = columns;
  const here = -climbRateMS[node] * cabinSlope(cabin, pressureAltitudeM[node]);
  const seconds = timeS[node] - timeS[node - 1];
  if (!(seconds >= leastMeanS)) return here;
  const fall =
    cabinAltitude(cabin, pressureAltitudeM[node - 1]) - cabinAltitude(cabin, pressureAltitudeM[node]);
  return Math.max(here, fall / seconds);
}

function cabinOn(drafted: Draft, descent: Descent): DescentCabin | null {
  const { crew, log } = drafted;
  const { cabin } = crew.flight.setup.aircraft;
  const nodes = nodesOf(log, descent);
  if (cabin === null || nodes.length === 0) return null;
  const { timeS, pressureAltitudeM } = log.columns;
  const rate = (node: number): number => cabinRateMS(cabin, log, node);
  const fastest = nodes.reduce((most, node) => (rate(node) > rate(most) ? node : most));
  const inside = (node: number): number => cabinAltitude(cabin, pressureAltitudeM[node]);
  return {
    fromM: inside(nodes[0]),
    toM: inside(nodes[nodes.length - 1]),
    greatestRateMS: Math.max(rate(fastest), 0),
    timeS: timeS[fastest] - crew.sortie.takeOff.timeS,
    allowedRateMS: cabin.greatestRateMS,
  };
}
