/**
 * The plan of the demonstration as a whole: what is conserved, what belongs together, and geometry by a general-purpose
 * library. No expected value is one that the program gave.
 */
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { Plan, TraceColumn } from '../../../src/core/plan/plan.ts';
import type { Place } from '../../../src/core/plan/sortie.ts';
import { CannotPlan } from '../../../src/core/plan/sortie-flyer.ts';
import { change, longLoopText, requestOf, sandmartin } from '../../support/demo.ts';

const wgs84 = geographiclib.Geodesic.WGS84;
const request = requestOf(longLoopText);
const plan = makePlan(request);
const { columns } = plan.trace;
const nodes = columns.timeS.length;
const last = nodes - 1;
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const kindAt = (node: number): string => plan.phases[plan.trace.phase[node]].kind;

/** Metres between two places given in degrees. */
const between = (a: readonly [number, number], b: readonly [number, number]): number =>
  wgs84.Inverse(...a, ...b).s12 as number;

describe('fuel and mass', () => {
  const taken = sum(plan.refuellings.map((refuelling) => refuelling.takenKg));
  const landing = plan.events.find((event) => event.kind === 'landing');

  it('[PLAN-1] what was on board and taken is burnt by the phases, on the approach, or there on landing: to 0.1 kg', () => {
    const lost = sum(plan.phases.map((phase) => phase.fuelKg));
    const approach = 400;
    const left = 14_000 - lost - approach;
    expect(Math.abs(left - (landing?.fuelKg ?? Number.NaN))).toBeLessThan(0.1);
    const burnt = sum(plan.phases.filter(({ kind }) => kind !== 'contact').map((phase) => phase.fuelKg));
    const inContact = sum(plan.refuellings.map((refuelling) => refuelling.burntKg));
    expect(Math.abs(14_000 + taken - burnt - inContact - approach - (landing?.fuelKg ?? 0))).toBeLessThan(
      0.1,
    );
  });

  it('[PLAN-2] each phase burns what the fuel of its first and last node differ by, and fuel flow over time', () => {
    plan.phases.forEach((phase, index) => {
      if (phase.kind === 'take-off') return;
      const first = plan.trace.phase.indexOf(index);
      const end = plan.trace.phase.lastIndexOf(index);
      expect(Math.abs(columns.fuelKg[first] - columns.fuelKg[end] - phase.fuelKg), phase.name).toBeLessThan(
        0.1,
      );
      expect(Math.abs(columns.timeS[first] - phase.startS), phase.name).toBeLessThan(0.01);
      expect(Math.abs(columns.timeS[end] - phase.endS), phase.name).toBeLessThan(0.01);
    });
    for (const index of plan.phases.flatMap(({ kind }, i) => (kind === 'cruise' ? [i] : []))) {
      let flow = 0;
      for (let i = plan.trace.phase.indexOf(index) + 1; plan.trace.phase[i] === index; i++) {
        flow +=
          0.5 *
          (columns.fuelFlowKgS[i] + columns.fuelFlowKgS[i - 1]) *
          (columns.timeS[i] - columns.timeS[i - 1]);
      }
      expect(Math.abs(flow / plan.phases[index].fuelKg - 1), plan.phases[index].name).toBeLessThan(2e-3);
    }
  });

  it('[PLAN-3] mass is fuel and what the deck weighs without it; fuel comes at the rate of the tanker', () => {
    const emptyKg = 35_200 + 600 + 900;
    for (let i = 0; i < nodes; i++) {
      expect(Math.abs(columns.massKg[i] - columns.fuelKg[i] - emptyKg)).toBeLessThan(0.01);
    }
    for (const { takenKg, contactS, disconnectS } of plan.refuellings) {
      expect(takenKg / (disconnectS - contactS)).toBeCloseTo(3000 / 60, 3);
    }
    expect(plan.refuellings[0].takenKg + plan.refuellings[0].offloadLeftKg).toBeCloseTo(38_000, 3);
    expect(plan.refuellings[1].takenKg).toBeCloseTo(17_000, 3);
  });

  it('[PLAN-4] full tanks are full at the disconnect, and one engine goes into afterburner before that', () => {
    const [full, less] = plan.refuellings;
    expect(full.fuelOnContactKg + full.takenKg - full.burntKg).toBeCloseTo(38_500, 0);
    expect(full.afterburnerFromKg).toBeGreaterThan(0);
    expect(full.afterburnerFromKg).toBeLessThan(full.takenKg);
    const military = sandmartin.propulsion.military;
    expect(full.enginesAtDisconnect.filter((engine) => engine.power > military)).toHaveLength(1);
    expect(less.enginesAtDisconnect.every((engine) => engine.power <= military + 1e-9)).toBe(true);
  });
});

