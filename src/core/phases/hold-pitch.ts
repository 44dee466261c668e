import type { Flight } from '../flight/flight.ts';
import { Leg } from '../flight/leg.ts';
import type { FlightState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import { type PhaseEnd, type PhaseOptions, type Power, powerOf } from './phase.ts';
import { fly } from './run.ts';

const FIRST_STEP_S = 20;

export interface HoldPitchOptions extends PhaseOptions {
  /** Path angle and angle of attack together. */
  readonly pitchRad: number;
  readonly power: Power;
}

/**
 * Holds a pitch attitude at a power: the path angle in balance at each instant (its change neglected, which settles within seconds),
 * speed and height follow.
 */
export function holdPitch(
  flight: Flight,
  state: FlightState,
  track: Track,
  options: HoldPitchOptions,
): PhaseEnd {
  const { pitchRad } = options;
  const power = powerOf(flight.setup.aircraft.propulsion, options.power);
  const leg = new Leg(flight, track, state, { altitude: true, speed: true }, FIRST_STEP_S, (at) => {
    flight.atPitch(at.speedMS, at.massKg, power, pitchRad);
  });
  return fly(flight, leg, state, options);
}
