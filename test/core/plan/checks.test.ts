/**
 * What is expected at the moments of a climb: against the trace of the same plan, the rows of the deck's tables read a second
 * time, and the standard atmosphere. No expected value is one that the program gave.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { totalTemperature } from '../../../src/core/air/thermally-perfect.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { CheckMoment, CheckReading, Plan, TraceColumn } from '../../../src/core/plan/plan.ts';
import { change, longLoopText, requestOf, sandmartin } from '../../support/demo.ts';

const plan = makePlan(requestOf(longLoopText));
const { columns } = plan.trace;

/** Moments that lie at a node of the trace; the others lie at a Mach, which may be between two. */
const atNode = ({ kind }: CheckMoment): boolean => !['gate', 'inletStart'].includes(kind);

/** The nodes beside a moment; of those at its very time, a disconnect's are in the contact, another's are not. */
function nodesOf(moment: CheckMoment): number[] {
  const { kind, timeS } = moment;
  const inContact = (node: number) => plan.phases[plan.trace.phase[node]].kind === 'contact';
  const there = columns.timeS.flatMap((time, node) => (Math.abs(time - timeS) < 1e-6 ? [node] : []));
  if (atNode(moment)) return there.filter((node) => inContact(node) === (kind === 'disconnect'));
  const after = columns.timeS.findIndex((time) => time >= timeS);
  return [after - 1, after];
}

/** Whether a value is that of a node of the moment, or lies between its two nodes; `slack` is a part of it. */
function agrees(moment: CheckMoment, key: TraceColumn, value: number, slack: number): boolean {
  const values = nodesOf(moment).map((node) => columns[key][node]);
  const room = slack * Math.abs(value);
  if (atNode(moment)) return values.some((there) => Math.abs(there - value) <= room);
  return value >= Math.min(...values) - room && value <= Math.max(...values) + room;
}

function of(moment: CheckMoment, key: string): CheckReading[] {
  return moment.readings.filter((reading) => reading.of === key);
}

const sum = (readings: readonly CheckReading[]): number =>
  readings.reduce((total, { expected }) => total + (expected ?? Number.NaN), 0);
const only = (moment: CheckMoment, key: string): number => of(moment, key)[0].expected ?? Number.NaN;

describe('moments', () => {
  const supersonic = plan.climbs.map(({ leg }) => leg);

  it('[CHECK-1] each climb from a tanker has each moment once, in order of time, and its gates are those of the climb card', () => {
    expect(supersonic.length).toBeGreaterThan(1);
    for (const leg of supersonic) {
      const moments = plan.checks.filter((moment) => moment.leg === leg);
      const kinds = moments.map(({ kind }) => kind).filter((kind) => kind !== 'gate');
      expect(kinds).toEqual(['disconnect', 'burner', 'dragRise', 'inletStart', 'levelOff']);
      const times = moments.map(({ timeS }) => timeS);
      expect(times).toEqual([...times].sort((a, b) => a - b));
      const rows = plan.climbs.find((climb) => climb.leg === leg)?.rows ?? [];
      const gates = moments.filter(({ kind }) => kind === 'gate');
      expect(gates.map(({ mach }) => mach)).toEqual(
        rows.slice(0, -1).flatMap(({ mach }) => (mach > 1 ? [mach] : [])),
      );
    }
  });

  it('[CHECK-2] a disconnect is at the end of its contact, the drag rise at the start of the pushover, the level-off where the cruise begins', () => {
    for (const { kind, leg, timeS } of plan.checks) {
      const phase = (wanted: string) => plan.phases.find((of) => of.leg === leg && of.kind === wanted);
      const ends = plan.refuellings.map(({ disconnectS }) => Math.abs(disconnectS - timeS));
      if (kind === 'disconnect') expect(Math.min(...ends)).toBeLessThan(1e-3);
      if (kind === 'dragRise') expect(timeS).toBeCloseTo(phase('pushover')?.startS ?? Number.NaN, 3);
      if (kind === 'levelOff') expect(timeS).toBeCloseTo(phase('cruise')?.startS ?? Number.NaN, 3);
    }
  });

  it('[CHECK-3] no engine is in afterburner between a disconnect and the moment at which it is lit', () => {
    const lit = sandmartin.propulsion.minimumAfterburner ?? Number.NaN;
    for (const { leg, timeS, engines } of plan.checks.filter(({ kind }) => kind === 'burner')) {
      expect(Math.max(...engines.map(({ power }) => power))).toBeGreaterThanOrEqual(lit);
      const from = plan.checks.find((moment) => moment.leg === leg && moment.kind === 'disconnect')?.timeS;
      columns.timeS.forEach((time, node) => {
        if (time > (from ?? 0) + 1e-3 && time < timeS - 1e-3) expect(columns.power[node]).toBeLessThan(lit);
      });
    }
  });

  it('[CHECK-4] the inlet starts at the last Mach at which its table has the first angle', () => {
    const rows = readFileSync('decks/sandmartin/inlet.csv', 'utf8')
      .split('\n')
      .filter((line) => /^\d/.test(line))
      .map((line) => line.split(',').map(Number));
    const start = rows.filter(([, , angle]) => angle === rows[0][2]).at(-1)?.[0];
    const moments = plan.checks.filter(({ kind }) => kind === 'inletStart');
    expect(moments.length).toBe(supersonic.length);
    for (const { mach } of moments) expect(mach).toBe(start);
  });
});