describe('the trace', () => {
  it('[PLAN-5] goes on in time and distance, in columns of one length without a hole', () => {
    for (const [name, column] of Object.entries(columns)) {
      expect(column, name).toHaveLength(nodes);
      expect(
        column.every((value) => Number.isFinite(value)),
        name,
      ).toBe(true);
    }
    for (let i = 1; i < nodes; i++) {
      expect(columns.timeS[i]).toBeGreaterThanOrEqual(columns.timeS[i - 1]);
      expect(columns.distanceM[i]).toBeGreaterThanOrEqual(columns.distanceM[i - 1]);
      expect(plan.trace.phase[i]).toBeGreaterThanOrEqual(plan.trace.phase[i - 1]);
    }
    for (const column of [...Object.values(plan.trace.margins), ...Object.values(plan.trace.bounds)]) {
      expect(column).toHaveLength(nodes);
    }
  });

  it('[PLAN-6] does not jump: height, speed and place of a phase begin where the phase before ended', () => {
    // A pushover ends within ten tolerances of its bottom: 5 m.
    const steps: readonly (readonly [TraceColumn, number])[] = [
      ['pressureAltitudeM', 5],
      ['trueAirspeedMS', 0.6],
      ['latitudeDeg', 1e-4],
      ['longitudeDeg', 1e-4],
      ['fuelKg', 0.1],
    ];
    for (let i = 1; i < nodes; i++) {
      if (columns.timeS[i] - columns.timeS[i - 1] > 0.01) continue;
      for (const [name, most] of steps) {
        const jump = Math.abs(columns[name][i] - columns[name][i - 1]);
        expect(jump, `${name} at ${columns.timeS[i]} s`).toBeLessThan(most);
      }
    }
  });

  it('[PLAN-7] energy height is geometric height and V^2 / 2 g0; ground speed is airspeed and wind', () => {
    for (let i = 0; i < nodes; i++) {
      const energy = columns.geometricHeightM[i] + columns.trueAirspeedMS[i] ** 2 / (2 * 9.80665);
      expect(Math.abs(energy - columns.energyHeightM[i])).toBeLessThan(0.01);
      const level = Math.abs(columns.climbRateMS[i]) < 1 && columns.bankDeg[i] === 0;
      if (!level) continue;
      const across = columns.windAcrossMS[i];
      const along = Math.sqrt(columns.trueAirspeedMS[i] ** 2 - across ** 2) + columns.windAlongMS[i];
      expect(Math.abs(columns.groundSpeedMS[i] - along)).toBeLessThan(0.05);
    }
  });

  it('[PLAN-8] distance is that between the places of the nodes by geodesics, on the straight and in a turn', () => {
    const measured: Record<string, [geodesic: number, plan: number]> = {};
    for (let i = 1; i < nodes; i++) {
      const pair = measured[kindAt(i)] ?? [0, 0];
      measured[kindAt(i)] = pair;
      pair[0] += between(
        [columns.latitudeDeg[i - 1], columns.longitudeDeg[i - 1]],
        [columns.latitudeDeg[i], columns.longitudeDeg[i]],
      );
      pair[1] += columns.distanceM[i] - columns.distanceM[i - 1];
    }
    for (const kind of ['cruise', 'climb', 'descent', 'contact', 'pushover']) {
      expect(Math.abs(measured[kind][1] / measured[kind][0] - 1), kind).toBeLessThan(6e-4);
    }
    // A chord of half a minute is shorter than its arc by (s / R)^2 / 24, about 2e-3 for the subsonic turns.
    const turns = measured.turn[1] / measured.turn[0] - 1;
    expect(turns).toBeGreaterThan(0);
    expect(turns).toBeLessThan(4e-3);
  });

  it('[PLAN-9] a leg is as long as its lines less what its turns cut off', () => {
    // Between corners W and with leads L before and roll-outs R after them: lines - L - R + what the turns fly.
    const degrees = ({ latitudeRad, longitudeRad }: Place) =>
      [(latitudeRad * 180) / Math.PI, (longitudeRad * 180) / Math.PI] as const;
    const { through, end } = request.sortie.legs[2];
    if (end.kind !== 'landing') throw new Error('the last leg lands');
    const from = { damson: degrees(through[through.length - 1]), base: degrees(end.base) };
    const turn = plan.turns.find(({ name }) => name === 'Damson');
    const rolledOut = plan.trace.columns.timeS.findIndex((time) => time >= (turn?.endS ?? 0) - 0.01);
    const home = between(from.damson, from.base) - (turn?.rollOutM ?? 0);
    expect(Math.abs(columns.distanceM[last] - columns.distanceM[rolledOut] - home)).toBeLessThan(800);
    const place = between([columns.latitudeDeg[rolledOut], columns.longitudeDeg[rolledOut]], from.damson);
    expect(Math.abs(place - (turn?.rollOutM ?? 0))).toBeLessThan(50);
    expect(between([columns.latitudeDeg[last], columns.longitudeDeg[last]], from.base)).toBeLessThan(10);
  });

  it('[PLAN-10] turns keep their bank on the sortie and a radius of V^2 / (g tan bank) to the few per cent of wind and curvature', () => {
    for (const name of ['Alder', 'Birch', 'Cedar', 'Damson']) {
      const turn = plan.turns.find((candidate) => candidate.name === name);
      if (!turn) throw new Error(`no turn at ${name}`);
      expect(turn.bankDeg).toBeCloseTo(30, 1);
      const node = columns.timeS.findIndex((time) => time > (turn.startS + turn.endS) / 2);
      const radius = columns.trueAirspeedMS[node] ** 2 / (9.74 * Math.tan(Math.PI / 6));
      expect(Math.abs(turn.radiusM / radius - 1), name).toBeLessThan(0.12);
    }
  });

  it('[PLAN-11] the climb keeps 430 KEAS up to Mach 2.5 and loses 60 kt for each Mach above', () => {
    const knot = 1852 / 3600;
    const climbs = plan.phases.flatMap((phase, i) => (phase.name.startsWith('Climb at EAS') ? [i] : []));
    expect(climbs).toHaveLength(2);
    for (const index of climbs) {
      let seen = 0;
      for (let i = plan.trace.phase.indexOf(index); plan.trace.phase[i] === index; i++) {
        const wanted = (430 - 60 * Math.max(0, columns.mach[i] - 2.5)) * knot;
        const pushing = columns.loadFactor[i] < 0.95;
        if (pushing) continue;
        seen++;
        expect(Math.abs(columns.equivalentAirspeedMS[i] - wanted), `${columns.mach[i]}`).toBeLessThan(0.6);
      }
      expect(seen).toBeGreaterThan(20);
    }
  });
});

