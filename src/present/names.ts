/** Names of a plan as they are shown: speeds in them on the aircraft's gauges, keys as words. */
import type { Plan, PlanEvent } from '../core/plan/plan.ts';
import { type Gauges, gaugesOf, shown } from './units.ts';

const SPEED_KEYS: Readonly<Record<string, string>> = {
  CAS: 'calibratedAirspeedMS',
  EAS: 'equivalentAirspeedMS',
  TAS: 'trueAirspeedMS',
};

/** The name of a phase or a step; a speed such as "EAS 221.2 m/s" becomes "430 KEAS", also the fall of an EAS per Mach. */
export function phaseName(plan: Plan, name: string): string {
  return phaseNameOn(gaugesOf(plan), name);
}

export function phaseNameOn(gauges: Gauges, name: string): string {
  return name
    .replace(/\b(CAS|EAS|TAS) (\d+(?:\.\d+)?) m\/s/g, (_, kind: string, speed: string) =>
      shown(gauges(SPEED_KEYS[kind]), Number(speed)),
    )
    .replace(/\b(\d+(?:\.\d+)?) m\/s(?= per Mach)/g, (_, speed: string) =>
      shown(gauges('equivalentAirspeedMS'), Number(speed)),
    )
    .replace(/\bMach (?=\d)/g, 'M\u00a0');
}

/** The name of an event: a limit by its name, a contact and its end with their tanker, the rest as they are. */
export function eventName(plan: Plan, { kind, name }: Pick<PlanEvent, 'kind' | 'name'>): string {
  if (kind === 'limit') return lowerFirst(limitName(plan, name));
  if (kind === 'contact') return `contact with ${name}`;
  if (kind === 'disconnect') return `disconnect from ${name}`;
  return phaseName(plan, name);
}

/** A key such as "maximumAfterburner" as words; words stay as they are. */
export function keyWords(key: string): string {
  return key.replace(/[A-Z](?=[a-z])/g, (letter, at: number) =>
    at === 0 ? letter : ` ${letter.toLowerCase()}`,
  );
}

/** The name of the limit with a key, or the key as words where it names no limit ("thrust"). */
export function limitName(plan: Plan, key: string): string {
  return plan.limits.find((limit) => limit.key === key)?.name ?? keyWords(key);
}

/** Words inside a sentence: the first letter small, unless it begins an abbreviation or the name of Mach. */
export function lowerFirst(text: string): string {
  return /^(?!Mach\b)[A-Z][a-z]/.test(text) ? text[0].toLowerCase() + text.slice(1) : text;
}

export function upperFirst(text: string): string {
  return text === '' ? text : text[0].toUpperCase() + text.slice(1);
}

/** A power on the deck's ladder of settings: "military", or "69 % from part to military". */
export function powerWords(plan: Plan, power: number): string {
  const { settings } = plan.aircraft;
  const lower = Math.min(Math.floor(power + 1e-6), settings.length - 1);
  const percent = Math.round((power - lower) * 100);
  const name = keyWords(settings[lower]);
  if (percent <= 0 || lower === settings.length - 1) return name;
  return `${percent}\u00a0% from ${name} to ${keyWords(settings[lower + 1])}`;
}
