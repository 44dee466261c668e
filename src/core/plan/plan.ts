/**
 * The plan file: the whole trace and every number that a chart or a card shows. Charts, cards, airborne and review read it and
 * compute nothing twice.
 *
 * Keys carry their SI unit; angles are degrees; times are ISO 8601 in UTC at the top and seconds since take-off in the trace.
 * Arrays of the trace have one entry for each node, in time order; between nodes every column is linear to the accuracy
 * of the chart. `null` means "not computed", and the reason stands beside it or in `notComputed`.
 */

import type { PitchTable, PushoverTable } from './plan-acceleration.ts';
import type { CheckMoment, Failure, LimitSummary, PlanArea, PlanPlace } from './plan-answers.ts';
import type { PlanBalance, PlanDump, TankerAccount } from './plan-balance.ts';
import type { ContactStudy, Recovery, Refuelling, RefuellingAsked, Rendezvous } from './plan-contact.ts';
import type { CrewClock } from './plan-crew.ts';
import type {
  EventLight,
  FuelToday,
  PlanBody,
  PlanLight,
  PlanMagnetic,
  PlanWeather,
  Section,
} from './plan-day.ts';
import type {
  AltitudeGrid,
  ClimbTable,
  LadderRow,
  LegDecisions,
  LevelOff,
  StartDownTable,
  TurnFlown,
} from './plan-flight.ts';
import type { LandingData, TakeOffData } from './plan-ground.ts';
import type { JudgedTurn, LowPushes, ManoeuvreTable, PlanManoeuvreRules } from './plan-manoeuvre.ts';
import type { PlanSurprises } from './plan-surprises.ts';
import type { TankerOrder, TankerOwn } from './plan-tankers.ts';
import type { Timing } from './plan-timing.ts';
import type { PlanEvent, PlanPhase, Trace } from './plan-trace.ts';

export * from './plan-acceleration.ts';
export * from './plan-answers.ts';
export * from './plan-balance.ts';
export * from './plan-contact.ts';
export * from './plan-crew.ts';
export * from './plan-day.ts';
export * from './plan-descent.ts';
export * from './plan-flight.ts';
export * from './plan-ground.ts';
export * from './plan-inlet.ts';
export * from './plan-manoeuvre.ts';
export * from './plan-reach.ts';
export * from './plan-rules.ts';
export * from './plan-surprises.ts';
export * from './plan-tankers.ts';
export * from './plan-timing.ts';
export * from './plan-trace.ts';

export const PLAN_FORMAT = 'ramrise-plan';

export const PLAN_VERSION = 1;

export const CAUTION =
  "Planning aid, not approved data. The approved flight manual, the operating authority and the crew's judgement govern.";

export interface Plan extends PlanSurprises {
  readonly format: typeof PLAN_FORMAT;
  readonly version: typeof PLAN_VERSION;
  /** Name and version of the program that wrote the file. */
  readonly program: string;
  /** Six letters and digits of a hash of all inputs and of the program's version. */
  readonly fingerprint: string;
  readonly inputs: readonly PlanInput[];
  readonly caution: string;
  readonly title: string;
  /** True where the sortie says that its places and data are invented. */
  readonly invented: boolean;
  readonly aircraft: PlanAircraft;
  /** Take-off as planned, ISO 8601. */
  readonly takeOff: string;
  /** The plan holds for take-offs from the first to the second, ISO 8601. */
  readonly validity: { readonly from: string; readonly to: string };
  readonly weather: PlanWeather;
  /** null outside the years of the magnetic models. */
  readonly magnetic: PlanMagnetic | null;
  /** null outside the years of the almanac's formulas. */
  readonly light: PlanLight | null;
  readonly body: PlanBody;
  /** null where the sortie says nothing of its crew. */
  readonly crew: CrewClock | null;
  /** null where the deck has no volumes or the sortie no temperature of the fuel. */
  readonly fuelToday: FuelToday | null;
  readonly flyable: boolean;
  /** Why it cannot be flown and one change that frees it; null where it can. */
  readonly failure: Failure | null;
  readonly trace: Trace;
  /** null where nothing was flown. */
  readonly section: Section | null;
  readonly phases: readonly PlanPhase[];
  readonly events: readonly (PlanEvent & EventLight)[];
  readonly refuellings: readonly (Refuelling & RefuellingAsked)[];
  /** One for each refuelling, in order: whether the receiver can stay on. */
  readonly contacts: readonly ContactStudy[];
  readonly takeOffData: TakeOffData;
  /** At the end of the sortie, then in the worst case of each contact; those that the deck has data for. */
  readonly landings: readonly LandingData[];
  /** One for each refuelling, in order. */
  readonly rendezvous: readonly Rendezvous[];
  /** One table for each climb to cruise, in order. */
  readonly climbs: readonly ClimbTable[];
  /** One for each pushover before a supersonic climb, in order. */
  readonly pushovers: readonly PushoverTable[];
  /** One for each supersonic climb, in order. */
  readonly pitches: readonly PitchTable[];
  /** In order of time: what is checked from a contact to the cruise. */
  readonly checks: readonly CheckMoment[];
  readonly altitudeGrids: readonly AltitudeGrid[];
  readonly ladder: readonly LadderRow[];
  /** In order of closeness: smallest part of the limit left first. */
  readonly limits: readonly LimitSummary[];
  /** What a worst case named by the sortie costs from each contact. */
  readonly recoveries: readonly Recovery[];
  readonly turns: readonly (TurnFlown & JudgedTurn)[];
  /** By fuel on board, at each disconnect and at the top of the climb that follows. */
  readonly manoeuvres: readonly ManoeuvreTable[];
  /** null where a push is not computed. */
  readonly lowPushes: LowPushes | null;
  readonly manoeuvreRules: PlanManoeuvreRules;
  readonly levelOffs: readonly LevelOff[];
  /** null where the deck has no tanks. */
  readonly balance: PlanBalance | null;
  /** One for each tanker of the sortie, in its order. */
  readonly tankers: readonly TankerAccount[];
  /** null where the deck cannot dump or states no landing mass. */
  readonly dump: PlanDump | null;
  /** Every place that the sortie names, for maps. */
  readonly places: readonly PlanPlace[];
  /** The keep-out areas of the sortie against the track as flown. */
  readonly areas: readonly PlanArea[];
  /** One for each descent from a cruise, in order. */
  readonly startDowns: readonly StartDownTable[];
  /** One for each descent that a straight stretch of cruise leads to. */
  readonly timings: readonly Timing[];
  /** One for each refuelling, in order. */
  readonly tankerOrders: readonly TankerOrder[];
  /** One for each tanker whose own flight the sortie tells and that is met. */
  readonly tankerOwn: readonly TankerOwn[];
  /** What a re-flight holds: see refly. */
  readonly decisions: readonly LegDecisions[];
  /** What could not be computed and why: "not computed: the deck has no ...". */
  readonly notComputed: readonly string[];
  /** Derivative evaluations of the whole plan. */
  readonly evaluations: number;
}

export interface PlanInput {
  /** 'sortie', 'deck', 'weather', 'areas'. */
  readonly role: string;
  /** Path as the sortie names it. */
  readonly name: string;
  readonly sha256: string;
}

export interface PlanAircraft {
  readonly name: string;
  readonly edition: string;
  readonly basis: string;
  readonly tail: string;
  readonly emptyMassKg: number;
  readonly fuelCapacityKg: number;
  /** The deck's ladder of power settings, from 0. */
  readonly settings: readonly string[];
  /** Units in which the aircraft's own gauges read, by key of the table of quantities. */
  readonly gaugeUnits: Readonly<Record<string, string>>;
}
