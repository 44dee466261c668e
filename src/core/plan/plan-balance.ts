/** Fuel in its tanks, the centre of gravity while it comes, what each tanker gives, and dumping. */

export interface PlanBalance {
  /** In the deck's order; capacity today. */
  readonly tanks: readonly PlanTank[];
  readonly transfers: readonly PlanTransfer[];
  /** Fuel in each tank at each node of the trace: tanksKg[i][node] of tank i. */
  readonly tanksKg: readonly (readonly number[])[];
  /** The pump that is most behind the schedule of its transfer; null where all keep to it. */
  readonly behind: PumpBehind | null;
  /** One for each refuelling, in order. */
  readonly contacts: readonly ContactBalance[];
}

/** What goes from tank to tank as Mach rises, and back as it falls: in proportion between two Machs. */
export interface PlanTransfer {
  readonly from: string;
  readonly to: string;
  readonly massKg: number;
  readonly beginsMach: number;
  readonly endsMach: number;
  /** null where the deck states none. */
  readonly rateKgS: number | null;
}

/** A pump that is slower than its transfer asks: where it is most behind, and what that is to the centre of gravity. */
export interface PumpBehind {
  readonly from: string;
  readonly to: string;
  readonly rateKgS: number;
  readonly behindKg: number;
  /** Since take-off. */
  readonly timeS: number;
  readonly mach: number;
  /** As pumped, and as scheduled, there. */
  readonly cgFraction: number;
  readonly scheduledFraction: number;
  /** The least margin of the whole flight as pumped, and when; null where the deck has no limits. */
  readonly leastMarginFraction: number | null;
  readonly leastTimeS: number;
}

export interface PlanTank {
  readonly name: string;
  readonly capacityKg: number;
  readonly unusableKg: number;
  /** 1 is emptied first and filled last. */
  readonly order: number;
}

/** The centre of gravity while a tanker gives fuel. */
export interface ContactBalance {
  readonly tanker: string;
  /** At contact, wherever another tank begins to fill, at disconnect. */
  readonly rows: readonly ContactBalanceRow[];
  /** The least margin to a limit of the centre of gravity at any node of the contact; null where the deck has none. */
  readonly leastMarginFraction: number | null;
}

export interface ContactBalanceRow {
  readonly timeS: number;
  readonly onBoomS: number;
  /** To the disconnect, at the rate of the tanker. */
  readonly leftS: number;
  readonly fuelKg: number;
  /** Fractions of the mean chord; null where the deck has no arms or no such limit. */
  readonly cgFraction: number | null;
  readonly forwardLimit: number | null;
  readonly aftLimit: number | null;
  readonly marginFraction: number | null;
  /** Tanks that fill from here on; none at the disconnect. */
  readonly fills: readonly string[];
}

/** What one tanker carries and gives in the whole sortie, each grade apart. */
export interface TankerAccount {
  readonly tanker: string;
  readonly fuels: readonly TankerFuelAccount[];
  /** For its own engines, as it comes; null where the sortie does not say. */
  readonly ownFuelKg: number | null;
  readonly payloadKg: number;
  /** With all that it carries before and after what it gives, its own burn left out; null where its empty mass is not stated. */
  readonly massBeforeKg: number | null;
  readonly massAfterKg: number | null;
}

export interface TankerFuelAccount {
  readonly grade: string | null;
  readonly burnable: boolean;
  readonly beforeKg: number;
  readonly givenKg: number;
  readonly afterKg: number;
}

/** Getting down to the greatest mass on landing. */
export interface PlanDump {
  readonly rateKgS: number;
  /** What cannot be dumped. */
  readonly leastKg: number;
  readonly landingMassKg: number;
  /** After the take-off and after each disconnect, where the aircraft is heavier than that. */
  readonly rows: readonly DumpRow[];
}

export interface DumpRow {
  /** null after the take-off. */
  readonly after: string | null;
  readonly timeS: number;
  readonly massKg: number;
  readonly dumpedKg: number;
  /** At the rate alone; what the engines burn meanwhile makes it shorter. */
  readonly durationS: number;
  /** More than the landing mass where no more can be dumped. */
  readonly massAfterKg: number;
}
