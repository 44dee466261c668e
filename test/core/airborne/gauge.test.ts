/** The inlet gauge against the air, and limits as they were read: by hand and by published relations. */
import { describe, expect, it } from 'vitest';
import { Expectation, type TraceOf } from '../../../src/core/airborne/expectation.ts';
import { inletGauge } from '../../../src/core/airborne/gauge.ts';
import { limitsRead } from '../../../src/core/airborne/limits-met.ts';
import type { Entry } from '../../../src/core/airborne/reading.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { TRACE_COLUMNS, type TraceColumn } from '../../../src/core/plan/plan-trace.ts';
import { testPlan } from '../../support/plan.ts';

/** Level in air of one temperature, the Mach a line of time. */
function flown(airK: number, machAt: (timeS: number) => number): Expectation {
  const timeS = Array.from({ length: 61 }, (_, i) => 10 * i);
  const columns = Object.fromEntries(TRACE_COLUMNS.map((key) => [key, timeS.map(() => 1)])) as Record<
    TraceColumn,
    number[]
  >;
  columns.timeS = timeS;
  columns.mach = timeS.map(machAt);
  columns.temperatureK = timeS.map(() => airK);
  const trace = { columns, margins: {}, bounds: {}, closeness: {}, phase: [], next: [] };
  return new Expectation({ trace, phases: [], events: [] } satisfies TraceOf);
}

describe('[AIRGAUGE-1] recovery', () => {
  // 216.65 K at Mach 3.1: with real cp (NASA/TP-2002-211556) the total temperature is 623 to 633 K; with a constant one 633.0 K.
  const gauges = { inletTemperatureRecovery: 0.99, inletTemperatureLagS: 0, units: {} };
  const expectation = flown(216.65, () => 3.1);

  it('takes a hundredth of the rise over the air', () => {
    const { totalK, recoveryK, expectedK, lagK, airK } = inletGauge(gauges, expectation, 300, 0, 0, null);
    expect(totalK).toBeGreaterThan(620);
    expect(totalK).toBeLessThan(633);
    expect(recoveryK).toBeCloseTo(0.01 * (totalK - 216.65), 9);
    expect(expectedK).toBeCloseTo(totalK - recoveryK, 9);
    expect([lagK, airK]).toEqual([0, 216.65]);
  });

  it('the gauge moves by 2.77 K for a kelvin of the air and by 2.55 K for 0.01 Mach, less its hundredth', () => {
    // Slopes of the total temperature at Mach 3.1 and 216.65 K by the relation of thermally perfect air, 1 %.
    const at = (warmerK: number, faster: number) =>
      inletGauge(gauges, expectation, 300, warmerK, faster, null).expectedK;
    expect((at(1, 0) - at(-1, 0)) / 2 / (1 + 0.99 * 1.77)).toBeCloseTo(1, 2);
    expect((at(0, 0.01) - at(0, -0.01)) / 2 / (0.99 * 2.55)).toBeCloseTo(1, 2);
  });

  it('a reading means an air, which 0.01 Mach moves by 0.92 K', () => {
    const readK = inletGauge(gauges, expectation, 300, 4, 0, null).expectedK;
    const { read } = inletGauge(gauges, expectation, 300, 0, 0, {
      timeS: 310,
      planTimeS: 300,
      readK,
      mach: 3.1,
    });
    expect(read?.airK).toBeCloseTo(220.65, 3);
    expect(read?.perHundredthMachK).toBeGreaterThan(0.88);
    expect(read?.perHundredthMachK).toBeLessThan(0.98);
  });
});

describe('[AIRGAUGE-2] lag', () => {
  it('behind a steady rise the gauge reads what was there a time constant ago', () => {
    const gauges = { inletTemperatureRecovery: 1, inletTemperatureLagS: 6, units: {} };
    const rising = flown(216.65, (timeS) => 2 + timeS / 3000);
    const at = (timeS: number) =>
      inletGauge({ ...gauges, inletTemperatureLagS: 0 }, rising, timeS, 0, 0, null).expectedK;
    const { expectedK, lagK } = inletGauge(gauges, rising, 500, 0, 0, null);
    // tau y' = x - y: y lags a ramp by tau; after 5 tau all but 0.7 % of it, and the ramp is slightly bent.
    expect(expectedK / at(494)).toBeCloseTo(1, 4);
    expect(lagK / (at(500) - at(494))).toBeCloseTo(1, 1);
  });

  it('is none where nothing changes', () => {
    const gauges = { inletTemperatureRecovery: 1, inletTemperatureLagS: 6, units: {} };
    expect(
      inletGauge(
        gauges,
        flown(216.65, () => 3),
        500,
        0,
        0,
        null,
      ).lagK,
    ).toBeCloseTo(0, 9);
  });
});

describe('[AIRLIMIT-1] limits as they were read', () => {
  const plan = testPlan();
  const inlet = plan.limits.find(
    ({ quantity }) => quantity === 'inletTemperatureK',
  ) as Plan['limits'][number];
  const bounds = {
    limits: null,
    plan,
    planTime: (timeS: number) => timeS,
    expectedAt: new Expectation(plan).at.bind(new Expectation(plan)),
  };
  const boundK = () => plan.trace.bounds[inlet.key][0];
  const read = (timeS: number, value: number, key: Entry['key'] = 'inletTemperatureK'): Entry => ({
    timeS,
    key,
    value,
    status: 'read',
  });

  it('margin, least margin and time above on straight lines between readings', () => {
    const entries = [-2, 4, 4, -4].map((overK, i) => read(3000 + 60 * i, boundK() + overK));
    const [row] = limitsRead(entries, bounds, {}).filter(({ key }) => key === inlet.key);
    expect(row.margin).toBeCloseTo(4, 9);
    expect(row.least).toEqual({ timeS: 3060, margin: -4 });
    // Two thirds of the first minute, the second, half of the third.
    expect(row.beyondS).toBeCloseTo(40 + 60 + 30, 6);
    expect(row.checkGauge).toBe(false);
  });

  it('readings a quarter of an hour apart are no line, and what is withdrawn counts for nothing', () => {
    const far = [read(3000, boundK() + 5), read(4000, boundK() + 5)];
    const rows = (entries: readonly Entry[]) => limitsRead(entries, bounds, {});
    expect(rows(far).find(({ key }) => key === inlet.key)?.beyondS).toBe(0);
    expect(rows([{ ...far[0], status: 'withdrawn' }])).toEqual([]);
  });

  it('beyond the limit where the estimate is far below it: another gauge', () => {
    const expected = { inletTemperatureK: { value: boundK() - 60, sd: 3 } };
    const [row] = limitsRead([read(3000, boundK() + 3)], bounds, expected);
    expect(row.checkGauge).toBe(true);
  });
});
