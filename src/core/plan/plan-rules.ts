/** The day's own rules of thumb: what one unit of each driver costs, how far that holds, and where the sortie fails. */

export interface Rules {
  /** Where fuel is compared: each contact before fuel comes, and after the approach on landing. */
  readonly gates: readonly RuleGate[];
  readonly drivers: readonly DriverRule[];
  /** Whether the costs on the standard day stand beside; where they do not, `notComputed` says why. */
  readonly withStandardDay: boolean;
  readonly notComputed: readonly string[];
  /** Derivative evaluations of all of it. */
  readonly evaluations: number;
}

export interface RuleGate {
  readonly leg: number;
  readonly kind: 'contact' | 'landing';
  readonly name: string;
  /** Since take-off, as planned; null where the sortie is not flown so far. */
  readonly timeS: number | null;
  readonly fuelKg: number | null;
}

export type DriverKey =
  | 'temperature'
  | 'headwind'
  | 'drag'
  | 'fuelFlow'
  | 'mass'
  | 'cruiseAltitude'
  | 'inlet'
  | 'takeOffSlip'
  | 'lateTanker';

export interface DriverRule {
  readonly key: DriverKey;
  /** The tanker, where the driver is one; the moving part of the inlet. */
  readonly of: string | null;
  /** Key of the table of quantities that `step`, the ranges and the failing values are in; SI, angles in degrees. */
  readonly quantity: string;
  /** The unit of the rule: 1 K, 10 kt in m/s, 1 %. */
  readonly step: number;
  /** In the order of `gates`. */
  readonly costs: readonly RuleCost[];
  /** At each moment that a crew marks, in order of time; null where the changed flight has no such moment. */
  readonly marks: readonly RuleMark[];
  /** In each direction looked at. */
  readonly edges: readonly RuleEdge[];
  /** Derivative evaluations of it. */
  readonly evaluations: number;
}

export interface RuleCost {
  /**
   * Fuel less at the gate for one step, by the slope through a step each way (one way where the other has no meaning); null where
   * one of them is not flown so far.
   */
  readonly perStepKg: number | null;
  /** Fuel less at the gate with a step more, and with a step less; null where it is not flown or has no meaning. */
  readonly moreKg: number | null;
  readonly lessKg: number | null;
  /** The same slope on the standard day; null where it was not flown. */
  readonly standardPerStepKg: number | null;
  /**
   * Values between which the straight rule is within 5 % of what is flown, no further than was looked; null where it costs
   * nothing here, or is no straight line at all.
   */
  readonly straight: { readonly from: number; readonly to: number } | null;
}

export interface RuleMark {
  readonly kind: string;
  readonly name: string;
  readonly leg: number;
  readonly timeS: number;
  readonly perStepKg: number | null;
}

/** How far a driver can go before the sortie, planned again for it, cannot be flown. */
export interface RuleEdge {
  readonly towards: 'more' | 'less';
  /** The last value that passes; 1 % more does not. null: it passes up to `lookedTo`. */
  readonly passes: number | null;
  readonly lookedTo: number;
  /** What stops it beyond; null where nothing does. */
  readonly limit: string | null;
  readonly name: string | null;
  readonly phase: string | null;
  readonly leg: number | null;
  readonly text: string | null;
}
