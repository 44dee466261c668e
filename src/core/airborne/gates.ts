/** Fuel at each moment of the plan that is still ahead, if what is found now goes on, with its spread. */
import { type Expectation, type Expected, type Gate, newExpected } from './expectation.ts';
import { type Estimate, estimateAlong, type Mixture } from './mixture.ts';
import { ORDER, STATE } from './model.ts';

export interface GateFuel extends Gate {
  /** When the plan's place is reached, with the wind found: after the plan's time [s]. */
  readonly laterS: number;
  readonly plannedKg: number;
  readonly fuelKg: Estimate;
}

/**
 * Gates of the leg that is flown, to its contact or landing: beyond a contact the tanker decides. A gate is a place: what a
 * headwind loses of the way is made up for in the fastest level flight before it, at the fuel flow there.
 */
export function gatesAhead(expectation: Expectation, now: Expected, mixture: Mixture): GateFuel[] {
  const contact = expectation.contacts.find(({ startS }) => startS >= now.timeS);
  const until = contact?.startS ?? Number.POSITIVE_INFINITY;
  return expectation.gates
    .filter(({ timeS }) => timeS > now.timeS && timeS <= until + 1)
    .map((gate) => gateOf(gate, expectation, now, mixture));
}

const then = newExpected();
const madeUp = newExpected();
const row = new Float64Array(ORDER);

function gateOf(gate: Gate, expectation: Expectation, now: Expected, mixture: Mixture): GateFuel {
  fuelAlong(gate.timeS, expectation, now, row);
  const more = estimateAlong(mixture, row);
  laterAlong(gate.timeS, now, row);
  const later = estimateAlong(mixture, row);
  return {
    ...gate,
    laterS: later.mean,
    plannedKg: then.fuelKg,
    fuelKg: { mean: then.fuelKg + more.mean, sd: more.sd },
  };
}

/** Moments looked at between now and a gate. */
const samples = 20;

/** Fills `madeUp` with the fastest moment until a gate at which power follows drag; that of the gate where there is none. */
function findMadeUp(timeS: number, expectation: Expectation, now: Expected): void {
  let fastest = 0;
  let bestS = timeS;
  for (let i = 0; i <= samples; i++) {
    const atS = now.timeS + (i / samples) * (timeS - now.timeS);
    expectation.at(atS, madeUp);
    if (madeUp.dragFlowKgS <= 0 || madeUp.groundSpeedMS <= fastest) continue;
    fastest = madeUp.groundSpeedMS;
    bestS = atS;
  }
  expectation.at(bestS, madeUp);
}

/** How much later a place is reached, along the state; `then` is the plan there, `madeUp` where what is lost of the way is flown. */
function laterAlong(timeS: number, now: Expected, out: Float64Array): void {
  const speed = Math.max(1, madeUp.groundSpeedMS);
  out.fill(0);
  out[STATE.lag] = 1 / speed;
  out[STATE.headwind] = (timeS - now.timeS) / speed;
  out[STATE.temperature] = (now.temperatureM - then.temperatureM) / speed;
}

/** Fuel at the place that the plan reaches at a time, beside that of the plan, along the state [kg for each unit]. */
export function fuelAlong(timeS: number, expectation: Expectation, now: Expected, out: Float64Array): void {
  findMadeUp(timeS, expectation, now);
  expectation.at(timeS, then);
  laterAlong(timeS, now, out);
  for (let i = 0; i < ORDER; i++) out[i] *= -madeUp.fuelFlowKgS;
  out[STATE.fuel] += 1;
  out[STATE.left] -= 0.5 * (then.burntKg - now.burntKg);
  out[STATE.right] -= 0.5 * (then.burntKg - now.burntKg);
  out[STATE.drag] -= then.dragKg - now.dragKg;
  out[STATE.temperature] -= then.temperatureKgK - now.temperatureKgK;
  out[STATE.leak] -= timeS - now.timeS;
}
