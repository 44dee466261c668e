import { describe, expect, it } from 'vitest';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import { refuellingSentences } from '../../../src/present/sentences.ts';
import { plainSpaces } from '../../../src/present/units.ts';
import { change, longLoopText, requestOf, sandmartin } from '../../support/demo.ts';

const at = (temperature: string, more = ''): string =>
  change(longLoopText, [/ {2}fuelTemperature: .*\n/, `  fuelTemperature: ${temperature}\n${more}`]);

/**
 * Density over that at 15 degC of kerosene of 800 kg/m3 by hand: alpha = 594.5418/800^2 = 9.2897e-4 1/K (ASTM D1250 table
 * 54B, from memory), exp(-alpha dt (1 + 0.8 alpha dt)) with dt = 25 K.
 */
const at40 = 800 * Math.exp(-0.02322429 * (1 + 0.8 * 0.02322429));
/** The deck's five tanks, 2 % left for the fuel to expand [m3]. */
const volumeM3 = 0.98 * (16.1 + 2 * 9.02 + 2 * 7.73);

describe('fuel today', () => {
  it('[FTD-1] full tanks hold their mass at 15 degC and are short by volume at 40 degC', () => {
    const cold = makePlan(requestOf(at('15 degC')));
    expect(cold.fuelToday).toMatchObject({ fullKg: 38_500, capacityKg: 38_500, shortFraction: 0 });
    expect(cold.fuelToday?.densityKgM3).toBeCloseTo(800, 9);
    const warm = makePlan(requestOf(at('40 degC'))).fuelToday;
    expect(warm?.densityKgM3).toBeCloseTo(at40, 3);
    expect(warm?.tankVolumeM3).toBeCloseTo(volumeM3, 9);
    expect(warm?.fullKg).toBeCloseTo(at40 * volumeM3, 1);
    expect(warm?.shortFraction).toBeCloseTo(1 - (at40 * volumeM3) / 38_500, 6);
    expect(warm?.takeOffVolumeM3).toBeCloseTo(14_000 / at40, 4);
    expect(warm?.fullVolumeM3).toBeCloseTo(volumeM3, 6);
  });

  it('[FTD-2] a tanker fills no more than the volume holds, and the centre of gravity goes with the tanks', () => {
    const plan = makePlan(requestOf(at('40 degC')));
    const [one] = plan.refuellings;
    const fullKg = at40 * volumeM3;
    expect(one.fuelOnContactKg + one.takenKg - one.burntKg).toBeCloseTo(fullKg, 0);
    expect(plan.aircraft.fuelCapacityKg).toBeCloseTo(fullKg, 1);
    // By hand: every tank holds its part of the volume, the arms are the deck's; 36 700 kg empty.
    const moment =
      0.98 * at40 * (16.1 * 15.8 + 2 * 9.02 * 19.5 + 7.73 * 21.8 + 7.73 * 20.2) +
      35_200 * 19.03 +
      600 * 7.5 +
      900 * 25;
    const cg = (moment / (fullKg + 36_700) - 16) / 12.2;
    expect(one.cgAtDisconnect).toBeCloseTo(cg, 4);
  });

  it('[FTD-3] a measured density stands for the usual one, and leaves no range', () => {
    const usual = makePlan(requestOf(at('20 degC'))).fuelToday;
    expect(usual?.measured).toBe(false);
    expect(usual?.fullFromKg).toBeLessThan(38_500);
    const light = makePlan(requestOf(at('20 degC', '  fuelDensity: 780 kg/m3\n'))).fuelToday;
    expect(light).toMatchObject({ measured: true, densityKgM3: 780 });
    expect(light?.density15KgM3).toBeGreaterThan(783);
    expect(light?.density15KgM3).toBeLessThan(784.5);
    expect(light?.fullKg).toBeCloseTo(780 * volumeM3, 6);
    expect([light?.fullFromKg, light?.fullToKg]).toEqual([light?.fullKg, light?.fullKg]);
  });

  it('[FTD-4] is not computed, and says why, where the sortie or the deck does not tell', () => {
    const silent = makePlan(requestOf(change(longLoopText, [/ {2}fuelTemperature: .*\n/, ''])));
    expect(silent.fuelToday).toBe(null);
    expect(silent.aircraft.fuelCapacityKg).toBe(38_500);
    expect(silent.notComputed).toContain('full tanks today: the sortie has no temperature of the fuel');
    const noGrade = makePlan({ ...requestOf(at('40 degC')), aircraft: { ...sandmartin, fuel: null } });
    expect(noGrade.notComputed).toContain('full tanks today: the deck has no grade of fuel');
    const balance = { ...sandmartin.balance, volumeM3: null };
    const noVolume = makePlan({ ...requestOf(at('40 degC')), aircraft: { ...sandmartin, balance } });
    expect(noVolume.notComputed).toContain('full tanks today: the deck has no volumes of its tanks');
  });

  it('[FTD-5] refuses more than the tanks hold today, and fuel beyond the table or the grade, with the numbers', () => {
    const heavy = change(
      at('40 degC'),
      ['fuel: 14000 kg', 'fuel: 38200 kg'],
      ['take: 17000 kg', 'take: 38100 kg'],
    );
    expect(() => requestOf(heavy)).toThrow(
      'aircraft.fuel: 38200 kg is more than the tanks hold, 37977 kg today: 48.61 m3 of 781.3 kg/m3 at 40 degC (38500 kg by mass)',
    );
    expect(() => requestOf(heavy)).toThrow(
      /legs\.1\.refuel\.take: 38100 kg is more than the tanks hold, 37977 kg/,
    );
    expect(() => requestOf(at('95 degC'))).toThrow(
      /aircraft\.fuelTemperature: fuel temperature 368\.15 K is outside 255\.15 to 363\.15 K of the fuel of ASTM D1250 table 54B/,
    );
    expect(() => requestOf(at('15 degC', '  fuelDensity: 760 kg/m3\n'))).toThrow(
      'aircraft.fuelDensity: fuel density 760 kg/m3 is outside 775 to 840 kg/m3 of kerosene to ASTM D1655 at 15 degC',
    );
    const alone = change(longLoopText, [/ {2}fuelTemperature: .*\n/, '  fuelDensity: 800 kg/m3\n']);
    expect(() => requestOf(alone)).toThrow(
      /aircraft\.fuelDensity: a measured density needs "fuelTemperature"/,
    );
  });

  it('[FTD-6] says what was asked for where warm fuel fills the tanks before', () => {
    const asked = change(at('40 degC'), ['take: full', 'take: 30000 kg']);
    const plan = makePlan(requestOf(asked));
    const [one, two] = plan.refuellings;
    expect(one.askedKg).toBe(30_000);
    expect(one.fuelOnContactKg + one.takenKg - one.burntKg).toBeCloseTo(at40 * volumeM3, 0);
    expect(refuellingSentences(plan).map(plainSpaces)[0]).toContain(
      '30 000 kg asked for, but the tanks are full',
    );
    expect([two.askedKg, two.takenKg]).toEqual([17_000, 17_000]);
    expect(refuellingSentences(plan)[1]).not.toContain('asked');
  });
});
