/** What engines, inlets and cabin ask of a descent, and how it was flown against that, in words. */
import type { DescentCabin, DescentHeld, DescentRuleHeld, Plan } from '../core/plan/plan.ts';
import { keyWords, powerWords, upperFirst } from './names.ts';
import { hoursMinutes } from './time.ts';
import { figures, type Gauges, gaugesOf, shown } from './units.ts';

/** "Inlet: not below part above M 1.50, held; flown at part or more until 1:44." */
export function heldSentences(plan: Plan, { rules, cabin }: DescentHeld): readonly string[] {
  return [
    ...rules.map((rule) => ruleSentence(plan, rule)),
    ...(cabin === null ? [] : [cabinSentence(gaugesOf(plan), cabin)]),
  ];
}

function ruleSentence(plan: Plan, rule: DescentRuleHeld): string {
  const gauges = gaugesOf(plan);
  const above =
    rule.aboveMach === null
      ? shown(gauges('pressureAltitudeM'), rule.abovePressureAltitudeM)
      : shown(gauges('mach'), rule.aboveMach);
  const asked = `${upperFirst(rule.of)}: ${keyWords(rule.setting)} or more above ${above}`;
  const flown = `${powerWords(plan, rule.flownPower)} at the least until ${hoursMinutes(rule.untilS)}`;
  return rule.flownPower >= rule.leastPower - 1e-6
    ? `${asked}, held: ${flown}.`
    : `${asked}, NOT held: ${flown}.`;
}

/** "Cabin from 25 100 ft to 8 100 ft, at most 2 510 ft/min down (1:51), 3 500 ft/min allowed." */
function cabinSentence(gauges: Gauges, cabin: DescentCabin): string {
  const altitude = gauges('pressureAltitudeM');
  const rate = gauges('climbRateMS');
  const { fromM, toM, greatestRateMS, timeS, allowedRateMS } = cabin;
  const fastest = `${figures(rate, rate.fromSi(greatestRateMS), 'required', RATE_STEP)}\u00a0${rate.shortUnit}`;
  const text = `Cabin from ${shown(altitude, fromM)} to ${shown(altitude, toM)}, at most ${fastest} down (${hoursMinutes(timeS)})`;
  if (allowedRateMS === null) return `${text}; the deck states no greatest rate.`;
  const allowed = `${figures(rate, rate.fromSi(allowedRateMS), 'available', RATE_STEP)}\u00a0${rate.shortUnit}`;
  return greatestRateMS <= allowedRateMS
    ? `${text}, of ${allowed} allowed.`
    : `${text}, MORE than the ${allowed} allowed: come down more slowly or keep more power.`;
}

const RATE_STEP = 10;
