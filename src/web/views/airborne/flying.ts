/** A flight flown on in the worker: its plan made ready once, then what follows from each answer. */
import type { Answer } from '../../../core/airborne/answer.ts';
import { deckSlopes } from '../../../core/airborne/deck-slopes.ts';
import { Expectation, type FlowSlopes } from '../../../core/airborne/expectation.ts';
import { deviationNow, type Follows, following } from '../../../core/airborne/follow.ts';
import { areasNow } from '../../../core/airborne/reach-flown.ts';
import type { Entry } from '../../../core/airborne/reading.ts';
import { FlyingOn } from '../../../core/airborne/refly.ts';
import type { PlanRequest } from '../../../core/plan/draft.ts';
import type { Plan, ReachArea } from '../../../core/plan/plan.ts';

/** Slopes of the deck at each node of a plan's trace. */
export type SlopesAt = readonly (FlowSlopes | null)[];

/** The slopes of a plan's trace, in the order of its nodes. */
function slopesOf(plan: Plan, { aircraft }: PlanRequest): SlopesAt {
  const at = deckSlopes(aircraft, plan.trace);
  return plan.trace.columns.timeS.map((_, node) => at(node));
}

export interface FollowedOn {
  readonly follows: Follows;
  /** What is in reach from where the flight is; none without the deck. */
  readonly areas: readonly ReachArea[];
}

export class Flying {
  readonly slopes: SlopesAt | null;
  readonly plan: Plan;
  private readonly on: FlyingOn | null;
  private readonly why: string | null;
  private readonly expectation: Expectation;

  /** `request` is a reason where the deck or the day is not at hand. */
  constructor(plan: Plan, request: PlanRequest | string) {
    this.plan = plan;
    const found = typeof request !== 'string' && request.fingerprint === plan.fingerprint;
    this.why = found
      ? null
      : typeof request === 'string'
        ? request
        : `the sortie that is open is ${request.fingerprint}, not the plan ${plan.fingerprint} that is flown`;
    this.on = found ? new FlyingOn(request, plan) : null;
    const slopes = found ? slopesOf(plan, request) : null;
    this.slopes = slopes;
    this.expectation = new Expectation(plan, slopes === null ? undefined : (node) => slopes[node]);
  }

  /** With null between two flights. */
  *follow(answer: Answer, readings: readonly Entry[]): Generator<null, FollowedOn> {
    const { plan, expectation, on } = this;
    const takeOffS = Date.parse(plan.takeOff) / 1000;
    const told = { plan, answer, readings, expectation, takeOffS };
    const follows = yield* following(told, on, this.why);
    const now = { timeS: answer.timeS, planTimeS: answer.planTimeS, takeOffS };
    if (on === null) return { follows, areas: [] };
    try {
      return { follows, areas: yield* areasNow(on, now, deviationNow(told)) };
    } catch (error) {
      const failed = [...follows.failed, `what is in reach on the map: ${(error as Error).message}`];
      return { follows: { ...follows, failed }, areas: [] };
    }
  }
}
