/** What a plan says, in sentences with numbers: flyable or not, the fuel in hand, the limit that is next. */
import type { AreaIncursion, Failure, LimitSummary, Plan } from '../core/plan/plan.ts';
import { quantities } from '../core/quantities/quantities.ts';
import { throughWords } from './areas.ts';
import { pumpSentences } from './balance.ts';
import { lowerFirst, phaseName } from './names.ts';
import { hoursMinutes } from './time.ts';
import { type Gauge, gaugesOf, type Margin, margin, NOT_COMPUTED, read, rounded, shown } from './units.ts';

/** Fuel on board and required where one has to be enough for the other. */
export interface InHand {
  readonly name: string;
  readonly timeS: number;
  readonly onBoardKg: number;
  /** null where it was not computed. */
  readonly requiredKg: number | null;
  readonly difference: Margin;
}

/** Fuel in hand at every contact, in order, and on landing. */
export function fuelInHand(plan: Plan): readonly InHand[] {
  const gauge = gaugesOf(plan)('fuelKg');
  const contacts = plan.refuellings.map((refuelling) => {
    const { fuelOnContactKg: onBoardKg, contactS } = refuelling;
    const requiredKg = requiredAtContact(plan, contactS);
    const difference = fuelDifference(gauge, onBoardKg, requiredKg);
    return { name: `contact with ${refuelling.tanker}`, timeS: contactS, onBoardKg, requiredKg, difference };
  });
  return [...contacts, atTheEnd(plan, gauge)];
}

/** The landing where the plan has one; what the approach burns after the last node counts on both sides. */
function atTheEnd(plan: Plan, gauge: Gauge): InHand {
  const { timeS, fuelKg, fuelRequiredKg } = plan.trace.columns;
  const last = timeS.length - 1;
  const landing = plan.events.findLast((event) => event.kind === 'landing');
  const required = fuelRequiredKg[last];
  const burntKg = landing === undefined ? 0 : fuelKg[last] - landing.fuelKg;
  const onBoardKg = fuelKg[last] - burntKg;
  const requiredKg = isNumber(required) ? required - burntKg : null;
  return {
    name: landing === undefined ? 'the end of the plan' : 'landing',
    timeS: landing?.timeS ?? timeS[last],
    onBoardKg,
    requiredKg,
    difference: fuelDifference(gauge, onBoardKg, requiredKg),
  };
}

/** What the worst case from a contact needs: of that leg's recoveries the greatest; null where one was not computed. */
function requiredAtContact(plan: Plan, contactS: number): number | null {
  const leg = plan.phases.find((p) => p.kind === 'contact' && Math.abs(p.startS - contactS) < 1)?.leg;
  const needs = plan.recoveries.filter((recovery) => recovery.leg === leg).map((r) => r.fuelRequiredKg);
  if (needs.length > 0) return needs.some((need) => !isNumber(need)) ? null : Math.max(...needs);
  const { timeS, fuelRequiredKg } = plan.trace.columns;
  const node = timeS.findIndex((t) => t >= contactS);
  return fuelRequiredKg[node === -1 ? timeS.length - 1 : node];
}

/** False for NaN, and for the null that it becomes in a file. */
function isNumber(value: number | null): boolean {
  return value !== null && Number.isFinite(value);
}

/** What the worst cases that the sortie names at its contacts, or at that of one leg, lead to, such as
 * "No contact with Ewer Two: Curlew Ridge, 127 nm, 0:19, needs 3 600 kg with its reserve; lands with 8 000 kg." */
export function recoverySentences(plan: Plan, leg?: number): readonly string[] {
  const gauges = gaugesOf(plan);
  return plan.recoveries
    .filter((recovery) => leg === undefined || recovery.leg === leg)
    .map(({ name, base, distanceM, fuelRequiredKg, fuelOnLandingKg, timeS }) => {
      const fuel = gauges('fuelKg');
      const needed = shown(fuel, fuelRequiredKg, 'required');
      const left = shown(fuel, fuelOnLandingKg, 'available');
      const way = `${shown(gauges('distanceM'), distanceM, 'required')}, ${hoursMinutes(timeS)}`;
      return `${name}: ${base}, ${way}, needs ${needed} with its reserve; lands with ${left}.`;
    });
}

