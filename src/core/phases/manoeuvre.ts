import type { Flight } from '../flight/flight.ts';
import { Leg, type Way } from '../flight/leg.ts';
import type { FlightState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import { standardGravity } from '../quantities/constants.ts';
import type { PhaseEnd, Recorder, Stop, WatchedLimit } from './phase.ts';
import { fly } from './run.ts';

const UNKNOWNS = { altitude: true, speed: true, path: true };

interface Watch {
  readonly limits?: readonly WatchedLimit[];
  readonly recorder?: Recorder | undefined;
}

/** Pieces of vertical manoeuvres at a power: a load factor that runs or is kept, a straight path. */
export class Manoeuvre {
  private readonly flight: Flight;
  private readonly track: Track;
  private readonly power: number;
  private readonly lagS: number;
  private readonly watch: Watch;
  /** Angle of attack at the end of the last piece, where it lags; NaN before the first. */
  private angleRad = Number.NaN;

  constructor(flight: Flight, track: Track, power: number, angleOfAttackLagS: number, watch: Watch) {
    this.flight = flight;
    this.track = track;
    this.power = power;
    this.lagS = angleOfAttackLagS;
    this.watch = watch;
  }

  /** Forgets the angle of attack of the piece before: the next begins in balance. */
  begin(): void {
    this.angleRad = Number.NaN;
  }

  /** Lift over m g0 with which the path angle of the state stays. */
  trimmedLoadFactor(state: FlightState): number {
    const { flight } = this;
    flight.placeOnTrack(this.track, state.distanceM, state.pressureAltitudeM, state.timeS);
    flight.onStraightPath(state.trueAirspeedMS, state.massKg, this.power, state.pathAngleRad);
    return flight.forces.liftN / (state.massKg * standardGravity);
  }

  /** Load factor from `first`, changing at a rate for some seconds, unless a stop comes before. */
  ramp(state: FlightState, first: number, perS: number, seconds: number, stops: readonly Stop[]): PhaseEnd {
    return this.bend(state, (t) => first + perS * t, seconds, stops);
  }

  keep(state: FlightState, loadFactor: number, seconds: number, stops: readonly Stop[]): PhaseEnd {
    return this.bend(state, () => loadFactor, seconds, stops);
  }

  /** Path angle of the state kept. */
  straight(state: FlightState, stops: readonly Stop[]): PhaseEnd {
    const { flight, power } = this;
    const path = state.pathAngleRad;
    const leg = new Leg(flight, this.track, state, { altitude: true, speed: true }, 2, (at) => {
      flight.onStraightPath(at.speedMS, at.massKg, power, path);
    });
    const end = fly(flight, leg, state, { ...this.watch, stops });
    state.pathAngleRad = path;
    this.angleRad = flight.forces.angleRad;
    return end;
  }

  private bend(
    state: FlightState,
    loadFactor: (t: number) => number,
    seconds: number,
    stops: readonly Stop[],
  ): PhaseEnd {
    const { flight, power, lagS } = this;
    if (seconds === 0) return { reason: 'time', stop: -1, text: 'time reached' };
    const all: Stop[] = [...stops];
    if (seconds < Number.POSITIVE_INFINITY) all.push({ at: 'time', timeS: state.timeS + seconds });
    const way: Way =
      lagS > 0
        ? (at, t) => {
            flight.atLoadFactor(at.speedMS, at.massKg, power, at.pathRad, loadFactor(t));
            at.angleRateRadS = (flight.forces.angleRad - at.angleRad) / lagS;
            flight.atAngle(at.speedMS, at.massKg, power, at.pathRad, at.angleRad);
          }
        : (at, t) => flight.atLoadFactor(at.speedMS, at.massKg, power, at.pathRad, loadFactor(t));
    const leg = new Leg(flight, this.track, state, { ...UNKNOWNS, angle: lagS > 0 }, 1, way);
    if (lagS > 0) leg.angleRad = Number.isNaN(this.angleRad) ? this.trimmedAngle(state) : this.angleRad;
    const end = fly(flight, leg, state, { ...this.watch, stops: all });
    this.angleRad = leg.angleRad;
    return end;
  }

  private trimmedAngle(state: FlightState): number {
    this.trimmedLoadFactor(state);
    return this.flight.forces.angleRad;
  }
}
