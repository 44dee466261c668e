/**
 * The state of one aircraft in flight.
 *
 * Conventions: SI, radians; time in seconds since 1970-01-01T00:00Z; altitude is pressure altitude; speed and path angle
 * are those of the motion through the air; heading is the direction of that motion, clockwise from true north; bank is
 * positive right wing down.
 */

/** Mutated in place by every phase. On a leg the place and heading follow from the distance along the track and the wind. */
export interface FlightState {
  timeS: number;
  /** Along the present track, over the ellipsoid, from the track's start. */
  distanceM: number;
  pressureAltitudeM: number;
  trueAirspeedMS: number;
  pathAngleRad: number;
  massKg: number;
  latitudeRad: number;
  longitudeRad: number;
  headingRad: number;
  bankRad: number;
}

export function newState(): FlightState {
  return {
    timeS: 0.5,
    distanceM: 0.5,
    pressureAltitudeM: 0.5,
    trueAirspeedMS: 0.5,
    pathAngleRad: 0.5,
    massKg: 0.5,
    latitudeRad: 0.5,
    longitudeRad: 0.5,
    headingRad: 0.5,
    bankRad: 0.5,
  };
}

export function copyState(from: Readonly<FlightState>, to: FlightState): void {
  to.timeS = from.timeS;
  to.distanceM = from.distanceM;
  to.pressureAltitudeM = from.pressureAltitudeM;
  to.trueAirspeedMS = from.trueAirspeedMS;
  to.pathAngleRad = from.pathAngleRad;
  to.massKg = from.massKg;
  to.latitudeRad = from.latitudeRad;
  to.longitudeRad = from.longitudeRad;
  to.headingRad = from.headingRad;
  to.bankRad = from.bankRad;
}
