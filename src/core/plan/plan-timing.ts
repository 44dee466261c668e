/** Whether a place can be reached on time: how many seconds speed and path give each way. */

/** For the last straight stretch of a cruise before a descent. */
export interface Timing {
  readonly leg: number;
  /** Tanker or base at the end of it. */
  readonly to: string;
  /** Where it begins: wings level after the last turn, or the start of the cruise; and where the descent begins. */
  readonly fromS: number;
  readonly toS: number;
  readonly distanceM: number;
  readonly groundSpeedMS: number;
  readonly mach: number;
  /** How much faster the limits allow, with their pads, at most a tenth of Mach; and what that wins. */
  readonly fasterMach: number;
  /** Key of the limit that holds it there; null where none does. */
  readonly heldBy: string | null;
  readonly earlierS: number;
  /** Less by so much loses so many seconds. */
  readonly slowerMach: number;
  readonly laterBySpeedS: number;
  /** What a dogleg of this angle to each side over the whole stretch loses. */
  readonly doglegDeg: number;
  readonly laterByPathS: number;
  /** Mean over the stretch: what each second there costs. */
  readonly fuelFlowKgS: number;
}
