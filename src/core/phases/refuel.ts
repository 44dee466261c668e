import type { Flight, Sharing } from '../flight/flight.ts';
import { Leg } from '../flight/leg.ts';
import { constantCalibratedAirspeed } from '../flight/speed-law.ts';
import type { FlightState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import type { PhaseEnd, PhaseOptions, Stop } from './phase.ts';
import { fly } from './run.ts';

export interface RefuelOptions extends PhaseOptions {
  readonly calibratedAirspeedMS: number;
  readonly rateKgS: number;
  /** Mass to be taken. */
  readonly takeKg: number;
  readonly sharing: Sharing;
  /** Rate of pressure altitude of a descending contact [m/s], negative downward; default 0. */
  readonly altitudeRateMS?: number;
}

export interface RefuelResult extends PhaseEnd {
  readonly takenKg: number;
  readonly burntKg: number;
  readonly timeS: number;
  /**
   * Least (available - required) / required thrust, at the start or the end of the contact; available is that of one engine at its
   * most and the others at military power, where the deck has an afterburner to light and others to stay dry.
   */
  readonly leastThrustMargin: number;
}

/**
 * In contact behind a tanker: the drag of its wash on, fuel in at the rate and out at what the engines burn. Ends 'taken', 'full',
 * 'limit:..', 'thrust' (the mass at which the margin is gone), or at a stop of its own.
 */
export function refuel(
  flight: Flight,
  state: FlightState,
  track: Track,
  options: RefuelOptions,
): RefuelResult {
  const { aircraft } = flight.setup;
  const law = constantCalibratedAirspeed(options.calibratedAirspeedMS);
  const climb = options.altitudeRateMS ?? 0;
  const startS = state.timeS;
  const startKg = state.massKg;
  const fullKg = flight.setup.zeroFuelMassKg + aircraft.balance.fuelCapacityKg;
  let margin = Number.POSITIVE_INFINITY;
  const leg = new Leg(flight, track, state, climb === 0 ? {} : { altitude: true }, 20, (at) => {
    if (climb === 0) flight.levelOnLaw(law, at.massKg, options.sharing);
    else flight.onLawAtRate(law, at.massKg, climb, options.sharing);
  });
  leg.inflowKgS = options.rateKgS;
  const own: Stop[] = [
    { at: 'time', timeS: startS + options.takeKg / options.rateKgS },
    { at: 'state', name: 'full', value: (at) => at.massKg - fullKg },
  ];
  const readMargin = () => {
    const required = flight.forces.thrustN;
    const available = flight.forces.contactThrustN();
    margin = Math.min(margin, flight.short ? 0 : available / required - 1);
  };
  flight.forces.washDrag = aircraft.aerodynamics.washDrag?.increment ?? 0;
  try {
    flight.placeOnTrack(track, state.distanceM, state.pressureAltitudeM, startS);
    flight.levelOnLaw(law, state.massKg, options.sharing);
    readMargin();
    const end = fly(flight, leg, state, { ...options, stops: [...options.stops, ...own] });
    readMargin();
    const timeS = state.timeS - startS;
    const taken = end.stop === options.stops.length;
    const takenKg = taken ? options.takeKg : options.rateKgS * timeS;
    return {
      ...end,
      reason: taken ? 'taken' : end.reason,
      stop: end.stop < options.stops.length ? end.stop : -1,
      takenKg,
      burntKg: takenKg - (state.massKg - startKg),
      timeS,
      leastThrustMargin: margin,
    };
  } finally {
    flight.forces.washDrag = 0;
  }
}
