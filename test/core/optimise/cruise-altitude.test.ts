/** The best cruise altitude: an optimum indeed, textbook scaling with weight, and cells that say why they are blank. */
import { describe, expect, it } from 'vitest';
import { standardPressure } from '../../../src/core/air/standard.ts';
import { CruiseAltitudes, type CruiseQuestion } from '../../../src/core/optimise/cruise-altitude.ts';
import { levelFlight, newLevelPoint } from '../../../src/core/optimise/level-flight.ts';
import { altitudeGrids } from '../../../src/core/plan/grids.ts';
import { sandmartin } from '../../support/demo.ts';
import { idealJet } from '../../support/ideal-jet.ts';

const gravity = 9.80665;
const foot = 0.3048;
const zeroFuelMassKg = sandmartin.balance.emptyMassKg;

const question: CruiseQuestion = { aircraft: sandmartin, mach: 2.85, zeroFuelMassKg, pads: {} };

/** Metres on a kilogram in level flight, from the balance of forces alone. */
function specificRange(mach: number, massKg: number, offsetK: number, altitudeM: number): number {
  const point = newLevelPoint();
  levelFlight(sandmartin, mach, altitudeM, offsetK, massKg * gravity, massKg - zeroFuelMassKg, point);
  return point.outside === 0 && !Number.isNaN(point.power) ? point.trueAirspeedMS / point.fuelFlowKgS : 0;
}

describe('the best altitude', () => {
  it('[OPT-1] is an optimum: 150 and 300 m away the range is less', () => {
    const search = new CruiseAltitudes(question);
    let free = 0;
    for (const fuelKg of [8000, 14_000, 20_000, 26_000]) {
      for (const offsetK of [-10, 0, 10]) {
        const massKg = zeroFuelMassKg + fuelKg;
        const { pressureAltitudeM, heldBy } = search.best(massKg, offsetK);
        if (pressureAltitudeM === null || heldBy !== null) continue;
        free++;
        const at = (awayM: number) => specificRange(2.85, massKg, offsetK, pressureAltitudeM + awayM);
        for (const away of [150, 300]) {
          expect(at(away), `${fuelKg} kg, ${offsetK} K`).toBeLessThan(at(0));
          expect(at(-away), `${fuelKg} kg, ${offsetK} K`).toBeLessThan(at(0));
        }
      }
    }
    expect(free).toBeGreaterThan(8);
  });

  it('[OPT-2] is the best of a scan over all altitudes, from whatever guess it starts', () => {
    const massKg = zeroFuelMassKg + 16_000;
    let best = 0;
    for (let altitude = 12_000; altitude < 27_000; altitude += 100) {
      best = Math.max(best, specificRange(2.85, massKg, 0, altitude));
    }
    for (const near of [12_000, 17_000, 21_000, 26_000]) {
      const { specificRangeMKg } = new CruiseAltitudes(question).best(massKg, 0, near);
      expect(specificRangeMKg).toBeGreaterThan(best * (1 - 1e-4));
    }
  });

  it('[OPT-3] is higher for less weight', () => {
    const search = new CruiseAltitudes(question);
    const altitudes = [30_000, 24_000, 18_000, 12_000, 6000].map(
      (fuelKg) => search.best(zeroFuelMassKg + fuelKg, 0).pressureAltitudeM ?? 0,
    );
    expect(altitudes).toEqual([...altitudes].sort((a, b) => a - b));
    expect(altitudes[4] - altitudes[0]).toBeGreaterThan(1000);
  });
});

