/** The standard day, and a day that is warmer or colder than it by one amount at every pressure altitude. */
import { OutsideRange } from '../quantities/errors.ts';
import { type Air, type Day, HEIGHT, TEMPERATURE, WIND_EAST, WIND_NORTH } from './day.ts';
import { fillAir, withinRange } from './fill.ts';
import { highestAltitudeM, lowestAltitudeM, offsetGeopotential } from './standard.ts';
import { newStandardPoint, standardPoint } from './standard-point.ts';

/** Greatest offset accepted, K: it keeps the coldest layer, 186.9 K, above 130 K. */
const greatestOffsetK = 50;

/** A day of constant offset [K] from the standard atmosphere at the same pressure altitude, without wind. */
export function offsetDay(offsetK: number): Day {
  if (!(Math.abs(offsetK) <= greatestOffsetK)) {
    throw new OutsideRange(
      'temperature offset',
      offsetK,
      'K',
      -greatestOffsetK,
      greatestOffsetK,
      'an offset day',
    );
  }
  const standard = newStandardPoint();
  return {
    description: {
      kind: offsetK === 0 ? 'standard' : 'offset',
      title: offsetTitle(offsetK),
      attribution: [],
      continuedBy: [],
      hydrostatic: true,
    },
    levelsM: [],
    steady: true,
    timesS: [],
    covers: 'any place and time, -5 to 84.8 km of pressure altitude',
    sample(_latitudeRad, _longitudeRad, pressureAltitudeM, _timeS, air) {
      const altitude = withinRange(pressureAltitudeM, lowestAltitudeM, highestAltitudeM, air);
      standardPoint(altitude, standard);
      const temperature = standard.temperatureK + offsetK;
      const geopotential = offsetGeopotential(altitude, standard.logPressure, offsetK);
      const stretch = fillAir(air, standard, temperature, geopotential);
      air.temperatureOffsetK = offsetK;
      air.windEastMS = 0;
      air.windNorthMS = 0;
      clearGradients(air);
      air.upward[TEMPERATURE] = standard.lapseKM;
      air.upward[HEIGHT] = (stretch * stretch * temperature) / standard.temperatureK;
    },
  };
}

/** The US Standard Atmosphere 1976 without wind. */
export const standardDay: Day = offsetDay(0);

function offsetTitle(offsetK: number): string {
  if (offsetK === 0) return 'ISA';
  return `ISA ${offsetK < 0 ? '-' : '+'}${Number(Math.abs(offsetK).toPrecision(4))} K`;
}

function clearGradients(air: Air): void {
  air.upward[WIND_EAST] = 0;
  air.upward[WIND_NORTH] = 0;
  for (let field = 0; field < 4; field++) {
    air.eastward[field] = 0;
    air.northward[field] = 0;
    air.perSecond[field] = 0;
  }
}
