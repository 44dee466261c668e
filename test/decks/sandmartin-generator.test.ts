/** The methods behind Sandmartin's tables, each against something outside, and the tables against the methods. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as airframe from '../../decks/sandmartin/generator/airframe.ts';
import { design, engine, settings } from '../../decks/sandmartin/generator/engine.ts';
import * as gas from '../../decks/sandmartin/generator/gas.ts';
import { recovery, standardRecovery } from '../../decks/sandmartin/generator/inlet.ts';
import { sandmartinTables } from '../../decks/sandmartin/generator/tables.ts';
import { standardPressure, standardTemperature } from '../../src/core/air/standard.ts';
import { loadDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';

const foot = 0.3048;
const folder = 'decks/sandmartin';

describe('tables of Sandmartin', () => {
  const tables = sandmartinTables();

  it.each([...tables.keys()])('[SM-20] %s is what the generator writes', (name) => {
    expect(readFileSync(`${folder}/${name}`, 'utf8')).toBe(tables.get(name));
  });

  it('[SM-21] are small enough to be read in one go: under 1.5 MB', () => {
    const size = [...tables.values()].reduce((sum, text) => sum + text.length, 0);
    expect(size).toBeLessThan(1.5e6);
  });

  it('[SM-22] follow the cycle between their points to 2 % of thrust and 1.5 % of flow, 0.4 % in the mean', () => {
    const { propulsion } = loadDeck(deckFolder(folder)).aircraft;
    const out = { thrustN: 0, fuelFlowKgS: 0, power: 0, outside: 0 };
    let thrustError = 0;
    let flowError = 0;
    let count = 0;
    // Points of a low-discrepancy lattice (Kronecker, square roots of 2, 3, 5) over the flown part of the envelope.
    for (let i = 1; i <= 400; i++) {
      const mach = 0.2 + 2.8 * ((i * Math.SQRT2) % 1);
      const offset = -20 + 40 * ((i * Math.sqrt(3)) % 1);
      const lowest = Math.max(0, (mach - 1) * 25000);
      const highest = Math.min(84000, 30000 + 25000 * mach);
      const altitude = (lowest + (highest - lowest) * ((i * Math.sqrt(5)) % 1)) * foot;
      for (let power = 2; power < settings.length; power++) {
        const exact = engine(
          mach,
          standardPressure(altitude),
          standardTemperature(altitude) + offset,
          settings[power],
        );
        propulsion.at(power, mach, altitude, altitude, offset, out);
        expect(out.outside).toBe(0);
        const thrust = out.thrustN / exact.thrustN - 1;
        const flow = out.fuelFlowKgS / exact.fuelFlowKgS - 1;
        expect(Math.abs(thrust)).toBeLessThan(0.02);
        expect(Math.abs(flow)).toBeLessThan(0.015);
        thrustError += thrust;
        flowError += flow;
        count++;
      }
    }
    expect(Math.abs(thrustError / count)).toBeLessThan(0.004);
    expect(Math.abs(flowError / count)).toBeLessThan(0.004);
  });
});

describe('gas of the cycle', () => {
  it('[SM-30] has the cp and enthalpy of air of NASA/TP-2002-211556 to 0.25 %', () => {
    const rows = readFileSync('test/published/data/thermally-perfect-air.csv', 'utf8')
      .split('\n')
      .filter((line) => /^\d/.test(line))
      .map((line) => line.split(',').map(Number));
    expect(rows).toHaveLength(23);
    for (const [temperature, , cp, , enthalpyKJ] of rows) {
      expect(Math.abs(gas.specificHeat(temperature, 0) / cp - 1)).toBeLessThan(0.0025);
      const enthalpy = gas.enthalpy(temperature, 0) - gas.enthalpy(298.15, 0);
      expect(Math.abs(enthalpy - enthalpyKJ * 1e3)).toBeLessThan(0.002 * Math.abs(enthalpyKJ * 1e3) + 100);
    }
  });

  it('[SM-31] is consistent: dh/dT = cp, ds/dT = cp/T, with fuel too', () => {
    for (const fuelAir of [0, 0.02, 0.05]) {
      for (const temperature of [250, 600, 1200, 1900]) {
        const step = 0.01;
        const cp = gas.specificHeat(temperature, fuelAir);
        const dh = gas.enthalpy(temperature + step, fuelAir) - gas.enthalpy(temperature - step, fuelAir);
        expect(dh / (2 * step) / cp).toBeCloseTo(1, 6);
        const ds =
          gas.entropyAtPressure(temperature + step, fuelAir) -
          gas.entropyAtPressure(temperature - step, fuelAir);
        expect(((ds / (2 * step)) * temperature) / cp).toBeCloseTo(1, 6);
        const back = gas.temperatureOfEnthalpy(gas.enthalpy(temperature, fuelAir), fuelAir, 500);
        expect(back).toBeCloseTo(temperature, 6);
      }
    }
  });
});

describe('engine of Sandmartin', () => {
  it('[SM-32] never makes more of its fuel than heat: efficiency below 0.5, and within the deck thrust rises with setting', () => {
    for (const [mach, altitude] of [
      [0.3, 0],
      [0.75, 24000],
      [1.1, 33000],
      [2, 50000],
      [2.85, 70000],
      [3, 80000],
    ]) {
      const pressure = standardPressure(altitude * foot);
      const temperature = standardTemperature(altitude * foot);
      const speed = mach * Math.sqrt(1.4 * 287.053 * temperature);
      let before = Number.NEGATIVE_INFINITY;
      for (const setting of settings) {
        const { thrustN, fuelFlowKgS } = engine(mach, pressure, temperature, setting);
        const efficiency = (thrustN * speed) / (fuelFlowKgS * design.heatingValue);
        expect(efficiency).toBeLessThan(0.5);
        expect(thrustN).toBeGreaterThan(before);
        before = thrustN;
      }
    }
  });

  it('[SM-33] keeps its limits: turbine inlet, corrected and mechanical speed, on hot and cold days', () => {
    for (const offset of [-40, 0, 40]) {
      for (let mach = 0; mach <= 3.2; mach += 0.4) {
        const temperature = standardTemperature(12000) + offset;
        const result = engine(mach, standardPressure(12000), temperature, 'maximumAfterburner');
        expect(result.turbineInletK).toBeLessThanOrEqual(design.turbineInletK);
        expect(result.correctedSpeed).toBeLessThanOrEqual(1);
        const total = gas.temperatureOfEnthalpy(
          gas.enthalpy(temperature, 0) + (mach * Math.sqrt(1.4 * 287.053 * temperature)) ** 2 / 2,
          0,
          400,
        );
        expect(result.correctedSpeed * Math.sqrt(total / 288.15)).toBeLessThanOrEqual(design.mechanicalSpeed);
      }
    }
  });

  it('[SM-34] breathes through an inlet below MIL-E-5007: 0.809 at Mach 3 by the standard', () => {
    expect(standardRecovery(3)).toBeCloseTo(0.809, 3);
    expect(standardRecovery(3.2)).toBeCloseTo(0.783, 3);
    for (let mach = 0; mach <= 3.2; mach += 0.1) expect(recovery(mach)).toBeLessThan(standardRecovery(mach));
  });
});

describe('airframe of Sandmartin', () => {
  it('[SM-35] has the complete elliptic integral of the second kind (Abramowitz and Stegun, table 17.1)', () => {
    expect(airframe.ellipticE(0)).toBeCloseTo(1.5707963268, 10);
    expect(airframe.ellipticE(0.5)).toBeCloseTo(1.350643881, 10);
    expect(airframe.ellipticE(0.9)).toBeCloseTo(1.1047747327, 9);
  });

  it('[SM-36] has the lift slope of linear theory with a supersonic leading edge, 4/sqrt(M^2 - 1)', () => {
    for (const mach of [2.6, 2.85, 3])
      expect(airframe.liftSlope(mach)).toBeCloseTo(4 / Math.sqrt(mach * mach - 1), 12);
  });

  it('[SM-37] has a drag rise: CD0 peaks near Mach 1.15 and falls towards cruise', () => {
    const altitude = 12000;
    const subsonic = airframe.zeroLiftDrag(0.8, altitude);
    const peak = airframe.zeroLiftDrag(1.15, altitude);
    expect(peak).toBeGreaterThan(1.5 * subsonic);
    for (let mach = 0; mach <= 3.2; mach += 0.05) {
      expect(airframe.zeroLiftDrag(mach, altitude)).toBeLessThanOrEqual(peak * 1.0001);
    }
    expect(airframe.zeroLiftDrag(2.85, 21000)).toBeLessThan(peak);
  });
});
