/** Which deck a sortie's text names, and the point of flight under the cursor. */
import { bisectLeft } from 'd3-array';
import { parse } from 'yaml';
import type { CurvesAt } from '../../../core/aircraft/curves.ts';
import type { Plan } from '../../../core/plan/plan.ts';

/** Path of the deck as the text has it; null where it names none. */
export function deckOf(text: string): string | null {
  try {
    const deck = (parse(text) as { aircraft?: { deck?: unknown } } | null)?.aircraft?.deck;
    return typeof deck === 'string' && deck !== '' ? deck : null;
  } catch {
    return null;
  }
}

/** Altitude, temperature and fuel of the first node at or after a time; of the last one after it. */
export function atCursor(plan: Plan, timeS: number): Partial<CurvesAt> {
  const { timeS: times, pressureAltitudeM, temperatureOffsetK, fuelKg } = plan.trace.columns;
  const node = Math.min(bisectLeft(times, timeS), times.length - 1);
  return {
    pressureAltitudeM: pressureAltitudeM[node],
    temperatureOffsetK: temperatureOffsetK[node],
    fuelKg: fuelKg[node],
  };
}
