/** A descent as flown against what the deck asks of it: the power kept for each system, and the rate of the cabin. */
import { type Cabin, cabinAltitude, cabinSlope, type DescentRule, holds } from '../aircraft/descent.ts';
import type { Draft } from './draft.ts';
import type { DescentCabin, DescentHeld, DescentRuleHeld } from './plan.ts';

const propulsionRule = 'propulsion.descent of the deck';

/** From the start of a descent to its level-off, both in seconds since 1970. */
export function descentHeld({ crew, log }: Draft, startS: number, levelS: number): DescentHeld {
  const { aircraft } = crew.flight.setup;
  const { names, descent } = aircraft.propulsion;
  const { timeS } = log.columns;
  const first = timeS.findIndex((time) => time > startS + 1e-6);
  const last = timeS.findLastIndex((time) => time < levelS - 1e-6);
  const nodes = Array.from({ length: Math.max(last - first + 1, 0) }, (_, i) => first + i);
  const takeOffS = crew.sortie.takeOff.timeS;
  const engines: DescentRule = {
    of: 'engine',
    aboveMach: 1,
    abovePressureAltitudeM: null,
    setting: descent,
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
  return { rules, cabin: aircraft.cabin && cabinOn(aircraft.cabin, { log, nodes, takeOffS }) };
}

function cabinOn(
  cabin: Cabin,
  { log, nodes, takeOffS }: { log: Draft['log']; nodes: readonly number[]; takeOffS: number },
): DescentCabin | null {
  if (nodes.length === 0) return null;
  const { timeS, pressureAltitudeM, climbRateMS } = log.columns;
  const rate = (node: number): number => -climbRateMS[node] * cabinSlope(cabin, pressureAltitudeM[node]);
  const fastest = nodes.reduce((most, node) => (rate(node) > rate(most) ? node : most));
  const inside = (node: number): number => cabinAltitude(cabin, pressureAltitudeM[node]);
  return {
    fromM: inside(nodes[0]),
    toM: inside(nodes[nodes.length - 1]),
    greatestRateMS: Math.max(rate(fastest), 0),
    timeS: timeS[fastest] - takeOffS,
    allowedRateMS: cabin.greatestRateMS,
  };
}
