import { describe, expect, it } from 'vitest';
import { type Day, newAir } from '../../../src/core/air/day.ts';
import { offsetDay } from '../../../src/core/air/offset-day.ts';
import { makePlan } from '../../../src/core/plan/make-plan.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { tropopause } from '../../../src/core/plan/section.ts';
import { longLoopText, requestOf } from '../../support/demo.ts';

const request = requestOf(longLoopText);
const plan = makePlan(request);
const { columns } = plan.trace;

/** A column of the trace at a time, linear between nodes. */
function at(column: readonly number[], timeS: number): number {
  const { timeS: times } = columns;
  const after = Math.max(
    1,
    times.findIndex((time) => time >= timeS),
  );
  const part = (timeS - times[after - 1]) / (times[after] - times[after - 1]);
  return column[after - 1] + part * (column[after] - column[after - 1]);
}

function sectionOf(of: Plan) {
  if (of.section === null) throw new Error('the plan was flown');
  return of.section;
}

describe('the section of the demonstration', () => {
  const section = sectionOf(plan);

  it('[SECTION-1] has columns from the first to the last node at whole steps, rows each 3000 ft to above the top', () => {
    const { timeS, pressureAltitudeM } = section;
    expect(timeS[0]).toBeCloseTo(columns.timeS[0], 6);
    expect(timeS.at(-1)).toBeCloseTo(columns.timeS.at(-1) ?? Number.NaN, 6);
    const step = timeS[2] - timeS[1];
    expect(step % 120).toBeCloseTo(0, 6);
    for (const time of timeS.slice(1, -1))
      expect(Math.abs(time / step - Math.round(time / step))).toBeLessThan(1e-6);
    expect(timeS.length).toBeLessThanOrEqual(102);
    expect(pressureAltitudeM[1]).toBeCloseTo(3000 * 0.3048, 9);
    expect(pressureAltitudeM.at(-1)).toBeGreaterThan(Math.max(...columns.pressureAltitudeM) + 1000);
  });

  it('[SECTION-2] at the height flown is what the flight met: within what lies between rows and nodes', () => {
    const rows = section.pressureAltitudeM;
    const between = (values: readonly number[], altitude: number): number => {
      const row = Math.min(rows.length - 2, Math.floor(altitude / rows[1]));
      const part = (altitude - rows[row]) / rows[1];
      return values[row] + part * (values[row + 1] - values[row]);
    };
    section.timeS.forEach((timeS, i) => {
      const altitude = at(columns.pressureAltitudeM, timeS);
      const seen = (values: readonly (readonly number[])[]) => between(values[i], altitude);
      expect(Math.abs(seen(section.temperatureOffsetK) - at(columns.temperatureOffsetK, timeS))).toBeLessThan(
        2.5,
      );
      expect(Math.abs(seen(section.windAlongMS) - at(columns.windAlongMS, timeS))).toBeLessThan(4);
      expect(Math.abs(seen(section.windAcrossMS) - at(columns.windAcrossMS, timeS))).toBeLessThan(4);
    });
  });

  it('[SECTION-3] where the day has no data there is no number', () => {
    const blind: Day = {
      ...request.day,
      sample(latitude, longitude, altitude, time, air) {
        request.day.sample(latitude, longitude, altitude, time, air);
        if (altitude > 22_900) air.outside |= 2;
      },
    };
    const other = sectionOf(makePlan({ ...request, day: blind }));
    other.pressureAltitudeM.forEach((altitude, row) => {
      expect(Number.isNaN(other.temperatureOffsetK[5][row])).toBe(altitude > 22_900);
      expect(Number.isNaN(other.windAlongMS[5][row])).toBe(altitude > 22_900);
    });
    expect(other.pressureAltitudeM.at(-1)).toBeGreaterThan(22_900);
  });
});

describe('the tropopause', () => {
  const place = { latitudeRad: 0.8, longitudeRad: 0 };
  const levels = Array.from({ length: 31 }, (_, i) => 5000 + 500 * i);

  // US Standard Atmosphere 1976, table 4: the layer of no lapse begins at 11 km geopotential; an offset does not move it.
  it.each([0, 8, -12])(
    '[SECTION-4] of the standard atmosphere with an offset of %d K is at 11 km',
    (offsetK) => {
      expect(tropopause(offsetDay(offsetK), place, 0, levels, newAir())).toBe(11_000);
    },
  );

  it('[SECTION-4] is not a thin stable layer below it, and is missing where temperature falls all the way', () => {
    const day = (temperature: (altitude: number) => number): Day => ({
      ...offsetDay(0),
      sample(_latitude, _longitude, altitude, _time, air) {
        air.temperatureK = temperature(altitude);
        air.geometricHeightM = altitude;
        air.outside = 0;
      },
    });
    // 7 K/km but for 500 m without lapse at 7 km, and none from 12 km.
    const thin = day((altitude) => {
      const falling = Math.min(altitude, 7000) + Math.max(0, Math.min(altitude, 12_000) - 7500);
      return 280 - 0.007 * falling;
    });
    expect(tropopause(thin, place, 0, levels, newAir())).toBe(12_000);
    expect(
      tropopause(
        day((altitude) => 290 - 0.005 * altitude),
        place,
        0,
        levels,
        newAir(),
      ),
    ).toBeNaN();
    // 2 K/km to the letter is a tropopause: "2 K/km or less".
    expect(
      tropopause(
        day((altitude) => 280 - 0.00199 * altitude),
        place,
        0,
        levels,
        newAir(),
      ),
    ).toBe(5000);
  });
});

describe('closeness', () => {
  it('[LIMIT-6] of a limit is least where its summary says, and the next limit is the closest at every node', () => {
    const { closeness, next } = plan.trace;
    for (const limit of plan.limits) {
      const { key, timeS, countsAsOne, leastMargin, pad } = limit;
      const node = columns.timeS.findIndex((time) => Math.abs(time - timeS) < 1e-6);
      expect(closeness[key][node]).toBeCloseTo(limit.closeness, 2);
      expect((leastMargin - pad) / countsAsOne).toBeCloseTo(limit.closeness, 9);
    }
    next.forEach((key, node) => {
      const least = Math.min(...Object.values(closeness).map((column) => column[node]));
      expect(closeness[key][node]).toBe(least);
    });
  });
});
