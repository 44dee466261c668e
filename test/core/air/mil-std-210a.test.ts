import { describe, expect, it } from 'vitest';
import { HEIGHT, newAir, OUTSIDE_ABOVE, OUTSIDE_BELOW, TEMPERATURE } from '../../../src/core/air/day.ts';
import { nonStandardDay, nonStandardDays } from '../../../src/core/air/mil-std-210a.ts';
import { standardPressure } from '../../../src/core/air/standard.ts';

const foot = 0.3048;
const air = newAir();

function at(name: (typeof nonStandardDays)[number], altitudeM: number) {
  nonStandardDay(name).sample(0.7, -1, altitudeM, 0, air);
  return air;
}

describe('the days of MIL-STD-210A', () => {
  it('[NSD-1] stand at the standard pressure of their pressure altitude', () => {
    for (const name of nonStandardDays) {
      expect(at(name, 15240).pressurePa).toBeCloseTo(standardPressure(15240), 4);
    }
  });

  it.each(['tropical', 'polar'] as const)('[NSD-2] %s day: heights add up to R T/g dp/p', (name) => {
    // Trapezoids of 1 m of H = -(R/g0) integral T dln p, with R = 8314.32/28.9644 and g0 = 9.80665 (USSA 1976).
    const scale = 8314.32 / 28.9644 / 9.80665;
    let height = 0;
    let before = { t: at(name, 0).temperatureK, ln: Math.log(101325) };
    for (let altitude = 1; altitude <= 30480; altitude++) {
      const t = at(name, altitude).temperatureK;
      const ln = Math.log(standardPressure(altitude));
      height += scale * ((t + before.t) / 2) * (before.ln - ln);
      before = { t, ln };
      if (altitude % 5080 !== 0) continue;
      const geometric = (6356766 * height) / (6356766 - height);
      expect(Math.abs(air.geometricHeightM - geometric)).toBeLessThan(0.01);
    }
  });

  it('[NSD-3] hot and cold days have standard heights and say that they are not hydrostatic', () => {
    for (const name of ['hot', 'cold'] as const) {
      expect(at(name, 12192).geometricHeightM).toBeCloseTo((6356766 * 12192) / (6356766 - 12192), 6);
      expect(nonStandardDay(name).description.hydrostatic).toBe(false);
    }
    expect(nonStandardDay('polar').description.hydrostatic).toBe(true);
    expect(nonStandardDay('tropical').description.title).toBe('MIL-STD-210A tropical day');
  });

  it('[NSD-4] gradients are those of the values', () => {
    for (const name of nonStandardDays) {
      for (const altitude of [700, 10900, 11500, 19000, 22222, 30000]) {
        const low = at(name, altitude - 1);
        const { temperatureK, geometricHeightM } = low;
        const high = at(name, altitude + 1);
        const rise = (high.temperatureK - temperatureK) / 2;
        const climb = (high.geometricHeightM - geometricHeightM) / 2;
        const middle = at(name, altitude);
        expect(middle.upward[TEMPERATURE]).toBeCloseTo(rise, 7);
        expect(middle.upward[HEIGHT]).toBeCloseTo(climb, 6);
      }
    }
  });

  it('[NSD-5] ends at 0 and 100 000 ft', () => {
    expect(at('hot', 0).outside).toBe(0);
    expect(at('hot', -1).outside).toBe(OUTSIDE_BELOW);
    expect(at('hot', 100000 * foot).outside).toBe(0);
    expect(at('hot', 100001 * foot).outside).toBe(OUTSIDE_ABOVE);
    expect(at('hot', Number.NaN).outside).toBe(OUTSIDE_BELOW);
  });
});
