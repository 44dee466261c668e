/** What may have changed at some moment of a flight: each as a jump of the state, with how large it is wont to be. */
import { ORDER, STATE } from './model.ts';

export type CauseKey =
  | 'bothEngines'
  | 'drag'
  | 'leftEngine'
  | 'rightEngine'
  | 'leak'
  | 'gauge'
  | 'temperature'
  | 'headwind';

export interface Cause {
  readonly key: CauseKey;
  /** A jump of one unit in the state; an amplitude multiplies it. */
  readonly direction: Float64Array;
  /** Standard deviation of amplitudes before anything is read, in the unit of the state. */
  readonly spread: number;
  /** Probability that its amplitude is above 0; a leak only loses. */
  readonly positive: number;
  /** How often beside the others. */
  readonly share: number;
}

function cause(
  key: CauseKey,
  spread: number,
  states: readonly number[],
  share: number,
  positive: number,
): Cause {
  const direction = new Float64Array(ORDER);
  for (const state of states) direction[state] = 1;
  return { key, direction, spread, positive, share };
}

/** Engines and the skin seldom get better in flight. */
const wears = 0.9;

export const causes: readonly Cause[] = [
  cause('bothEngines', 0.04, [STATE.left, STATE.right], 0.125, wears),
  cause('drag', 0.04, [STATE.drag], 0.125, wears),
  cause('leftEngine', 0.06, [STATE.left], 0.125, wears),
  cause('rightEngine', 0.06, [STATE.right], 0.125, wears),
  cause('leak', 0.2, [STATE.leak], 0.125, 1),
  cause('gauge', 300, [STATE.gaugeBias], 0.125, 0.5),
  cause('temperature', 5, [STATE.temperature], 0.125, 0.5),
  cause('headwind', 12, [STATE.headwind], 0.125, 0.5),
];

/** Slopes hold for small changes: of a large one of the air, this share of the fuel flow is left to the engines [1]. */
export const slopeError = 0.006;

/** Causes that readings of fuel and flow tell apart only while the power is held and the aircraft accelerates. */
export const groupOf = (key: CauseKey): CauseKey => (key === 'drag' ? 'bothEngines' : key);
