import type { Flight } from '../flight/flight.ts';
import { Leg } from '../flight/leg.ts';
import type { SpeedLaw } from '../flight/speed-law.ts';
import type { FlightState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import { type PhaseEnd, type PhaseOptions, type Power, powerOf, type Stop } from './phase.ts';
import { fly } from './run.ts';

/** Slower changes of height count as none [m/s]: an altitude still ahead is then out of reach. */
const LEAST_RATE = 0.05;

export interface ClimbOptions extends PhaseOptions {
  readonly law: SpeedLaw;
  readonly power: Power;
  /**
   * 'quasi' (default): path angle in balance at each instant, its change neglected: steps of a minute. 'exact': path angle is
   * a state and the law is held by angle of attack, which settles within seconds: short steps. At Mach 2 and above
   * both agree to 0.1 % of fuel; a steep subsonic climb differs by some per cent.
   */
  readonly pathAngle?: 'quasi' | 'exact';
}

/**
 * Climbs, descends or glides on a speed law at a power; true airspeed jumps to the law's at the start. Ends 'thrust' where
 * an altitude that is a stop can no longer be reached.
 */
export function climb(flight: Flight, state: FlightState, track: Track, options: ClimbOptions): PhaseEnd {
  const { law } = options;
  const power = powerOf(flight.setup.aircraft.propulsion, options.power);
  const wanted = wantedWay(state, options.stops);
  const watch = () => {
    if (wanted !== 0 && flight.frame.altitudeRate * wanted < LEAST_RATE) flight.short = true;
  };
  if (options.pathAngle === 'exact') {
    flight.placeOnTrack(track, state.distanceM, state.pressureAltitudeM, state.timeS);
    flight.climbInBalance(law, state.massKg, power);
    state.pathAngleRad = Math.asin(flight.frame.sinPath);
    const leg = new Leg(flight, track, state, { altitude: true, path: true }, 1, (at) => {
      flight.climbOnPath(law, at.massKg, power, at.pathRad);
      watch();
    });
    return fly(flight, leg, state, options);
  }
  const leg = new Leg(flight, track, state, { altitude: true }, 40, (at) => {
    flight.climbInBalance(law, at.massKg, power);
    watch();
  });
  return fly(flight, leg, state, options);
}

/** 1 where all altitudes that are stops are higher, -1 where all are lower, else 0. */
function wantedWay(state: FlightState, stops: readonly Stop[]): number {
  let up = false;
  let down = false;
  for (const stop of stops) {
    if (stop.at !== 'altitude') continue;
    if (stop.pressureAltitudeM > state.pressureAltitudeM) up = true;
    else down = true;
  }
  return up === down ? 0 : up ? 1 : -1;
}