describe('tables of the plan', () => {
  it('[PLAN-12] the ladder and the climb rows say what the trace says at their times', () => {
    const at = (name: TraceColumn, timeS: number): number => {
      const high = Math.max(
        1,
        columns.timeS.findIndex((time) => time >= timeS - 1e-6),
      );
      const part = (timeS - columns.timeS[high - 1]) / (columns.timeS[high] - columns.timeS[high - 1] || 1);
      return columns[name][high - 1] + part * (columns[name][high] - columns[name][high - 1]);
    };
    expect(plan.ladder.length).toBeGreaterThan(15);
    for (const row of plan.ladder) {
      expect(row.differenceKg).toBeCloseTo(row.fuelKg - row.fuelRequiredKg, 6);
      expect(row.distanceToGoM).toBeGreaterThanOrEqual(0);
    }
    const landing = plan.ladder[plan.ladder.length - 1];
    const landed = plan.events.find(({ kind }) => kind === 'landing');
    expect([landing.timeS, landing.fuelKg, landing.distanceToGoM]).toEqual([
      landed?.timeS,
      landed?.fuelKg,
      0,
    ]);
    for (const row of plan.ladder.slice(0, -1)) {
      expect(Math.abs(row.fuelKg - at('fuelKg', row.timeS))).toBeLessThan(0.5);
    }
    const rows = plan.ladder.filter((row) => row.name === '').map((row) => row.timeS);
    for (const time of rows) expect(time % 600).toBeCloseTo(0, 6);
    expect(plan.climbs).toHaveLength(2);
    for (const climb of plan.climbs) {
      const machs = climb.rows.map((row) => row.mach);
      expect(machs.slice(0, -1)).toEqual(
        [0.9, 1.2, 1.5, 1.8, 2.1, 2.4, 2.7].map((m) => expect.closeTo(m, 9)),
      );
      expect(machs[machs.length - 1]).toBeCloseTo(2.85, 3);
      for (const row of climb.rows) expect(Math.abs(at('mach', row.timeS) - row.mach)).toBeLessThan(2e-3);
    }
  });

  it('[PLAN-13] the limits are in order of closeness, each with the least margin of its column', () => {
    const closeness = plan.limits.map((limit) => limit.closeness);
    expect(closeness).toEqual([...closeness].sort((a, b) => a - b));
    expect(plan.limits).toHaveLength(13);
    for (const limit of plan.limits) {
      const least = plan.trace.margins[limit.key].reduce((a, b) => Math.min(a, b));
      expect(limit.leastMargin).toBeCloseTo(least, 4);
      expect(Math.abs(limit.bound - limit.value)).toBeCloseTo(Math.abs(limit.leastMargin), 6);
    }
    for (let i = 0; i < nodes; i++) expect(Object.keys(plan.trace.margins)).toContain(plan.trace.next[i]);
  });

  it('[PLAN-14] events stand in the order of time, with the fuel of their moment', () => {
    const kinds = plan.events.map((event) => event.kind);
    expect(kinds.filter((kind) => kind === 'contact')).toHaveLength(2);
    expect(kinds.filter((kind) => kind === 'waypoint')).toHaveLength(4);
    expect(kinds[0]).toBe('take-off');
    expect(kinds[kinds.length - 1]).toBe('landing');
    const times = plan.events.map((event) => event.timeS);
    expect(times).toEqual([...times].sort((a, b) => a - b));
  });
});

