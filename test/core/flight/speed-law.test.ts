import { describe, expect, it } from 'vitest';
import { newAir } from '../../../src/core/air/day.ts';
import {
  bledEquivalentAirspeed,
  calibratedOf,
  constantCalibratedAirspeed,
  constantEquivalentAirspeed,
  constantLiftCoefficient,
  constantMach,
  constantTrueAirspeed,
  type SpeedLaw,
} from '../../../src/core/flight/speed-law.ts';

const gasConstant = 8314.32 / 28.9644;

function speed(law: SpeedLaw, pressurePa: number, temperatureK: number) {
  const air = newAir();
  air.pressurePa = pressurePa;
  air.temperatureK = temperatureK;
  air.densityKgM3 = pressurePa / (gasConstant * temperatureK);
  air.speedOfSoundMS = Math.sqrt(1.4 * gasConstant * temperatureK);
  const out = { trueAirspeedMS: 0, perLogPressure: 0, perLogTemperature: 0 };
  law.at(air, out, 20_000);
  return { ...out, air };
}

const laws: [string, SpeedLaw][] = [
  ['Mach', constantMach(2.2)],
  ['TAS', constantTrueAirspeed(300)],
  ['EAS', constantEquivalentAirspeed(220)],
  ['CAS below Mach 1', constantCalibratedAirspeed(120)],
  ['CAS above Mach 1', constantCalibratedAirspeed(240)],
  ['bled EAS above its break', bledEquivalentAirspeed(230, 1.2, 30)],
  ['bled EAS below its break', bledEquivalentAirspeed(180, 2.5, 30)],
  ['CL', constantLiftCoefficient(0.2, 60)],
];

describe('speed laws', () => {
  it.each(laws)('[FLY-5] the rates of %s are those of its speed', (_name, law) => {
    for (const [p, t] of [
      [20_000, 217],
      [9000, 230],
    ]) {
      const h = 1e-5;
      const { perLogPressure, perLogTemperature } = speed(law, p, t);
      const log = (pp: number, tt: number) => Math.log(speed(law, pp, tt).trueAirspeedMS);
      const byPressure = (log(p * (1 + h), t) - log(p * (1 - h), t)) / (2 * h);
      const byTemperature = (log(p, t * (1 + h)) - log(p, t * (1 - h))) / (2 * h);
      expect(perLogPressure).toBeCloseTo(byPressure, 7);
      expect(perLogTemperature).toBeCloseTo(byTemperature, 7);
    }
  });

  it('[FLY-6] a calibrated airspeed is held on both branches of the pitot formula', () => {
    for (const cas of [120, 240]) {
      const { air, trueAirspeedMS } = speed(constantCalibratedAirspeed(cas), 9000, 220);
      expect(calibratedOf(air, trueAirspeedMS)).toBeCloseTo(cas, 9);
    }
  });

  it('[FLY-7] a bled airspeed falls by its slope for each Mach above the break', () => {
    const law = bledEquivalentAirspeed(230, 1.2, 30);
    for (const p of [60_000, 20_000, 5000]) {
      const { air, trueAirspeedMS } = speed(law, p, 216.65);
      const mach = trueAirspeedMS / air.speedOfSoundMS;
      const eas = trueAirspeedMS * Math.sqrt(air.densityKgM3 / 1.2249991559);
      expect(eas).toBeCloseTo(230 - 30 * Math.max(0, mach - 1.2), 6);
    }
  });
});
