/** What engines, inlets and cabin ask of a descent, and how it was flown against that. */
import type { DescentSystem } from '../aircraft/descent.ts';

export interface DescentHeld {
  readonly rules: readonly DescentRuleHeld[];
  /** null where the deck does not say how the cabin follows the height. */
  readonly cabin: DescentCabin | null;
}

/** A rule that held on the way down. */
export interface DescentRuleHeld {
  readonly of: DescentSystem;
  readonly aboveMach: number | null;
  readonly abovePressureAltitudeM: number | null;
  /** Name of the setting, and its place on the deck's ladder. */
  readonly setting: string;
  readonly leastPower: number;
  /** The least that was flown while it held, and until when since take-off it did. */
  readonly flownPower: number;
  readonly untilS: number;
  readonly source: string;
}

export interface DescentCabin {
  readonly fromM: number;
  readonly toM: number;
  /** The fastest that it comes down on the way, and when. */
  readonly greatestRateMS: number;
  readonly timeS: number;
  /** null where the deck states none. */
  readonly allowedRateMS: number | null;
}
