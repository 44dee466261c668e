/** What the estimate comes to as another day, aircraft and fuel, so that it can be flown. */
import { warmerDay } from '../air/warmer-day.ts';
import type { Variation } from '../flight/setup.ts';
import type { PlanRequest } from '../plan/draft.ts';
import type { Mixture } from './mixture.ts';
import { ORDER, STATE } from './model.ts';

/** Differences from the plan, from the moment of the answer on. */
export interface Deviation {
  /** On board [kg]. */
  readonly fuelKg: number;
  /** Of the fuel flow of all engines for the same thrust [share]. */
  readonly flow: number;
  readonly drag: number;
  readonly temperatureK: number;
  /** Against the motion [m/s]. */
  readonly headwindMS: number;
  /** Behind the plan's place [m]. */
  readonly lagM: number;
  readonly leakKgS: number;
}

export function deviationOf(state: ArrayLike<number>): Deviation {
  return {
    fuelKg: state[STATE.fuel],
    flow: 0.5 * (state[STATE.left] + state[STATE.right]),
    drag: state[STATE.drag],
    temperatureK: state[STATE.temperature],
    headwindMS: state[STATE.headwind],
    lagM: state[STATE.lag],
    leakKgS: Math.max(0, state[STATE.leak]),
  };
}

/**
 * The state to expect where a sum of it, each times its place in `row`, is lower than its mean by so many standard deviations of it:
 * mean - by P row / sqrt(row P row), the mean given the sum in a normal distribution.
 */
export function stateWhere({ mean, covariance }: Mixture, row: ArrayLike<number>, by: number): Float64Array {
  const along = new Float64Array(ORDER);
  let variance = 0;
  for (let i = 0; i < ORDER; i++) {
    for (let j = 0; j < ORDER; j++) along[i] += covariance[i * ORDER + j] * row[j];
    variance += row[i] * along[i];
  }
  const scale = variance > 0 ? by / Math.sqrt(variance) : 0;
  return mean.map((value, i) => value - scale * along[i]);
}

/** Beyond this no day is made warmer or colder, see warmerDay [K]. */
const mostWarmerK = 30;

export interface Deviating {
  readonly request: Pick<PlanRequest, 'sortie' | 'aircraft' | 'day'>;
  readonly variation: Partial<Variation>;
  /** What is beyond data and was taken at its edge; null where nothing is. */
  readonly beyondData: string | null;
}

export function deviating(
  request: Pick<PlanRequest, 'sortie' | 'aircraft' | 'day'>,
  { flow, drag, temperatureK, headwindMS, leakKgS }: Deviation,
): Deviating {
  const warmerK = Math.max(-mostWarmerK, Math.min(mostWarmerK, temperatureK));
  return {
    request: { ...request, day: warmerDay(request.day, warmerK) },
    variation: { fuelFlowFactor: 1 + flow, dragFactor: 1 + drag, headwindMS, leakKgS },
    beyondData: warmerK === temperatureK ? null : `air ${Math.round(Math.abs(temperatureK))} K off the day's`,
  };
}
