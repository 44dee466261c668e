import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type CurvesAt, curvesOf } from '../../../src/core/aircraft/curves.ts';
import { loadDeck } from '../../../src/files/deck.ts';
import { deckFolder } from '../../../src/files/deck-folder.ts';

const load = (name: string) =>
  loadDeck(deckFolder(fileURLToPath(new URL(`../../../decks/${name}`, import.meta.url)), name));
const sandmartin = load('sandmartin');
const benchmark = load('benchmark-interceptor');

const foot = 0.3048;
const knot = 1852 / 3600;
const usual: CurvesAt = {
  pressureAltitudeM: 50_000 * foot,
  temperatureOffsetK: 0,
  power: sandmartin.aircraft.propulsion.maximum,
  fuelKg: 20_000,
};
const curves = curvesOf(sandmartin.deck, sandmartin.aircraft, usual);
const paper = curvesOf(benchmark.deck, benchmark.aircraft, { ...usual, power: 1, fuelKg: 0 });

function atMach(of: typeof curves, values: readonly number[], mach: number): number {
  return values[of.mach.indexOf(mach)];
}

describe('curves of a deck', () => {
  it('[CURVES-1] have the greatest L/D of the polar of the paper', () => {
    // Bryson, Desai, Hoffman 1969, table of the aerodynamics, M 0.4: CD0 0.013, eta 0.54, CLalpha 3.44; L/D = 1/(2 sqrt(CD0 eta/CLalpha)).
    expect(atMach(paper, paper.liftToDrag, 0.4)).toBeCloseTo(1 / (2 * Math.sqrt((0.013 * 0.54) / 3.44)), 6);
  });

  it('[CURVES-2] stand beside 4(M + 3)/M beyond Mach 1.2 and MIL-E-5007', () => {
    // Kuechemann 1978 and MIL-E-5007, by hand: 4 x 5 / 2, and 1 - 0.075 x 1^1.35.
    expect(atMach(curves, curves.liftToDragCeiling, 2)).toBeCloseTo(10, 9);
    expect(atMach(curves, curves.liftToDragCeiling, 1)).toBeNaN();
    expect(atMach(curves, curves.inlet?.standard ?? [], 2)).toBeCloseTo(0.925, 9);
    expect(atMach(curves, curves.inlet?.standard ?? [], 0.8)).toBe(1);
  });

  it('[CURVES-3] give thrust and fuel flow of all engines as the rows of the table have them', () => {
    const ground = curvesOf(sandmartin.deck, sandmartin.aircraft, {
      ...usual,
      pressureAltitudeM: 0,
      temperatureOffsetK: -40,
    });
    // decks/sandmartin/propulsion.csv, Mach 0, 0 ft, -40 K: one engine 138 582 N and 7.273 kg/s, 94 128 N.
    expect(ground.settings[4].thrustN[0]).toBeCloseTo(2 * 138_582, 6);
    expect(ground.settings[4].fuelFlowKgS[0]).toBeCloseTo(2 * 7.273, 9);
    expect(ground.settings[2].thrustN[0]).toBeCloseTo(2 * 94_128, 6);
  });

  it('[CURVES-4] end where a table ends', () => {
    const high = curvesOf(sandmartin.deck, sandmartin.aircraft, { ...usual, pressureAltitudeM: 28_000 });
    expect(high.settings.every(({ thrustN }) => thrustN.every(Number.isNaN))).toBe(true);
    expect(high.liftToDrag.every(Number.isNaN)).toBe(true);
    expect(high.dragN.every(Number.isNaN)).toBe(true);
  });

  it('[CURVES-5] draw no level flight and no balance of an aircraft without masses', () => {
    expect(paper.dragN.every(Number.isNaN)).toBe(true);
    expect(paper.balance).toBeNull();
    expect(paper.inlet).toBeNull();
    expect(paper.corridor.limits).toEqual([]);
  });

  it('[CURVES-6] refuse a temperature offset that no day has', () => {
    const hot = { ...usual, temperatureOffsetK: 60 };
    expect(() => curvesOf(sandmartin.deck, sandmartin.aircraft, hot)).toThrow(/temperature offset/);
  });

  it('[CURVES-7] draw the drag of level flight at least at weight over the greatest L/D', () => {
    const weight = (sandmartin.aircraft.balance.emptyMassKg + usual.fuelKg) * 9.80665;
    curves.dragN.forEach((drag, i) => {
      if (Number.isFinite(drag))
        expect(drag).toBeGreaterThanOrEqual((weight / curves.liftToDrag[i]) * (1 - 1e-12));
    });
    expect(curves.dragN.filter(Number.isFinite).length).toBeGreaterThan(20);
  });

  it('[CURVES-8] let the centre of gravity travel as far as the arms of the deck say', () => {
    // deck.yaml by hand: (35200 x 19.03 + 600 x 7.5 + 900 x 25) / 36700 m, edge 16 m, chord 12.2 m.
    const empty = ((35_200 * 19.03 + 600 * 7.5 + 900 * 25) / 36_700 - 16) / 12.2;
    expect(curves.balance?.cgFraction[0]).toBeCloseTo(empty, 9);
    expect(curves.balance?.fuelKg.at(-1)).toBe(38_500);
    const forward = curves.balance?.bounds.find(
      ({ name, mach }) => name.startsWith('Forward') && mach === 2.8,
    );
    // centre-of-gravity-forward.csv: 23.5 % from Mach 2.
    expect(forward?.values.every((value) => Math.abs(value - 0.235) < 1e-12)).toBe(true);
  });
});

