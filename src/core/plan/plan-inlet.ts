/** What an inlet beside its schedule costs, flown: see `inletAsFlown`. */

export interface PlanInlet {
  /** Key and name of the schedule from which errors count. */
  readonly schedule: string;
  readonly name: string;
  /** One for each leg that is flown supersonic to its end. */
  readonly legs: readonly InletLeg[];
}

export interface InletLeg {
  readonly leg: number;
  readonly name: string;
  /** Tanker or base at its end. */
  readonly to: string;
  /** The greatest Mach flown on it, and the scheduled position there. */
  readonly mach: number;
  readonly positionDeg: number | null;
  /** Fuel at the end of the leg above what is required there, as planned. */
  readonly inHandKg: number;
  /** By error, the least first; 0 is not among them. */
  readonly rows: readonly InletRow[];
  readonly low: InletEdge;
  readonly high: InletEdge;
}

/** One error of every inlet alike, held along the leg: position less schedule. */
export interface InletRow {
  readonly errorDeg: number;
  /** Change at the greatest Mach at a power, and of the drag there as it was flown; parts of what they are on schedule. */
  readonly thrustChange: number;
  readonly dragChange: number;
  /** The least angle anywhere on the leg until the shock is expelled; negative where it is. */
  readonly shockMarginDeg: number;
  /** More fuel than planned to the end of the leg, and with one inlet alone off by as much; null where it cannot be flown. */
  readonly fuelKg: number | null;
  readonly oneInletFuelKg: number | null;
  /** Why it cannot be flown: 'expelled', or why the flight stopped, such as 'thrust'; null where it can. */
  readonly stopped: string | null;
}

/** The least error to one side with which the end of the leg is not reached with what is required there. */
export interface InletEdge {
  /** null where every error of the deck's table leaves it in reach. */
  readonly errorDeg: number | null;
  /** 'fuel', 'expelled', why the flight stopped, or 'table' where the table ends first. */
  readonly by: string;
}
