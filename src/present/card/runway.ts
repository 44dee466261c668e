/** What the cards of take-off and landing share: figures against a limit, and the runway of the day in words. */
import type { LandingData, Plan, RunwayToday, TakeOffData } from '../../core/plan/plan.ts';
import { courseWords } from '../course.ts';
import { fuelDifference as left } from '../sentences.ts';
import { clock } from '../time.ts';
import { figures, type Gauge, gaugesOf, margin, NOT_COMPUTED, read, type Side, shown } from '../units.ts';
import { BLANK, type Cell, cell, words } from './card.ts';

/** Heads of the table: what, the figure of today, what is left to its limit. */
export const RUNWAY_COLUMNS = [
  { name: 'What', unit: '', holds: 'words' },
  { name: 'Today', unit: 'limit below', holds: 'figures' },
  { name: 'Left', unit: 'to the limit', holds: 'figures' },
] as const;

export function speed(
  plan: Plan,
  at: { readonly calibratedAirspeedMS: number },
  side: Side = 'nearest',
): string {
  return shown(gaugesOf(plan)('calibratedAirspeedMS'), at.calibratedAirspeedMS, side);
}

/** A sentence where the runway is too short for something. */
export function shortRunway(
  plan: Plan,
  runway: RunwayToday | null,
  what: string,
  neededM: number | null,
): readonly string[] {
  if (runway === null || neededM === null || neededM <= runway.lengthM) return [];
  const short = shown(gaugesOf(plan)('lengthM'), neededM - runway.lengthM, 'required');
  return [`The runway is ${short} shorter than ${what}.`];
}

export function figureCell(gauge: Gauge, si: number | null, side: Side, below = ''): Cell {
  return cell(read(gauge, si, side), below, gauge.shortUnit);
}

/** A figure with its limit below it, and what is left; `open` says why there is no limit, `none` why there is no figure. */
export function limited(
  gauge: Gauge,
  value: number | null,
  limit: number | null,
  open: string,
  none: string = NOT_COMPUTED,
): readonly Cell[] {
  if (value === null) return [words(none), limit === null ? words(open) : BLANK];
  if (limit === null) return [figureCell(gauge, value, 'required'), words(open)];
  return [
    figureCell(gauge, value, 'required', `of ${read(gauge, limit, 'available')}`),
    leftCell(gauge, limit, value),
  ];
}

export function leftCell(gauge: Gauge, limit: number, value: number): Cell {
  return cell(left(gauge, limit, value).figure, '', gauge.differenceUnit);
}

/** A distance against the length of the runway; one of null has no end, unless it was not computed. */
export function distanceCells(
  plan: Plan,
  runway: RunwayToday | null,
  neededM: number | null,
  computed = true,
): readonly Cell[] {
  const none = computed ? 'no end' : NOT_COMPUTED;
  return limited(gaugesOf(plan)('lengthM'), neededM, runway?.lengthM ?? null, 'no runway stated', none);
}

/** Mass, air, runway and wind. */
export function conditionWords(plan: Plan, data: TakeOffData | LandingData): string {
  const gauges = gaugesOf(plan);
  const offset = margin(gauges('temperatureOffsetK'), data.temperatureOffsetK).text;
  const air = `${shown(gauges('massKg'), data.massKg, 'required')} at ${shown(gauges('pressureAltitudeM'), data.pressureAltitudeM, 'required')}, ${shown(gauges('temperatureK'), data.temperatureK)}, ISA ${offset.startsWith('−') ? '' : '+'}${offset} at ${clock(plan.takeOff, 'timeS' in data ? data.timeS : 0)}.`;
  const { runway } = data;
  return `${air} ${runway === null ? 'No runway is stated: level, dry, no wind.' : runwayWords(plan, runway)}`;
}

/** The runway, and the wind along and across it with the part that counts. */
function runwayWords(plan: Plan, runway: RunwayToday): string {
  const gauges = gaugesOf(plan);
  const wind = gauges('windSpeedMS');
  const size = (ms: number) => shown(wind, Math.abs(ms));
  const along = `${size(runway.headwindMS)} ${runway.headwindMS >= 0 ? 'head' : 'tail'}wind`;
  const across = `${size(runway.crosswindMS)} from the ${runway.crosswindMS >= 0 ? 'left' : 'right'}`;
  const slope = gauges('fraction');
  const steep = figures(slope, slope.fromSi(Math.abs(runway.slopeFraction)));
  const upDown =
    runway.slopeFraction === 0 ? 'level' : `${steep}\u00a0% ${runway.slopeFraction > 0 ? 'up' : 'down'}`;
  return `Runway ${runway.name}, ${courseWords(runway)}, ${shown(gauges('lengthM'), runway.lengthM, 'available')}, ${upDown}, ${runway.condition}. Wind ${runway.windStated ? 'as stated' : 'of the weather'}: ${along}, ${across}; counted: half of a headwind, one and a half of a tailwind.`;
}
