/** What stands at the foot of everything shown: which plan, how long it holds, whose weather, and the caution. */
import type { Plan, WeatherGap } from '../core/plan/plan.ts';
import { clock, dateAndClock } from './time.ts';
import { figures, gaugesOf, shown } from './units.ts';

/** "Take-off 2026-02-23 16:00Z to 16:40Z", the date of the end only where it is another day. */
export function validityLine(plan: Plan): string {
  const from = dateAndClock(plan.validity.from);
  const to = dateAndClock(plan.validity.to);
  return `Valid for take-off ${from} to ${from.slice(0, 10) === to.slice(0, 10) ? clock(plan.validity.to) : to}`;
}

/** The rules by which a sortie continues its weather, in words; those for its edges are told with how far they were used. */
const RULES: Readonly<Record<string, string>> = {
  'place: everywhere': 'one place stands for all',
  'time: hold': 'held in time',
};
const EDGES: Readonly<Record<string, WeatherGap['side']>> = {
  'top: holdOffset': 'above',
  'bottom: holdOffset': 'below',
};

/** "offset held above 30 hPa for 8 600 ft: ± 6 K", or that the flight did not go there. */
function gapWords(plan: Plan, { side, edgePa, flownBeyondM, spreadK }: WeatherGap): string {
  const edge = `offset held ${side} ${Number((edgePa / 100).toPrecision(3))}\u00a0hPa`;
  if (flownBeyondM <= 0) return `${edge}, not flown`;
  const [altitude, offset] = ['pressureAltitudeM', 'temperatureOffsetK'].map(gaugesOf(plan));
  const spread =
    spreadK === null
      ? 'how far it may be off is not known'
      : `±\u00a0${figures(offset, offset.differenceFromSi(spreadK), 'required')}\u00a0${offset.differenceUnit}`;
  return `${edge} for ${shown(altitude, flownBeyondM, 'required')}: ${spread}`;
}

function ruleWords(plan: Plan, rule: string): string {
  const gap = plan.weather.gaps.find(({ side }) => side === EDGES[rule]);
  return gap === undefined ? (RULES[rule] ?? rule) : gapWords(plan, gap);
}

/** The weather, its run and what it stands for. */
export function weatherLine(plan: Plan): string {
  const { title, run, standsFor, continuedBy } = plan.weather;
  const parts = [`Weather: ${title}`];
  if (run !== null && !title.includes(run)) parts.push(`run ${dateAndClock(run)}`);
  const told = continuedBy.filter((rule) => !(rule === 'time: hold' && title.endsWith('held')));
  parts.push(...told.map((rule) => ruleWords(plan, rule)));
  if (standsFor !== null) parts.push(/stands for/.test(standsFor) ? standsFor : `stands for ${standsFor}`);
  return `${parts.join('; ')}.`;
}

/** Whose magnetic north the courses count from; nothing where the plan has none. */
export function magneticLine({ magnetic }: Plan): string {
  return magnetic === null ? '' : `Magnetic courses by ${magnetic.edition} at take-off.`;
}

export function identityLine(plan: Plan): string {
  const { name, edition, tail } = plan.aircraft;
  const invented = plan.invented ? ' Places, aircraft and sortie are invented.' : '';
  return `${plan.title}. ${name} ${tail}, deck ${edition}.${invented}`;
}

/** All of it, in the order of a foot; the caution stands last and whole. */
export function footLines(plan: Plan): readonly string[] {
  return [
    `${plan.fingerprint} · ${validityLine(plan)}. ${identityLine(plan)}`,
    weatherLine(plan),
    ...plan.weather.attribution,
    plan.caution,
  ];
}
