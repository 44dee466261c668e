/** What motion free of any track integrates first: distance over the ground, mass, latitude, longitude, heading. */
import type { Flight } from './flight.ts';
import type { Tolerance } from './setup.ts';
import type { FlightState } from './state.ts';

/** Of a distance on the ground as an angle at the centre of the Earth. */
const radiusM = 6_371_000;

export function freeTolerance({ distanceM, massKg, angleRad }: Tolerance): number[] {
  return [distanceM, massKg, distanceM / radiusM, distanceM / radiusM, angleRad];
}

export function loadFree(state: Readonly<FlightState>, y: Float64Array): void {
  y[0] = state.distanceM;
  y[1] = state.massKg;
  y[2] = state.latitudeRad;
  y[3] = state.longitudeRad;
  y[4] = state.headingRad;
}

export function storeFree(y: Float64Array, state: FlightState): void {
  state.distanceM = y[0];
  state.massKg = y[1];
  state.latitudeRad = y[2];
  state.longitudeRad = y[3];
  state.headingRad = y[4];
}

/** Their rates, of what the flight holds. */
export function readFree({ frame, forces, headingRateRadS }: Flight, rates: Float64Array): void {
  rates[0] = frame.distanceRate;
  rates[1] = -forces.fuelFlowKgS - forces.leakKgS;
  rates[2] = frame.latitudeRate();
  rates[3] = frame.longitudeRate();
  rates[4] = headingRateRadS;
}
