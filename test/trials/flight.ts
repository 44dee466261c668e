/**
 * Cruises for the trials: one of constant fuel flow, and one that the core flies with the invented deck of Sandmartin, as planned and
 * with something that changes at a minute. Level flight is solved anew every 15 s for the weight, the air and the drag there.
 */

import { quickTotalTemperature } from '../../src/core/air/quick-total.ts';
import { geometricFromGeopotential, standardTemperature } from '../../src/core/air/standard.ts';
import { deckSlopes } from '../../src/core/airborne/deck-slopes.ts';
import type { FlowSlopes, TraceOf } from '../../src/core/airborne/expectation.ts';
import { Expectation } from '../../src/core/airborne/expectation.ts';
import type { EnginePoint } from '../../src/core/aircraft/aircraft.ts';
import { levelFlight, newLevelPoint } from '../../src/core/optimise/level-flight.ts';
import { TRACE_COLUMNS, type TraceColumn } from '../../src/core/plan/plan-trace.ts';
import { gammaAir, gasConstant, standardGravity } from '../../src/core/quantities/constants.ts';
import { sandmartin } from '../support/demo.ts';

const MINUTE = 60;
const MACH = 2.85;

/** What differs from the plan at a time; factors on drag and on the flow of each engine. */
export interface Deviation {
  readonly drag: number;
  readonly left: number;
  readonly right: number;
  readonly temperatureK: number;
  readonly headwindMS: number;
  readonly leakKgS: number;
  /** Added to the fuel gauge alone. */
  readonly gaugeKg: number;
}

const asPlanned: Deviation = {
  drag: 1,
  left: 1,
  right: 1,
  temperatureK: 0,
  headwindMS: 0,
  leakKgS: 0,
  gaugeKg: 0,
};

/** One moment of a flight, without any scatter of gauges. */
export interface Moment {
  readonly timeS: number;
  readonly fuelKg: number;
  readonly burntKg: number;
  readonly leftKgS: number;
  readonly rightKgS: number;
  readonly inletTemperatureK: number;
  readonly groundSpeedMS: number;
  readonly distanceM: number;
  readonly gaugeKg: number;
}

export type Deviating = (timeS: number) => Deviation;

interface Cruise {
  readonly moments: readonly Moment[];
  readonly columns: Record<TraceColumn, number[]>;
}

const stepS = 15;
const startKg = 36_000;

/** Level at Mach 2.85 from 20.0 km, 20 m higher each minute, still air 2 K colder than standard. */
function flyCruise(minutes: number, of: Deviating): Cruise {
  const columns = Object.fromEntries(TRACE_COLUMNS.map((key) => [key, [] as number[]])) as Record<
    TraceColumn,
    number[]
  >;
  const moments: Moment[] = [];
  const level = newLevelPoint();
  const engine: EnginePoint = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };
  let [fuelKg, burntKg, distanceM] = [startKg, 0, 0];
  for (let timeS = 0; timeS <= minutes * MINUTE; timeS += stepS) {
    const now = of(timeS);
    const altitudeM = 20_000 + (20 * timeS) / MINUTE;
    const massKg = sandmartin.balance.emptyMassKg + fuelKg;
    const offsetK = now.temperatureK - 2;
    levelFlight(sandmartin, MACH, altitudeM, offsetK, massKg * standardGravity, fuelKg, level);
    const heightM = geometricFromGeopotential(altitudeM);
    const dragN = level.thrustN * now.drag;
    sandmartin.propulsion.powerFor(dragN / 2, MACH, altitudeM, heightM, offsetK, engine);
    const [left, right] = [engine.fuelFlowKgS * now.left, engine.fuelFlowKgS * now.right];
    const temperatureK = standardTemperature(altitudeM) + offsetK;
    const speed = MACH * Math.sqrt(gammaAir * gasConstant * temperatureK);
    const total = quickTotalTemperature(temperatureK, speed);
    const inletTemperatureK =
      temperatureK + sandmartin.gauges.inletTemperatureRecovery * (total - temperatureK);
    const groundSpeedMS = speed - now.headwindMS;
    moments.push({
      timeS,
      fuelKg,
      burntKg,
      leftKgS: left,
      rightKgS: right,
      inletTemperatureK,
      groundSpeedMS,
      distanceM,
      gaugeKg: now.gaugeKg,
    });
    const node: Partial<Record<TraceColumn, number>> = {
      timeS,
      fuelKg,
      fuelFlowKgS: left + right,
      mach: MACH,
      pressureAltitudeM: altitudeM,
      geometricHeightM: heightM,
      energyHeightM: heightM + (speed * speed) / (2 * standardGravity),
      massKg,
      trueAirspeedMS: speed,
      groundSpeedMS,
      distanceM,
      temperatureK,
      temperatureOffsetK: offsetK,
      inletTemperatureK,
      power: engine.power,
      thrustN: dragN,
      dragN,
    };
    for (const key of TRACE_COLUMNS) columns[key].push(node[key] ?? 0);
    fuelKg -= stepS * (left + right + now.leakKgS);
    burntKg += stepS * (left + right);
    distanceM += stepS * groundSpeedMS;
  }
  return { moments, columns };
}

export interface Flown {
  readonly expectation: Expectation;
  /** Every 15 s. */
  readonly moments: readonly Moment[];
}

/** One plan, and the flight that deviates from it. */
export function cruise(minutes: number, of: Deviating = () => asPlanned): Flown {
  const planned = flyCruise(minutes, () => asPlanned);
  return {
    expectation: expect(planned.columns, deckSlopes(sandmartin, planned)),
    moments: flyCruise(minutes, of).moments,
  };
}

function expect(
  columns: Record<TraceColumn, number[]>,
  slopes?: (node: number) => FlowSlopes | null,
): Expectation {
  const trace = { columns, margins: {}, bounds: {}, closeness: {}, phase: [], next: [] };
  const plan: TraceOf = { trace, phases: [], events: [] };
  return new Expectation(plan, slopes);
}

/** Constant fuel flow of 300 kg a minute as the plan has it, a share more of it from a minute on. */
export function steady(minutes: number, share = 0, fromMinute = 20): Flown {
  const flow = 18_000 / 3600;
  const { columns } = flyCruise(minutes, () => asPlanned);
  const fuelAt = (timeS: number, more: number): number =>
    startKg - flow * timeS - flow * more * Math.max(0, timeS - fromMinute * MINUTE);
  const { timeS } = columns;
  const same: Record<TraceColumn, number[]> = { ...columns };
  for (const key of TRACE_COLUMNS) same[key] = columns[key].map(() => columns[key][0]);
  same.timeS = timeS;
  same.distanceM = timeS.map((at) => at * columns.groundSpeedMS[0]);
  same.fuelKg = timeS.map((at) => fuelAt(at, 0));
  same.fuelFlowKgS = timeS.map(() => flow);
  const moments = timeS.map((at, i): Moment => {
    const now = at >= fromMinute * MINUTE ? flow * (1 + share) : flow;
    return {
      timeS: at,
      fuelKg: fuelAt(at, share),
      burntKg: startKg - fuelAt(at, share),
      leftKgS: now / 2,
      rightKgS: now / 2,
      inletTemperatureK: same.inletTemperatureK[i],
      groundSpeedMS: same.groundSpeedMS[i],
      distanceM: same.distanceM[i],
      gaugeKg: 0,
    };
  });
  return { expectation: expect(same), moments };
}

/** A deviation that begins at a minute and lasts. */
export function from(minute: number, what: Partial<Deviation>): Deviating {
  return (timeS) => (timeS >= minute * MINUTE ? { ...asPlanned, ...what } : asPlanned);
}
