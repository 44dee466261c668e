/** Take-off and landing in a plan. */
import type { FourSpeeds } from './plan-contact.ts';
import type { CourseAt } from './plan-day.ts';

/** The take-off of the day: what the runway asks for and gives. Distances are from brake release; null has no end. */
export interface TakeOffData {
  readonly base: string;
  readonly massKg: number;
  readonly pressureAltitudeM: number;
  readonly temperatureK: number;
  readonly temperatureOffsetK: number;
  /** null where the sortie states none: then level and dry, without wind. */
  readonly runway: RunwayToday | null;
  readonly liftOff: RunSpeed;
  /** By the deck's table: level, without wind. */
  readonly tableGroundRunM: number;
  /** null where the deck has no ground data or its tables do not reach the runway. */
  readonly run: TakeOffRun | null;
}

export interface RunwayToday extends CourseAt {
  readonly name: string;
  readonly lengthM: number;
  /** Rise over run, positive uphill. */
  readonly slopeFraction: number;
  readonly condition: 'dry' | 'wet';
  /** Negative is a tailwind. */
  readonly headwindMS: number;
  /** Positive comes from the left. */
  readonly crosswindMS: number;
  /** What distances and ground speeds count: half of a headwind, one and a half of a tailwind. */
  readonly headwindCountedMS: number;
  /** True where the sortie states the wind, false where it is that of the weather. */
  readonly windStated: boolean;
}

/** A landing on its runway, as planned or in a worst case. */
export interface LandingData {
  /** "No contact with Ewer Two"; null for the one that is planned. */
  readonly worstCase: string | null;
  readonly base: string;
  /** Since take-off. */
  readonly timeS: number;
  readonly massKg: number;
  readonly fuelKg: number;
  readonly reserveKg: number;
  readonly pressureAltitudeM: number;
  readonly temperatureK: number;
  readonly temperatureOffsetK: number;
  readonly runway: RunwayToday | null;
  readonly approach: RunSpeed;
  /** By the deck's table: dry, level, without wind, braked as the deck says. */
  readonly tableGroundRunM: number;
  /** Braked at once from the approach speed, all engines at idle; null as that of the take-off. */
  readonly stop: LandingStop | null;
  /** The longer of the two; null has no end. */
  readonly longestM: number | null;
}

export interface LandingStop {
  readonly distanceM: number | null;
  readonly brakeEnergyJ: number;
  readonly brakeEnergyLimitJ: number | null;
  readonly tyreSpeedMS: number | null;
}

/** A speed on the runway. */
export interface RunSpeed extends FourSpeeds {
  readonly groundSpeedMS: number;
}

export interface TakeOffRun {
  readonly groundRunM: number;
  readonly groundRunS: number;
  readonly climbOut: RunSpeed;
  /** Rise over run with an engine lost at the climb-out speed; null where lift or thrust do not carry the weight. */
  readonly climbGradient: { readonly gearDown: number | null; readonly gearUp: number | null };
  /** Where accelerate-stop equals accelerate-go, and that distance. */
  readonly critical: RunSpeed;
  readonly criticalFieldM: number | null;
  /** Least and greatest decision speed and what bounds them: 'runway', 'minimumControlSpeed', 'brakeEnergy', 'liftOff', 'none'. */
  readonly least: RunSpeed;
  readonly leastBy: string;
  readonly greatest: RunSpeed;
  readonly greatestBy: string;
  /** False where the least decision speed is above the greatest: between them the take-off neither stops nor goes on. */
  readonly decisionFits: boolean;
  /** The critical speed or the nearest to it that fits; with what follows from an engine lost there. */
  readonly decision: RunSpeed;
  readonly accelerateGoM: number | null;
  readonly accelerateStopM: number | null;
  /** Refused at the decision speed with all engines running until the crew acts. */
  readonly allEnginesStopM: number | null;
  /** Work of the wheel brakes in that stop, and its limit; null where the deck states none. */
  readonly brakeEnergyJ: number;
  readonly brakeEnergyLimitJ: number | null;
  /** Greatest ground speed of the tyres; null where the deck states none. */
  readonly tyreSpeedMS: number | null;
}
