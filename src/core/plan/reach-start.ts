/** Where a planned sortie is at a moment: a state from which it can be flown somewhere else. */
import { type FlightState, newState } from '../flight/state.ts';
import { nodeFrom } from './log.ts';
import type { Trace } from './plan.ts';

const degree = Math.PI / 180;

/** What is read of a plan. */
export interface Flown {
  readonly trace: Pick<Trace, 'columns'>;
}

export class Starts {
  private readonly columns: Trace['columns'];
  private readonly takeOffS: number;
  private readonly state = newState();
  private readonly missingKg: (timeS: number) => number;

  /** `takeOffS`: seconds since 1970. */
  constructor({ trace }: Flown, takeOffS: number, missingKg: (timeS: number) => number = () => 0) {
    this.columns = trace.columns;
    this.takeOffS = takeOffS;
    this.missingKg = missingKg;
  }

  /** The same flight with less fuel on board, by time since take-off. */
  lighter(missingKg: (timeS: number) => number): Starts {
    return new Starts({ trace: { columns: this.columns } }, this.takeOffS, missingKg);
  }

  /** The state at a time since take-off, the same object each time; the heading is that of the motion through the air. */
  at(timeS: number): Readonly<FlightState> {
    const { columns, state } = this;
    const high = nodeFrom(this.columns.timeS, timeS);
    const span = columns.timeS[high] - columns.timeS[high - 1];
    const part = span > 0 ? Math.min(Math.max((timeS - columns.timeS[high - 1]) / span, 0), 1) : 1;
    const value = (key: keyof Trace['columns']): number =>
      columns[key][high - 1] + part * (columns[key][high] - columns[key][high - 1]);
    const turned = wrapped(columns.courseDeg[high] - columns.courseDeg[high - 1]);
    const courseRad = (columns.courseDeg[high - 1] + part * turned) * degree;
    // The wind from the left is met by a motion to the left through the air.
    const driftRad = Math.atan2(-value('windAcrossMS'), value('groundSpeedMS') - value('windAlongMS'));
    const east = wrapped(columns.longitudeDeg[high] - columns.longitudeDeg[high - 1]);
    state.timeS = this.takeOffS + timeS;
    state.distanceM = 0;
    state.latitudeRad = value('latitudeDeg') * degree;
    state.longitudeRad = (columns.longitudeDeg[high - 1] + part * east) * degree;
    state.headingRad = courseRad + driftRad;
    state.pressureAltitudeM = value('pressureAltitudeM');
    state.trueAirspeedMS = value('trueAirspeedMS');
    state.pathAngleRad = 0;
    state.bankRad = 0;
    state.massKg = value('massKg') - this.missingKg(timeS);
    return state;
  }

  /** Mach at a time since take-off. */
  machAt(timeS: number): number {
    const { mach, timeS: times } = this.columns;
    const high = nodeFrom(this.columns.timeS, timeS);
    const span = times[high] - times[high - 1];
    const part = span > 0 ? Math.min(Math.max((timeS - times[high - 1]) / span, 0), 1) : 1;
    return mach[high - 1] + part * (mach[high] - mach[high - 1]);
  }
}

function wrapped(deg: number): number {
  return deg - 360 * Math.round(deg / 360);
}
