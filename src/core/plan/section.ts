/** The weather along the track as flown: time and pressure altitude, from sea level to above the top of the flight. */
import { type Air, type Day, newAir } from '../air/day.ts';
import { between, type FlownTrack, placeOf } from '../earth/flown.ts';
import type { Place } from '../earth/line.ts';
import type { Draft } from './draft.ts';
import type { Log } from './log.ts';
import type { Section } from './plan.ts';

/** Between columns, seconds; more where a sortie is so long that there would be more than a hundred. */
const leastStepS = 120;
const mostColumns = 100;
/** Between rows: 3000 ft. */
const rowM = 914.4;
/** Shown above the top of the flight. */
const aboveM = 1500;

/** Columns at whole steps of time since take-off, where the flight was at that time. Null where nothing was flown. */
export function sectionOf({ log, crew }: Draft): Section | null {
  if (log.nodes < 2) return null;
  const { day } = crew.flight.setup;
  const takeOffS = crew.sortie.takeOff.timeS;
  const times = columnTimes(log, takeOffS);
  const top = Math.max(...log.columns.pressureAltitudeM) + aboveM;
  const altitudes = Array.from({ length: Math.ceil(top / rowM) + 1 }, (_, row) => row * rowM);
  const section = {
    timeS: times.map((timeS) => timeS - takeOffS),
    pressureAltitudeM: altitudes,
    temperatureOffsetK: [] as number[][],
    windAlongMS: [] as number[][],
    windAcrossMS: [] as number[][],
    tropopauseM: [] as number[],
    covers: day.covers,
  };
  const air = newAir();
  const levels = tropopauseLevels(day);
  for (const timeS of times) {
    const { place, courseRad } = flownAt(log, timeS);
    const [offsets, alongs, acrosses]: number[][] = [[], [], []];
    for (const altitude of altitudes) {
      day.sample(place.latitudeRad, place.longitudeRad, altitude, timeS, air);
      const known = air.outside === 0;
      const { windEastMS: east, windNorthMS: north } = air;
      offsets.push(known ? tenth(air.temperatureOffsetK) : Number.NaN);
      alongs.push(known ? tenth(east * Math.sin(courseRad) + north * Math.cos(courseRad)) : Number.NaN);
      acrosses.push(known ? tenth(east * Math.cos(courseRad) - north * Math.sin(courseRad)) : Number.NaN);
    }
    section.temperatureOffsetK.push(offsets);
    section.windAlongMS.push(alongs);
    section.windAcrossMS.push(acrosses);
    section.tropopauseM.push(tropopause(day, place, timeS, levels, air));
  }
  return section;
}

/** Tenths of a kelvin and of a metre a second are finer than any weather. */
function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

/** The first node, whole steps since take-off between, and the last. */
function columnTimes(log: Log, takeOffS: number): number[] {
  const { timeS } = log.columns;
  const [first, last] = [timeS[0], timeS[timeS.length - 1]];
  const step = leastStepS * Math.max(1, Math.ceil((last - first) / (leastStepS * mostColumns)));
  const times = [first];
  for (let at = (Math.floor((first - takeOffS) / step) + 1) * step + takeOffS; at < last; at += step)
    times.push(at);
  times.push(last);
  return times;
}

function flownAt(log: Log, timeS: number): { place: Place; courseRad: number } {
  const { columns } = log;
  const track: FlownTrack = columns;
  let node = 1;
  while (node < log.nodes - 1 && columns.timeS[node] < timeS) node++;
  const span = columns.timeS[node] - columns.timeS[node - 1];
  const part = span > 0 ? (timeS - columns.timeS[node - 1]) / span : 1;
  const [before, after] = [columns.courseRad[node - 1], columns.courseRad[node]];
  const turned = after - before - 2 * Math.PI * Math.round((after - before) / (2 * Math.PI));
  return {
    place: between(placeOf(track, node - 1), placeOf(track, node), part),
    courseRad: before + part * turned,
  };
}

/** Where a tropopause is looked for, by the standard atmosphere 500 to 50 hPa. */
const lowestM = 5_500;
const highestM = 20_600;
const levelEveryM = 500;
/** Layer above a tropopause whose mean lapse rate counts. */
const layerM = 2_000;
const lapseKM = 0.002;

/** Pressure altitudes at which a tropopause may lie: those of the day, between which its temperature runs straight. */
export function tropopauseLevels(day: Day): number[] {
  const own = day.levelsM.filter((level) => level >= lowestM && level <= highestM);
  if (own.length > 0) return own;
  return Array.from({ length: (highestM - lowestM) / levelEveryM }, (_, i) => lowestM + i * levelEveryM);
}

/**
 * The first tropopause, pressure altitude [m]: "the lowest level at which the lapse rate decreases to 2 K/km or less, provided also
 * the average lapse rate between this level and all higher levels within 2 km does not exceed 2 K/km" (WMO, International
 * meteorological vocabulary, WMO-No. 182, from memory), at a level of the day. NaN where there is none or no data.
 */
export function tropopause(
  day: Day,
  { latitudeRad, longitudeRad }: Place,
  timeS: number,
  levels: readonly number[],
  air: Air,
): number {
  const temperatures: number[] = [];
  const heights: number[] = [];
  for (const level of levels) {
    day.sample(latitudeRad, longitudeRad, level, timeS, air);
    temperatures.push(air.outside === 0 ? air.temperatureK : Number.NaN);
    heights.push(air.geometricHeightM);
  }
  for (let i = 0; i + 1 < levels.length; i++) {
    let holds = true;
    for (
      let j = i + 1;
      j < levels.length && holds && (j === i + 1 || heights[j] - heights[i] <= layerM);
      j++
    ) {
      holds = temperatures[i] - temperatures[j] <= lapseKM * (heights[j] - heights[i]);
    }
    if (holds) return levels[i];
  }
  return Number.NaN;
}
