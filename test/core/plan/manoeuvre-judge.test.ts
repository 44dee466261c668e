/** Manoeuvres of the demonstration judged before they are flown, and the turns and tables of its plan. */
import { describe, expect, it } from 'vitest';
import { machFromCalibrated } from '../../../src/core/air/airdata.ts';
import { standardDay } from '../../../src/core/air/offset-day.ts';
import { crewOf, draftOf } from '../../../src/core/plan/draft.ts';
import { ManoeuvreBounds } from '../../../src/core/plan/manoeuvre-bounds.ts';
import { type AskedManoeuvre, judgeManoeuvre } from '../../../src/core/plan/manoeuvre-judge.ts';
import { fuelsFrom, manoeuvresMissing, manoeuvresOf } from '../../../src/core/plan/manoeuvre-table.ts';
import { judgedTurns } from '../../../src/core/plan/manoeuvre-turns.ts';
import { benchmarkAircraft } from '../../support/benchmark.ts';
import { change, longLoopText, requestOf } from '../../support/demo.ts';

const degree = Math.PI / 180;
const knot = 1852 / 3600;
const text = change(longLoopText, [/weather:\n(?: {2}.*\n)+/, 'weather: { offset: 0 K }\n']);
const request = requestOf(text);
const { setup } = crewOf(request).flight;
const bounds = new ManoeuvreBounds(setup, request.sortie.manoeuvres);

function judge(feet: number, kcas: number, change: Partial<AskedManoeuvre>) {
  const altitudeM = feet * 0.3048;
  bounds.placeIn(altitudeM, (air) => standardDay.sample(0, 0, altitudeM, 0, air));
  const mach = machFromCalibrated(kcas * knot, bounds.air.pressurePa);
  return judgeManoeuvre(bounds, {
    mach,
    fuelKg: 36_000,
    bankRad: 0,
    loadFactor: null,
    groundM: 0,
    ...change,
  });
}

describe('a manoeuvre that is asked for', () => {
  it('[MNV-1] low, heavy and slow is refused by the warning before anything else, and each bound stands by itself', () => {
    const judged = judge(3000, 220, { bankRad: 60 * degree });
    expect(judged.allowed).toBe(false);
    expect(judged.loadFactor).toBeCloseTo(2, 12);
    expect(judged.first).toBe('entry');
    expect(judged.bounds.map(({ key }) => key)).toEqual([
      'entry',
      'warning',
      'push',
      'held',
      'rolling',
      'symmetric',
    ]);
    expect(judged.passed).toEqual(['entry', 'warning', 'push', 'held', 'rolling', 'height']);
    expect(judged.thrust?.specificExcessPowerMS).toBeLessThan(0);
  });

  it('[MNV-2] fast and gentle is allowed, with its height to spare', () => {
    const judged = judge(12_000, 350, { bankRad: 25 * degree });
    expect(judged.passed).toEqual([]);
    expect(judged.allowed).toBe(true);
    expect(judged.height?.aboveGroundM).toBeCloseTo(12_000 * 0.3048 * 1.0006, -1);
    expect(judged.height?.leastHeightM).toBeCloseTo((judged.height?.lostM ?? 0) + 300, 9);
  });

  it('[MNV-3] is refused where the ground is nearer than a push and the clearance of the sortie need', () => {
    const high = judge(12_000, 350, { bankRad: 25 * degree });
    const needed = high.height?.leastHeightM ?? Number.NaN;
    const groundM = (high.height?.aboveGroundM ?? 0) - needed;
    expect(judge(12_000, 350, { bankRad: 25 * degree, groundM: groundM - 1 }).allowed).toBe(true);
    expect(judge(12_000, 350, { bankRad: 25 * degree, groundM: groundM + 1 }).passed).toEqual(['height']);
  });

  it('[MNV-4] is held to what the sortie says for so much fuel, with its source, whatever the structure takes', () => {
    const pulled = (loadFactor: number, fuelKg: number) => judge(12_000, 420, { loadFactor, fuelKg });
    expect(pulled(1.51, 30_000).passed).toContain('held');
    expect(pulled(1.5, 30_000).passed).not.toContain('held');
    expect(pulled(1.9, 29_000).passed).not.toContain('held');
    expect(pulled(2.01, 5_000).passed).toContain('held');
    const held = pulled(1.2, 36_000).bounds.find(({ key }) => key === 'held');
    expect(held?.source).toContain('common practice');
    expect(held?.loadFactor).toBe(1.5);
  });

  it("[MNV-5] rolled into names the rate at which the warning stays silent (n + lead n' below the warning)", () => {
    const judged = judge(12_000, 350, { bankRad: 40 * degree });
    const warning = judged.bounds.find(({ key }) => key === 'warning')?.loadFactor ?? 0;
    const slow = judge(12_000, 265, { bankRad: 40 * degree });
    expect(judged.silentRollDegS).toBeNull();
    expect(warning).toBeGreaterThan(judged.loadFactor);
    const there = slow.bounds.find(({ key }) => key === 'warning')?.loadFactor ?? 0;
    const perRate = (Math.sin(40 * degree) / Math.cos(40 * degree) ** 2) * degree;
    if (slow.silentRollDegS === null)
      throw new Error('the speed of this test is too fast or too slow for a rate');
    expect(there - 0.6 * slow.silentRollDegS * perRate).toBeCloseTo(slow.loadFactor, 9);
  });

  it('[MNV-6] wings level is not bounded by what the structure takes while rolling', () => {
    const judged = judge(3000, 420, { loadFactor: 1.95, fuelKg: 29_000 });
    const rolling = judged.bounds.find(({ key }) => key === 'rolling');
    expect(judge(3000, 420, { loadFactor: 2.05, fuelKg: 29_000 }).passed).not.toContain('rolling');
    expect(rolling?.loadFactor).toBeLessThan(2.05);
  });

  it('[MNV-7] counts the other limits of the deck: too fast is refused by name', () => {
    expect(judge(3000, 600, { bankRad: 20 * degree }).passed).toContain('maximumEquivalentAirspeed');
  });

  it('[MNV-8] on a deck without stall table or pusher says what is not computed', () => {
    const missing = manoeuvresMissing(benchmarkAircraft(), request.sortie.manoeuvres);
    expect(missing.join('; ')).toContain('the deck has no stall table');
    const noPusher = manoeuvresMissing({ ...request.aircraft, pusher: null }, request.sortie.manoeuvres);
    expect(noPusher).toEqual(['height lost in a push: neither deck nor sortie says what the pusher does']);
  });
});

