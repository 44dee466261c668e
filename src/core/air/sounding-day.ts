/**
 * A day from one measured column, which holds everywhere and always: that it does is printed.
 *
 * Temperature, wind and geopotential are linear in ln p between levels, as on a gridded day.
 */
import { gasConstant, standardGravity } from '../quantities/constants.ts';
import { showPosition } from '../quantities/place.ts';
import { showTime } from '../quantities/time.ts';
import {
  type Air,
  type Day,
  type DayGap,
  HEIGHT,
  OUTSIDE_ABOVE,
  OUTSIDE_BELOW,
  TEMPERATURE,
  WIND_EAST,
  WIND_NORTH,
} from './day.ts';
import { fillAir, withinRange } from './fill.ts';
import { gapBeyond } from './gap-spread.ts';
import { type Axis, locate, makeAxis } from './grid-axis.ts';
import type { GridRules } from './grid-field.ts';
import { columnOf, type Sounding } from './sounding.ts';
import { highestAltitudeM, lowestAltitudeM, pressureAltitudeOf, standardTemperature } from './standard.ts';
import { newStandardPoint, standardPoint } from './standard-point.ts';

/** How the day is continued above and below its levels. */
export type SoundingRules = Pick<GridRules, 'top' | 'bottom'>;

const scale = gasConstant / standardGravity;
/** Rounding of ln p that is on an edge of the data. */
const grace = 1e-9;

/** The day of a sounding; throws `SoundingError` where it makes no column. `attribution` is printed with all made from it. */
export function soundingDay(
  sounding: Sounding,
  rules: SoundingRules,
  attribution: readonly string[] = [],
): Day {
  return new SoundingDay(sounding, rules, attribution);
}

class SoundingDay implements Day {
  readonly description: Day['description'];
  readonly levelsM: readonly number[];
  readonly steady = true;
  readonly timesS: readonly number[] = [];
  readonly covers: string;
  private readonly rules: SoundingRules;
  private readonly axis: Axis;
  /** By field: temperature, wind east, wind north, geopotential height. */
  private readonly fields: readonly Float64Array[];
  private readonly values = new Float64Array(4);
  private readonly standard = newStandardPoint();

  constructor(sounding: Sounding, rules: SoundingRules, attribution: readonly string[]) {
    const column = columnOf(sounding);
    this.rules = rules;
    this.axis = makeAxis(
      'level',
      column.pressuresPa.map((pressure) => -Math.log(pressure)),
      1,
      false,
    );
    this.fields = [column.temperaturesK, column.windsEastMS, column.windsNorthMS, column.heightsM];
    this.levelsM = Array.from(column.pressuresPa, pressureAltitudeOf);
    const heard = { altitudesM: this.levelsM, temperaturesK: column.temperaturesK };
    const gaps: DayGap[] = [];
    if (rules.top === 'holdOffset') gaps.push(gapBeyond('above', [heard]));
    if (rules.bottom === 'holdOffset') gaps.push(gapBeyond('below', [heard]));
    const beyond = (['top', 'bottom'] as const).filter((way) => rules[way] !== 'refuse');
    this.description = {
      kind: 'sounding',
      title: titleOf(sounding),
      attribution,
      continuedBy: [
        'place: everywhere',
        'time: hold',
        ...column.windHeld,
        ...beyond.map((way) => `${way}: holdOffset`),
      ],
      gaps,
      hydrostatic: true,
    };
    const hPa = (pressure: number) => Number((pressure / 100).toPrecision(6));
    const { pressuresPa } = column;
    this.covers = `any place and time, ${hPa(pressuresPa[0])} to ${hPa(pressuresPa[pressuresPa.length - 1])} hPa`;
  }

  sample(_latitudeRad: number, _longitudeRad: number, pressureAltitudeM: number, _timeS: number, air: Air) {
    const { axis, fields, values, standard, rules } = this;
    const altitude = withinRange(pressureAltitudeM, lowestAltitudeM, highestAltitudeM, air);
    standardPoint(altitude, standard);
    const wanted = -standard.logPressure;
    const first = axis.values[0];
    const last = axis.values[axis.count - 1];
    const below = wanted < first - grace;
    const above = wanted > last + grace;
    if (below && rules.bottom === 'refuse') air.outside |= OUTSIDE_BELOW;
    if (above && rules.top === 'refuse') air.outside |= OUTSIDE_ABOVE;
    locate(axis, below ? first : above ? last : wanted);
    const perUp = 1 / (scale * standard.temperatureK * axis.width);
    for (let field = 0; field < 4; field++) {
      const low = fields[field][axis.cell];
      const rise = fields[field][axis.cell + 1] - low;
      values[field] = low + axis.fraction * rise;
      air.upward[field] = rise * perUp;
      air.eastward[field] = 0;
      air.northward[field] = 0;
      air.perSecond[field] = 0;
    }
    if (below || above) this.holdOffset(above ? axis.count - 1 : 0, altitude, air);
    this.finish(air);
  }

  /** Beyond an edge level its offset and wind hold, and the height goes on hydrostatically. */
  private holdOffset(level: number, altitudeM: number, air: Air): void {
    const { values, standard, axis } = this;
    const edgeM = this.levelsM[level];
    const offset = values[TEMPERATURE] - standardTemperature(edgeM);
    values[TEMPERATURE] = standard.temperatureK + offset;
    const thickness = scale * (-standard.logPressure - axis.values[level]);
    values[HEIGHT] += altitudeM - edgeM + offset * thickness;
    air.upward[TEMPERATURE] = standard.lapseKM;
    air.upward[WIND_EAST] = 0;
    air.upward[WIND_NORTH] = 0;
    air.upward[HEIGHT] = values[TEMPERATURE] / standard.temperatureK;
  }

  private finish(air: Air): void {
    const { values, standard } = this;
    const stretch = fillAir(air, standard, values[TEMPERATURE], values[HEIGHT]);
    air.upward[HEIGHT] *= stretch * stretch;
    air.windEastMS = values[WIND_EAST];
    air.windNorthMS = values[WIND_NORTH];
  }
}

function titleOf({ station, timeS, latitudeRad, longitudeRad }: Sounding): string {
  const parts = [`Sounding ${station}`];
  if (!Number.isNaN(timeS)) parts.push(showTime(timeS));
  if (!Number.isNaN(latitudeRad + longitudeRad)) parts.push(showPosition({ latitudeRad, longitudeRad }, 2));
  return parts.join(', ');
}