/** What happens at each contact, such as "Ewer One, 0:16 to 0:26 at 24 000 ft, 320 KCAS = 308 KEAS = M 0.75: 28 750 kg taken ...". */
export function refuellingSentences(plan: Plan): readonly string[] {
  const gauges = gaugesOf(plan);
  const fuel = gauges('fuelKg');
  const cg = gauges('cgFraction');
  return plan.refuellings.map((at) => {
    const speeds = [
      shown(gauges('calibratedAirspeedMS'), at.calibratedAirspeedMS),
      shown(gauges('equivalentAirspeedMS'), at.equivalentAirspeedMS),
      shown(gauges('mach'), at.mach),
    ].join(' = ');
    const engines = at.enginesAtDisconnect.map(({ name, power }) => `${name} ${power.toFixed(2)}`).join(', ');
    const burner =
      at.afterburnerFromKg === null
        ? 'no afterburner needed'
        : `one engine in afterburner from ${shown(fuel, at.afterburnerFromKg, 'available')} taken`;
    return [
      `${at.tanker}, ${hoursMinutes(at.contactS)} to ${hoursMinutes(at.disconnectS)} at ${shown(gauges('pressureAltitudeM'), at.pressureAltitudeM)}, ${speeds}: ${shown(fuel, at.takenKg, 'required')} taken, ${shown(fuel, at.burntKg, 'required')} burnt meanwhile`,
      ...lessThanAsked(plan, at),
      burner,
      `power at disconnect ${engines} on the deck's ladder of settings`,
      `thrust left at least ${Math.floor(at.leastThrustMargin * 100)}\u00a0% of what is needed`,
      `centre of gravity ${read(cg, at.cgAtContact)} to ${shown(cg, at.cgAtDisconnect)}`,
      `${shown(fuel, at.offloadLeftKg, 'available')} of the offload left in the tanker.`,
    ].join('; ');
  });
}

const ENDS = {
  asked: '',
  full: 'the tanks are full',
  tanker: 'the tanker has no more',
  thrust: 'there the thrust margin ends',
} as const;

/** That a contact gives less than the sortie asks for, and why. */
export function lessThanAsked(plan: Plan, at: Plan['refuellings'][number]): readonly string[] {
  const { askedKg, takenKg, endedBy } = at;
  if (endedBy === 'asked') return [];
  if (askedKg === null) return endedBy === 'full' ? [] : [`full tanks asked for, but ${ENDS[endedBy]}`];
  if (askedKg - takenKg < 1) return [];
  return [`${shown(gaugesOf(plan)('fuelKg'), askedKg)} asked for, but ${ENDS[endedBy]}`];
}

/** The difference of the two as shown, so that the printed figures add up, unless rounding would take it across zero. */
export function fuelDifference(gauge: Gauge, onBoardKg: number | null, requiredKg: number | null): Margin {
  if (onBoardKg === null || requiredKg === null) return margin(gauge, null);
  const onBoard = rounded(gauge.fromSi(onBoardKg), gauge.step, 'available');
  const required = rounded(gauge.fromSi(requiredKg), gauge.step, 'required');
  const exact = onBoardKg - requiredKg;
  const printed = (onBoard - required) / gauge.differenceFromSi(1);
  return margin(gauge, printed > 0 === exact > 0 && printed !== 0 ? printed : exact);
}

/** The margin of a limit with its spread. */
export function limitMargin(plan: Plan, limit: LimitSummary): Margin {
  return margin(gaugesOf(plan)(limit.quantity), limit.leastMargin, limit.spread);
}

/** How much of a margin's spread is weather held beyond its data, such as "Inlet temperature: ± 12 K of its spread is weather
 * held beyond its data." */
export function heldWeatherSentences(plan: Plan, limits = plan.limits): readonly string[] {
  return limits
    .filter(({ weatherSpread }) => weatherSpread > 0)
    .map(({ name, quantity, weatherSpread }) => {
      const { step, differenceUnit, differenceFromSi } = gaugesOf(plan)(quantity);
      const spread = rounded(differenceFromSi(weatherSpread), step, 'required');
      return `${name}: ±\u00a0${spread}\u00a0${differenceUnit} of its spread is weather held beyond its data.`;
    });
}

/** The pad that the sortie keeps at a limit, such as "pad 10 K"; empty where it keeps none. */
export function padWords(plan: Plan, limit: LimitSummary): string {
  if (limit.pad === 0) return '';
  const gauge = gaugesOf(plan)(limit.quantity);
  return `pad ${margin(gauge, limit.pad).text}`;
}

/** First whether the sortie can be flown, then the fuel in hand, then the limit that is next. */
export function sentences(plan: Plan): readonly string[] {
  const verdict = plan.failure === null ? [] : failureSentences(plan, plan.failure);
  return [...(verdict.length === 0 ? [flyableSentence(plan)] : verdict), ...nextLimitSentence(plan)];
}

function flyableSentence(plan: Plan): string {
  const parts = fuelInHand(plan).map((at) => `${inHandWords(at)} at ${at.name} (${hoursMinutes(at.timeS)})`);
  return `${plan.flyable ? 'Flyable' : 'Not flyable'}: ${listed(parts)}.`;
}