describe('a jet of constant consumption and parabolic polar', () => {
  const aircraft = idealJet({ areaM2: 170, zeroLiftDrag: 0.01, inducedFactor: 0.6, consumption: 0.0005 });
  const ideal: CruiseQuestion = { aircraft, mach: 3, zeroFuelMassKg: 20_000, pads: {} };
  const altitudeOf = (massKg: number): number =>
    new CruiseAltitudes(ideal).best(massKg, 0).pressureAltitudeM ?? Number.NaN;

  it('[OPT-4] cruises at constant W/delta where the air is isothermal', () => {
    // CL of best L/D is sqrt(CD0/K) (any textbook of performance), so W = 0.7 p M^2 S CL.
    const liftCoefficient = Math.sqrt(0.01 / 0.6);
    for (const pressureAltitudeM of [13_000, 15_000, 17_000, 19_000]) {
      const weightN = 0.7 * standardPressure(pressureAltitudeM) * 9 * 170 * liftCoefficient;
      const found = standardPressure(altitudeOf(weightN / gravity));
      expect(Math.abs(found / standardPressure(pressureAltitudeM) - 1)).toBeLessThan(5e-3);
    }
  });

  it('[OPT-5] climbs from 70 000 to 78 000 ft when its weight has fallen to 0.684', () => {
    // From the trade's check list: the ratio of the pressures.
    const massKg = (0.7 * standardPressure(70_000 * foot) * 9 * 170 * Math.sqrt(0.01 / 0.6)) / gravity;
    const [heavy, light] = [altitudeOf(massKg) / foot, altitudeOf(0.684 * massKg) / foot];
    expect(Math.abs(light - heavy - 8000)).toBeLessThan(60);
    // Above 20 km the air warms by 1 K/km, and range goes with speed: ln V rises by 1e-3/(2T) for each metre, ln L/D falls by
    // (z/H)^2/2 away from its best, H = RT/g; so the best lies 1e-3 H^2/(2T) above, 90 m.
    const scale = (287.053 * 217.99) / gravity;
    const above = (0.5e-3 * scale * scale) / 217.99 / foot;
    expect(Math.abs(heavy - 70_000 - above)).toBeLessThan(60);
  });
});

describe('the altitude grid', () => {
  const fuelKg = [5000, 15_000, 25_000, 35_000];
  const offsets = [-10, 0, 10];
  const { maximum, minimumAfterburner } = sandmartin.propulsion;
  const powers = [
    { name: 'least fuel', power: null },
    { name: 'maximum', power: maximum },
    { name: 'minimum afterburner', power: minimumAfterburner },
  ];

  it('[GRID-1] has a cell for each weight and temperature; a blank cell has a reason and no numbers', () => {
    const hot = { ...question, mach: 2.98, pads: { inletTemperature: 10 } };
    const { grids } = altitudeGrids(hot, powers, fuelKg, offsets);
    expect(grids.map((grid) => grid.power)).toEqual(powers.map((power) => power.name));
    let blank = 0;
    for (const grid of grids) {
      expect(grid.massKg).toEqual(fuelKg.map((fuel) => zeroFuelMassKg + fuel));
      expect(grid.cells.map((row) => row.length)).toEqual([3, 3, 3, 3]);
      for (const cell of grid.cells.flat()) {
        if (cell.pressureAltitudeM !== null) continue;
        blank++;
        expect(cell.specificRangeMKg).toBe(null);
        expect(['thrust', ...sandmartin.limits.map((limit) => limit.key)]).toContain(cell.reason);
      }
    }
    expect(blank).toBeGreaterThan(0);
  });

  it('[GRID-2] too hot a day is blank for inlet temperature at that Mach, whatever the altitude', () => {
    // 216.65 + 25 K at Mach 2.98 is about 660 K total, above the 620 K of the deck.
    const { grids } = altitudeGrids({ ...question, mach: 2.98 }, [powers[0]], [15_000, 20_000], [0, 25]);
    for (const row of grids[0].cells) {
      expect(row[0].reason).not.toBe('inletTemperature');
      expect(row[1].pressureAltitudeM).toBe(null);
      expect(row[1].reason).toBe('inletTemperature');
      expect(row[1].inletTemperatureK).toBeGreaterThan(620);
    }
  });

  it('[GRID-3] at a power the altitude is where its thrust is the drag', () => {
    const { grids } = altitudeGrids(question, [powers[1]], fuelKg, offsets);
    const point = newLevelPoint();
    let checked = 0;
    grids[0].cells.forEach((row, i) => {
      row.forEach((cell, j) => {
        if (cell.pressureAltitudeM === null || cell.reason !== null) return;
        const weight = grids[0].massKg[i] * gravity;
        levelFlight(sandmartin, 2.85, cell.pressureAltitudeM, offsets[j], weight, fuelKg[i], point);
        const engine = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };
        const { pressureAltitudeM: altitude } = cell;
        sandmartin.propulsion.at(maximum, 2.85, altitude, altitude, offsets[j], engine);
        expect(Math.abs((2 * engine.thrustN) / point.thrustN - 1)).toBeLessThan(2e-3);
        checked++;
      });
    });
    expect(checked).toBeGreaterThan(3);
  });
});