describe('the corridor', () => {
  const { mach, pressureAltitudeM, limits, room } = curves.corridor;

  it('[CORRIDOR-1] ends below where Mach 2 is 480 KEAS in the standard atmosphere', () => {
    // p = p0 (VE/(M a0))^2; USSA 1976: p0 101325 Pa, a0 340.294 m/s; above 11 km 22632.06 Pa exp(-(H - 11000)/6341.62).
    const pressure = 101_325 * ((480 * knot) / (2 * 340.294)) ** 2;
    const height = 11_000 + 6341.62 * Math.log(22_632.06 / pressure);
    const here = room.find((one) => one.mach === 2);
    expect(here?.lowestBy).toBe('Maximum equivalent airspeed');
    expect(Math.abs((here?.lowestM ?? 0) - height)).toBeLessThan(20);
  });

  it('[CORRIDOR-2] ends at Mach 3, the limit of the deck', () => {
    const last = room.at(-1)?.mach ?? 0;
    expect(last).toBeGreaterThan(2.9);
    expect(last).toBeLessThanOrEqual(3);
    expect(limits.map(({ key }) => key)).toContain('mach');
  });

  it('[CORRIDOR-3] holds no point at which a limit is passed, and names the one that ends it', () => {
    for (const { mach: m, lowestM, highestM, highestBy } of room) {
      const column = mach.indexOf(m);
      pressureAltitudeM.forEach((altitude, row) => {
        const passed = limits.filter(({ margins }) => !(margins[column][row] >= 0));
        if (altitude >= lowestM && altitude <= highestM) expect(passed).toEqual([]);
      });
      const above = pressureAltitudeM.findIndex((altitude) => altitude > highestM);
      const margin = limits.find(({ name }) => name === highestBy)?.margins[column][above];
      if (highestBy !== null) expect(margin).toBeLessThan(0);
    }
    expect(room.length).toBeGreaterThan(80);
  });

  it('[CORRIDOR-4] ends lower for a heavier aircraft and at a lower Mach on a hotter day', () => {
    const heavy = curvesOf(sandmartin.deck, sandmartin.aircraft, { ...usual, fuelKg: 38_500 });
    const stall = (of: typeof curves) => of.corridor.room.find((one) => one.mach === 0.8)?.highestM ?? 0;
    expect(stall(heavy)).toBeLessThan(stall(curves) - 1000);
    const hot = curvesOf(sandmartin.deck, sandmartin.aircraft, { ...usual, temperatureOffsetK: 20 });
    expect(hot.corridor.room.at(-1)?.mach).toBeLessThan(curves.corridor.room.at(-1)?.mach ?? 0);
    expect(hot.corridor.room.at(-1)?.mach).toBeGreaterThan(2.5);
  });
});
