/**
 * An inlet that loses its started state: what it does at once, how far the aircraft slows and comes down until the inlet can be
 * started again, and what is in reach then. Flown straight ahead at the equivalent airspeed of the moment, the engines at the
 * setting of a descent, the one behind the lost inlet at what is left to it.
 */
import type { FailureCase, Unstart } from '../aircraft/failures.ts';
import { yawOf } from '../aircraft/rudder.ts';
import { direct, Line } from '../earth/line.ts';
import type { Flight } from '../flight/flight.ts';
import { constantEquivalentAirspeed, type SpeedLaw } from '../flight/speed-law.ts';
import { copyState, type FlightState, newState } from '../flight/state.ts';
import { climb } from '../phases/index.ts';
import { seaLevelDensity } from '../quantities/constants.ts';
import { flightAfter } from './failures.ts';
import type { UnstartRow } from './plan.ts';
import type { ReachRequest } from './reach-asked.ts';
import { ReachFlight } from './reach-flight.ts';

/** Minutes between rows. */
const every = 4;
const degrees = 180 / Math.PI;
/** As far ahead as a line is prepared for. */
const aheadM = 1_500_000;
const perHeightM = 1000;

export interface Unstarts {
  readonly rows: readonly UnstartRow[];
  readonly missing: readonly string[];
  readonly evaluations: number;
  readonly flights: number;
}

/** At every fourth minute above the Mach at which it happens; yields null between them. */
export function* unstartsOf(asked: ReachRequest): Generator<null, Unstarts> {
  const study = UnstartStudy.of(asked);
  if (study === null) {
    const missing = ['an unstart: the deck says nothing of one'];
    return { rows: [], missing, evaluations: 0, flights: 0 };
  }
  const rows: UnstartRow[] = [];
  for (let i = 0; i < asked.minutes.length; i += every) {
    const row = study.at(asked.minutes[i]);
    if (row === null) continue;
    rows.push(row);
    yield null;
  }
  const { evaluations, flights } = study;
  return { rows, missing: [], evaluations, flights };
}

class UnstartStudy {
  flights = 0;
  private readonly asked: ReachRequest;
  private readonly unstart: Unstart;
  private readonly whole: ReachFlight;
  private readonly lost: Flight;
  private readonly state = newState();

  /** null where the deck says nothing of an unstart or of the whole aircraft. */
  static of(asked: ReachRequest): UnstartStudy | null {
    const { unstart, failures } = asked.request.aircraft;
    const none = failures.find(({ key }) => key === 'none');
    return unstart === null || none === undefined ? null : new UnstartStudy(asked, unstart, none);
  }

  private constructor(asked: ReachRequest, unstart: Unstart, none: FailureCase) {
    const { aircraft, day } = asked.request;
    const engines = aircraft.propulsion.engines.length;
    const left = (engines - 1 + unstart.thrustLeft) / engines;
    const lost: FailureCase = {
      ...none,
      dragIncrement: none.dragIncrement + unstart.dragIncrement,
      thrustFactor: left,
      fuelFlowFactor: left,
    };
    this.asked = asked;
    this.unstart = unstart;
    this.whole = new ReachFlight(flightAfter(none, aircraft, day), none);
    this.lost = flightAfter(lost, aircraft, day);
  }

  get evaluations(): number {
    return this.whole.flight.evaluations + this.lost.evaluations;
  }

  /** At a time since take-off; null where the flight is too slow for one. */
  at(timeS: number): UnstartRow | null {
    const { starts } = this.asked;
    const mach = starts.machAt(timeS);
    if (!(mach > this.unstart.fromMach)) return null;
    const start = starts.at(timeS);
    const { pressureAltitudeM } = start;
    copyState(start, this.state);
    return { timeS, mach, pressureAltitudeM, ...this.atOnce(start), restart: this.restart(mach, timeS) };
  }

  /** The moment about the vertical with the thrust of level flight, and the rudder that holds it. */
  private atOnce(start: Readonly<FlightState>): Pick<UnstartRow, 'yawNm' | 'rudderDeg' | 'rudderLimitDeg'> {
    const { unstart } = this;
    const { flight } = this.whole;
    const { propulsion, rudder, aerodynamics } = flight.setup.aircraft;
    flight.placeOnTrack(this.ahead(start), 0, start.pressureAltitudeM, start.timeS);
    flight.levelOnLaw(this.law(start, flight), start.massKg);
    const { thrustN, mach, dynamicPressurePa } = flight.forces;
    const { engines } = propulsion;
    const each = engines.map((_, i) => (thrustN / engines.length) * (i === 0 ? unstart.thrustLeft : 1));
    const dragN = unstart.dragIncrement * dynamicPressurePa * aerodynamics.wingAreaM2;
    const yawNm = yawOf(propulsion, each) + dragN * unstart.armM * Math.sign(engines[0].armM);
    return {
      yawNm,
      rudderDeg: rudder && (-yawNm / rudder.momentPerRad(mach, dynamicPressurePa)) * degrees,
      rudderLimitDeg: rudder && rudder.limitRad(mach) * degrees,
    };
  }

  private restart(mach: number, timeS: number): UnstartRow['restart'] {
    const { unstart, lost, state, asked } = this;
    const from = { ...state };
    const track = this.ahead(state);
    const law = this.law(state, lost);
    const options = { law, power: 'descent' } as const;
    const above = (at: Readonly<FlightState>): number =>
      Math.max(
        lost.forces.mach - unstart.restartMach,
        (at.pressureAltitudeM - unstart.restartPressureAltitudeM) / perHeightM,
      );
    this.flights++;
    lost.placeOnTrack(track, 0, state.pressureAltitudeM, state.timeS);
    lost.levelOnLaw(law, state.massKg);
    if (above(state) > 0) {
      const stops = [{ at: 'state', name: 'restart', balanced: true, value: above }] as const;
      if (climb(lost, state, track, { ...options, stops }).stop !== 0) return null;
    }
    const until = [{ at: 'time', timeS: state.timeS + unstart.restartS }] as const;
    if (climb(lost, state, track, { ...options, stops: until }).stop !== 0) return null;
    const machNow = lost.forces.mach;
    const after = { ...state };
    return {
      afterS: after.timeS - from.timeS,
      mach: machNow,
      pressureAltitudeM: after.pressureAltitudeM,
      machLost: mach - machNow,
      heightLostM: from.pressureAltitudeM - after.pressureAltitudeM,
      fuelKg: from.massKg - after.massKg,
      distanceM: after.distanceM,
      fuelOnArrivalKg: asked.choices.map(({ goal, joinable }) => {
        if (joinable !== null && timeS > joinable.toS) return null;
        this.flights += 2;
        const slow = this.whole.slow(after, goal).fuelKg;
        const fast = machNow > 1 ? this.whole.fast(after, goal).fuelKg : Number.NaN;
        const most = Number.isNaN(slow) ? fast : Math.max(slow, Number.isNaN(fast) ? slow : fast);
        return Number.isNaN(most) ? null : most;
      }),
    };
  }

  /** The equivalent airspeed of a state, held. */
  private law(state: Readonly<FlightState>, flight: Flight): SpeedLaw {
    const { day } = flight.setup;
    day.sample(state.latitudeRad, state.longitudeRad, state.pressureAltitudeM, state.timeS, flight.frame.air);
    return constantEquivalentAirspeed(
      state.trueAirspeedMS * Math.sqrt(flight.frame.air.densityKgM3 / seaLevelDensity),
    );
  }

  private ahead(state: Readonly<FlightState>): Line {
    return new Line(state, direct(state, state.headingRad, aheadM));
  }
}
