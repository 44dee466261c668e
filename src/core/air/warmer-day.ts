/** Any day made warmer or colder by one amount at every pressure altitude, to see what that would cost. */
import { geopotentialRadius } from '../quantities/constants.ts';
import { OutsideRange } from '../quantities/errors.ts';
import { type Air, type Day, HEIGHT } from './day.ts';
import { fillAir, withinRange } from './fill.ts';
import { highestAltitudeM, lowestAltitudeM, offsetGeopotential } from './standard.ts';
import { newStandardPoint, standardPoint } from './standard-point.ts';

/** A warmer or colder day than this is another season, K. */
const greatestOffsetK = 30;

/**
 * The same winds, and temperatures higher by `offsetK`. The column keeps its height at 1013.25 hPa and stays hydrostatic:
 * heights above grow by offsetK (R/g0) ln(p0/p). Throws `OutsideRange` beyond 30 K.
 */
export function warmerDay(day: Day, offsetK: number): Day {
  if (!(Math.abs(offsetK) <= greatestOffsetK)) {
    throw new OutsideRange(
      'temperature offset',
      offsetK,
      'K',
      -greatestOffsetK,
      greatestOffsetK,
      'a warmer day',
    );
  }
  if (offsetK === 0) return day;
  const { levelsM, steady, timesS, covers, description } = day;
  const standard = newStandardPoint();
  const amount = `${Number(Math.abs(offsetK).toPrecision(4))} K ${offsetK > 0 ? 'warmer' : 'colder'}`;
  return {
    levelsM,
    steady,
    timesS,
    covers,
    description: { ...description, title: `${description.title}, made ${amount}` },
    sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air) {
      day.sample(latitudeRad, longitudeRad, pressureAltitudeM, timeS, air);
      warm(air, pressureAltitudeM);
    },
  };

  function warm(air: Air, pressureAltitudeM: number): void {
    const { outside } = air;
    const altitude = withinRange(pressureAltitudeM, lowestAltitudeM, highestAltitudeM, air);
    air.outside = outside;
    standardPoint(altitude, standard);
    const before = (geopotentialRadius + air.geometricHeightM) / geopotentialRadius;
    const geopotential =
      air.geometricHeightM / before + offsetGeopotential(altitude, standard.logPressure, offsetK) - altitude;
    const stretch = fillAir(air, standard, air.temperatureK + offsetK, geopotential);
    const growth = (stretch * stretch) / (before * before);
    air.upward[HEIGHT] = growth * air.upward[HEIGHT] + (stretch * stretch * offsetK) / standard.temperatureK;
    air.eastward[HEIGHT] *= growth;
    air.northward[HEIGHT] *= growth;
    air.perSecond[HEIGHT] *= growth;
  }
}