/** "1 140 kg in hand", or "200 kg short". */
export function inHandWords(at: InHand): string {
  const { figure, text } = at.difference;
  if (figure === NOT_COMPUTED) return `fuel in hand ${NOT_COMPUTED}`;
  return text.startsWith('−') ? `${text.slice(1)} short` : `${text} in hand`;
}

function nextLimitSentence(plan: Plan): readonly string[] {
  const next = plan.limits.at(0);
  if (next === undefined) return [];
  const { text } = limitMargin(plan, next);
  const pad = padWords(plan, next);
  const words = next.leastMargin < 0 ? 'is passed' : 'is the next limit';
  const tail = pad === '' ? '' : `; ${pad} kept`;
  return [
    `${next.name} ${words}: ${text} at ${hoursMinutes(next.timeS)} in the ${lowerFirst(phaseName(plan, next.phase))}${tail}.`,
  ];
}

/** Why the sortie cannot be flown and what frees it. */
export function failureSentences(plan: Plan, failure: Failure): readonly string[] {
  const where = `at ${hoursMinutes(failure.timeS)} in the ${lowerFirst(phaseName(plan, failure.phase))}, ${place(failure)}`;
  // A flight that stopped says itself why; a limit that was passed has its name and its measure.
  const through = incursionOf(plan, failure);
  const why = through
    ? `the route: ${throughWords(plan, failure.name, through)}, ${where}`
    : failure.text === null
      ? `${lowerFirst(failure.name)} binds ${where}${excessWords(plan, failure)}`
      : `${failure.text}, ${where}`;
  const lines = [`Not flyable: ${why}.`, ...(failure.quantity === 'cgFraction' ? pumpSentences(plan) : [])];
  const freed = failure.freedBy;
  if (freed === null) return [...lines, 'No single change was found that frees it.'];
  const gauge = quantities.has(freed.quantity) ? gaugesOf(plan)(freed.quantity) : null;
  const value = (si: number) =>
    gauge === null ? String(si) : shown(gauge, si, freed.to < freed.from ? 'available' : 'required');
  const fuel = margin(gaugesOf(plan)('fuelKg'), freed.fuelInHandKg).text;
  const change = freed.place
    ? `${freed.name} at ${place(freed.place)}, ${value(freed.to)} from where it is`
    : `${freed.name}, ${value(freed.to)} instead of ${value(freed.from)}${freed.also.length > 0 ? ' wherever it stands' : ''}`;
  const { marginAfter } = freed;
  const hasMeasure =
    marginAfter !== null && failure.quantity !== 'fuelKg' && quantities.has(failure.quantity);
  const left = hasMeasure
    ? `${margin(gaugesOf(plan)(failure.quantity), marginAfter).text} ${through ? `clear of ${failure.name}` : 'left at that limit'} and `
    : '';
  lines.push(`Freed by one change: ${change}. Then ${left}${fuel} of fuel in hand.`);
  return lines;
}

/** The way through an area that a failure is about; null where it is about something else. */
function incursionOf({ areas }: Plan, { limit, name, timeS }: Failure): AreaIncursion | null {
  if (limit !== 'area') return null;
  const incursions = areas.find((area) => area.name === name)?.incursions ?? [];
  return incursions.find(({ entry }) => Math.abs(entry.timeS - timeS) < 1) ?? null;
}

function excessWords(plan: Plan, failure: Failure): string {
  if (failure.excess === null || !quantities.has(failure.quantity)) return '';
  const gauge = gaugesOf(plan)(failure.quantity);
  const beyond = margin(gauge, -failure.excess).text.replace('−', '');
  if (failure.pad <= 0) return `, by ${beyond}`;
  const pad = margin(gauge, failure.pad).text;
  return failure.excess > failure.pad
    ? `, by ${beyond}, of which ${pad} is the pad`
    : `, ${beyond} into its pad of ${pad}`;
}

/** "47.21N 81.05W". */
function place(at: { readonly latitudeDeg: number; readonly longitudeDeg: number }): string {
  const latitude = `${Math.abs(at.latitudeDeg).toFixed(2)}${at.latitudeDeg < 0 ? 'S' : 'N'}`;
  return `${latitude} ${Math.abs(at.longitudeDeg).toFixed(2)}${at.longitudeDeg < 0 ? 'W' : 'E'}`;
}

function listed(parts: readonly string[]): string {
  if (parts.length < 2) return parts.join('');
  return `${parts.slice(0, -1).join(', ')} and ${parts[parts.length - 1]}`;
}
