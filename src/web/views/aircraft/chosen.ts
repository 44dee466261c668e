/** Which deck a sortie's text names, and the point of flight under the cursor. */
import { bisectRight } from 'd3-array';
import type { CurvesAt } from '../../../core/aircraft/curves.ts';
import type { Plan } from '../../../core/plan/plan.ts';

/** Path of the deck as a sortie's data have it; null where they name none. */
export function deckOf(data: unknown): string | null {
  const deck = (data as { aircraft?: { deck?: unknown } | null } | null)?.aircraft?.deck;
  return typeof deck === 'string' && deck !== '' ? deck : null;
}

/** Altitude, temperature and fuel at a time, linear between the nodes of the trace; before the first and after the last, theirs. */
export function atCursor(plan: Plan, timeS: number): Omit<CurvesAt, 'power'> {
  const { timeS: times, pressureAltitudeM, temperatureOffsetK, fuelKg } = plan.trace.columns;
  const after = Math.min(Math.max(bisectRight(times, timeS), 1), times.length - 1);
  const step = times[after] - times[after - 1];
  const part = step > 0 ? Math.min(Math.max((timeS - times[after - 1]) / step, 0), 1) : 1;
  const of = (column: readonly number[]) => column[after - 1] + part * (column[after] - column[after - 1]);
  return {
    pressureAltitudeM: of(pressureAltitudeM),
    temperatureOffsetK: of(temperatureOffsetK),
    fuelKg: of(fuelKg),
  };
}
