import type { Air } from '../air/day.ts';
import type { CalibratedAirspeed, EquivalentAirspeed, Mach, TrueAirspeed } from '../quantities/kinds.ts';

/** What a speed law asks for at one point of the air. */
export interface LawSpeed {
  trueAirspeedMS: number;
  /** d ln V / d ln p at constant temperature. */
  perLogPressure: number;
  /** d ln V / d ln T at constant pressure. */
  perLogTemperature: number;
}

/** A speed that is held while pressure and temperature change. */
export interface SpeedLaw {
  /** "430 KEAS less 60 kt per Mach above M 2.1", for a card. */
  readonly title: string;
  at(air: Air, out: LawSpeed): void;
}

export declare function constantMach(mach: Mach): SpeedLaw;
export declare function constantTrueAirspeed(speedMS: TrueAirspeed): SpeedLaw;
export declare function constantEquivalentAirspeed(speedMS: EquivalentAirspeed): SpeedLaw;
export declare function constantCalibratedAirspeed(speedMS: CalibratedAirspeed): SpeedLaw;
/** EAS = start up to the break; above it EAS = start - slope (M - break). Slope in m/s per Mach. */
export declare function bledEquivalentAirspeed(startMS: EquivalentAirspeed, breakMach: Mach, slopeMSPerMach: number): SpeedLaw;
