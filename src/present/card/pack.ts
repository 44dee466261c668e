/**
 * The pack of cards of a plan, in order of use: why it cannot be flown where it cannot, contents and map; then leg by leg what is
 * wanted in flight; last what is left open, what the pack was made from, and the proof of its print.
 */
import type { Plan } from '../../core/plan/plan.ts';
import type { Outlines } from '../map/outlines.ts';
import { legAt } from '../phases.ts';
import { aboutCard, notComputedCards } from './about.ts';
import { balanceCards } from './balance.ts';
import { balanceFlightCards } from './balance-flight.ts';
import { type Card, footOf } from './card.ts';
import { checkCards } from './check.ts';
import { climbCards } from './climb.ts';
import { contactStudyCards } from './contact.ts';
import { contentsCards, type Packed } from './contents.ts';
import { crewCards } from './crew.ts';
import { failureCards } from './failure.ts';
import { fuelTodayCards } from './fuel-today.ts';
import { gridCards } from './grid.ts';
import { inletCards } from './inlet.ts';
import { ladderCards } from './ladder.ts';
import { landingCards } from './landing.ts';
import { onPages } from './layout.ts';
import { levelOffCards } from './level-off.ts';
import { limitCards } from './limits.ts';
import { loadFactorCards } from './load-factor.ts';
import { lowPushCards, manoeuvreCards } from './manoeuvre.ts';
import type { Measure } from './page.ts';
import { pitchCards } from './pitch.ts';
import { proofCard } from './proof.ts';
import { pushoverCards } from './pushover.ts';
import { reachCards } from './reach.ts';
import { routeCard } from './route.ts';
import { rulesCards } from './rules.ts';
import { skyCards } from './sky.ts';
import { startDownCards } from './start-down.ts';
import { takeOffCards } from './take-off.ts';
import { contactCard, joinCard } from './tanker.ts';
import { tankerCaseCards } from './tanker-cases.ts';
import { tankerCrewCards } from './tanker-crew.ts';
import { timingCards } from './timing.ts';
import { turnCards, turnMarginCards } from './turns.ts';

/** Without outlines of coasts there is no map; without `measure` each card has the room that it needs. */
export function cardsOf(
  plan: Plan,
  outlines: Outlines | null = null,
  measure: Measure | null = null,
): readonly Card[] {
  return packOf(plan, outlines, measure).map(({ card }) => card);
}

function packOf(plan: Plan, outlines: Outlines | null, measure: Measure | null): readonly Packed[] {
  // The foot is as high for any number of cards.
  const foot = footOf(plan, 100);
  const inUse = inOrderOfUse(plan, outlines).flatMap((packed): readonly Packed[] =>
    measure === null ? [packed] : onPages(packed.card, foot, measure).map((card) => ({ ...packed, card })),
  );
  const before = failureCards(plan).map((card) => ({ kind: 'Cannot be flown', leg: null, card }));
  const contents = contentsCards(plan, inUse, before.length).map((card) => ({
    kind: 'Contents',
    leg: null,
    card,
  }));
  const all = [...before, ...contents, ...inUse];
  return [...all, { kind: 'Proof of print', leg: null, card: proofCard(plan, all) }];
}

function inOrderOfUse(plan: Plan, outlines: Outlines | null): readonly Packed[] {
  const legs = [...new Set(plan.phases.map(({ leg }) => leg))];
  const firstFast = plan.climbs[0]?.leg ?? legs[0];
  const whole = (kind: string, cards: readonly Card[]) => cards.map((card) => ({ kind, leg: null, card }));
  return [
    ...whole('Route', outlines === null ? [] : [routeCard(plan, outlines)]),
    ...whole('Fuel today', fuelTodayCards(plan)),
    ...whole('Body and sky', skyCards(plan)),
    ...whole('Crew clock', crewCards(plan)),
    ...whole('Rules', rulesCards(plan)),
    ...whole('Tankers', tankerCaseCards(plan)),
    ...whole('Reach', reachCards(plan)),
    ...whole('Take-off', takeOffCards(plan)),
    ...whole('Low manoeuvre', lowPushCards(plan)),
    ...legs.flatMap((leg) => [
      ...ofLeg('Manoeuvre', leg, manoeuvreCards(plan, leg)),
      ...ofLeg('Load factor', leg, loadFactorCards(plan, leg)),
      ...ofLeg('Climb', leg, climbCards(plan, leg)),
      ...ofLeg('Pushover', leg, pushoverCards(plan, leg)),
      ...ofLeg('Pitch', leg, pitchCards(plan, leg)),
      ...ofLeg('Check', leg, checkCards(plan, leg)),
      ...ofLeg('Inlet', leg, inletCards(plan, leg)),
      ...ofLeg('Turns', leg, [...turnCards(plan, leg), ...turnMarginCards(plan, leg)]),
      ...(leg === firstFast ? whole('Best altitude', gridCards(plan)) : []),
      ...ofLeg('Fuel', leg, ladderCards(plan, leg)),
      ...(leg === firstFast ? whole('Limits', limitCards(plan)) : []),
      ...ofLeg('Start down', leg, startDownCards(plan, leg)),
      ...(leg === firstFast ? whole('Level-off', levelOffCards(plan)) : []),
      ...tankerCards(plan, leg),
      ...ofLeg('For the tanker', leg, tankerCrewCards(plan, leg)),
    ]),
    ...whole('On time', timingCards(plan)),
    ...whole('Balance of the flight', balanceFlightCards(plan)),
    ...whole('Landing', landingCards(plan)),
    ...whole('Not computed', notComputedCards(plan)),
    ...whole('About this pack', [aboutCard(plan)]),
  ];
}

function ofLeg(kind: string, leg: number, cards: readonly Card[]): readonly Packed[] {
  return cards.map((card) => ({ kind, leg, card }));
}

/** The cards of the contact that ends a leg. */
function tankerCards(plan: Plan, leg: number): readonly Packed[] {
  return plan.refuellings.flatMap((refuelling, index) => {
    if (legAt(plan, refuelling.contactS) !== leg) return [];
    return [
      { kind: 'Join the tanker', leg, card: joinCard(plan, index) },
      { kind: 'In contact', leg, card: contactCard(plan, index) },
      ...ofLeg('In contact', leg, contactStudyCards(plan, index)),
      ...ofLeg('Balance', leg, balanceCards(plan, index)),
    ];
  });
}
