/** The air above one place at one moment. */
import { type Day, newAir } from '../air/day.ts';
import { standardTemperature } from '../air/standard.ts';
import type { Place } from '../earth/line.ts';
import { tropopause, tropopauseLevels } from './section.ts';

/** Arrays go with `pressureAltitudeM`, which rises; NaN where the day has no data. */
export interface AirColumn {
  readonly pressureAltitudeM: readonly number[];
  readonly temperatureK: readonly number[];
  /** Of the standard atmosphere. */
  readonly standardTemperatureK: readonly number[];
  readonly temperatureOffsetK: readonly number[];
  /** Where the air goes to. */
  readonly windEastMS: readonly number[];
  readonly windNorthMS: readonly number[];
  readonly geometricHeightM: readonly number[];
  readonly basis: readonly Basis[];
  /** First tropopause (WMO), pressure altitude; NaN where there is none between 500 and 50 hPa. */
  readonly tropopauseM: number;
}

/** A level of the weather, between two of them, beyond them by a rule, or not there; 'rule' on a day that has no levels. */
export type Basis = 'level' | 'between' | 'held' | 'none' | 'rule';

/** Between rows of a day, beside its own levels: 3000 ft. */
const rowM = 914.4;
/** A row this near to a level is left out. */
const nearM = 60;

/** From sea level to `topM`: the levels of the day, rows between, the altitudes in `also`. */
export function airColumn(
  day: Day,
  place: Place,
  timeS: number,
  topM: number,
  also: readonly number[],
): AirColumn {
  const levels = day.levelsM.filter((level) => level >= 0 && level <= topM);
  const own = [...levels, ...also];
  const even = Array.from({ length: Math.floor(topM / rowM) + 1 }, (_, i) => i * rowM);
  const between = [...even, topM].filter((row) => own.every((level) => Math.abs(level - row) > nearM));
  const altitudes = [...new Set([...own, ...between])].sort((a, b) => a - b);
  const air = newAir();
  const rows = altitudes.map((altitude) => {
    day.sample(place.latitudeRad, place.longitudeRad, altitude, timeS, air);
    const known = air.outside === 0;
    return {
      temperatureK: known ? air.temperatureK : Number.NaN,
      temperatureOffsetK: known ? air.temperatureOffsetK : Number.NaN,
      windEastMS: known ? air.windEastMS : Number.NaN,
      windNorthMS: known ? air.windNorthMS : Number.NaN,
      geometricHeightM: known ? air.geometricHeightM : Number.NaN,
      basis: known ? basisOf(day, altitude) : ('none' as const),
    };
  });
  return {
    pressureAltitudeM: altitudes,
    temperatureK: rows.map((row) => row.temperatureK),
    standardTemperatureK: altitudes.map(standardTemperature),
    temperatureOffsetK: rows.map((row) => row.temperatureOffsetK),
    windEastMS: rows.map((row) => row.windEastMS),
    windNorthMS: rows.map((row) => row.windNorthMS),
    geometricHeightM: rows.map((row) => row.geometricHeightM),
    basis: rows.map((row) => row.basis),
    tropopauseM: tropopause(day, place, timeS, tropopauseLevels(day), air),
  };
}

function basisOf({ levelsM, description: { gaps = [] } }: Day, altitudeM: number): Basis {
  if (levelsM.length === 0) return 'rule';
  if (levelsM.includes(altitudeM)) return 'level';
  const held = gaps.some(({ side, edgeM }) => (side === 'above' ? altitudeM > edgeM : altitudeM < edgeM));
  return held ? 'held' : 'between';
}
