/** The crew's own clock: duty, oxygen, prebreathing, the light where they look outside. Times since take-off. */
import type { Light } from '../earth/light.ts';

export interface CrewClock {
  /** In order of time. */
  readonly moments: readonly CrewMoment[];
  /** Each null where the sortie does not say. */
  readonly duty: CrewDuty | null;
  readonly prebreathe: CrewPrebreathe | null;
  readonly oxygen: CrewOxygen | null;
  /** How much later the take-off may be, and what ends it (negative: it is already past); null where nothing does. */
  readonly slip: { readonly leftS: number; readonly by: 'duty' | 'oxygen' } | null;
}

export type CrewMomentKind =
  | 'report'
  | 'prebreathe'
  | 'oxygen'
  | 'take-off'
  | 'contact'
  | 'landing'
  | 'offDuty'
  | 'oxygenReserve'
  | 'dutyEnds';

export interface CrewMoment {
  readonly kind: CrewMomentKind;
  /** Base or tanker; empty where it is neither. */
  readonly name: string;
  readonly timeS: number;
  /** Since the crew reported. */
  readonly dutyS: number | null;
  /** Until the supply is used up, its reserve included. */
  readonly oxygenLeftS: number | null;
  readonly light: Light | null;
  /** A take-off later by less than this leaves the light there as it is; null beyond half a day, and where there is no light. */
  readonly lightHoldsS: number | null;
}

export interface CrewDuty {
  readonly reportS: number;
  /** After what is done on the ground. */
  readonly endS: number;
  readonly lengthS: number;
  readonly mostS: number;
  /** Negative where it is longer than it may be. */
  readonly leftS: number;
}

export interface CrewPrebreathe {
  /** By the table of the operator for the greatest cabin altitude of the flight; null where the sortie gives one time for all. */
  readonly cabinAltitudeM: number | null;
  readonly neededS: number;
  /** Prebreathed before take-off: what is needed, or since the crew goes on oxygen where the sortie says when. */
  readonly plannedS: number;
  readonly leftS: number;
}

export interface CrewOxygen {
  readonly fromS: number;
  /** Whether the sortie says when: then a later take-off uses it up. */
  readonly fixed: boolean;
  readonly lastsS: number;
  readonly reserveS: number;
  /** Above the reserve on landing. */
  readonly leftS: number;
}