describe('readings', () => {
  it('[CHECK-5] fuel flow of the engines adds up to that of the trace, also where they are apart', () => {
    for (const moment of plan.checks) {
      // Between two nodes the trace is linear and the table is not quite; at a node they are one.
      const flow = sum(of(moment, 'fuelFlow'));
      expect(agrees(moment, 'fuelFlowKgS', flow, atNode(moment) ? 1e-9 : 0.02), moment.kind).toBe(true);
    }
    const apart = plan.checks.find(({ engines }) => Math.abs(engines[0].power - engines[1].power) > 0.5);
    expect(apart?.kind).toBe('disconnect');
    const flows = apart === undefined ? [] : of(apart, 'fuelFlow').map(({ expected }) => expected);
    expect(flows[0]).toBeGreaterThan(1.5 * (flows[1] ?? Number.NaN));
  });

  it('[CHECK-6] fuel, centre of gravity and temperatures are those of the trace', () => {
    for (const moment of plan.checks) {
      expect(agrees(moment, 'fuelKg', only(moment, 'fuel'), 1e-9)).toBe(true);
      expect(agrees(moment, 'cgFraction', only(moment, 'centreOfGravity'), 1e-9)).toBe(true);
      expect(agrees(moment, 'inletTemperatureK', only(moment, 'inletTemperature'), 1e-9)).toBe(true);
      expect(agrees(moment, 'temperatureK', only(moment, 'staticTemperature'), 1e-9)).toBe(true);
    }
  });

  it('[CHECK-7] each side of the inlet has a reading of its own, the same, and it never falls with Mach', () => {
    const ramps = plan.checks
      .map((moment) => ({ mach: moment.mach, angles: of(moment, 'ramp') }))
      .sort((a, b) => a.mach - b.mach);
    for (const { angles } of ramps) {
      expect(angles.map(({ side }) => side)).toEqual(['left', 'right']);
      expect(angles[0].expected).toBe(angles[1].expected);
    }
    for (let i = 1; i < ramps.length; i++) {
      expect(ramps[i].angles[0].expected).toBeGreaterThanOrEqual(ramps[i - 1].angles[0].expected ?? 0);
    }
    expect(ramps[ramps.length - 1].angles[0].expected).toBeGreaterThan(15);
  });

  it('[CHECK-8] the standard value is that of the standard atmosphere at the same Mach and pressure altitude', () => {
    // 36 089 ft and above to 65 617 ft: 216.65 K (US Standard Atmosphere 1976, table 4); probe recovery 0.99 (the deck).
    const high = plan.checks.filter(
      ({ pressureAltitudeM }) => pressureAltitudeM > 11_000 && pressureAltitudeM < 20_000,
    );
    expect(high.length).toBeGreaterThan(3);
    for (const moment of high) {
      expect(of(moment, 'staticTemperature')[0].standard).toBeCloseTo(216.65, 9);
      const total = totalTemperature(216.65, moment.mach * Math.sqrt(1.4 * 287.053072 * 216.65));
      const gauge = 216.65 + 0.99 * (total - 216.65);
      expect(of(moment, 'inletTemperature')[0].standard).toBeCloseTo(gauge, 2);
    }
  });

  it('[CHECK-9] on the standard day, what is expected is the standard value', () => {
    const still = makePlan(
      requestOf(change(longLoopText, [/weather:\n( {2}.*\n)+/, 'weather: { day: standard }\n'])),
    );
    expect(still.checks.length).toBeGreaterThan(5);
    for (const { readings } of still.checks) {
      for (const { of: key, expected, standard } of readings) {
        if (standard !== null) expect(Math.abs((expected ?? 0) / standard - 1), key).toBeLessThan(1e-6);
      }
    }
  });

  it('[CHECK-10] tolerances are those of the deck, by the rule of each: a part of what is expected, or a difference', () => {
    for (const moment of plan.checks) {
      for (const { expected, tolerance } of of(moment, 'fuelFlow')) {
        expect(tolerance).toBeCloseTo(0.04 * (expected ?? Number.NaN), 12);
      }
      expect(of(moment, 'nozzle')[0].tolerance).toBeCloseTo(0.06, 12);
      expect(of(moment, 'ramp')[0].tolerance).toBeCloseTo(0.5, 12);
      expect(of(moment, 'inletTemperature')[0].tolerance).toBeCloseTo(5, 12);
    }
  });
});

