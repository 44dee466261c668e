/**
 * The same acceleration on every heading: through a wind that changes with height a climb along 033 and one along 213 differ by
 * twice what the change of wind is worth, dE = -V dW / g for each.
 */
import { direct, Line, newLinePoint, type Place } from '../earth/line.ts';
import type { Moment } from '../flight/moment.ts';
import { copyState, type FlightState, newState } from '../flight/state.ts';
import type { PhaseEnd, Recorder } from '../phases/phase.ts';
import { standardGravity } from '../quantities/constants.ts';

/** One heading, flown straight ahead from the start. */
export interface HeadingFlown {
  /** Of the track over the ellipsoid at the start. */
  readonly courseRad: number;
  /** NaN where it was refused, as the other numbers are. */
  readonly fuelKg: number;
  readonly timeS: number;
  readonly distanceM: number;
  /** Energy height that the wind gave by changing on the way; negative where it took some. */
  readonly windEnergyM: number;
  readonly end: Place | null;
  /** What refused it; null where it was flown. */
  readonly refused: Pick<PhaseEnd, 'reason' | 'text'> | null;
}

/** Flies a state along a track as far as it is to be compared; what refused it, or null. */
export type Acceleration = (
  state: FlightState,
  track: Line,
  wind: WindEnergy,
) => Pick<PhaseEnd, 'reason' | 'text'> | null;

/** Every acceleration has ended within this. */
const TRACK_M = 1_200_000;
/** The change of the wind is summed over moments no further apart. */
const EVERY_S = 5;

/** Flies an acceleration from one state and place along one course. */
export function accelerateOn(
  from: Readonly<FlightState>,
  place: Place,
  courseRad: number,
  fly: Acceleration,
): HeadingFlown {
  const track = new Line(place, direct(place, courseRad, TRACK_M));
  const state = newState();
  copyState(from, state);
  state.distanceM = 0;
  const wind = new WindEnergy();
  const refused = fly(state, track, wind);
  if (refused !== null) {
    const none = Number.NaN;
    return { courseRad, fuelKg: none, timeS: none, distanceM: none, windEnergyM: none, end: null, refused };
  }
  const end = newLinePoint();
  track.at(state.distanceM, end);
  return {
    courseRad,
    fuelKg: from.massKg - state.massKg,
    timeS: state.timeS - from.timeS,
    distanceM: state.distanceM,
    windEnergyM: wind.energyM,
    end: { latitudeRad: end.latitudeRad, longitudeRad: end.longitudeRad },
    refused,
  };
}

/** Sums -V cos(gamma) dW / g over the moments of a flight, W along its course. */
export class WindEnergy implements Recorder {
  readonly everyS = EVERY_S;
  energyM = 0;
  private levelMS = Number.NaN;
  private tailwindMS = Number.NaN;

  moment({ trueAirspeedMS, pathAngleRad, tailwindMS }: Moment): void {
    this.add(trueAirspeedMS * Math.cos(pathAngleRad), tailwindMS);
  }

  /** The next moment: horizontal speed through the air, and the wind along the course. */
  add(levelMS: number, tailwindMS: number): void {
    if (!Number.isNaN(this.levelMS)) {
      const mean = 0.5 * (this.levelMS + levelMS);
      this.energyM -= (mean * (tailwindMS - this.tailwindMS)) / standardGravity;
    }
    this.levelMS = levelMS;
    this.tailwindMS = tailwindMS;
  }
}
