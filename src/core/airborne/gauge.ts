/** The inlet gauge against the air: what it should read now with its recovery and lag, and what air a reading of it means. */
import { quickTotalTemperature } from '../air/quick-total.ts';
import type { Gauges } from '../aircraft/aircraft.ts';
import { gammaAir, gasConstant } from '../quantities/constants.ts';
import type { Expectation, Expected } from './expectation.ts';
import { newExpected } from './expectation.ts';

export interface InletGauge {
  /** What the gauge should read with the air that is estimated, after its lag. */
  readonly expectedK: number;
  /** Total temperature at the probe, and by how much recovery and lag make the gauge read lower than it. */
  readonly totalK: number;
  readonly recoveryK: number;
  readonly lagK: number;
  /** Estimated static temperature. */
  readonly airK: number;
  /** What was read last, the static temperature that it means at the Mach there, and by how much 0.01 Mach moves that. */
  readonly read: {
    readonly timeS: number;
    readonly readK: number;
    readonly airK: number;
    readonly perHundredthMachK: number;
  } | null;
}

/** What was read of the inlet gauge, with the Mach and the moment of the plan there. */
export interface InletReading {
  readonly timeS: number;
  readonly planTimeS: number;
  readonly readK: number;
  /** As read; null: that of the plan. */
  readonly mach: number | null;
}

/** Time constants over which the past of a lag is followed. */
const remembered = 5;
const samples = 40;

/** `temperatureK` is how much warmer the air is than planned, `machMore` how much faster is flown; recovery 0 to 1, lag >= 0 s. */
export function inletGauge(
  { inletTemperatureRecovery: recovery, inletTemperatureLagS: lagS }: Gauges,
  expectation: Expectation,
  planTimeS: number,
  temperatureK: number,
  machMore: number,
  reading: InletReading | null,
): InletGauge {
  const steady = (timeS: number): number => {
    expectation.at(timeS, at);
    return probe(at.temperatureK + temperatureK, at.mach + machMore, recovery).indicatedK;
  };
  const lagged = lagS > 0 ? laggedBy(lagS, planTimeS, expectation.startS, steady) : steady(planTimeS);
  const now = steady(planTimeS);
  const airK = at.temperatureK + temperatureK;
  const { totalK } = probe(airK, at.mach + machMore, recovery);
  return {
    expectedK: lagged,
    totalK,
    recoveryK: totalK - now,
    lagK: now - lagged,
    airK,
    read: reading === null ? null : airOf(reading, expectation, recovery),
  };
}

const at: Expected = newExpected();

function probe(airK: number, mach: number, recovery: number) {
  const totalK = quickTotalTemperature(airK, mach * Math.sqrt(gammaAir * gasConstant * airK));
  return { totalK, indicatedK: airK + recovery * (totalK - airK) };
}

/**
 * First-order lag, tau y' = x - y, of a signal that was steady before the time remembered: exact between samples for a signal that is
 * linear there.
 */
function laggedBy(tauS: number, nowS: number, startS: number, signal: (timeS: number) => number): number {
  const fromS = Math.max(startS, nowS - remembered * tauS);
  const stepS = (nowS - fromS) / samples;
  let before = signal(fromS);
  let y = before;
  if (!(stepS > 0)) return y;
  const kept = Math.exp(-stepS / tauS);
  for (let i = 1; i <= samples; i++) {
    const x = signal(fromS + i * stepS);
    const slope = (x - before) / stepS;
    y = x - slope * tauS + (y - before + slope * tauS) * kept;
    before = x;
  }
  return y;
}

/** The static temperature with which a steady gauge reads so, by Newton's rule: what is indicated grows nearly in proportion to it. */
function airOf(
  { timeS, planTimeS, readK, mach: read }: InletReading,
  expectation: Expectation,
  recovery: number,
): InletGauge['read'] {
  expectation.at(planTimeS, at);
  const mach = read ?? at.mach;
  const means = (other: number): number => {
    let airK = at.temperatureK;
    for (let round = 0; round < 20; round++) {
      const next = (airK * readK) / probe(airK, other, recovery).indicatedK;
      if (Math.abs(next - airK) < 1e-6) return next;
      airK = next;
    }
    return airK;
  };
  const perHundredthMachK = Math.abs(means(mach + 0.005) - means(mach - 0.005));
  return { timeS, readK, airK: means(mach), perHundredthMachK };
}
