/** What stands at the foot of everything shown: which plan, how long it holds, whose weather, and the caution. */
import type { Plan } from '../core/plan/plan.ts';
import { clock, dateAndClock } from './time.ts';

/** "Take-off 2026-02-23 16:00Z to 16:40Z", the date of the end only where it is another day. */
export function validityLine(plan: Plan): string {
  const from = dateAndClock(plan.validity.from);
  const to = dateAndClock(plan.validity.to);
  return `Valid for take-off ${from} to ${from.slice(0, 10) === to.slice(0, 10) ? clock(plan.validity.to) : to}`;
}

/** The rules by which a sortie continues its weather, in words. */
const RULES: Readonly<Record<string, string>> = {
  'place: everywhere': 'one place stands for all',
  'time: hold': 'held in time',
  'top: holdOffset': 'offset held above its top level',
  'bottom: holdOffset': 'offset held below its lowest level',
};

/** The weather, its run and what it stands for. */
export function weatherLine(plan: Plan): string {
  const { title, run, standsFor, continuedBy } = plan.weather;
  const parts = [`Weather: ${title}`];
  if (run !== null && !title.includes(run)) parts.push(`run ${dateAndClock(run)}`);
  const told = continuedBy.filter((rule) => !(rule === 'time: hold' && title.endsWith('held')));
  parts.push(...told.map((rule) => RULES[rule] ?? rule));
  if (standsFor !== null) parts.push(/stands for/.test(standsFor) ? standsFor : `stands for ${standsFor}`);
  return `${parts.join('; ')}.`;
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