describe('what a deck or a sortie leaves out', () => {
  const planWith = (aircraft: typeof sandmartin, text = longLoopText): Plan =>
    makePlan({ ...requestOf(text), aircraft });

  it('[CHECK-11] without schedules there is no position and no inlet start, and the plan says so', () => {
    const bare = planWith({ ...sandmartin, schedules: [], checks: [] });
    expect(bare.checks.some(({ kind }) => kind === 'inletStart')).toBe(false);
    const keys = new Set(bare.checks.flatMap(({ readings }) => readings.map((reading) => reading.of)));
    expect([...keys].sort()).toEqual([
      'centreOfGravity',
      'fuel',
      'fuelFlow',
      'inletTemperature',
      'staticTemperature',
    ]);
    expect(bare.checks.every(({ readings }) => readings.every(({ tolerance }) => tolerance === null))).toBe(
      true,
    );
    expect(bare.notComputed).toContain('nozzle, inlet and other positions: the deck has no schedules');
    expect(bare.notComputed).toContain('tolerances and actions of the checks: the deck has no checks');
  });

  it('[CHECK-12] beyond its table a position is not computed, and the reading says why', () => {
    const schedules = sandmartin.schedules.map((schedule) =>
      schedule.of === 'side' ? { ...schedule, at: () => Number.NaN } : schedule,
    );
    const [moment] = planWith({ ...sandmartin, schedules }).checks;
    for (const { expected, reason } of of(moment, 'ramp')) {
      expect(expected).toBeNull();
      expect(reason).toBe("outside the deck's table of the inlet");
    }
    for (const { reason } of of(moment, 'nozzle')) expect(reason).toBeNull();
  });

  it('[CHECK-13] the steps of a crew stand before or after the readings of their moment, on their leg', () => {
    const text = change(longLoopText, [
      /checklist:\n( {2}.*\n)+/,
      `checklist:
  - { at: burner, text: first }
  - { before: burner, text: ahead }
  - { at: burner, text: second }
  - { at: 1.75 Mach, leg: Northern loop, text: own gate }
  - { at: 9 Mach, text: never }
`,
    ]);
    const { checks, notComputed } = makePlan(requestOf(text));
    const burners = checks.filter(({ kind }) => kind === 'burner');
    expect(burners.length).toBe(plan.climbs.length);
    for (const { stepsBefore, stepsAfter } of burners) {
      expect(stepsBefore).toEqual(['ahead']);
      expect(stepsAfter).toEqual(['first', 'second']);
    }
    const own = checks.filter(({ kind, mach }) => kind === 'gate' && mach === 1.75);
    expect(own.map(({ leg, stepsAfter }) => [leg, stepsAfter])).toEqual([[1, ['own gate']]]);
    expect(notComputed).toContain('when to do "never": no leg of its comes to Mach 9 in a climb');
  });

  it('[CHECK-14] a sortie goes before the deck', () => {
    const text = change(longLoopText, [
      'checklist:\n',
      'checks: [{ of: fuelFlow, within: 3 kg/min }, { of: fuel, at: burner, action: look twice }]\nchecklist:\n',
    ]);
    const { checks } = makePlan(requestOf(text));
    for (const moment of checks) {
      for (const { tolerance } of of(moment, 'fuelFlow')) expect(tolerance).toBeCloseTo(0.05, 12);
      const [{ tolerance, action }] = of(moment, 'fuel');
      expect(tolerance).toBe(300);
      expect(action === 'look twice').toBe(moment.kind === 'burner');
    }
  });
});