describe('the manoeuvres of a plan', () => {
  const drafted = draftOf(request);

  it('[MNV-9] stand at each disconnect and each top of climb, by 2 t of fuel from that on board', () => {
    const tables = manoeuvresOf(drafted);
    expect(tables.map(({ name }) => name)).toEqual([
      'after Ewer One',
      'at the top of the climb after Ewer One',
      'after Ewer Two',
      'at the top of the climb after Ewer Two',
    ]);
    const { refuellings } = drafted.flown;
    const [first] = tables;
    expect(first.rows[0].fuelKg).toBeCloseTo(
      refuellings[0].fuelOnContactKg + refuellings[0].takenKg - refuellings[0].burntKg,
      0,
    );
    expect(first.rows.slice(1).every(({ fuelKg }) => fuelKg % 2000 === 0)).toBe(true);
    expect(first.pressureAltitudeM).toBeCloseTo(24_000 * 0.3048, 3);
    expect(first.rows[0].pushes.map(({ bankDeg }) => Math.round(bankDeg))).toEqual([0, 40]);
  });

  it('[MNV-10] have rows from the fuel on board down, none below the last that may be used', () => {
    expect(fuelsFrom(5300, 240)).toEqual([5300, 4000, 2000]);
    expect(fuelsFrom(4000, 0)).toEqual([4000, 2000, 0]);
    expect(fuelsFrom(38_500, 240)).toHaveLength(9);
  });

  it('[MNV-11] every turn is judged inside it, and its margin is that of the log (angle of attack)', () => {
    const turns = judgedTurns(drafted);
    expect(turns).toHaveLength(drafted.log.turns.length);
    expect(turns.length).toBeGreaterThan(0);
    turns.forEach(({ nearest }, i) => {
      const { rollInS, endS } = drafted.log.turns[i];
      const timeS = nearest.timeS + request.sortie.takeOff.timeS;
      expect(timeS).toBeGreaterThanOrEqual(rollInS - 1);
      expect(timeS).toBeLessThanOrEqual(endS + 1);
      // Lift goes with the angle above that of no lift: the ratio of load factors is that of the angles.
      const { columns, margins } = drafted.log;
      const node = columns.timeS.findIndex((time) => Math.abs(time - timeS) < 1e-6);
      const angle = columns.angleOfAttackRad[node];
      const warning = nearest.bounds.warning ?? Number.NaN;
      const push = nearest.bounds.push ?? Number.NaN;
      const pushAngle = margins.push[node] + angle;
      const warningAngle = request.aircraft.aerodynamics.warningAngleRad(columns.mach[node]) ?? Number.NaN;
      expect((push - warning) / (warning - nearest.loadFactor)).toBeCloseTo(
        (pushAngle - warningAngle) / (warningAngle - angle),
        4,
      );
    });
  });
});
