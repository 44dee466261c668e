import type { Flight } from '../flight/flight.ts';
import { Leg } from '../flight/leg.ts';
import { constantLiftCoefficient, constantMach, type SpeedLaw } from '../flight/speed-law.ts';
import type { FlightState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import { minimise } from '../numerics/optimum.ts';
import { standardGravity } from '../quantities/constants.ts';
import type { PhaseEnd, Recorder, WatchedLimit } from './phase.ts';
import { fly } from './run.ts';

/** Mach numbers among which the speed of best endurance is looked for. */
const SLOWEST = 0.3;
const FASTEST = 0.95;

export interface HoldOptions {
  readonly timeS: number;
  /** 'endurance': the speed of least fuel flow at the start, then the lift coefficient of it. */
  readonly speed: SpeedLaw | 'endurance';
  readonly limits?: readonly WatchedLimit[];
  readonly recorder?: Recorder | undefined;
}

/**
 * Goes round near a place, level, for a time: fuel and time pass, place and distance do not; the circling bank is neglected.
 * Ends 'thrust' where no speed can be held.
 */
export function hold(flight: Flight, state: FlightState, track: Track, options: HoldOptions): PhaseEnd {
  const law = options.speed === 'endurance' ? enduranceLaw(flight, state, track) : options.speed;
  if (law === null)
    return { reason: 'thrust', stop: -1, text: 'no speed can be held at this altitude and mass' };
  const leg = new Leg(flight, track, state, {}, 60, (at) => {
    flight.levelOnLaw(law, at.massKg);
    flight.frame.distanceRate = 0;
  });
  return fly(flight, leg, state, { ...options, stops: [{ at: 'time', timeS: state.timeS + options.timeS }] });
}

function enduranceLaw(flight: Flight, state: FlightState, track: Track): SpeedLaw | null {
  const mach = enduranceMach(flight, state, track);
  if (Number.isNaN(mach)) return null;
  const { air } = flight.frame;
  const speed = mach * air.speedOfSoundMS;
  const pressure = 0.5 * air.densityKgM3 * speed * speed;
  const area = flight.setup.aircraft.aerodynamics.wingAreaM2;
  return constantLiftCoefficient((state.massKg * standardGravity) / (pressure * area), area);
}

/** Mach of least fuel flow in level flight at the state; NaN where none of them can be flown below the warning angle. */
function enduranceMach(flight: Flight, state: FlightState, track: Track): number {
  const { forces, setup } = flight;
  const flow = (mach: number): number => {
    flight.placeOnTrack(track, state.distanceM, state.pressureAltitudeM, state.timeS);
    flight.levelOnLaw(constantMach(mach), state.massKg);
    const warning = setup.aircraft.aerodynamics.warningAngleRad(mach);
    const stalled = warning !== null && forces.angleRad > warning;
    return flight.short || forces.outside !== 0 || stalled ? Number.POSITIVE_INFINITY : forces.fuelFlowKgS;
  };
  const slowest = firstFinite(flow);
  if (Number.isNaN(slowest)) return Number.NaN;
  return minimise(flow, slowest, FASTEST, 1e-3).x;
}

function firstFinite(f: (mach: number) => number): number {
  for (let mach = SLOWEST; mach <= FASTEST; mach += 0.025) if (Number.isFinite(f(mach))) return mach;
  return Number.NaN;
}