describe('a plan is refused', () => {
  const planned = (text: string) => () => makePlan(requestOf(text));

  it('[PLAN-20] where the route leaves the area of the day, with its range', () => {
    const north = change(longLoopText, ['50.60N 86.50W', '55.60N 86.50W']);
    expect(planned(north)).toThrow(CannotPlan);
    expect(planned(north)).toThrow(/Cruise climb .*: the day covers .*30\.00N 100\.00W to 54\.00N 075\.00W/);
  });

  it('[PLAN-21] where the deck has no take-off table, or the take-off is outside it', () => {
    const without = { ...request, aircraft: { ...sandmartin, takeOff: null } };
    expect(() => makePlan(without)).toThrow(CannotPlan);
    expect(() => makePlan(without)).toThrow('take-off not computed: the deck has no take-off table');
    const light = change(longLoopText, ['fuel: 14000 kg', 'fuel: 1000 kg']);
    expect(planned(light)).toThrow(/take-off mass 37700 kg at \d+ m .*outside the deck's take-off table/);
  });

  it('[PLAN-22] says what a deck lacks instead of leaving it blank', () => {
    const aircraft = { ...sandmartin, landing: null };
    expect(makePlan({ ...request, aircraft }).notComputed).toEqual([
      'landing distance: the deck has no landing data',
      'time to dump to the landing mass: the deck has no greatest mass on landing',
    ]);
  });
});

describe('a pushover', () => {
  it('[PLAN-30] saves fuel against a level acceleration with full tanks', () => {
    const pushed = makePlan(requestOf(longLoopText));
    const level = makePlan(requestOf(change(longLoopText, [/ {6}- pushover:\n(?: {10}.*\n)+/g, ''])));
    const pushes = (made: Plan): number => made.phases.filter((phase) => phase.kind === 'pushover').length;
    expect([pushes(pushed), pushes(level)]).toEqual([2, 0]);
    expect(pushed.refuellings[0].cgAtDisconnect).toBe(level.refuellings[0].cgAtDisconnect);
    // A Mach that is held before the push is a gate once, however it wavers.
    for (const leg of [0, 1]) {
      const { disconnectS } = pushed.refuellings[leg];
      const until = pushed.refuellings[leg + 1]?.contactS ?? Number.POSITIVE_INFINITY;
      const gates = pushed.events.filter(
        ({ kind, timeS }) => kind === 'gate' && timeS > disconnectS && timeS < until,
      );
      expect(gates.map(({ name }) => name)).toEqual(
        ['0.9', '1.2', '1.5', '1.8', '2.1', '2.4', '2.7'].map((mach) => `M ${mach}`),
      );
    }
    const saved = pushed.refuellings[1].fuelOnContactKg - level.refuellings[1].fuelOnContactKg;
    expect(saved).toBeGreaterThan(100);
  });
});
