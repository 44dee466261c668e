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
 * Gates of the leg that is flown, to its contact or landing: beyond a contact the tanker decides. A gate is a place: a headwind
 * costs the flow there for as long as it delays.
 */
export function gatesAhead(expectation: Expectation, now: Expected, mixture: Mixture): GateFuel[] {
  const contact = expectation.contacts.find(({ startS }) => startS >= now.timeS);
  const until = contact?.startS ?? Number.POSITIVE_INFINITY;
  return expectation.gates
    .filter(({ timeS }) => timeS > now.timeS && timeS <= until + 1)
    .map((gate) => gateOf(gate, expectation, now, mixture));
}

const then = newExpected();
const row = new Float64Array(ORDER);

function gateOf(gate: Gate, expectation: Expectation, now: Expected, mixture: Mixture): GateFuel {
  expectation.at(gate.timeS, then);
  const seconds = gate.timeS - now.timeS;
  const speed = Math.max(1, then.groundSpeedMS);
  row.fill(0);
  row[STATE.lag] = 1 / speed;
  row[STATE.headwind] = seconds / speed;
  row[STATE.temperature] = (now.temperatureM - then.temperatureM) / speed;
  const later = estimateAlong(mixture, row);
  const flow = then.fuelFlowKgS;
  for (let i = 0; i < ORDER; i++) row[i] *= -flow;
  row[STATE.fuel] += 1;
  row[STATE.left] -= 0.5 * (then.burntKg - now.burntKg);
  row[STATE.right] -= 0.5 * (then.burntKg - now.burntKg);
  row[STATE.drag] -= then.dragKg - now.dragKg;
  row[STATE.temperature] -= then.temperatureKgK - now.temperatureKgK;
  row[STATE.leak] -= seconds;
  const more = estimateAlong(mixture, row);
  return {
    ...gate,
    laterS: later.mean,
    plannedKg: then.fuelKg,
    fuelKg: { mean: then.fuelKg + more.mean, sd: more.sd },
  };
}
