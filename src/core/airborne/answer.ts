/** What the readings come to: the state with its spread, the alert, its cause or none that can be told. */
import { type CauseKey, causes, groupOf } from './causes.ts';
import { type Expectation, newExpected } from './expectation.ts';
import { type GateFuel, gatesAhead } from './gates.ts';
import { type Estimate, estimateAlong, type Mixture, mixtureOf } from './mixture.ts';
import { ORDER, STATE } from './model.ts';
import { type CauseOdds, oddsOf } from './odds.ts';
import type { Question } from './plausible.ts';
import type { ReadKey } from './reading.ts';
import type { Run } from './run.ts';

/** A cause is named where it is at least so sure. */
const namedAt = 0.85;

export interface Alert {
  readonly raisedS: number;
  /** null: cannot tell. */
  readonly cause: CauseKey | null;
  /** The likeliest first, those that cannot be told apart as one; probabilities add to 1. */
  readonly odds: readonly CauseOdds[];
  readonly sinceS: number;
  readonly sinceSdS: number;
  /** That anything has changed, over nothing. */
  readonly evidence: number;
}

/** A change that is sure and went into the estimate. */
export interface KnownCause {
  readonly cause: CauseKey;
  readonly sinceS: number;
  readonly raisedS: number;
  readonly learnedS: number;
  readonly amount: Estimate;
}

export interface Answer {
  /** Of the last reading taken. */
  readonly timeS: number;
  readonly planTimeS: number;
  /** On board less planned, at equal energy [kg]. */
  readonly fuelKg: Estimate;
  /** On board [kg]. */
  readonly onBoardKg: Estimate;
  /** More than planned burnt or lost, each second [kg/s]. */
  readonly rateKgS: Estimate;
  readonly factors: Readonly<Record<keyof typeof STATE, Estimate>>;
  readonly alert: Alert | null;
  readonly known: readonly KnownCause[];
  readonly questions: readonly Question[];
  readonly unexplained: readonly { readonly key: ReadKey; readonly timeS: number }[];
  readonly evidence: number;
  readonly noise: string;
  readonly gates: readonly GateFuel[];
  /** The state over all that may be, in the order of `STATE`. */
  readonly state: Mixture;
}

export function answerOf(run: Run, expectation: Expectation): Answer {
  const { weighed, timeS } = run;
  const mixture = mixtureOf(run);
  const planTimeS = run.planTime(timeS);
  const at = newExpected();
  expectation.at(planTimeS, at);
  const along = (row: Float64Array): Estimate => estimateAlong(mixture, row);
  const unit = (state: number): Float64Array =>
    Float64Array.from({ length: ORDER }, (_, i) => (i === state ? 1 : 0));
  const rate = new Float64Array(ORDER);
  rate[STATE.left] = 0.5 * at.fuelFlowKgS;
  rate[STATE.right] = rate[STATE.left];
  rate[STATE.drag] = at.dragFlowKgS;
  rate[STATE.temperature] = at.temperatureFlowKgSK;
  rate[STATE.leak] = 1;
  const fuelKg = along(unit(STATE.fuel));
  const factors = Object.fromEntries(Object.entries(STATE).map(([key, i]) => [key, along(unit(i))]));
  return {
    timeS,
    planTimeS,
    fuelKg,
    onBoardKg: { mean: at.fuelKg + fuelKg.mean, sd: fuelKg.sd },
    rateKgS: along(rate),
    factors: factors as Answer['factors'],
    alert: alertOf(run),
    known: run.known.map(({ cause, sinceS, raisedS, learnedS }) => {
      const { direction, key } = causes[cause];
      const states = direction.reduce((sum, each) => sum + each, 0);
      return {
        cause: groupOf(key),
        sinceS,
        raisedS,
        learnedS,
        amount: along(direction.map((each) => each / states)),
      };
    }),
    questions: run.questions,
    unexplained: [...run.unexplained].map(([key, sinceS]) => ({ key, timeS: sinceS })),
    evidence: weighed.evidence,
    noise: run.watches[weighed.likeliest].noise.key,
    gates: gatesAhead(expectation, at, mixture),
    state: mixture,
  };
}

function alertOf({ raised, weighed, watches }: Run): Alert | null {
  if (raised === null) return null;
  const odds = grouped(oddsOf(watches, weighed));
  const [best] = odds;
  return {
    raisedS: raised.raisedS,
    cause: best.probability >= namedAt ? best.key : null,
    odds,
    sinceS: best.sinceS,
    sinceSdS: best.sinceSdS,
    evidence: weighed.evidence,
  };
}

/** The likelier of a group speaks for it, with the probability of both. */
function grouped(odds: readonly CauseOdds[]): CauseOdds[] {
  const groups = new Map<CauseKey, CauseOdds>();
  for (const each of odds) {
    const key = groupOf(each.key);
    const there = groups.get(key);
    groups.set(
      key,
      there ? { ...there, probability: there.probability + each.probability } : { ...each, key },
    );
  }
  return [...groups.values()].sort((a, b) => b.probability - a.probability);
}
