/** What a weather file holds, in words, for a page and a terminal alike. */

import { columnOf, type Sounding, SoundingError } from '../core/air/sounding.ts';
import { pressureAltitudeOf } from '../core/air/standard.ts';
import { showPosition } from '../core/quantities/place.ts';
import { showTime } from '../core/quantities/time.ts';
import { show } from '../core/quantities/values.ts';
import type { WeatherDescription } from '../files/grid-file.ts';

const fieldWords = {
  temperature: 'temperature',
  geopotential: 'geopotential',
  windEast: 'wind to the east',
  windNorth: 'wind to the north',
};

/** Of a grid: what there is, how many, and from where to where. */
export function gridRows(holds: WeatherDescription): string[][] {
  const times = holds.timesS.map(showTime);
  const { pressuresPa, members } = holds;
  const pressures = pressuresPa.map((pressure) => show('pressurePa', pressure, { decimals: 0 }));
  const altitudes = pressuresPa.map((pressure) => show('pressureAltitudeM', pressureAltitudeOf(pressure)));
  const degrees = (values: readonly number[]) => `${fromTo(values.map(roundedDeg))} deg`;
  return [
    ['Times', String(times.length), fromTo(times)],
    ['Levels', String(pressures.length), `${fromTo(pressures)}, pressure altitude ${fromTo(altitudes)}`],
    ['Latitudes', String(holds.latitudesDeg.length), degrees(holds.latitudesDeg)],
    ['Longitudes', String(holds.longitudesDeg.length), degrees(holds.longitudesDeg)],
    ...(members.length > 0 ? [['Members', String(members.length), members.join(', ')]] : []),
    ...holds.variables.map(({ role, name, units }) => [
      'Field',
      '',
      `${fieldWords[role]}: ${name} [${units}]`,
    ]),
  ];
}

/** Of each sounding: its station, time, place, levels and ends. */
export function soundingRows(soundings: readonly Sounding[]): string[][] {
  return soundings.map((sounding) => {
    const { station, timeS, latitudeRad, longitudeRad, levels } = sounding;
    const windOnly = levels.filter((level) => Number.isNaN(level.pressurePa)).length;
    const ends = columnSummary(sounding).ends.map((pressurePa) =>
      show('pressurePa', pressurePa, { decimals: 1 }),
    );
    return [
      `Sounding ${station}`,
      Number.isNaN(timeS) ? 'no time' : showTime(timeS),
      Number.isNaN(latitudeRad + longitudeRad) ? 'no position' : showPosition({ latitudeRad, longitudeRad }),
      `${levels.length} levels, ${windOnly} with wind only`,
      ends.join(' to ') || 'no column',
    ];
  });
}

/** Highest and lowest pressure of a sounding's column, and what was done to get it; no ends where there is none. */
export function columnSummary(sounding: Sounding): { ends: number[]; remarks: readonly string[] } {
  try {
    const { pressuresPa, remarks, windHeld } = columnOf(sounding);
    return {
      ends: [pressuresPa[0], pressuresPa[pressuresPa.length - 1]],
      remarks: [...remarks, ...windHeld],
    };
  } catch (error) {
    if (error instanceof SoundingError) return { ends: [], remarks: [error.message] };
    throw error;
  }
}

/** Degrees without the last bits that the way through radians leaves. */
export function roundedDeg(valueDeg: number): number {
  return Number(valueDeg.toFixed(9));
}

/** Where the wind comes from, in whole degrees true from 001 to 360; "---" in a calm. */
export function windFrom(eastMS: number, northMS: number): string {
  if (eastMS === 0 && northMS === 0) return '---';
  const from = Math.round(((Math.atan2(-eastMS, -northMS) * 180) / Math.PI + 360) % 360);
  return String(from === 0 ? 360 : from).padStart(3, '0');
}

function fromTo(values: readonly (string | number)[]): string {
  return values.length === 1 ? String(values[0]) : `${values[0]} to ${values[values.length - 1]}`;
}
