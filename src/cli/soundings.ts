/** `ramrise day` on a file of soundings: which there are, and what of the file could not be used. */
import { columnOf, type Sounding, SoundingError } from '../core/air/sounding.ts';
import { showPosition } from '../core/quantities/place.ts';
import { showTime } from '../core/quantities/time.ts';
import { show } from '../core/quantities/values.ts';
import { faultText } from '../files/faults.ts';
import { readSoundings } from '../files/soundings.ts';
import { columns, say, sayJson } from './text.ts';

export function describeSoundings(path: string, json: boolean): void {
  const { file, soundings, remarks, attribution } = readSoundings(path);
  const whole = soundings.map(summary);
  const said = remarks.list.map(faultText);
  if (json) {
    sayJson({ file, soundings: whole, remarks: said, attribution });
    return;
  }
  say(file);
  const rows = whole.map(({ station, time, latitudeDeg, longitudeDeg, levels, windOnlyLevels, ends }) => [
    `Sounding ${station}`,
    time ?? 'no time',
    latitudeDeg === null || longitudeDeg === null
      ? 'no position'
      : showPosition({ latitudeRad: radians(latitudeDeg), longitudeRad: radians(longitudeDeg) }),
    `${levels} levels, ${windOnlyLevels} with wind only`,
    ends.map((pressurePa) => show('pressurePa', pressurePa, { decimals: 1 })).join(' to ') || 'no column',
  ]);
  for (const row of columns(rows, () => false)) say(row);
  say('A sounding holds at every place and time: its column is printed with --time.');
  for (const text of [...said, ...whole.flatMap(({ remarks }) => remarks)]) say(text);
  for (const text of attribution) say(`\n${text}`);
}

function summary(sounding: Sounding) {
  const { station, timeS, latitudeRad, longitudeRad, levels } = sounding;
  const { ends, remarks } = columnSummary(sounding);
  return {
    station,
    time: Number.isNaN(timeS) ? null : showTime(timeS),
    latitudeDeg: degrees(latitudeRad),
    longitudeDeg: degrees(longitudeRad),
    levels: levels.length,
    windOnlyLevels: levels.filter((level) => Number.isNaN(level.pressurePa)).length,
    ends,
    remarks,
  };
}

/** Highest and lowest pressure of the column, and what was done to get it; no ends where there is none. */
function columnSummary(sounding: Sounding): { ends: number[]; remarks: readonly string[] } {
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

function degrees(angleRad: number): number | null {
  return Number.isNaN(angleRad) ? null : Number(((angleRad * 180) / Math.PI).toFixed(9));
}

function radians(angleDeg: number): number {
  return (angleDeg * Math.PI) / 180;
}
