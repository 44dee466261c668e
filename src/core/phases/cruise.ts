import type { Flight } from '../flight/flight.ts';
import { Leg, type Way } from '../flight/leg.ts';
import type { SpeedLaw } from '../flight/speed-law.ts';
import type { FlightState } from '../flight/state.ts';
import type { Track } from '../flight/track.ts';
import type { PhaseEnd, PhaseOptions } from './phase.ts';
import { fly } from './run.ts';

/** Time in which a departure from the target altitude falls to 1/e, and the greatest rate of climb or descent after it. */
const TIME_CONSTANT_S = 120;
const GREATEST_RATE_MS = 5;

/** An altitude that moves with what the aircraft weighs and the day brings, such as that of the best specific range. */
export interface AltitudeTarget {
  target(massKg: number, temperatureOffsetK: number, distanceM: number): number;
  /** Default 120 s. */
  readonly timeConstantS?: number;
  /** Default 5 m/s. */
  readonly greatestRateMS?: number;
}

export interface CruiseOptions extends PhaseOptions {
  readonly law: SpeedLaw;
  /**
   * 'hold' keeps the pressure altitude. 'constantLift' climbs as the mass falls, so that mass over pressure, and with a Mach
   * law the lift coefficient, stays. A target is followed: Hp' = its own rate as mass falls + (target - Hp) / timeConstantS,
   * within greatestRateMS either way, and where the thrust does not suffice for that, at the climb that full power gives.
   */
  readonly altitude: 'hold' | 'constantLift' | AltitudeTarget;
}

/** Speed law held, thrust as required; ends 'thrust' where speed and altitude cannot both be kept. */
export function cruise(flight: Flight, state: FlightState, track: Track, options: CruiseOptions): PhaseEnd {
  const { law, altitude } = options;
  if (altitude === 'hold') {
    const leg = new Leg(flight, track, state, {}, 60, (at) => flight.levelOnLaw(law, at.massKg));
    return fly(flight, leg, state, options);
  }
  const way =
    altitude === 'constantLift' ? constantLift(law) : following(flight, state, track, law, altitude);
  return fly(flight, new Leg(flight, track, state, { altitude: true }, 60, way), state, options);
}

/** p'/p = m'/m: the climb costs thrust, the thrust fuel; the loop converges at a hundredth a round. */
function constantLift(law: SpeedLaw): Way {
  return (at) => {
    const { flight, massKg } = at;
    let rate = 0;
    for (let round = 0; round < 8; round++) {
      flight.onLawAtRate(law, massKg, rate);
      const next = -flight.forces.fuelFlowKgS / massKg / flight.frame.logPressureUp;
      const change = next - rate;
      rate = next;
      if (Math.abs(change) < 1e-9) break;
    }
  };
}

function following(
  flight: Flight,
  state: FlightState,
  track: Track,
  law: SpeedLaw,
  goal: AltitudeTarget,
): Way {
  const perS = 1 / (goal.timeConstantS ?? TIME_CONSTANT_S);
  const greatest = goal.greatestRateMS ?? GREATEST_RATE_MS;
  flight.placeOnTrack(track, state.distanceM, state.pressureAltitudeM, state.timeS);
  flight.levelOnLaw(law, state.massKg);
  /** Fuel flow of a cruise climb is nearly in proportion to mass: good enough for the target's own rate. */
  const flowPerMass = flight.forces.fuelFlowKgS / state.massKg;
  return (at) => {
    const { massKg, distanceM, pressureAltitudeM } = at;
    const offset = flight.frame.air.temperatureOffsetK;
    const target = goal.target(massKg, offset, distanceM);
    const later = goal.target(massKg * (1 - 10 * flowPerMass), offset, distanceM);
    const wanted = (later - target) / 10 + perS * (target - pressureAltitudeM);
    const rate = Math.min(greatest, Math.max(-greatest, wanted));
    flight.onLawAtRate(law, massKg, rate);
    if (!flight.short || rate <= 0) return;
    flight.short = false;
    flight.climbInBalance(law, massKg, flight.setup.aircraft.propulsion.maximum);
    if (flight.frame.altitudeRate < 0) flight.short = true;
  };
}
