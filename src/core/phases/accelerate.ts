import type { Flight } from '../flight/flight.ts';
import { Leg } from '../flight/leg.ts';
import { calibratedOf } from '../flight/speed-law.ts';
import type { FlightState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import { seaLevelDensity } from '../quantities/constants.ts';
import { type PhaseEnd, type PhaseOptions, type Power, powerOf, type Stop } from './phase.ts';
import { fly } from './run.ts';

/** Slower changes of speed count as none [m/s2]: a speed still ahead is then out of reach. */
const LEAST_ACCELERATION = 1e-3;

export interface AccelerateOptions extends PhaseOptions {
  /** A power, or the change of true airspeed to be kept [m/s2] with thrust as required (never less than idle). */
  readonly power: Power | { readonly accelerationMS2: number };
}

/**
 * Level at the state's pressure altitude; speeds up or slows down as power and drag have it. Ends 'thrust' where a speed
 * that is a stop can no longer be reached.
 */
export function accelerate(
  flight: Flight,
  state: FlightState,
  track: Track,
  options: AccelerateOptions,
): PhaseEnd {
  const { power } = options;
  const wanted = wantedChange(flight, state, track, options.stops);
  const hopeless = () => wanted !== 0 && flight.accelerationMS2 * wanted < LEAST_ACCELERATION;
  if (typeof power === 'object') {
    const leg = new Leg(flight, track, state, { speed: true }, 30, (at) => {
      flight.levelAtAcceleration(at.speedMS, at.massKg, power.accelerationMS2);
      if (hopeless()) flight.short = true;
    });
    return fly(flight, leg, state, options);
  }
  const setting = powerOf(flight.setup.aircraft.propulsion, power);
  const leg = new Leg(flight, track, state, { speed: true }, 20, (at) => {
    flight.levelAtPower(at.speedMS, at.massKg, setting);
    if (hopeless()) flight.short = true;
  });
  return fly(flight, leg, state, options);
}

/** 1 where all speeds that are stops are higher, -1 where all are lower, else 0. */
function wantedChange(flight: Flight, state: FlightState, track: Track, stops: readonly Stop[]): number {
  const { frame } = flight;
  flight.placeOnTrack(track, state.distanceM, state.pressureAltitudeM, state.timeS);
  const { air } = frame;
  const speed = state.trueAirspeedMS;
  let wanted = Number.NaN;
  for (const stop of stops) {
    let gap = 0;
    if (stop.at === 'mach') gap = stop.mach - speed / air.speedOfSoundMS;
    else if (stop.at === 'trueAirspeed') gap = stop.speedMS - speed;
    else if (stop.at === 'equivalentAirspeed') {
      gap = stop.speedMS - speed * Math.sqrt(air.densityKgM3 / seaLevelDensity);
    } else if (stop.at === 'calibratedAirspeed') gap = stop.speedMS - calibratedOf(air, speed);
    else continue;
    wanted = Number.isNaN(wanted) || wanted === Math.sign(gap) ? Math.sign(gap) : 0;
  }
  return Number.isNaN(wanted) ? 0 : wanted;
}
