/** The point-parallel rendezvous: the tanker comes the other way beside the receiver's track, turns round and rolls out ahead of it. */
import { standardGravity } from '../quantities/constants.ts';

export interface PointParallel {
  /** Between the tracks before the turn: the diameter of the tanker's turn [m]. */
  readonly offsetM: number;
  readonly turnTimeS: number;
  /** Along the tracks and nose to nose, where the tanker begins to turn [m]. */
  readonly alongTrackM: number;
  readonly turnRangeM: number;
  /** Before the turn [m/s]. */
  readonly closureMS: number;
}

export interface PointParallelQuestion {
  /** True airspeeds [m/s]. */
  readonly tankerMS: number;
  readonly receiverMS: number;
  /** Of the tanker's turn through half a circle [rad]. */
  readonly bankRad: number;
  /** How far ahead of the receiver the tanker rolls out [m]. */
  readonly aheadM: number;
}

/**
 * In the mass of air, so that a steady wind changes nothing; flat Earth, bank at once. Offset 2 V^2 / (g tan bank), turn pi R / V,
 * along the tracks the receiver's way meanwhile and the distance ahead (common practice).
 */
export function pointParallel(question: PointParallelQuestion): PointParallel {
  const { tankerMS, receiverMS, bankRad, aheadM } = question;
  const radiusM = tankerMS ** 2 / (standardGravity * Math.tan(bankRad));
  const offsetM = 2 * radiusM;
  const turnTimeS = (Math.PI * radiusM) / tankerMS;
  const alongTrackM = receiverMS * turnTimeS + aheadM;
  return {
    offsetM,
    turnTimeS,
    alongTrackM,
    turnRangeM: Math.sqrt(alongTrackM ** 2 + offsetM ** 2),
    closureMS: tankerMS + receiverMS,
  };
}
